"""What a coach's order is about and comes to: what may be named, what stands against it, the next session."""

from datetime import date, datetime, timedelta

from bot.render import orders_said as say
from bot.render.ordering import mass_words
from bot.render.pain import place_words
from bot.render.reasons import reason_line
from bot.store.body import BodyReport
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import ordering
from bot.usecases.decisions import dose_for, exposures, inputs_for, kit_of
from bot.usecases.merging import lines_of, moment_of
from bot.usecases.orders_held import pauses_of, sessions_off
from bot.usecases.personalise import about
from core.checkin.order_words import Names, Ordered, OrderSaid
from core.checkin.pain import Band, band, bears_on, flares
from core.loads.decision import Decision, next_decision
from core.loads.looking_back import PAIN_BEARS
from core.loads.order import CoachOrder, OrderKind
from core.loads.personalise import may_choose
from core.loads.reasons import ReasonCode
from core.local_time import local_date
from core.programme.block import Block
from core.programme.exercises import Basis
from core.units import Mass
from core.units import Unit as MassUnit

FARTHEST = timedelta(days=183)
"""Farthest day that an order may name. [days] Our proposal: what is farther off is another block's."""
NEWEST = 1_000_000_000
"""Row of an order that is only looked at: it counts as the newest."""


def names_of(client: Client, unit: Unit, now: datetime) -> Names:
    """Return what an order for a client may name: the exercises that she runs or has paused, and where they stand."""
    catalogue, blocks = unit.exercises.catalogue(), _blocks(client, unit, now)
    keys: dict[str, None] = {}
    places: dict[str, dict[str, None]] = {}
    for block in blocks:
        for day in block.days:
            for line in day.lines:
                asked = line.prescription
                keys[asked.exercise] = None
                places.setdefault(asked.order.upper(), {})[asked.exercise] = None
    running = unit.blocks.running(client.id)
    for placed in (unit.placements.of(running.id) or {}).values() if running is not None else ():
        if placed.instead in catalogue:
            keys[placed.instead or ""] = None
    return Names(
        running={key: catalogue[key] for key in keys if key in catalogue},
        catalogue=catalogue,
        places={place: tuple(found) for place, found in places.items()},
        unit=MassUnit(client.unit or "kg"),
    )


def _blocks(client: Client, unit: Unit, now: datetime) -> list[Block]:
    running = unit.blocks.running(client.id)
    if running is None:
        return []
    return [each.block for each in unit.versions.course(running).stretches(_today(client, now))]


def resolved(said: OrderSaid, client: Client, unit: Unit, now: datetime) -> OrderSaid:
    """Return an order with what it leaves out: a step as a load, a lighter week as its days."""
    today = _today(client, now)
    if said.what in (Ordered.LIGHTER, Ordered.FULL):
        first = said.first or today
        last = said.last or first + timedelta(days=6 - first.weekday())
        return said.model_copy(update={"first": first, "last": last})
    if said.what is not Ordered.STEP:
        return said
    base = load_now(said.exercise or "", client, unit, now)
    if base is None or said.mass is None:
        return said
    once = said.once or (said.first is None and said.last is None)
    mass = Mass((base + said.mass).value.normalize() + 0, base.unit)
    return said.model_copy(update={"what": Ordered.LOAD, "mass": mass, "once": once})


def load_now(exercise: str, client: Client, unit: Unit, now: datetime) -> Mass | None:
    """Return the load that a client last lifted in an exercise, or else the one that is written; None for neither."""
    lifted = [
        each.load.mass
        for past in exposures(client.id, exercise, unit)[-1:]
        for each in past.sets
        if each.load is not None and each.load.mass is not None
    ]
    if lifted:
        return max(lifted)
    written = (
        line.prescription.dose.load
        for block in _blocks(client, unit, now)
        for day in block.days
        for line in day.lines
        if line.prescription.exercise == exercise
    )
    return next((load.mass for load in written if load is not None and load.mass is not None), None)


def cannot_hold(said: OrderSaid, client: Client, unit: Unit, now: datetime) -> str | None:
    """Return why an order cannot hold; None where it can."""
    today, running = _today(client, now), unit.blocks.running(client.id)
    if client.state not in ("active", "paused"):
        return say.NOT_HERE
    if running is None and said.what is not Ordered.RESTRICT:
        return say.NO_BLOCK
    named = [each for each in (said.first, said.last) if each is not None]
    if any(not today <= each <= today + FARTHEST for each in named) or named != sorted(named):
        return say.DAYS_OVER
    return _against(said, client, today, unit)


