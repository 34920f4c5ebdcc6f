"""A coach's order in a line: read, read back in full, and put into force only by her word. `/order` and plain lines."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import orders_said as say
from bot.render.setting_up import Buttons
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import answering, orders_held
from bot.usecases.block_files import only_for_coaches
from bot.usecases.finding_clients import clients_meant, is_clear
from bot.usecases.leaving import answer
from bot.usecases.orders_seen import cannot_hold, names_of, notes_of, resolved
from core.checkin.order_words import Names, OrderSaid, order_said
from core.local_time import local_date
from core.programme.folding import folded

KIND = "order"
WORDS_FOR_OTHERS = frozenset({"write", "tell", "week note", "checkin list"})
"""Questions whose answer is kept or sent as it is typed: no order is looked for in it."""
UNDO = ("undo order", "undo the order", "undo last order", "take the order back")


@dataclass(frozen=True, slots=True)
class OrderAsked:
    """`/order`, with what stands after it."""

    text: str = ""


def order_asked(command: OrderAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Read an order that stands after the command; alone, say how one is given."""
    if person.role != "coach":
        return only_for_coaches(person)
    if folded(command.text) in {folded(each) for each in (*UNDO, "undo")}:
        return undo_newest(person, unit, now)
    client, line = named_first(command.text, unit)
    client = client or open_client(person, unit)
    if client is None or not line.strip():
        return [answer(person, "order", say.how_to())]
    return _begun(line, client, person, unit, now, reply=False) or [
        answer(person, "order", say.unread(client.name))
    ]


def heard(
    text: str, person: Person, unit: Unit, now: datetime, *, answers: bool = True
) -> list[Effect] | None:
    """Take a plain line that is an order; None where it is none, so that it goes on to whom it was meant for.

    `answers` is False where what is open has not taken it as its answer.
    """
    prompt = unit.prompts.expecting_text(person.user_id)
    reply_to = person.arrival.reply_to if person.arrival else None
    if answers and reply_to is None and prompt is not None:
        if prompt.kind == KIND:
            return _typed(text, prompt, person, unit, now)
        return None if prompt.kind in WORDS_FOR_OTHERS else _with_a_name(text, person, unit, now)
    if folded(text) in {folded(each) for each in UNDO}:
        return undo_newest(person, unit, now)
    if reply_to is not None:
        client = answering.client_at(person.chat_id, reply_to, unit)
        return None if client is None else _begun(text, client, person, unit, now, reply=True)
    client, line = named_first(text, unit)
    if client is not None and ":" in text:
        begun = _begun(line, client, person, unit, now, reply=False)
        return begun if begun is not None else [answer(person, "order", say.unread(client.name))]
    client = client or open_client(person, unit)
    if client is not None:
        return _begun(line, client, person, unit, now, reply=False)
    catalogue = unit.exercises.catalogue()
    known = order_said(text, Names(catalogue, catalogue, {}), now.date())
    return None if known is None else [answer(person, "order", say.whose())]


