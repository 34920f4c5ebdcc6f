"""One simulated client, from the first session of a block to its last.

Nothing here decides a load: each comes from the same rules that decide for anybody real, made from the same inputs.
There is no coach beside her: nobody rewrites a load, eases or pauses anything, and what rules leave to the coach stays
as it is. Only pain that locks is released by and by.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from core.checkin.pain import Band, Felt, PainAction, band, in_session_action
from core.loads.asked import amount
from core.loads.decision import Decision, Inputs, Kind, Moment, next_decision
from core.loads.given import given_dose
from core.loads.hard_sets import hard_sets
from core.loads.looking_back import asked_dose, least_asked
from core.loads.past import Cause, Exposure, Outcome
from core.loads.personalise import personalised
from core.loads.reasons import ReasonCode
from core.loads.substitutes import Circumstances
from core.oversight.attendance import Attendance, attended
from core.oversight.chance import Chance
from core.oversight.rehearsal_log import Decide, Decided, RehearsalLog
from core.oversight.rehearsal_rules import Breach, broken_rules
from core.oversight.simulated_body import SimulatedBody
from core.oversight.simulated_lifter import SimulatedLifter, simulated_lifter
from core.oversight.simulated_pain import SimulatedPain
from core.oversight.simulated_session import Card, Done, SimulatedSession
from core.policy import Policy
from core.programme.block import Block, Weekday
from core.programme.calendar import WEEK, PlannedDay, sessions_between
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.muscles import Muscle
from core.programme.prescription import LoadKind
from core.programme.volume import counted_by_muscle
from core.units import Mass, Unit

STARTS_ON = date(2024, 1, 1)
"""A Monday; which one changes nothing."""
TRAINING_DAYS: Mapping[int, tuple[int, ...]] = {
    1: (0,), 2: (0, 3), 3: (0, 2, 4), 4: (0, 1, 3, 4), 5: (0, 1, 2, 3, 4), 6: (0, 1, 2, 3, 4, 5),
}  # fmt: skip
"""Days of the week for so many sessions, spread as is usual; every day for more. Common practice, no source."""
_POLICY = Policy()


@dataclass(frozen=True, slots=True)
class Told:
    """What is kept of one decision.

    Attributes:
        exercise: Key.
        week: Of the block.
        kind: What was decided.
        codes: Every reason, the first one first.
        binding: Reason of the lowest ceiling, of equals the one of most authority; None without any.
        waits: The jump that reps still have to earn, as a percentage; None where none waits.
    """

    exercise: str
    week: int
    kind: Kind
    codes: tuple[str, ...]
    binding: str | None
    waits: str | None


@dataclass(frozen=True, slots=True)
class Played:
    """What one simulated client made of a block.

    Attributes:
        number: From 1.
        lifter: Who it was.
        instead: What is done in place of what is written, by key; None where nothing can be and the coach is asked.
        sessions: Each session's week, and what became of it.
        told: Every decision.
        loads: Heaviest load lifted by exercise and week.
        sets: Hard sets done by week and muscle. [sets]
        pains: Band of each report of pain in a session.
        breaches: Decisions that broke a rule.
    """

    number: int
    lifter: SimulatedLifter
    instead: Mapping[str, str | None]
    sessions: tuple[tuple[int, Attendance], ...]
    told: tuple[Told, ...]
    loads: Mapping[tuple[str, int], Mass]
    sets: Mapping[tuple[int, Muscle], Decimal]
    pains: tuple[Band, ...]
    breaches: tuple[Breach, ...]


def played(
    block: Block,
    weeks: int,
    number: int,
    chance: Chance,
    catalogue: Mapping[str, Exercise] = CATALOGUE,
    decide: Decide = next_decision,
    policy: Policy = _POLICY,
) -> Played:
    """Play the first weeks of a block with one simulated client.

    Args:
        block: As written.
        weeks: How many of them. [1..block.weeks]
        number: Of the client, from 1.
        chance: Her own stream: the same stream is the same client.
        catalogue: Exercises that may be named.
        decide: What decides loads; for tests, another.
        policy: The coach's settings.
    """
    person, days, strength, words, hurts = chance.spawn(5)
    lifter = simulated_lifter(person, unit_of(block))
    hers = personalised(block, Circumstances(kits=(lifter.kit,), new=lifter.new), catalogue)
    planned = planned_days(block, weeks)
    comes = attended(days, (day.week_no for day in planned), lifter.misses)
    play = _Play(
        number=number,
        lifter=lifter,
        body=SimulatedBody(lifter, block, catalogue),
        pain=SimulatedPain(hurts),
        log=RehearsalLog(lifter, catalogue, decide, policy),
        catalogue=catalogue,
    )
    for day, attendance in zip(planned, comes, strict=True):
        if attendance is Attendance.KEPT:
            play.session(hers.block, day, strength, words)
    return Played(
        number=number,
        lifter=lifter,
        instead={one.exercise: one.instead for one in hers.changes},
        sessions=tuple((day.week_no, came) for day, came in zip(planned, comes, strict=True)),
        told=tuple(play.told),
        loads=play.loads,
        sets=play.sets,
        pains=tuple(band(one) for one in play.pain.told if one.felt is Felt.DURING),
        breaches=tuple(play.breaches),
    )


def planned_days(block: Block, weeks: int) -> tuple[PlannedDay, ...]:
    """Return the sessions of the first weeks of a block, on days of the week that are usual for so many."""
    days = [Weekday(day) for day in TRAINING_DAYS.get(len(block.days), tuple(range(7)))]
    last = STARTS_ON + WEEK * weeks - timedelta(days=1)
    return sessions_between(block, STARTS_ON, days, STARTS_ON, last)


def unit_of(block: Block) -> Unit:
    """Return the unit of the first load that is written; kilograms where none is."""
    loads = (line.prescription.dose.load for day in block.days for line in day.lines)
    return next((load.mass.unit for load in loads if load is not None and load.mass is not None), Unit.KG)


def told_of(inputs: Inputs, decision: Decision) -> Told:
    """Return what is kept of a decision."""
    ceilings = decision.line.ceilings
    forbids = next((one for one in ceilings if one.mass is None), None)
    masses = [one.mass for one in ceilings if one.mass is not None]
    lowest = next((one for one in ceilings if masses and one.mass == min(masses)), None)
    bound = forbids or lowest
    caps = (one.facts for one in decision.reasons if one.code == ReasonCode.CAP and "reps" in one.facts)
    return Told(
        exercise=inputs.exercise.key,
        week=inputs.moment.week_no,
        kind=decision.kind,
        codes=tuple(str(one.code) for one in decision.reasons),
        binding=None if bound is None else str(bound.reason.code),
        waits=next((facts["percent"] for facts in caps), None),
    )


class _Play:
    """What is kept while a client is played."""

    def __init__(
        self,
        *,
        number: int,
        lifter: SimulatedLifter,
        body: SimulatedBody,
        pain: SimulatedPain,
        log: RehearsalLog,
        catalogue: Mapping[str, Exercise],
    ) -> None:
        self._number, self._lifter, self._body = number, lifter, body
        self._log, self._catalogue = log, catalogue
        self._rows = 0
        self.pain = pain
        self.told: list[Told] = []
        self.loads: dict[tuple[str, int], Mass] = {}
        self.sets: dict[tuple[int, Muscle], Decimal] = {}
        self.breaches: list[Breach] = []

    def session(self, block: Block, day: PlannedDay, strength: Chance, words: Chance) -> None:
        """Play one session: everything is decided, then done, then kept."""
        self._body.wake(day.on)
        self.pain.wake(day.on)
        moment = Moment(today=day.on, week_no=day.week_no)
        known = self.pain.known(day.on)
        written = next(one for one in block.days if one.key == day.day_key)
        cards = [
            self._carded(self._log.decided(asked, moment, known)) for asked in written.in_week(day.week_no)
        ]
        self.pain.plan([self._catalogue[card.prescription.exercise] for card in cards])
        session = SimulatedSession(self._lifter, self._body, strength, words)
        done: list[Done] = []
        over = False
        for place, card in enumerate(cards):
            done.append(
                Done(cause=Cause.PAIN) if over else self._done(card, session, day.on, main=place == 0)
            )
            over = over or (done[-1].action is PainAction.STOP_SESSION)
        effort = session.effort(done)
        for card, one in zip(cards, done, strict=True):
            self._keep(card, one, day, effort)
        if any(one.sets for one in done):
            self._log.trained(day.on)

    def _carded(self, made: tuple[Decided, ...]) -> Decided:
        """Keep every decision, look at each for breaches, and return the one that holds."""
        for one in made:
            self.told.append(told_of(one.inputs, one.decision))
            self.breaches += [
                Breach(client=self._number, rule=rule, inputs=one.inputs, decision=one.decision)
                for rule in broken_rules(one.inputs, one.decision)
            ]
        return made[0] if made[-1].decision.kind in (Kind.SWAP, Kind.PAUSE) else made[-1]

    def _done(self, card: Decided, session: SimulatedSession, today: date, *, main: bool) -> Done:
        """Do one exercise, unless it is left out, or what hurt a moment ago locks it."""
        exercise = card.inputs.exercise
        if card.decision.kind is Kind.SWAP:
            return Done(cause=Cause.KIT)
        if card.decision.kind is Kind.PAUSE or self.pain.locks(exercise):
            return Done(cause=Cause.PAIN)
        report = self.pain.felt_in(exercise, today)
        action = None if report is None else in_session_action(report)
        given = given_dose(card.inputs.dose, card.decision)
        done = session.do(Card(exercise, given, card.decision.plan), self._rows + 1, action, asked_left=main)
        self._rows += len(done.sets)
        return done

    def _keep(self, card: Decided, done: Done, day: PlannedDay, effort: int | None) -> None:
        exercise, dose = card.inputs.exercise, card.inputs.dose
        given = given_dose(dose, card.decision)
        exposure = Exposure(
            session_id=len(self.told),
            on=day.on,
            week_no=day.week_no,
            dose=asked_dose(dose, given),
            sets=done.sets,
            by_tap=done.by_tap,
            outcome=done.outcome if done.sets else Outcome.SKIPPED,
            cause=done.cause,
            effort=effort,
            written=None if card.instead else dose.load,
            least=least_asked(dose, given),
        )
        self._log.keep(exercise.key, exposure)
        hard = hard_sets(exposure)
        if not done.sets:
            return
        self._body.train(exercise, hard)
        for muscle, sets in counted_by_muscle([(exercise, hard)]).items():
            self.sets[day.week_no, muscle] = self.sets.get((day.week_no, muscle), Decimal(0)) + sets
        mass = None if done.load is None or done.load.kind is LoadKind.BAND else amount(done.load, exercise)
        if mass is not None:
            key = exercise.key, day.week_no
            self.loads[key] = max(self.loads.get(key, mass), mass)