def _against(said: OrderSaid, client: Client, today: date, unit: Unit) -> str | None:
    """Return why what is ordered cannot be, whatever its days are; None where it can."""
    match said.what:
        case Ordered.STEP:
            return say.NO_LOAD_KNOWN
        case Ordered.LOAD if (
            said.added and unit.exercises.get(said.exercise or "").basis is not Basis.BODYWEIGHT
        ):
            return say.NOT_COUNTED_SO
        case Ordered.TAKE_UP if not pauses_of(said.exercise, client, unit):
            return say.NOT_PAUSED
        case Ordered.REST if said.first is None:
            return say.NO_DAY
        case Ordered.REST if not sessions_off(said, client, unit):
            return say.NO_SESSION
        case Ordered.FULL if not _lighter_weeks(said, client, unit):
            return say.NO_LIGHTER_WEEK
        case Ordered.SWAP if not _may_swap(said, client, today, unit):
            return say.CANNOT_SWAP
        case _:
            return None


def _may_swap(said: OrderSaid, client: Client, today: date, unit: Unit) -> bool:
    same = said.instead == said.exercise
    hers, catalogue = about(client, today, unit), unit.exercises.catalogue()
    return not same and may_choose(said.instead, said.exercise or "", (), hers, catalogue)


def notes_of(said: OrderSaid, client: Client, unit: Unit, now: datetime) -> list[str]:
    """Return what is told with an order that is read back: the load now, pain, and what it comes to."""
    if said.what is Ordered.LIGHTER:
        return [say.lighter_already(week) for week in _lighter_weeks(said, client, unit)]
    if said.what is not Ordered.LOAD or said.exercise is None or said.mass is None:
        return []
    exercise, lines = unit.exercises.get(said.exercise), []
    before = load_now(said.exercise, client, unit, now)
    if before is not None:
        lines.append(say.now_at(mass_words(before, exercise)))
    report = pain_at(said.exercise, client, unit, now)
    if report is not None and before is not None and said.mass > before:
        where = place_words(report.as_pain().site, report.as_pain().side)
        if report.score is not None and not _is_over_low(report):
            lines.append(say.over_pain(where, report.score, report.local_on))
        else:
            lines.append(say.under_pain(where, report.score, report.local_on))
    found = comes_to(said, client, unit, now)
    if found is not None:
        on, decision = found
        load = (
            mass_words(decision.load.mass, exercise) if decision.load and decision.load.mass else say.NOTHING
        )
        others = [one for one in decision.reasons if one.code != ReasonCode.COACH_LOAD]
        less = decision.load is None or decision.load.mass != said.mass
        lines.append(say.comes_to(on, load, reason_line(others[0], coach=True) if less and others else ""))
    return lines


def _lighter_weeks(said: OrderSaid, client: Client, unit: Unit) -> list[int]:
    """Return the weeks of the block that are planned lighter, among those of the sessions laid out for its days."""
    if said.first is None or said.last is None:
        return []
    found = [
        each
        for each in unit.sessions.of_client(client.id, ("planned", "sent"))
        if said.first <= each.local_on <= said.last
    ]
    return sorted(
        {each.week_no for each in found if each.week_no in unit.versions.block_of(each).lighter_weeks}
    )


def _is_over_low(report: BodyReport) -> bool:
    value = report.as_pain()
    return flares(value) or value.painkiller or band(value) is not Band.LOW


def pain_at(exercise: str, client: Client, unit: Unit, now: datetime) -> BodyReport | None:
    """Return the newest report of pain that bears on an exercise; the newest of 4 and over before a lower one."""
    row, since = unit.exercises.get(exercise), _today(client, now) - PAIN_BEARS
    found = [
        each
        for each in unit.body.bearing(client.id, since)
        if bears_on(each.as_pain(), row) and each.score != 0
    ]
    worst = [each for each in found if _is_over_low(each)]
    return next(reversed(worst or found), None)


def comes_to(said: OrderSaid, client: Client, unit: Unit, now: datetime) -> tuple[date, Decision] | None:
    """Return the first session that an order of a load is about, and what would be given; nothing of it is kept."""
    kit, first = kit_of(client, unit), said.first or _today(client, now)
    card_out = ordering.not_begun(client, unit)
    coming = [
        *([] if card_out is None else [card_out]),
        *reversed(unit.sessions.of_client(client.id, ("planned",))),
    ]
    for session in coming:
        written = [each for each in lines_of(session, unit) if each.exercise == said.exercise]
        if session.local_on < first or not written:
            continue
        exercise = unit.exercises.get(written[0].exercise)
        dose = dose_for(exercise, written[0])
        moment, is_out = moment_of(session, unit), session.state == "sent"
        inputs = inputs_for(client, exercise.key, dose, moment, kit, unit, card_is_out=is_out)
        hers = CoachOrder(
            row_id=NEWEST,
            kind=OrderKind.LOAD,
            exercise=exercise.key,
            mass=said.mass,
            from_on=said.first,
            until=said.last,
            at=now,
        )
        looked_at = inputs.model_copy(update={"orders": (*inputs.orders, hers)})
        return session.local_on, next_decision(looked_at)
    return None


def _today(client: Client, now: datetime) -> date:
    return local_date(now, client.zone or "UTC")
