"""A clinician's limits put into force, and taken back: what stands in for what they rule out, now and from then on.

On a card that is out only what was not begun is given anew, and never more of it. A limit that is taken back as a slip
takes all of that back with it; what was begun meanwhile stays.
"""

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any, NamedTuple

from bot.messages import Effect, Person
from bot.render import clinician_limits as say
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.closing import onward
from bot.usecases.decisions import decide, dose_for, given_dose
from bot.usecases.kit_known import kit_today
from bot.usecases.merging import moment_of
from bot.usecases.open_loads import STOPPED, lessened
from bot.usecases.personalise import fitted, keep, placing
from bot.usecases.session_view import prompt_of, show
from bot.usecases.standing_in import Chosen, chosen_for
from core.checkin.training_log import Item, Session
from core.loads.decision import Decision
from core.loads.limits import Limit
from core.loads.personalise import Change
from core.local_time import local_date
from core.programme.exercises import Exercise
from core.programme.prescription import Dose

GOING = ("sent", "started")
"""States of a session whose card is out and may still change."""


class Held(NamedTuple):
    """What came of limits that hold now.

    Attributes:
        facts: What taking them back needs.
        coming: What of the block is done otherwise from the next card on.
        card: What has changed on the card that is out.
        effects: What the client is shown.
    """

    facts: dict[str, Any]
    coming: tuple[Change, ...]
    card: tuple[say.OnCard, ...]
    effects: list[Effect]


def changes_of(
    client: Client, on: date, unit: Unit, now: datetime, draft: Sequence[Limit] = ()
) -> tuple[Change, ...]:
    """Return what of the block that a client runs is not given as written on a date; nothing where she runs none."""
    running = unit.blocks.running(client.id)
    if running is None:
        return ()
    block = unit.versions.block_for(running, local_date(now, client.zone or "UTC"))
    kept = unit.placements.of(running.id) or {}
    choices = {key: one.instead for key, one in kept.items() if one.chosen}
    return fitted(block, client, choices, on, unit, draft).changes


def new_in(later: Sequence[Change], earlier: Sequence[Change]) -> tuple[Change, ...]:
    """Return the changes that are not among the earlier ones."""
    known = {(each.exercise, each.instead) for each in earlier}
    return tuple(each for each in later if (each.exercise, each.instead) not in known)


def first_day(limits: Sequence[Limit], today: date) -> date:
    """Return the day from which all of these limits hold, if not yet today."""
    return max([today, *(each.since for each in limits)])


def coming_with(draft: Sequence[Limit], client: Client, unit: Unit, now: datetime) -> tuple[Change, ...]:
    """Return what would be done otherwise if limits held that are only read back yet."""
    on = first_day(draft, local_date(now, client.zone or "UTC"))
    return new_in(changes_of(client, on, unit, now, draft), changes_of(client, on, unit, now))


def held(limits: Sequence[Limit], client: Client, unit: Unit, now: datetime) -> Held:
    """Have limits hold: keep what stands in for what they rule out, and change the card that is out."""
    today = local_date(now, client.zone or "UTC")
    on = first_day(limits, today)
    earlier = changes_of(client, on, unit, now)
    rows = [unit.clinician_limits.add(client.id, each, now) for each in limits]
    later = changes_of(client, on, unit, now)
    _placed(later, client, unit)
    facts, card, effects = _on_card(limits, client, unit, now)
    return Held({"rows": rows, "on": today.isoformat(), **facts}, new_in(later, earlier), card, effects)


def taken_out(limit_id: int, client: Client, unit: Unit, now: datetime) -> tuple[Change, ...] | None:
    """End a limit, and return what is done as written again; None where it was ended before, or is not hers."""
    today = local_date(now, client.zone or "UTC")
    earlier = changes_of(client, today, unit, now)
    if not unit.clinician_limits.take_out(limit_id, client.id, now):
        return None
    later = changes_of(client, today, unit, now)
    _placed(later, client, unit)
    still = {each.exercise for each in later}
    return tuple(each for each in earlier if each.exercise not in still)


def undone(facts: dict[str, Any], client: Client, unit: Unit, now: datetime) -> list[Effect]:
    """Take limits back that were a slip: they hold no more, and the card is as the rules have it without them."""
    for row in facts["rows"]:
        unit.clinician_limits.take_out(row, client.id, now)
    _placed(changes_of(client, local_date(now, client.zone or "UTC"), unit, now), client, unit)
    session = unit.sessions.get(facts["session"]) if "session" in facts else None
    if session is None or session.state not in GOING:
        return []
    back = [each["id"] for each in facts["items"] if _given_back(each, session, client, unit, now)]
    if not back:
        return []
    prompt = prompt_of(session.id, unit)
    placed = {key: why for key, why in prompt.facts.get("placed", {}).items() if int(key) not in back}
    before = {key: why for key, why in facts["placed"].items() if int(key) in back}
    unit.prompts.note(prompt.id, {**prompt.facts, "placed": placed | before})
    return show(session.id, unit, note=say.LIFTED_NOW)


def _placed(changes: Sequence[Change], client: Client, unit: Unit) -> None:
    running = unit.blocks.running(client.id)
    if running is not None and unit.placements.of(running.id) is not None:
        keep(running.id, changes, unit)


