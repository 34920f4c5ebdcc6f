"""`/progress`: numbers first, then pictures; a lift by button or by name. A client sees her own, a coach any of hers.

Pictures are drawn before the transaction, by what stood a moment before it.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from bot.messages import Effect, Message, Person, Send, Tap
from bot.render import progress as say
from bot.render.progress_chart import body_picture, kept_picture, lifts_picture
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit, Units
from bot.usecases.finding_clients import clients_meant, is_clear
from bot.usecases.leaving import answer
from bot.usecases.progress_seen import lift_seen, lifts_of, seen
from bot.usecases.whose import whose
from core.local_time import local_date
from core.oversight.progress import LiftSeen, Progress
from core.programme.catalogue import named, suggestions
from core.programme.exercises import Exercise

KIND = "progress"


@dataclass(frozen=True, slots=True)
class ProgressAsked:
    """`/progress`, with what stands after it.

    Attributes:
        text: A lift; from a coach a name, and a lift after a comma.
        drawn: Pictures as PNG, by what they show.
    """

    text: str = ""
    drawn: tuple[tuple[str, bytes], ...] = ()


def progress_asked(command: ProgressAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show how a client has come along, or one of her lifts."""
    asked = whose(command.text, KIND, person, unit, now)
    if asked.client is None:
        return asked.effects
    return shown(asked.client, asked.rest, command.drawn, person, unit, now)


def shown(
    client: Client,
    rest: str,
    drawn: Sequence[tuple[str, bytes]],
    person: Person,
    unit: Unit,
    now: datetime,
) -> list[Effect]:
    """Show a client's progress, or the lift that is typed in `rest`, with the pictures that were drawn."""
    name = client.name if person.role == "coach" else None
    update_id = person.arrival.update_id if person.arrival else 0
    if rest:
        lift = _lift(rest, client, unit)
        if lift is None:
            known = lifts_of(unit.records.lifts(client.id), unit)
            return [answer(person, KIND, say.which_lift(rest, known))]
        text = say.lift_text(name, lift)
        return [
            answer(person, KIND, text),
            *_pictures(drawn, client, person, unit, now, f"{update_id}"),
        ]
    found = seen(client, unit, local_date(now, client.zone or "UTC"))
    keys = [each.exercise.key for each in found.lifts[: say.MOST_BUTTONS]]
    prompt = unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        facts={"lifts": keys},
    )
    text = say.progress_text(name, found, say.Buttons(prompt.id, prompt.revision))
    return [answer(person, KIND, text), *_pictures(drawn, client, person, unit, now, f"{update_id}")]


def _pictures(
    drawn: Sequence[tuple[str, bytes]], client: Client, person: Person, unit: Unit, now: datetime, key: str
) -> list[Effect]:
    effects: list[Effect] = []
    for what, content in drawn:
        picture_id = unit.oversight.add_picture(f"{what}.png", content, now, client_id=client.id)
        message = Message(say.CAPTIONS[what], silent=True, media_kind="photo", picture_id=picture_id)
        effects.append(Send(person.chat_id, message, key=f"{KIND}:{key}:{what}", client_id=client.id))
    return effects


def tapped(
    tap: Tap,
    prompt: Prompt,
    person: Person,
    unit: Unit,
    now: datetime,
    drawn: tuple[tuple[str, bytes], ...] = (),
) -> list[Effect]:
    """Show the lift that was chosen; every button stays good."""
    client = unit.clients.get(prompt.subject or 0)
    lift = _tapped_lift(tap, prompt, client, unit)
    if lift is None or not _may_see(client, person):
        return []
    name = client.name if person.role == "coach" else None
    text = say.lift_text(name, lift)
    update_id = person.arrival.update_id if person.arrival else 0
    return [answer(person, KIND, text), *_pictures(drawn, client, person, unit, now, f"{update_id}")]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """What was shown is shown; `/progress` shows it anew."""
    return []


def _may_see(client: Client, person: Person) -> bool:
    return person.role == "coach" or client.state in ("active", "paused")


def _lift(text: str, client: Client, unit: Unit) -> LiftSeen | None:
    """Return the logged lift that a typed name means; None where that is not clear."""
    logged = unit.records.lifts(client.id)
    own: dict[str, Exercise] = {each.key: each for each in lifts_of(logged, unit)}
    near = suggestions(text, 3, own)
    meant = named(text, own) or (near[0] if near else None)
    return None if meant is None else lift_seen(meant, client, unit, logged[meant.key])


def _tapped_lift(tap: Tap, prompt: Prompt, client: Client, unit: Unit) -> LiftSeen | None:
    keys: list[Any] = prompt.facts.get("lifts", [])
    if tap.argument >= len(keys):
        return None
    logged = unit.records.lifts(client.id, [keys[tap.argument]])
    exercise = unit.exercises.get(keys[tap.argument])
    return lift_seen(exercise, client, unit, logged.get(exercise.key, ()))


def prepared(units: Units, user_id: int, command: ProgressAsked, now: datetime) -> ProgressAsked:
    """Return the command with its pictures; for a thread of its own, since it reads and draws."""
    with units.read(None) as house:
        account = house.accounts.find(user_id)
        if account is None:
            return command
        unit = house.of(account.coach_id)
        client, rest = _meant(command.text, account.role, account.client_id, unit)
        if client is None:
            return command
        lift = _lift(rest, client, unit) if rest else None
        found = None if rest else gathered(client, unit, now)
    if found is None:
        return replace(command, drawn=_drawn(lift))
    return replace(command, drawn=pictured(found))


def gathered(client: Client, unit: Unit, now: datetime) -> Progress:
    """Return what a client's pictures show."""
    return seen(client, unit, local_date(now, client.zone or "UTC"))


def pictured(found: Progress) -> tuple[tuple[str, bytes], ...]:
    """Return the pictures of all; outside of every transaction."""
    pictures = [("lifts", lifts_picture(found.lifts))] if found.lifts else []
    if found.kept.due:
        pictures.append(("kept", kept_picture(found)))
    if found.sites:
        pictures.append(("body", body_picture(found.sites, found.first, found.today)))
    return tuple(pictures)


def _drawn(lift: LiftSeen | None) -> tuple[tuple[str, bytes], ...]:
    if lift is None or not lift.points:
        return ()
    return (("lifts", lifts_picture([lift], "Estimated for one rep")),)


def _meant(text: str, role: str, client_id: int | None, unit: Unit) -> tuple[Client | None, str]:
    if role != "coach":
        client = unit.clients.get(client_id or 0)
        return (client if client.state in ("active", "paused") else None), " ".join(text.split())
    name, _, rest = (part.strip() for part in text.partition(","))
    found = clients_meant(name, unit)
    return (found[0] if is_clear(name, found) else None), rest


def tap_drawn(units: Units, user_id: int, tap: Tap) -> tuple[tuple[str, bytes], ...]:
    """Return the picture that a tap on a lift asks for; none where the tap is of something else, or not hers."""
    with units.read(None) as house:
        account = house.accounts.find(user_id)
        if account is None:
            return ()
        unit = house.of(account.coach_id)
        prompt = unit.prompts.get(tap.prompt)
        if prompt is None or prompt.user_id != user_id or prompt.kind != KIND:
            return ()
        lift = _tapped_lift(tap, prompt, unit.clients.get(prompt.subject or 0), unit)
    return _drawn(lift)
