"""Pain: sites, bands, and which patterns load a site."""

from collections.abc import Mapping
from datetime import date, datetime
from decimal import Decimal
from enum import IntEnum, StrEnum
from typing import ClassVar

from pydantic import Field

from core.programme.exercises import Exercise, Pattern, Side, Site
from core.value import Grown


class Felt(StrEnum):
    """When it was felt."""

    BEFORE = "before"
    DURING = "during"
    AFTER = "after"
    MORNING = "next morning"


class Band(StrEnum):
    """How much a score asks for: cautious bands 0, 1-3, 4-6, 7-10."""

    NONE = "none"
    LOW = "1-3"
    MIDDLE = "4-6"
    HIGH = "7-10"


class PainReport(Grown):
    """One answer about pain.

    Attributes:
        row_id: Row it is kept in.
        site: Where.
        side: Left or right, where it was said.
        score: 0-10; None when no number was given, which counts as 4-6 until answered.
        felt: When it was felt.
        on: The client's local date.
        at: Instant of the report, aware.
        exercise: Exercise it came with, if any.
        sudden: Sudden, or with a pop.
        spreading: Down the leg or arm, numb, or tingling.
        painkiller: Something was taken for it: read one band higher.
        released_at: When the coach released what this report locked; None while locked.
        weak: New or growing weakness of one leg or arm.
        fever: With a fever: asked of the back and the neck.
        after_birth: Heaviness, leaking, doming or bleeding in the year after a birth.
        rose: It matters by how it went (`core.checkin.pain_course`), so that it counts as 4 and over.
    """

    later: ClassVar[frozenset[str]] = frozenset({"weak", "fever", "after_birth", "rose"})

    row_id: int
    site: Site
    side: Side | None = None
    score: int | None = Field(default=None, ge=0, le=10)
    felt: Felt = Felt.DURING
    on: date
    at: datetime
    exercise: str | None = None
    sudden: bool = False
    spreading: bool = False
    painkiller: bool = False
    released_at: datetime | None = None
    weak: bool = False
    fever: bool = False
    after_birth: bool = False
    rose: bool = False


class AlertLevel(IntEnum):
    """How soon the coach must hear of a report."""

    NONE = 0
    DIGEST = 1
    TODAY = 2
    NOW = 3


class PainAction(StrEnum):
    """What a report asks for in the session that is going on."""

    NOTE = "note"
    """Keep it; train on as planned, with the coach's own cue for the site if there is one."""
    EASE = "ease"
    """One try: 20-40 % lighter or a shorter range, until it is 3 or less."""
    SWAP = "swap"
    """The try did not help: something else that does not load the site."""
    STOP_EXERCISE = "stop exercise"
    """This exercise, and what else loads the spine or the site, is over for today."""
    STOP_SESSION = "stop session"
    """The session is over."""


EASE_LEAST = Decimal("0.20")
"""Least that a load is eased by on the spot. [fraction] Our proposal."""
EASE_MOST = Decimal("0.40")
"""Most that a load is eased by on the spot, before it is swapped. [fraction] Our proposal."""

SPINE = frozenset({Site.NECK, Site.UPPER_BACK, Site.LOW_BACK})
"""Sites where spreading pain forbids every loaded hinge and all that presses on the spine."""

_PRESSES = frozenset({Pattern.HORIZONTAL_PRESS, Pattern.VERTICAL_PRESS})
_GRIPPED = frozenset({Pattern.CURL, Pattern.CARRY, Pattern.SWING})
_KNEE_BENT = frozenset({Pattern.SQUAT, Pattern.LUNGE, Pattern.STEP})
_PULLS = frozenset({Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL})

AXIAL = _KNEE_BENT | {
    Pattern.HINGE,
    Pattern.SWING,
    Pattern.CARRY,
    Pattern.VERTICAL_PRESS,
    Pattern.SHRUG,
    Pattern.JUMP,
}
"""Patterns that bend or press on a loaded spine. Our proposal, wide on purpose."""

_ALWAYS: Mapping[Site, frozenset[Pattern]] = {
    Site.KNEE: _KNEE_BENT | {Pattern.KNEE_EXTENSION, Pattern.JUMP},
    Site.LOW_BACK: frozenset(
        {Pattern.HINGE, Pattern.SQUAT, Pattern.CARRY, Pattern.SWING, Pattern.VERTICAL_PRESS}
    ),
    Site.SHOULDER: _PRESSES | {Pattern.DIP, Pattern.VERTICAL_PULL},
    Site.WRIST: _PRESSES | _GRIPPED,
    Site.ELBOW: _PRESSES | _GRIPPED,
    Site.HIP: frozenset({Pattern.SQUAT, Pattern.LUNGE, Pattern.HINGE}),
    Site.GROIN: frozenset({Pattern.SQUAT, Pattern.LUNGE, Pattern.HINGE}),
    Site.ANKLE: frozenset({Pattern.CALF, Pattern.JUMP, Pattern.LUNGE}),
    Site.CALF: frozenset({Pattern.CALF, Pattern.JUMP, Pattern.LUNGE}),
    Site.NECK: frozenset({Pattern.VERTICAL_PRESS, Pattern.SHRUG, Pattern.CARRY}),
    # The rows below are ours: the table of the trade names no pattern for these sites.
    Site.HAND: _GRIPPED,
    Site.FOREARM: _GRIPPED,
    Site.UPPER_BACK: _PULLS | {Pattern.SHRUG, Pattern.CARRY, Pattern.HINGE},
    Site.CHEST: frozenset({Pattern.HORIZONTAL_PRESS, Pattern.DIP}),
    Site.ABDOMEN: frozenset({Pattern.TRUNK}),
    Site.THIGH: _KNEE_BENT | {Pattern.KNEE_EXTENSION, Pattern.JUMP},
    Site.HAMSTRING: frozenset({Pattern.HINGE, Pattern.KNEE_FLEXION, Pattern.SWING}),
    Site.SHIN: frozenset({Pattern.CALF, Pattern.JUMP, Pattern.LUNGE}),
    Site.FOOT: frozenset({Pattern.CALF, Pattern.JUMP, Pattern.LUNGE}),
    Site.BUTTOCK: frozenset({Pattern.HINGE, Pattern.BRIDGE, Pattern.SQUAT, Pattern.LUNGE}),
    Site.UPPER_ARM: _PRESSES | {Pattern.CURL, Pattern.ELBOW_EXTENSION, Pattern.DIP},
}

