"""How pain at a place goes on: whether a rise matters, how often it flared, whether it gets better, when it is asked.

Worked out from the reports of one client alone. Thresholds are our proposal after a practising coach's review unless a
source stands beside them.
"""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from core.checkin.pain import Felt, PainReport, flares
from core.value import Value

RISE = 2
"""Rise of a score that may matter. [0..10] Our proposal."""
RISEN_TO = 4
"""Score at which a rise matters at once; under it only when it comes twice running. [0..10] Our proposal."""
FLARES_WITHIN = timedelta(days=28)
"""Two flares of a place within this time are told to the coach. [days] Our proposal."""
FLARE_OVER = timedelta(days=7)
"""Days between two reports after which a flare is another one. [days] Our proposal."""
NO_BETTER_AFTER = timedelta(days=14)
"""Pain that is no better after this time is told to the coach. [days] Our proposal."""
SPELL_OVER = timedelta(days=14)
"""Days without a word of a place after which pain there is a new spell. [days] Our proposal."""
NEW_AFTER = timedelta(days=28)
"""Days without pain at a place after which it is a new place. [days] Our proposal."""
ASKED_WITHIN = timedelta(days=7)
"""A week, in which a place that stays as it was is asked about `MOST_ASKED` times. [days] Our proposal."""
MOST_ASKED = 2
"""Most mornings a week that a place is asked about that stays as it was. Our proposal."""
UNSAID = 4
"""What a report without a number is compared as: it counts as 4 to 6. [0..10] Our proposal."""


class Course(Value):
    """What is to be told of how a place has gone on, up to one report.

    Attributes:
        rose: A rise that matters.
        morning: True when the rise is that of a morning over before the session.
        flares: How many times it flared in four weeks, this one counted; 0 where it does not flare now.
        no_better: True when it hurt two weeks ago and is no better.
    """

    rose: bool = False
    morning: bool = False
    flares: int = 0
    no_better: bool = False

    @property
    def suggests_physio(self) -> bool:
        """True when the coach is told to suggest a physiotherapist: two flares in four weeks, or no better in two."""
        return self.flares > 1 or self.no_better


def same_place(one: PainReport, other: PainReport) -> bool:
    """Return whether two reports are of one place; where a side was not said, or it is both, it may be either."""
    return one.site is other.site and (one.side is other.side or one.side is None or other.side is None)


def marked(reports: Iterable[PainReport]) -> tuple[PainReport, ...]:
    """Return reports, oldest first, with each that matters by how it went marked so."""
    ordered = sorted(reports, key=_when)
    return tuple(one.model_copy(update={"rose": True}) if _rose(one, ordered) else one for one in ordered)


def course(report: PainReport, reports: Iterable[PainReport]) -> Course:
    """Return what is to be told of a place, up to a report.

    Args:
        report: The newest.
        reports: All that are known, of any place; later ones are left out.
    """
    place = [
        one for one in marked([*reports, report]) if same_place(one, report) and _when(one) <= _when(report)
    ]
    now = place[-1]
    return Course(
        rose=now.rose,
        morning=now.rose and now.felt is Felt.MORNING,
        flares=_flares_lately(place, report.on) if flares(now) else 0,
        no_better=_no_better(place),
    )


def asked_next_morning(report: PainReport, earlier: Iterable[PainReport], asked_on: Sequence[date]) -> bool:
    """Return whether the next morning one question is asked about a report.

    It is after 4 and over, after a rise that matters, and at a new place; where it stays as it was, twice a week at
    most. What was answered in a morning is asked again only while it is 4 and over.

    Args:
        report: Today's.
        earlier: What was reported before it.
        asked_on: Mornings on which this place was asked about.
    """
    if report.score == 0 and not flares(report):
        return False
    before = [one for one in earlier if same_place(one, report) and _when(one) < _when(report)]
    found = flares(report) or _rose(report, before)
    if report.felt is Felt.MORNING or found:
        return found
    if not any(one.score != 0 and report.on - one.on <= NEW_AFTER for one in before):
        return True
    return sum(report.on - on < ASKED_WITHIN for on in asked_on) < MOST_ASKED


def _when(report: PainReport) -> tuple[date, object, int]:
    return report.on, report.at, report.row_id


def _rose(report: PainReport, reports: Sequence[PainReport]) -> bool:
    """Return whether a score matters by itself: a rise to 4 and over, one twice running, or a worse morning."""
    if report.score is None:
        return False
    before = [one for one in reports if same_place(one, report) and _when(one) < _when(report)]
    if report.felt is Felt.MORNING:
        day_before = report.on - timedelta(days=1)
        fresh = [
            one.score or 0 for one in before if one.felt is Felt.BEFORE and one.on in (day_before, report.on)
        ]
        return bool(fresh) and report.score >= min(fresh) + RISE
    days = [worst for on, worst in _by_day(before) if on < report.on]
    if days and report.score >= max(days[-1] + RISE, RISEN_TO):
        return True
    return len(days) > 1 and min(report.score, days[-1]) >= days[-2] + RISE


def _by_day(reports: Iterable[PainReport]) -> list[tuple[date, int]]:
    """Return the worst score of each day, mornings left out, oldest first."""
    found: dict[date, int] = {}
    for one in reports:
        if one.felt is not Felt.MORNING:
            found[one.on] = max(found.get(one.on, 0), _read(one))
    return sorted(found.items())


def _read(report: PainReport) -> int:
    return UNSAID if report.score is None else report.score


def _flares_lately(place: Sequence[PainReport], today: date) -> int:
    """Return how many flares began in the last four weeks: one ends with a day that is calm, or a week of no word."""
    days: dict[date, bool] = {}
    for one in place:
        days[one.on] = days.get(one.on, False) or flares(one)
    began: list[date] = []
    last: date | None = None
    for on, flared in sorted(days.items()):
        if flared and (last is None or not days[last] or on - last >= FLARE_OVER):
            began.append(on)
        last = on
    return sum(today - on < FLARES_WITHIN for on in began)


def _no_better(place: Sequence[PainReport]) -> bool:
    """Return whether a place has hurt for two weeks and is not less than two weeks ago."""
    now = place[-1]
    spell: list[PainReport] = [now]
    for one in reversed(place[:-1]):
        if one.score == 0 or spell[-1].on - one.on > SPELL_OVER:
            break
        spell.append(one)
    then = [one for one in spell if now.on - one.on >= NO_BETTER_AFTER]
    return bool(then) and now.score != 0 and _read(now) >= _read(then[0])
