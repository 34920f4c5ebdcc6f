"""`/raises`: raises over a coach's size, all of them, agreed to, changed or held. Her silence holds."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import raises as say
from bot.render.setting_up import Buttons
from bot.store.decisions import KeptDecision
from bot.store.orders import KeptOrder
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import ordering, orders_held, orders_said
from bot.usecases.block_files import only_for_coaches
from bot.usecases.leaving import answer
from core.checkin.order_words import Ordered, OrderSaid, load_said
from core.loads.order import OrderKind
from core.loads.ordered_load import load_in
from core.loads.outcome import Reason
from core.loads.reasons import ReasonCode
from core.local_time import local_date
from core.oversight.waiting import RaiseWaiting
from core.units import Mass
from core.units import Unit as MassUnit

KIND = "raises waiting"
RESTS_ON = "rests on"
"""Where an answer keeps the sets that a raise rests on: made anew from the same sets, it is the same raise."""
ANSWERS = "answers"
"""Where a list keeps the rows of her last answer, to be taken back."""
FRESH = timedelta(days=1)
"""How long her last answer can be taken back with a newer list. [days] Our proposal."""
WAITS_FOR = timedelta(days=28)
"""After so long a raise that nobody answered is asked no more; the load stays. Our proposal."""


@dataclass(frozen=True, slots=True)
class RaisesAsked:
    """`/raises`."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """A raise that waits, with the decision that it rests on."""

    kept: KeptDecision
    told: Reason


def waiting_raises(unit: Unit, now: datetime) -> list[Waiting]:
    """Return the raises that wait for the coach: told by the newest decision, and not answered since; oldest first."""
    active = {each.id for each in unit.clients.roster() if each.state == "active" and each.frozen_at is None}
    found = []
    for kept in unit.decisions.telling(ReasonCode.RAISE_WAITS, now - WAITS_FOR):
        told = next((one for one in kept.value.reasons if one.code == ReasonCode.RAISE_WAITS), None)
        if told is not None and kept.client_id in active and not _answered(kept, unit):
            found.append(Waiting(kept, told))
    return found


def _answered(kept: KeptDecision, unit: Unit) -> bool:
    """Return whether the coach has said something of a raise: of this one by its sets, or of the load since."""
    rests_on = list(kept.value.used)
    return any(
        each.exercise == kept.exercise
        and each.voided_at is None
        and (each.facts.get(RESTS_ON) == rests_on or _said_since(each, kept))
        for each in unit.orders.history(kept.client_id)
    )


def _said_since(order: KeptOrder, kept: KeptDecision) -> bool:
    return order.kind in (OrderKind.AGREED, OrderKind.LOAD) and order.stands and order.at >= kept.made_at


def by_client(unit: Unit, now: datetime) -> dict[int, tuple[RaiseWaiting, ...]]:
    """Return the raises that wait, by client, for the digest."""
    found: dict[int, tuple[RaiseWaiting, ...]] = {}
    for each in waiting_raises(unit, now):
        client = unit.clients.get(each.kept.client_id)
        told = RaiseWaiting(
            exercise=each.kept.exercise,
            before=each.kept.value.load,
            now=load_in(each.told.facts["next"]),
            since=local_date(each.kept.made_at, client.zone or "UTC"),
        )
        found[client.id] = (*found.get(client.id, ()), told)
    return found


def raises_asked(command: RaisesAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """List all raises that wait."""
    if person.role != "coach":
        return only_for_coaches(person)
    answers = _to_be_undone(unit.prompts.newest_of(person.user_id, KIND), unit, now)
    unit.prompts.close_kind(KIND, person.user_id, now)
    facts = {ANSWERS: answers}
    prompt = unit.prompts.open(KIND, person.user_id, person.chat_id, now, subject=person.user_id, facts=facts)
    shown, message = _listed(prompt, unit, now)
    unit.prompts.set_card(shown.id, _key(shown))
    return [Send(person.chat_id, message, key=f"{_key(shown)}:ask", card=_key(shown))]


def _to_be_undone(before: Prompt | None, unit: Unit, now: datetime) -> list[int]:
    """Return the rows of the last answer, while it is fresh: an older list is shown no more."""
    rows = [] if before is None else before.facts.get(ANSWERS, [])
    kept = [unit.orders.get(row) for row in rows]
    return [each.id for each in kept if each is not None and each.stands and each.at > now - FRESH]


def _listed(prompt: Prompt, unit: Unit, now: datetime, note: str = "") -> tuple[Prompt, Message]:
    found = waiting_raises(unit, now)
    facts = {"rows": [each.kept.id for each in found], ANSWERS: prompt.facts.get(ANSWERS, [])}
    prompt = unit.prompts.revise(prompt.id, facts=facts)
    raises = [_raise(place, each, unit) for place, each in enumerate(found)]
    undo = bool(prompt.facts.get(ANSWERS))
    return prompt, say.waiting(raises, Buttons(prompt.id, prompt.revision), note, undo=undo)


def _raise(place: int, one: Waiting, unit: Unit) -> say.Raise:
    client = unit.clients.get(one.kept.client_id)
    return say.Raise(
        place=place,
        client=client.name,
        exercise=unit.exercises.get(one.kept.exercise),
        before=one.kept.value.load,
        now=load_in(one.told.facts["next"]),
        percent=one.told.facts["percent"],
        since=local_date(one.kept.made_at, client.zone or "UTC"),
    )


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Agree to one raise or to all, hold one, or have another load typed."""
    if person.role != "coach":
        return []
    rows = list(prompt.facts.get("rows", ()))
    found = {each.kept.id: each for each in waiting_raises(unit, now)}
    chosen = found.get(rows[tap.argument]) if tap.argument < len(rows) else None
    match tap.action:
        case Action.CONFIRM:
            return agreed([found[each] for each in rows if each in found], prompt, unit, now)
        case Action.AGREE if chosen is not None:
            return agreed([chosen], prompt, unit, now)
        case Action.DECLINE if chosen is not None:
            return held([chosen], prompt, unit, now)
        case Action.UNDO:
            return undone(prompt, person, unit, now)
        case Action.CHANGE if chosen is not None:
            unit.prompts.expect_text(prompt)
            asked = unit.prompts.revise(prompt.id, facts={**prompt.facts, "change": chosen.kept.id})
            message = say.ask_load(_raise(0, chosen, unit).told, Buttons(asked.id, asked.revision))
            return [EditCard(_key(asked), asked.chat_id, message)]
        case _:
            return refreshed(prompt, person, unit, now)