_IN_PART: Mapping[Site, frozenset[Pattern]] = {
    Site.LOW_BACK: frozenset({Pattern.HORIZONTAL_PULL}),
    Site.WRIST: frozenset({Pattern.SQUAT}),
    Site.ELBOW: frozenset({Pattern.SQUAT}),
    Site.NECK: frozenset({Pattern.SQUAT}),
}
"""Patterns of which only some exercises load the site: rows without a support, a bar on front or back."""


def patterns_loaded_by(site: Site) -> frozenset[Pattern]:
    """Return every pattern that loads a site, in all its exercises or in some of them.

    Our proposal after a practising coach's review; a coach may set it.
    """
    return _ALWAYS[site] | _IN_PART.get(site, frozenset())


def loads_site(exercise: Exercise, site: Site) -> bool:
    """Return whether an exercise loads a site: by its pattern, or by its own row in the catalogue."""
    return exercise.pattern in _ALWAYS[site] or site in exercise.loads_sites


def band(report: PainReport) -> Band:
    """Return how much a report asks for.

    Without a number it counts as 4-6 until answered; a painkiller lifts it one band; sudden pain or a pop is the
    highest whatever the number. The bands are the cautious ones of those published. Source: [Boonstra2016].
    """
    if report.sudden:
        return Band.HIGH
    if report.score is None:
        read = Band.MIDDLE
    else:
        read = _BANDS[0 if report.score == 0 else 1 if report.score <= 3 else 2 if report.score <= 6 else 3]
    return _BANDS[min(_BANDS.index(read) + 1, 3)] if report.painkiller else read


_BANDS = (Band.NONE, Band.LOW, Band.MIDDLE, Band.HIGH)


def flares(report: PainReport) -> bool:
    """Return whether a report is of 4 and over, without a number, or matters for another reason.

    Those are: sudden, spreading, with weakness or fever, a sign after a birth, or a rise that matters.
    """
    return grave(report) or report.rose or band(report) is Band.MIDDLE


def urgent(report: PainReport) -> bool:
    """Return whether a report is to be seen by a doctor today: new weakness of a limb, or a fever with it.

    Our proposal after a practising coach's review, as for the same words when they are typed.
    """
    return report.weak or report.fever


def grave(report: PainReport) -> bool:
    """Return whether a report is of the kind that locks what it bears on until the coach releases it."""
    return report.spreading or urgent(report) or report.after_birth or band(report) is Band.HIGH


def is_locking(report: PainReport) -> bool:
    """Return whether a report locks something now."""
    return report.released_at is None and grave(report)


def bears_on(report: PainReport, exercise: Exercise) -> bool:
    """Return whether a report is about this exercise, or about a site that it loads."""
    if report.exercise == exercise.key or loads_site(exercise, report.site):
        return True
    reaches = report.spreading or urgent(report)
    return reaches and report.site in SPINE and exercise.pattern in AXIAL


def locks(report: PainReport, exercise: Exercise) -> bool:
    """Return whether a report forbids this exercise until the coach releases it.

    Pain of 7 and over and sudden pain forbid all that loads the site, and so does a sign after a birth. Spreading pain,
    weakness and fever do so at any score, and from back or neck forbid also every hinge and all that presses on the
    spine. Our proposal; never loosened.
    """
    return is_locking(report) and bears_on(report, exercise)


def in_session_action(report: PainReport, *, eased: bool = False) -> PainAction:
    """Return what a report asks for at once.

    Args:
        report: Given in a session.
        eased: True when lighter or shorter was tried already for it.

    Our proposal after a practising coach's review and the pain-monitoring model, which is for work under a
    clinician and allows more. Source: [Silbernagel2007].
    """
    if urgent(report) or band(report) is Band.HIGH:
        return PainAction.STOP_SESSION
    if report.spreading or report.after_birth:
        return PainAction.STOP_EXERCISE
    if band(report) is Band.MIDDLE:
        return PainAction.SWAP if eased else PainAction.EASE
    return PainAction.NOTE


def alert_level(report: PainReport) -> AlertLevel:
    """Return how soon the coach must hear of a report: at once, today, or in the digest. Our proposal."""
    if grave(report):
        return AlertLevel.NOW
    if flares(report):
        return AlertLevel.TODAY
    return AlertLevel.DIGEST if band(report) is Band.LOW else AlertLevel.NONE