def _with_a_name(text: str, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take `Ada: rest Friday` as an order, whatever else may still be typed an answer to."""
    client, line = named_first(text, unit) if ":" in text else (None, text)
    return None if client is None else _begun(line, client, person, unit, now, reply=False)


def named_first(text: str, unit: Unit) -> tuple[Client | None, str]:
    """Return the client whom a line names first or after `for`, and the line without the name."""
    head, colon, rest = text.partition(":")
    found = clients_meant(head, unit) if colon else []
    if colon and is_clear(head, found):
        return found[0], rest
    for each in unit.clients.roster():
        words, names = text.split(), (each.name.split(), each.name.split()[:1])
        for name in names:
            if [folded(word) for word in words[: len(name)]] == [folded(word) for word in name]:
                same = clients_meant(" ".join(name), unit)
                return (each, " ".join(words[len(name) :])) if len(same) == 1 else (None, text)
            marked = f" for {' '.join(name)}"
            if marked.casefold() in text.casefold() and len(clients_meant(" ".join(name), unit)) == 1:
                at = text.casefold().index(marked.casefold())
                return each, text[:at] + text[at + len(marked) :]
    return None, text


def open_client(person: Person, unit: Unit) -> Client | None:
    """Return the client whose card the coach has open."""
    card = unit.prompts.newest_of(person.user_id, "client")
    return unit.clients.get(card.client_id) if card is not None and card.client_id else None


def _begun(
    line: str, client: Client, person: Person, unit: Unit, now: datetime, *, reply: bool
) -> list[Effect] | None:
    """Ask about an order, or read it back; None where the line is none."""
    said = order_said(line, names_of(client, unit, now), _today(client, now))
    if said is None:
        return None
    return begun(said, client, person, unit, now, reply=line if reply else None)


def begun(
    said: OrderSaid, client: Client, person: Person, unit: Unit, now: datetime, *, reply: str | None = None
) -> list[Effect]:
    """Ask about an order that was read, or read it back; `reply` is the line where it answered a message."""
    prompt = unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=person.user_id,
        facts={"said": said.model_dump(mode="json"), "state": "asked", "reply": reply},
    )
    unit.prompts.set_card(prompt.id, f"{KIND}:{prompt.id}")
    asked = _asked(prompt, said, client, unit, now)
    return [Send(person.chat_id, asked, key=f"{KIND}:{prompt.id}:ask", card=f"{KIND}:{prompt.id}")]


def _asked(prompt: Prompt, said: OrderSaid, client: Client, unit: Unit, now: datetime) -> Message:
    """Ask what is not clear of an order, or read it back, or say why it cannot hold."""
    buttons, catalogue = Buttons(prompt.id, prompt.revision), unit.exercises.catalogue()
    for keys, instead in ((said.offered, False), (said.instead_offered, True)):
        if keys:
            return say.ask_which(client.name, keys, catalogue, buttons, instead=instead)
    said = resolved(said, client, unit, now)
    why = cannot_hold(said, client, unit, now)
    if why is not None:
        unit.prompts.close(prompt.id, now)
        return say.cannot(client.name, why)
    unit.prompts.note(prompt.id, {**prompt.facts, "said": said.model_dump(mode="json")})
    told, notes = say.sentence(said, catalogue), notes_of(said, client, unit, now)
    return say.read_back(client.name, told, notes, buttons, reply=bool(prompt.facts.get("reply")))


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Have an order hold, be written anew, be dropped or taken back."""
    if person.role != "coach" or prompt.client_id is None:
        return []
    client, state = unit.clients.get(prompt.client_id), prompt.facts["state"]
    said = OrderSaid.model_validate(prompt.facts["said"])
    match tap.action, state:
        case Action.CANCEL, "asked":
            unit.prompts.close(prompt.id, now)
            return [_card(prompt, say.dropped(client.name))]
        case Action.PICK, "asked":
            return _picked(tap.argument, said, client, prompt, unit, now)
        case Action.CHANGE, "asked":
            unit.prompts.expect_text(prompt)
            shown = unit.prompts.revise(prompt.id)
            return [_card(shown, say.ask_anew(client.name, Buttons(shown.id, shown.revision)))]
        case Action.WRITE, "asked" if prompt.facts.get("reply"):
            unit.prompts.close(prompt.id, now)
            words = answering.Words(str(prompt.facts["reply"]))
            sent = answering.passed_on(words, client, person, unit, now)
            return [_card(prompt, say.dropped(client.name)), *sent]
        case Action.CONFIRM, "asked" if not (said.offered or said.instead_offered):
            return _held(said, client, prompt, person, unit, now)
        case Action.UNDO, "holds":
            return _undone(prompt, person, unit, now)
        case _:
            return refreshed(prompt, person, unit, now)


def _picked(
    place: int, said: OrderSaid, client: Client, prompt: Prompt, unit: Unit, now: datetime
) -> list[Effect]:
    offered = said.offered or said.instead_offered
    if place < len(offered):
        chosen = {"exercise": offered[place], "offered": ()} if said.offered else {}
        chosen = chosen or {"instead": offered[place], "instead_offered": ()}
        said = said.model_copy(update=chosen)
    shown = unit.prompts.revise(prompt.id, facts={**prompt.facts, "said": said.model_dump(mode="json")})
    return [_card(shown, _asked(shown, said, client, unit, now))]


def _held(
    said: OrderSaid, client: Client, prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    why = cannot_hold(said, client, unit, now)
    if why is not None:
        unit.prompts.close(prompt.id, now)
        return [_card(prompt, say.cannot(client.name, why))]
    made = orders_held.held(said, client, person, unit, now)
    facts = {**prompt.facts, "state": "holds", "order": made.row_id, "back": made.back, "reply": None}
    unit.prompts.expect_no_text(person.user_id)
    shown = unit.prompts.revise(prompt.id, facts=facts)
    told = say.sentence(said, unit.exercises.catalogue())
    return [*made.effects, _card(shown, say.holds(client.name, told, Buttons(shown.id, shown.revision)))]


def undo_newest(person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the coach's newest order back, by words."""
    prompt = unit.prompts.newest_of(person.user_id, KIND)
    if prompt is None or prompt.facts["state"] != "holds":
        return [answer(person, "order", say.nothing_to_undo())]
    return [
        EditCard(each.card, each.chat_id, each.message, moved=True)
        if isinstance(each, EditCard) and each.card == _key(prompt)
        else each
        for each in _undone(prompt, person, unit, now)
    ]


def _undone(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    client, facts = unit.clients.get(prompt.client_id or 0), prompt.facts
    told = say.sentence(OrderSaid.model_validate(facts["said"]), unit.exercises.catalogue())
    effects: list[Effect] | None = []
    if facts["order"] is None:
        unit.orders.restore(list(facts["back"]))
    else:
        effects = orders_held.taken_back(int(facts["order"]), client, person, unit, now)
    unit.prompts.close(prompt.id, now)
    if effects is None:
        return [_card(prompt, say.holds(client.name, told, None, say.UNDER_WAY))]
    return [*effects, _card(prompt, say.undone(client.name, told))]


def _typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Read an order that was written anew."""
    client = unit.clients.get(prompt.client_id or 0)
    named, line = named_first(text, unit)
    said = order_said(line if named is not None else text, names_of(client, unit, now), _today(client, now))
    if said is None or (named is not None and named.id != client.id):
        return [answer(person, "order", say.unread(client.name))]
    facts = {**prompt.facts, "said": said.model_dump(mode="json"), "reply": None}
    unit.prompts.expect_no_text(person.user_id)
    shown = unit.prompts.revise(prompt.id, facts=facts)
    return [EditCard(_key(shown), shown.chat_id, _asked(shown, said, client, unit, now), moved=True)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show how an order stands, after a tap on an old button."""
    if person.role != "coach" or prompt.client_id is None:
        return []
    client, facts = unit.clients.get(prompt.client_id), prompt.facts
    said = OrderSaid.model_validate(facts["said"])
    if prompt.closed_at is not None:
        return [_card(prompt, say.cannot(client.name, say.NOT_ANY_MORE))]
    if facts["state"] == "holds":
        told = say.sentence(said, unit.exercises.catalogue())
        return [_card(prompt, say.holds(client.name, told, Buttons(prompt.id, prompt.revision)))]
    return [_card(prompt, _asked(prompt, said, client, unit, now))]


def _today(client: Client, now: datetime) -> date:
    return local_date(now, client.zone or "UTC")


def _key(prompt: Prompt) -> str:
    return prompt.card_key or f"{KIND}:{prompt.id}"


def _card(prompt: Prompt, message: Message) -> EditCard:
    return EditCard(_key(prompt), prompt.chat_id, message)