def agreed(
    chosen: list[Waiting], prompt: Prompt, unit: Unit, now: datetime, *, moved: bool = False
) -> list[Effect]:
    """Agree to raises; a card that is out and not begun is changed now."""
    effects: list[Effect] = []
    rows = [_answer(each, each.told.facts["next"], unit, now) for each in chosen]
    for client_id in dict.fromkeys(each.kept.client_id for each in chosen):
        effects += ordering.shown_anew(unit.clients.get(client_id), unit, now)
    note = say.agreed([_raise(0, each, unit).told for each in chosen])
    return [*effects, *_again(_with(prompt, rows), unit, now, note, moved=moved)]


def held(
    chosen: list[Waiting], prompt: Prompt, unit: Unit, now: datetime, *, moved: bool = False
) -> list[Effect]:
    """Hold raises: each load stays until it is earned again."""
    rows = [_answer(each, each.told.facts["load"], unit, now) for each in chosen]
    note = "\n".join(say.held(_raise(0, each, unit).told) for each in chosen)
    return _again(_with(prompt, rows), unit, now, note, moved=moved)


def undone(prompt: Prompt, person: Person, unit: Unit, now: datetime, *, moved: bool = False) -> list[Effect]:
    """Take the last answer back, as far as no session was begun with it; the raises wait again."""
    effects: list[Effect] = []
    stays = False
    for row in prompt.facts.get(ANSWERS, ()):
        kept = unit.orders.get(row)
        if kept is not None and kept.voided_at is None:
            back = orders_held.taken_back(row, unit.clients.get(kept.client_id), person, unit, now)
            stays = stays or back is None
            effects += back or []
    note = say.nothing_to_undo() if not prompt.facts.get(ANSWERS) else say.undone(stays=stays)
    return [*effects, *_again(_with(prompt, []), unit, now, note, moved=moved)]


def _with(prompt: Prompt, rows: list[int]) -> Prompt:
    return replace(prompt, facts={**prompt.facts, ANSWERS: rows})


def _answer(one: Waiting, load: str, unit: Unit, now: datetime) -> int:
    """Keep how far she agrees: to the raise, or to the load as it is; return the row."""
    mass = load_in(load).mass or Mass.of(0)
    facts = {
        "mass": {"value": str(mass.value), "unit": mass.unit.value},
        RESTS_ON: list(one.kept.value.used),
    }
    return unit.orders.add(one.kept.client_id, OrderKind.AGREED, now, exercise=one.kept.exercise, facts=facts)


def _again(prompt: Prompt, unit: Unit, now: datetime, note: str = "", *, moved: bool = False) -> list[Effect]:
    unit.prompts.expect_no_text(prompt.user_id)
    shown, message = _listed(prompt, unit, now, note)
    return [EditCard(_key(shown), shown.chat_id, message, moved=moved)]


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take another load for the next session in place of the raise: an order, read back like any other."""
    wanted = prompt.facts.get("change")
    chosen = next((each for each in waiting_raises(unit, now) if each.kept.id == wanted), None)
    if chosen is None:
        return _again(prompt, unit, now, moved=True)
    client = unit.clients.get(chosen.kept.client_id)
    found = load_said(text, MassUnit(client.unit or "kg"))
    if found is None:
        return [answer(person, "raises", say.unread_load())]
    mass, added = found
    said = OrderSaid(what=Ordered.LOAD, exercise=chosen.kept.exercise, mass=mass, added=added, once=True)
    return [*_again(prompt, unit, now), *orders_said.begun(said, client, person, unit, now)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the list as it is now."""
    if person.role != "coach":
        return []
    if prompt.closed_at is not None:
        return [EditCard(_key(prompt), prompt.chat_id, say.newer())]
    return _again(prompt, unit, now)


def _key(prompt: Prompt) -> str:
    return prompt.card_key or f"{KIND}:{prompt.id}"
