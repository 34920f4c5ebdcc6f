"""What comes next for a client's exercise: gathers what the rules need, and keeps what they say."""

from collections.abc import Collection
from datetime import date, datetime

from bot.store.last_loads import KeptLastLoad
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.coach_away import orders_with_absence
from bot.usecases.eased_days import eased_on
from bot.usecases.health_known import lifter_health
from bot.usecases.places import done_there, is_of_a_place, is_usual, usual_place
from core.checkin.pain_course import marked
from core.checkin.training_log import Item, LoggedSet, Session
from core.loads.decision import (
    Cause,
    Decision,
    Exposure,
    Inputs,
    Lifter,
    Moment,
    Outcome,
    SetDone,
    next_decision,
)
from core.loads.equipment import Kit, default_kit
from core.loads.given import given_dose
from core.loads.lift import Lift
from core.loads.looking_back import (
    LOOK_BACK,
    PAIN_BEARS,
    TRAINED_BEARS,
    asked_dose,
    last_trained,
    least_asked,
)
from core.loads.order import CoachOrder
from core.loads.sister_lifts import SISTERS
from core.local_time import local_date
from core.programme.carried_over import carried_over
from core.programme.exercises import Exercise, Side
from core.programme.prescription import Dose, Load, LoadKind, Prescription, Span
from core.units import Unit as MassUnit

__all__ = ["given_dose"]

BEFORE = 0
"""Week of what was trained before the block, and before us."""


def exposures(
    client_id: int, exercise: str, unit: Unit, place: str | None = None, *, limit: int = LOOK_BACK
) -> tuple[Exposure, ...]:
    """Return the last exposures of an exercise, oldest first; before them the last load that the coach has noted.

    Args:
        client_id: Whose.
        exercise: Key in the catalogue.
        unit: Open transaction.
        place: Where it is done now: a machine counts only there, for that of another place has other pins. None for
            the usual place.
        limit: How many sessions are looked at.
    """
    past, is_noted = _past_there(client_id, exercise, unit, place, limit)
    logged: dict[int, list[LoggedSet]] = {}
    for each in unit.sets.standing([item.id for _, item in past]):
        logged.setdefault(each.item_id, []).append(each)
    eased, lighter = eased_on(
        client_id, unit.exercises.get(exercise), {each.local_on for each, _ in past}, unit
    )
    merged = unit.moves.took_in(client_id)
    found = tuple(
        _exposure(
            session,
            item,
            logged.get(item.id, []),
            eased=session.local_on in eased,
            deload=session.local_on in lighter,
            merged=session.id in merged,
        )
        for session, item in past
        if session.state != "left_out" and (item.state != "open" or logged.get(item.id))
    )
    noted = unit.last_loads.standing(client_id).get(exercise) if is_noted and len(past) < limit else None
    if noted is None or any(each.sets and each.on <= noted.local_on for each in found):
        return found
    return tuple(sorted((_noted(noted, unit), *found), key=lambda each: each.on))


def read_history(client_id: int, exercises: Collection[str], unit: Unit) -> None:
    """Read ahead what was done of several exercises, in one question for all of them."""
    unit.sets.read_standing(unit.sessions.read_past(client_id, exercises, LOOK_BACK))


def _past_there(
    client_id: int, exercise: str, unit: Unit, place: str | None, limit: int
) -> tuple[list[tuple[Session, Item]], bool]:
    """Return what was done of an exercise, for a machine at that place alone; and whether the coach's note counts."""
    past = unit.sessions.past_items(client_id, exercise, limit)
    if not is_of_a_place(unit.exercises.get(exercise)):
        return past, True
    usual = usual_place(client_id, unit)
    return done_there(past, place, usual), is_usual(place, usual)


def _noted(kept: KeptLastLoad, unit: Unit) -> Exposure:
    """Return a last load that the coach has noted as an exposure: one set of a search, in which a load was found.

    A search, since nobody knows what had been asked for: what was found is a load to begin with, and no reason to
    raise. `by_tap`, since it says nothing of effort. The numbers of its session and row are those of the note with a
    minus, so that none can be that of a session or set in the log.
    """
    value = kept.value
    dose = Dose(
        sets=1,
        reps=Span(low=value.reps, high=value.reps),
        load=Load.find(),
        each_side=unit.exercises.get(value.exercise).each_side,
    )
    return Exposure(
        session_id=-kept.id,
        on=value.on,
        week_no=BEFORE,
        dose=dose,
        sets=(SetDone(row_id=-kept.id, set_no=1, load=value.load, reps=value.reps),),
        by_tap=True,
        written=Load.find(),
    )


