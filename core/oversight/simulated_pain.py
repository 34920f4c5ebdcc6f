"""Pain now and then: where something begins to hurt, how it goes on, what is reported, and the coach's release.

How often and how badly is invented for the rehearsal, and nothing here says how pain goes in anybody real. It is there
so that the rules of pain have something to hold.
"""

from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta

from core.checkin.pain import SPINE, Band, Felt, PainReport, band, loads_site, locks
from core.loads.looking_back import PAIN_BEARS
from core.oversight.chance import Chance, by_share, chosen, happens, whole
from core.programme.exercises import Exercise, Side, Site

BEGINS = 0.012
"""Share of sessions in which something begins to hurt. Invented for the rehearsal."""
FIRST_SCORE: tuple[tuple[tuple[int, int], float], ...] = (((1, 3), 0.62), ((4, 6), 0.30), ((7, 8), 0.08))
"""Scores that it begins with, and their shares. [0..10] Invented for the rehearsal."""
SUDDEN, SPREADING = 0.10, 0.08
"""Share of 7 and over that comes suddenly, and of back and neck that spreads. Invented for the rehearsal."""
SETTLES = 0.8
"""Share of pains that settle by one or two from session to session; others stay or go up and down by one. Invented for
the rehearsal."""
TOLD = 0.8
"""How often it is told again while it hurts. Invented for the rehearsal."""
NAMES_EXERCISE = 0.75
"""How often it is told with the exercise that is being done. Invented for the rehearsal."""
NO_NUMBER = 0.05
"""How often it is told without a number. Invented for the rehearsal."""
MORNING = 0.25
"""How often the next morning is told of too. Invented for the rehearsal."""
RELEASE_AFTER = (4, 12)
"""Days until the coach looks at what is locked; she releases it once it is at 3 or less. [days] Invented for the
rehearsal."""
RELEASED_AT_MOST = 3
"""Score at which what was locked is released. [0..10] Invented for the rehearsal."""


@dataclass(frozen=True, slots=True)
class Hurting:
    """Something that hurts at present.

    Attributes:
        site: Where.
        side: Left or right; None in the middle of the body.
        score: Today. [0..10]
        settles: True when it gets less from session to session.
        spreading: Down a leg or arm.
        looked_at: When the coach looks at what it locks.
        told_on: When it was last told.
    """

    site: Site
    side: Side | None
    score: int
    settles: bool
    spreading: bool
    looked_at: date
    told_on: date


class SimulatedPain:
    """What hurts one simulated client, and what she has told of it.

    Args:
        chance: A stream of its own.
    """

    def __init__(self, chance: Chance) -> None:
        self._chance = chance
        self._hurting: Hurting | None = None
        self._reports: list[PainReport] = []
        self._begins_in: str | None = None

    def known(self, today: date) -> tuple[PainReport, ...]:
        """Return the reports that decisions of a day see: of the last weeks, and whatever still locks."""
        return tuple(
            one
            for one in self._reports
            if one.on <= today
            and (
                one.on >= today - PAIN_BEARS
                or (one.released_at is None and (one.spreading or band(one) is Band.HIGH))
            )
        )

    @property
    def told(self) -> tuple[PainReport, ...]:
        """Every report so far."""
        return tuple(self._reports)

    def wake(self, today: date) -> None:
        """Let a session's day begin: what hurts goes on from the last one, and the coach releases what she may."""
        hurting = self._hurting
        if hurting is None:
            return
        step = -whole(self._chance, 1, 2) if hurting.settles else whole(self._chance, -1, 1)
        score = min(max(hurting.score + step, 0), 8)
        if today >= hurting.looked_at and score <= RELEASED_AT_MOST:
            self._release(today)
            if score == 0:
                self._hurting = None
                return
        self._hurting = replace(hurting, score=score)

    def plan(self, exercises: list[Exercise]) -> None:
        """Draw whether something begins to hurt in a session of these exercises, and in which."""
        begins, place = happens(self._chance, BEGINS), self._chance.random()
        free = begins and self._hurting is None and exercises
        self._begins_in = exercises[int(place * len(exercises))].key if free else None

    def felt_in(self, exercise: Exercise, today: date) -> PainReport | None:
        """Return what is reported while an exercise is done; None for nothing."""
        hurting = self._hurting
        if hurting is None:
            if self._begins_in != exercise.key:
                return None
            hurting = self._begun(exercise, today)
        elif (
            hurting.told_on == today
            or hurting.score == 0
            or not loads_site(exercise, hurting.site)
            or not happens(self._chance, TOLD)
        ):
            return None
        self._hurting = replace(hurting, told_on=today)
        named = exercise.key if happens(self._chance, NAMES_EXERCISE) else None
        told = self._report(hurting, today, named)
        if happens(self._chance, MORNING):
            morning = hurting.score + whole(self._chance, -2, 1)
            self._report(replace(hurting, score=min(max(morning, 0), 10)), today + timedelta(days=1), named)
        return told

    def locks(self, exercise: Exercise) -> bool:
        """Return whether something reported so far forbids an exercise."""
        return any(locks(one, exercise) for one in self._reports)

    def _begun(self, exercise: Exercise, today: date) -> Hurting:
        chance = self._chance
        site = chosen(chance, sorted(exercise.loads_sites))
        low, high = by_share(chance, FIRST_SCORE)
        self._begins_in = None
        middle = site in SPINE or site in (Site.CHEST, Site.ABDOMEN)
        side = chosen(chance, tuple(Side))
        return Hurting(
            site=site,
            side=None if middle else side,
            score=whole(chance, low, high),
            settles=happens(chance, SETTLES),
            spreading=happens(chance, SPREADING) and site in SPINE,
            looked_at=today + timedelta(days=whole(chance, *RELEASE_AFTER)),
            told_on=today,
        )

    def _report(self, hurting: Hurting, on: date, exercise: str | None) -> PainReport:
        morning = on != hurting.told_on
        sudden = happens(self._chance, SUDDEN) and hurting.score >= 7
        numbered = not happens(self._chance, NO_NUMBER)
        told = PainReport(
            row_id=len(self._reports) + 1,
            site=hurting.site,
            side=hurting.side,
            score=hurting.score if numbered else None,
            felt=Felt.MORNING if morning else Felt.DURING,
            on=on,
            at=datetime.combine(on, time(7 if morning else 18), UTC),
            exercise=exercise,
            sudden=sudden and not morning,
            spreading=hurting.spreading,
        )
        self._reports.append(told)
        return told

    def _release(self, today: date) -> None:
        at = datetime.combine(today, time(12), UTC)
        self._reports = [
            one if one.released_at is not None else one.model_copy(update={"released_at": at})
            for one in self._reports
        ]