def _on_card(
    limits: Sequence[Limit], client: Client, unit: Unit, now: datetime
) -> tuple[dict[str, Any], tuple[say.OnCard, ...], list[Effect]]:
    """Give less of what is limited on a card that is out, or another exercise in its place."""
    session = unit.sessions.open_one(client.id)
    if session is None or session.state not in GOING:
        return {}, (), []
    stand = [each for each in limits if each.stands(session.local_on)]
    before = dict(prompt_of(session.id, unit).facts.get("placed", {}))
    changed: list[Item] = []
    for item in unit.sessions.items(session.id):
        mine = [each for each in stand if each.bears_on(unit.exercises.get(item.exercise))]
        if item.state != "open" or not mine:
            continue
        is_out = any(each.forbids for each in mine) and _may_change(item, before, unit)
        if (is_out and _replaced(item, session, client, unit, now)) or lessened(
            item, session, unit, now, cause=None
        ):
            changed.append(item)
    if not changed:
        return {}, (), []
    after = {each.id: each for each in unit.sessions.items(session.id)}
    card = tuple(_seen(each, after[each.id], unit) for each in changed)
    items = [
        {
            "id": each.id,
            "was": each.exercise,
            "now": after[each.id].exercise,
            "state": after[each.id].state,
        }
        for each in changed
    ]
    facts = {"session": session.id, "items": items, "placed": before}
    return facts, card, _card_shown(session, stand, card, client, unit, now)


def _card_shown(
    session: Session,
    limits: Sequence[Limit],
    card: Sequence[say.OnCard],
    client: Client,
    unit: Unit,
    now: datetime,
) -> list[Effect]:
    note = say.holds_now(limits, card)
    cursor = session.cursor_item_id
    if session.state == "started" and cursor is not None and unit.sessions.item(cursor).state != "open":
        account = unit.accounts.of_client(client.id)
        ids = (account.user_id, account.chat_id) if account is not None else (0, 0)
        person = Person(*ids, coach_id=unit.tenant, role="client", client_id=client.id)
        return onward(session.id, unit, person, now, note=note)
    return show(session.id, unit, note=note)


def _may_change(item: Item, placed: dict[str, str], unit: Unit) -> bool:
    """Return whether another exercise may come in place: nothing was logged, and she has not chosen this one."""
    chosen = item.exercise != item.prescription.exercise and str(item.id) not in placed
    return not chosen and not unit.sets.standing([item.id])


def _replaced(item: Item, session: Session, client: Client, unit: Unit, now: datetime) -> bool:
    """Put in place of an exercise what stands in for it; False where nothing does."""
    kit, moment = kit_today(session, client, unit), moment_of(session, unit)

    def decides(exercise: Exercise, dose: Dose) -> tuple[int, Decision]:
        return decide(client, exercise.key, dose, moment, "card", unit, now, card_is_out=True, kit=kit)

    how = placing(client, session.assignment_id, session.local_on, unit, kit)
    beside = frozenset(
        key for each in unit.sessions.items(session.id) for key in (each.exercise, each.prescription.exercise)
    )
    chosen = chosen_for(item.prescription, how, beside, decides, unit)
    if chosen is None or chosen.exercise == item.exercise or chosen.decision.kind in STOPPED:
        return False
    _put(chosen, item, session, unit)
    return True


def _put(chosen: Chosen, item: Item, session: Session, unit: Unit) -> None:
    unit.decisions.for_item(chosen.decision_id, item.id)
    given = given_dose(chosen.dose, chosen.decision)
    unit.sessions.change_item(item.id, exercise=chosen.exercise, given=given, decision_id=chosen.decision_id)
    prompt = prompt_of(session.id, unit)
    placed = {key: why for key, why in prompt.facts.get("placed", {}).items() if key != str(item.id)}
    because = {str(item.id): chosen.because} if chosen.because is not None else {}
    unit.prompts.note(prompt.id, {**prompt.facts, "placed": placed | because})


def _given_back(kept: dict[str, Any], session: Session, client: Client, unit: Unit, now: datetime) -> bool:
    """Give an exercise of a card again as the rules now have it; False where she has begun or changed it meanwhile."""
    item = unit.sessions.item(kept["id"])
    if (item.exercise, item.state) != (kept["now"], kept["state"]) or unit.sets.standing([item.id]):
        return False
    exercise = unit.exercises.get(kept["was"])
    dose, moment = dose_for(exercise, item.prescription), moment_of(session, unit)
    kit = kit_today(session, client, unit)
    row, decision = decide(client, exercise.key, dose, moment, "card", unit, now, card_is_out=True, kit=kit)
    unit.decisions.for_item(row, item.id)
    state = "skipped" if decision.kind in STOPPED else "open"
    given = given_dose(dose, decision)
    unit.sessions.change_item(
        item.id, exercise=exercise.key, given=given, decision_id=row, state=state, cause=None
    )
    return True


def _seen(before: Item, after: Item, unit: Unit) -> say.OnCard:
    exercise = unit.exercises.get(before.exercise)
    if after.state != "open":
        return say.OnCard(exercise)
    return say.OnCard(exercise, unit.exercises.get(after.exercise))