def _exposure(
    session: Session, item: Item, logged: list[LoggedSet], *, eased: bool, deload: bool, merged: bool
) -> Exposure:
    done = [
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
    if done and item.left_last is not None and done[-1].left is None:
        done[-1] = done[-1].model_copy(update={"left": item.left_last})
    short = len({each.set_no for each in logged}) < item.given.sets
    outcome = Outcome.SKIPPED if not done else Outcome.PARTIAL if short else Outcome.DONE
    return Exposure(
        session_id=session.id,
        on=session.local_on,
        week_no=session.week_no,
        dose=asked_dose(item.prescription.dose, item.given),
        sets=tuple(done),
        by_tap=bool(logged) and all(each.by_tap for each in logged),
        outcome=outcome,
        cause=Cause(item.cause) if item.cause else None,
        effort=session.effort,
        written=item.prescription.dose.load if item.exercise == item.prescription.exercise else None,
        eased=eased,
        deload=deload,
        merged=merged,
        least=least_asked(item.prescription.dose, item.given),
    )


def inputs_for(
    client: Client,
    exercise: str,
    dose: Dose,
    moment: Moment,
    kit: Kit,
    unit: Unit,
    *,
    card_is_out: bool = False,
) -> Inputs:
    """Gather everything a decision rests on.

    Once the card is out, what the coach had eased for that very session is used up; it still bears on it.
    """
    history = exposures(client.id, exercise, unit, kit.place)
    dose = _found_anew(dose, unit.exercises.get(exercise), client, kit, unit) if not history else dose
    since = moment.today - TRAINED_BEARS
    trained = {
        *unit.sessions.trained_on(client.id, since, moment.today),
        *unit.last_loads.dates(client.id, since, moment.today),
    }
    return Inputs(
        exercise=unit.exercises.get(exercise),
        dose=dose,
        history=history,
        kit=kit,
        policy=unit.rules.policy(client.id, exercise),
        lifter=_lifter(client, moment.today, unit),
        moment=moment,
        last_trained=last_trained(history),
        trained_on=tuple(sorted(trained)),
        orders=_orders(client.id, exercise, moment.today, unit, card_is_out=card_is_out),
        limits=unit.clinician_limits.standing(client.id, moment.today),
        go_aheads=unit.go_aheads.allowed(client.id),
        lifts=() if history else _sister_lifts(client.id, exercise, unit),
    )


def _orders(
    client_id: int, exercise: str, today: date, unit: Unit, *, card_is_out: bool
) -> tuple[CoachOrder, ...]:
    """Return what the coach has ordered of an exercise, her absence with it."""
    kept = unit.orders.standing(client_id)
    if card_is_out:
        kept += [each for each in unit.orders.used(client_id) if each.until_on == today]
    done = unit.exercises.get(exercise)
    return orders_with_absence([each.value for each in kept if each.value.bears_on(done)], today, unit)


def _lifter(client: Client, today: date, unit: Unit) -> Lifter:
    """Gather what the rules need to know of the person."""
    since = today - PAIN_BEARS
    return Lifter(
        age_band=client.age_band or "18-39",
        new=client.experience == "new",
        frozen=client.frozen_at is not None,
        pain=marked(report.as_pain() for report in unit.body.bearing(client.id, since)),
        ill=tuple(each.value for each in unit.illnesses.bearing(client.id, since)),
        taken_up_on=_taken_up_on(client, since, unit),
        **lifter_health(client, unit, today),
    )


def _taken_up_on(client: Client, since: date, unit: Unit) -> date | None:
    """Return when the coach last released a stop sign; None where there was none."""
    released = [each.released_at for each in unit.body.since(client.id, since, "stop_sign")]
    newest = max((at for at in released if at is not None), default=None)
    return None if newest is None else local_date(newest, client.zone or "UTC")


def _found_anew(dose: Dose, exercise: Exercise, client: Client, kit: Kit, unit: Unit) -> Dose:
    """Return what is asked for of a machine that she has not used: its load is found, whatever another one showed."""
    load = dose.load
    here = not is_of_a_place(exercise) or kit.place == kit_of(client, unit).place
    if here or load is None or load.kind not in (LoadKind.MASS, LoadKind.UP):
        return dose
    return dose.model_copy(update={"load": Load.find()})


def _sister_lifts(client_id: int, exercise: str, unit: Unit) -> tuple[Lift, ...]:
    """Return the sets of the lift that says where a search for a first load of an exercise may begin."""
    sister = SISTERS.get(exercise)
    if sister is None:
        return ()
    return tuple(
        Lift(exercise=sister.of, load=each.load.mass, reps=each.reps, left=each.left, on=past.on)
        for past in exposures(client_id, sister.of, unit)
        for each in past.sets
        if each.load is not None and each.load.mass is not None and each.reps
    )


def kit_of(client: Client, unit: Unit) -> Kit:
    """Return the kit of the client's usual place; the default of her kind until she has said more."""
    found = unit.kits.usual(client.id)
    if found is not None:
        return found
    return default_kit(client.kit_kind or "bodyweight", MassUnit(client.unit or "kg"))


def weighed(
    client: Client, exercise: str, dose: Dose, moment: Moment, kit: Kit, unit: Unit
) -> tuple[Inputs, Decision]:
    """Decide and keep nothing: returns what the decision rests on, and the decision."""
    inputs = inputs_for(client, exercise, dose, moment, kit, unit)
    return inputs, next_decision(inputs)


def decide(
    client: Client,
    exercise: str,
    dose: Dose,
    moment: Moment,
    made_for: str,
    unit: Unit,
    now: datetime,
    *,
    card_is_out: bool = False,
    kit: Kit | None = None,
) -> tuple[int, Decision]:
    """Decide and keep: returns the row and the decision. The kit is that of the usual place where none is given."""
    there = kit_of(client, unit) if kit is None else kit
    inputs = inputs_for(client, exercise, dose, moment, there, unit, card_is_out=card_is_out)
    decision = next_decision(inputs)
    return unit.decisions.keep(client.id, None, made_for, inputs, decision, now), decision


def dose_for(exercise: Exercise, prescription: Prescription) -> Dose:
    """Return what is asked for of an exercise: as written, or carried over where it stands in for another."""
    if exercise.key == prescription.exercise:
        return prescription.dose
    return carried_over(prescription.dose, exercise)
