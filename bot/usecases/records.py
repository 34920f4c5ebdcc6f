"""Bests so far: found anew whenever sets come, change or go; told once, and taken back where that was told."""

from collections.abc import Collection, Iterable, Sequence
from datetime import datetime

from bot.render import records as say
from bot.store.records import KeptRecord
from bot.store.units import Unit
from core.checkin.pain import Band, band
from core.checkin.training_log import Session
from core.oversight.records import LoggedLift, Record, RecordKind, records

TOLD_FIRST = (RecordKind.LOAD, RecordKind.REPS, RecordKind.ESTIMATE)
"""Of several bests of one exercise in one session, the first of these is told."""
MOST_TOLD = 2
"""Bests told at the end of a session, main lifts first; the others are in the list. Our proposal."""
FELT = frozenset({Band.MIDDLE, Band.HIGH})
"""Pain of a session in which no best is told."""


def settled(client_id: int, exercises: Collection[str], unit: Unit, now: datetime) -> None:
    """Keep the bests that the standing sets of some exercises show, and retract those that they no longer show.

    A best that was told stays told when its set was only said again.
    """
    if not exercises:
        return
    lifts = unit.records.lifts(client_id, exercises)
    kept = unit.records.kept(client_id, exercises)
    for exercise in sorted(exercises):
        found = records(lifts.get(exercise, ()))
        _kept_as(exercise, found, [each for each in kept if each.exercise == exercise], client_id, unit, now)


def _kept_as(
    exercise: str,
    found: Iterable[Record],
    kept: Sequence[KeptRecord],
    client_id: int,
    unit: Unit,
    now: datetime,
) -> None:
    by_set = {(each.set_id, each.kind): each for each in kept}
    told = {_same(_value(each)): each.told_at for each in kept if each.told_at is not None}
    standing = set()
    for one in found:
        facts, key = one.model_dump(mode="json"), (one.lift.set_id, str(one.kind))
        standing.add(key)
        before = by_set.get(key)
        if before is None:
            unit.records.add(client_id, exercise, one.kind, one.lift.set_id, facts, now)
        elif before.facts != facts or before.retracted_at is not None:
            unit.records.change([before.id], facts=facts, retracted_at=None)
    gone = [each for key, each in by_set.items() if key not in standing and each.retracted_at is None]
    unit.records.change([each.id for each in gone], retracted_at=now)
    for each in unit.records.kept(client_id, [exercise]) if told else ():
        if each.told_at is None and each.retracted_at is None and (at := told.get(_same(_value(each)))):
            unit.records.change([each.id], told_at=at)


def _value(kept: KeptRecord) -> Record:
    return Record.model_validate(kept.facts)


def _same(best: Record) -> tuple[object, ...]:
    """Return what makes two bests the same to whoever was told: not the row of the set."""
    lift: LoggedLift = best.lift
    return best.kind, lift.session_id, lift.load, lift.reps, lift.maximum


def told(session: Session, unit: Unit, now: datetime) -> tuple[str, ...]:
    """Settle the exercises of a session that is over and return the lines of its bests: one for an exercise.

    None in a session with pain of 4 and over: nothing there is worth more than that.
    """
    exercises = {each.exercise for each in unit.sessions.items(session.id)}
    settled(session.client_id, exercises, unit, now)
    if _hurt(session, unit):
        return ()
    chosen: dict[str, KeptRecord] = {}
    standing = [each for each in unit.records.kept(session.client_id, exercises) if each.retracted_at is None]
    for kind in TOLD_FIRST:
        for each in standing:
            if each.kind == kind and _value(each).lift.session_id == session.id:
                chosen.setdefault(each.exercise, each)
    named = sorted(
        ((unit.exercises.get(each.exercise), each) for each in chosen.values()),
        key=lambda pair: (not pair[0].main_lift, pair[1].exercise),
    )
    first = named[:MOST_TOLD]
    unit.records.change([each.id for _, each in first if each.told_at is None], told_at=now)
    lines = tuple(say.best_line(exercise, _value(each), session.local_on) for exercise, each in first)
    return lines if len(named) == len(first) else (*lines, say.more_line(len(named) - len(first)))


def _hurt(session: Session, unit: Unit) -> bool:
    reports = unit.body.since(session.client_id, session.local_on)
    return any(each.session_id == session.id and band(each.as_pain()) in FELT for each in reports)


def taken_back(client_id: int, unit: Unit, now: datetime) -> tuple[str, ...]:
    """Return what to say of bests that were told, and are retracted by what is being done now.

    Nothing where the same session has another best of the same kind in their place.
    """
    kept = unit.records.kept(client_id)
    stands = {_place(each) for each in kept if each.retracted_at is None}
    gone = [each for each in kept if each.retracted_at == now and each.told_at is not None]
    return tuple(
        say.taken_back_line(unit.exercises.get(each.exercise), _value(each))
        for each in gone
        if _place(each) not in stands
    )


def _place(kept: KeptRecord) -> tuple[str, str, int]:
    return kept.exercise, kept.kind, _value(kept).lift.session_id
