"""`/kit`: what there is to lift, by place; shown, and typed in plain lines by a client, or by a coach for a client."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Action, EditCard, Effect, Level, Message, Person, Send, Tap, Tell
from bot.render import kit as say
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import stop_signs
from bot.usecases.assigning import client_named
from bot.usecases.kit_known import is_kind_alone, kits_of
from bot.usecases.leaving import answer
from bot.usecases.today import client_of
from core.checkin.stop_signs import scan
from core.loads.equipment import ladder_for
from core.loads.kit import Kit, kit_at
from core.loads.kit_text import kit_lines
from core.loads.kit_words import place_name, read_kit
from core.units import Mass

KIND = "kit"
YES, NO = ("keep", "keep it"), ("leave it", "leave")
ON_THE_BAR, IN_EACH_HAND = "back-squat", "dumbbell-bench-press"
"""Exercises that anything on the usual bar, and any pair of dumbbells, serves."""

IS_USUAL = "usual"
_USUAL = re.compile(
    r"(?:the )?usual(?: place)?(?: is)?:? (?:the )?(?P<after>.+)|(?P<before>.+?):? (?:is )?(?:the )?usual(?: place)?"
)

_CANNOT = re.compile(
    r"(?:i )?(?:can't|cant|cannot|can not) load(?: (?:it|this|that))?(?: ?\d+(?:[.,]\d+)?)?(?: ?(?:kg|lb))?"
    r"|no \d+(?:[.,]\d+)?(?: ?(?:kg|lb))?(?: here)?"
)


@dataclass(frozen=True, slots=True)
class KitSaid:
    """`/kit`, with all that stands after it, lines and all."""

    text: str = ""


def kit_said(command: KitSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show what there is, or read what is typed and ask whether it is right. A stop sign in it comes first."""
    if person.role == "coach":
        head, lines = _taken_apart(command.text)
        name, _, place = head.partition(",")
        if not name.strip():
            return [answer(person, KIND, say.how_to())]
        return _said(lines, place.strip(), client_named(name.strip(), unit), person, unit, now)
    sign = scan(command.text)
    if sign is not None:
        return stop_signs.found(sign, command.text, person, unit, now)
    client, answered = client_of(person, unit, now)
    if client is None:
        return answered
    usual = _USUAL.fullmatch(" ".join(command.text.casefold().split()).rstrip("."))
    if usual is not None:
        return _said(IS_USUAL, usual["before"] or usual["after"], client, person, unit, now)
    place, lines = _place_and_lines(command.text, kits_of(client, unit))
    return _said(lines, place, client, person, unit, now)


def _taken_apart(text: str) -> tuple[str, str]:
    """Return what stands before the first colon or line, and the rest."""
    found = re.split(r"[:\n]", text.strip(), maxsplit=1)
    return found[0].strip(), found[1].strip() if len(found) > 1 else ""


def _place_and_lines(text: str, kits: Sequence[Kit]) -> tuple[str, str]:
    """Return the place that a client names before her lines, or alone; empty where she names none."""
    first = text.strip().partition("\n")[0]
    head, colon, _ = first.partition(":")
    name = place_name(head) or ""
    if colon and name:
        return name, text.strip().partition(":")[2].strip()
    if first == text.strip() and kit_at(name, kits) is not None:
        return name, ""
    return "", text.strip()


def _said(
    lines: str, place: str, client: Client, person: Person, unit: Unit, now: datetime
) -> Sequence[Effect]:
    known = kits_of(client, unit)
    whose = client.name if person.role == "coach" else None
    name = place_name(place) if place else None
    if place and name is None:
        return [answer(person, KIND, say.no_place(place))]
    if not lines:
        found = kit_at(name, known) if name is not None else None
        shown = known if name is None else () if found is None else (found,)
        return [answer(person, KIND, say.known(_views(shown, unit), whose, place=name))]
    if lines.casefold().rstrip(".") == IS_USUAL:
        return _made_usual(name or known[0].place, known, client, person, unit)
    read = read_kit(lines, known, place=name, catalogue=unit.exercises.catalogue())
    if read.problems:
        return [answer(person, KIND, say.problems(read.problems, read.kit.unit))]
    if read.kit == read.before:
        return [answer(person, KIND, say.nothing_new(_view(read.kit, unit)))]
    unit.prompts.close_kind(KIND, client.id, now)
    update_id = person.arrival.update_id if person.arrival else 0
    key = f"{KIND}:{client.id}:{update_id}"
    before = None if read.before is None else read.before.model_dump(mode="json")
    prompt = unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        card_key=key,
        facts={"kit": read.kit.model_dump(mode="json"), "before": before},
        expects_text=True,
    )
    message = _asked(prompt, client, person, unit)
    return [Send(person.chat_id, message, key=f"{key}:card", card=key, client_id=client.id)]


