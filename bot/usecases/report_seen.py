"""The report of a block, gathered from the rows: what was written, what was done, what was said."""

from collections.abc import Iterable
from datetime import date, datetime

from bot.store.blocks import Assignment
from bot.store.people import Client
from bot.store.seasons import Ran
from bot.store.units import Unit
from bot.usecases.eased_days import eased_on
from bot.usecases.progress_seen import lift_seen
from bot.usecases.questionnaire import said_in
from bot.usecases.season_spans import ONE_DAY, last_of
from bot.usecases.week_clock import BLOCK_END
from core.checkin.training_log import Item, LoggedSet, Session
from core.loads.dated_estimates import DatedEstimate
from core.loads.looking_back import asked_dose
from core.loads.past import Exposure, SetDone
from core.loads.work_done import WorkDone
from core.local_time import local_date
from core.oversight.misses import Past
from core.oversight.report import report
from core.oversight.report_parts import DoneOnDay, PainAt, Report, Told
from core.programme.exercises import Exercise, Side, Site


def ran_last(client: Client, unit: Unit, today: date) -> Ran | None:
    """Return what a client runs, or what she ran last; what only begins later is none yet."""
    ran = unit.seasons.ran(client.id)
    begun = [each for each in ran if each.starts_on <= today]
    return begun[-1] if begun else None


def report_of(client: Client, ran: Ran, unit: Unit, now: datetime) -> Report:
    """Return the report of a block that a client runs or ran, as things stand."""
    today = local_date(now, client.zone or "UTC")
    running = Assignment(ran.id, ran.client_id, ran.version_id, ran.starts_on, ran.laid_until)
    last = _last(client, ran, running, unit, today)
    block = unit.versions.block_for(running, min(last, today))
    catalogue = unit.exercises.catalogue()
    sessions = tuple(
        _done(each, unit) for each in unit.moves.of_assignment(ran.id) if each.state != "planned"
    )
    keys = {work.exercise.key for each in sessions for work in each.work if work.exercise.main_lift}
    told = Told(
        name=client.name,
        today=today,
        first=ran.starts_on,
        last=last,
        held=client.frozen_at is not None,
        pain=_pain(client, unit, ran.starts_on, last),
        answers=_answers(client, ran, unit),
    )
    points = _points(keys, client, unit, (ran.starts_on, last))
    return report(told, block, sessions, points, catalogue, unit.rules.policy(client.id))


def _last(client: Client, ran: Ran, running: Assignment, unit: Unit, today: date) -> date:
    """Return the last date of a block: what came after it, or ended it, ends it sooner."""
    if ran.ended_at is None:
        return last_of(client, running, unit, today)
    later = [each.starts_on for each in unit.seasons.ran(client.id) if each.id > ran.id]
    ends = min([unit.versions.course(running).ends_on, *(each - ONE_DAY for each in later)])
    stopped = local_date(ran.ended_at, client.zone or "UTC")
    return max(ends if later else min(ends, stopped), ran.starts_on)


def _done(session: Session, unit: Unit) -> DoneOnDay:
    items = unit.sessions.items(session.id)
    logged: dict[int, list[LoggedSet]] = {}
    for each in unit.sets.standing([item.id for item in items]):
        logged.setdefault(each.item_id, []).append(each)
    past = Past(session_id=session.id, on=session.local_on, state=session.state, reason=session.left_reason)
    work = (_work(session, item, logged.get(item.id, []), unit) for item in items if logged.get(item.id))
    return DoneOnDay(past=past, week=session.week_no, work=tuple(work))


def _work(session: Session, item: Item, logged: list[LoggedSet], unit: Unit) -> WorkDone:
    sets = [
        SetDone(
            row_id=each.id,
            set_no=each.set_no,
            side=Side(each.side) if each.side else None,
            load=each.load,
            reps=each.reps,
            seconds=each.seconds,
            left=each.rir,
            metres=each.metres,
        )
        for each in logged
    ]
    exercise = unit.exercises.get(item.exercise)
    eased, lighter = eased_on(session.client_id, exercise, {session.local_on}, unit)
    exposure = Exposure(
        session_id=session.id,
        on=session.local_on,
        week_no=session.week_no,
        dose=asked_dose(item.prescription.dose, item.given),
        sets=tuple(sets),
        deload=bool(lighter),
        eased=bool(eased),
    )
    return WorkDone(exercise=exercise, exposure=exposure)


def _points(
    keys: Iterable[str], client: Client, unit: Unit, within: tuple[date, date]
) -> dict[str, tuple[DatedEstimate, ...]]:
    logged = unit.records.lifts(client.id)
    found = {}
    for key in keys:
        exercise: Exercise = unit.exercises.get(key)
        points = lift_seen(exercise, client, unit, logged.get(key, ())).points
        found[key] = tuple(each for each in points if within[0] <= each.on <= within[1])
    return found


def _pain(client: Client, unit: Unit, first: date, last: date) -> tuple[PainAt, ...]:
    felt: dict[tuple[Site, Side | None], list[tuple[date, int | None]]] = {}
    for each in unit.body.since(client.id, first):
        if each.local_on <= last:
            said = each.as_pain()
            felt.setdefault((said.site, said.side), []).append((said.on, said.score))
    found = [
        PainAt(site=site, side=side, felt=tuple(sorted(said, key=lambda one: one[0])))
        for (site, side), said in felt.items()
    ]
    return tuple(sorted(found, key=lambda each: (-len(each.felt), each.site, each.side or "")))


def _answers(client: Client, ran: Ran, unit: Unit) -> tuple[tuple[str, str], ...]:
    asked = unit.due_questions.of_client(client.id, BLOCK_END, ran.starts_on)
    mine = [each for each in asked if each.subject == ran.id]
    return said_in(mine[-1]) if mine else ()