def _made_usual(
    name: str, known: Sequence[Kit], client: Client, person: Person, unit: Unit
) -> Sequence[Effect]:
    """Make a place of which something is known the usual one, from the next card on."""
    own, kit = person.role != "coach", kit_at(name, known)
    if kit is None:
        return [answer(person, KIND, say.known([], None if own else client.name, place=name))]
    whose = None if own else client.name
    if kit.place == known[0].place:
        return [answer(person, KIND, say.usual_already(kit.place, whose))]
    unit.kits.set_usual(client.id, kit)
    unit.clients.change(client.id, usually_alone=kit.usually_alone, safety_arms=kit.safety_arms)
    said = answer(person, KIND, say.usual_now(kit.place, known[0].place, whose))
    update_id = person.arrival.update_id if person.arrival else 0
    key = f"{KIND}:{client.id}:usual:{update_id}"
    if own:
        message = say.usual_for_coach(client.name, kit.place)
        return [said, Tell(client.id, key, grown=1, level=Level.DIGEST, message=message)]
    account = unit.accounts.of_client(client.id)
    if account is None:
        return [said]
    told = say.usual_by_coach(kit.place, known[0].place)
    return [said, Send(account.chat_id, told, key=f"{key}:client", client_id=client.id)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep what was read back, or leave it."""
    match tap.action:
        case Action.CONFIRM:
            return _kept(prompt, person, unit, now)
        case Action.CANCEL:
            return [_left(prompt, unit, now)]
        case _:
            return refreshed(prompt, person, unit, now)


def typed(text: str, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take `keep` or `leave it` while that is asked; None for all other words, which are of something else."""
    prompt = unit.prompts.expecting_text(person.user_id)
    said = " ".join(text.casefold().strip(" .!").split())
    if prompt is None or prompt.kind != KIND:
        return None
    if said in YES:
        return _kept(prompt, person, unit, now, moved=True)
    return [_left(prompt, unit, now, moved=True)] if said in NO else None


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show how it stands, after a tap on a button that is no longer good."""
    if prompt.closed_at is not None:
        return [_card(prompt, say.settled())]
    client = unit.clients.get(prompt.subject or 0)
    return [_card(prompt, _asked(prompt, client, person, unit))]


def cannot_load(text: str) -> bool:
    """Return whether words say that a load cannot be loaded: `can't load`, `no 22.5`."""
    words = " ".join(text.casefold().replace("’", "'").strip(" .!").split())
    return _CANNOT.fullmatch(words) is not None


def told_of_kit(person: Person, client: Client, unit: Unit) -> list[Effect]:
    """Point at `/kit` in one line."""
    return [answer(person, KIND, say.say_what_there_is(is_known=not is_kind_alone(kits_of(client, unit)[0])))]


def _kept(prompt: Prompt, person: Person, unit: Unit, now: datetime, *, moved: bool = False) -> list[Effect]:
    client = unit.clients.get(prompt.subject or 0)
    kit = Kit.model_validate(prompt.facts["kit"])
    before = prompt.facts["before"]
    usual, *_ = known = kits_of(client, unit)
    unit.prompts.close(prompt.id, now)
    if kit_at(kit.place, known) != (None if before is None else Kit.model_validate(before)):
        return [_card(prompt, say.changed_meanwhile(), moved=moved)]
    if kit.place != usual.place:
        unit.kits.keep(client.id, kit)
    else:
        unit.kits.set_usual(client.id, kit)
        unit.clients.change(client.id, usually_alone=kit.usually_alone, safety_arms=kit.safety_arms)
    own = person.role != "coach"
    shown = _card(prompt, say.kept(_view(kit, unit), None if own else client.name), moved=moved)
    return [shown, *_others_told(kit, client, prompt, unit, own=own)]


def _others_told(kit: Kit, client: Client, prompt: Prompt, unit: Unit, *, own: bool) -> list[Effect]:
    """Note for the coach's digest what a client has said; tell a client, without a sound, what her coach has."""
    view = _view(kit, unit)
    if own:
        message = say.for_coach(client.name, view)
        return [Tell(client.id, f"kit:{client.id}:{prompt.id}", grown=1, level=Level.DIGEST, message=message)]
    account = unit.accounts.of_client(client.id)
    if account is None:
        return []
    said = say.by_coach(view)
    return [Send(account.chat_id, said, key=f"kit:{client.id}:{prompt.id}:client", client_id=client.id)]


def _left(prompt: Prompt, unit: Unit, now: datetime, *, moved: bool = False) -> EditCard:
    unit.prompts.close(prompt.id, now)
    return _card(prompt, say.left(), moved=moved)


def _asked(prompt: Prompt, client: Client, person: Person, unit: Unit) -> Message:
    kit, before = Kit.model_validate(prompt.facts["kit"]), prompt.facts["before"]
    was = () if before is None else kit_lines(Kit.model_validate(before), unit.exercises.catalogue())
    whose = client.name if person.role == "coach" else None
    return say.asked(_view(kit, unit), was, whose, say.Buttons(prompt.id, prompt.revision))


def _views(kits: Sequence[Kit], unit: Unit) -> list[say.KitView]:
    return [_view(each, unit) for each in kits]


def _view(kit: Kit, unit: Unit) -> say.KitView:
    return say.KitView(
        kit=kit,
        lines=kit_lines(kit, unit.exercises.catalogue()),
        is_kind_alone=is_kind_alone(kit),
        bar=_loads(ON_THE_BAR, kit, unit),
        hands=_loads(IN_EACH_HAND, kit, unit),
    )


def _loads(key: str, kit: Kit, unit: Unit) -> tuple[Mass, ...]:
    return ladder_for(unit.exercises.get(key), kit).steps


def _card(prompt: Prompt, message: Message, *, moved: bool = False) -> EditCard:
    card = prompt.card_key or f"{KIND}:{prompt.id}"
    return EditCard(card, prompt.chat_id, message, moved=moved, client_id=prompt.subject)
