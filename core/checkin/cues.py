"""A coach's cues: which is shown with an exercise, and which is said when something hurts a little.

A cue for a place that hurts is said at 1 to 3 alone, beside the words that belong there; never from 4 on, and never
where pain spreads or came suddenly.
"""

from collections.abc import Iterable

from core.checkin.pain import Band, PainAction, PainReport, band, in_session_action
from core.checkin.sites import SITE_WORDS
from core.programme.exercises import Side, Site
from core.value import Value

LONGEST = 200
"""Longest cue. [characters] As in a block."""

_SIDES = {"left": Side.LEFT, "right": Side.RIGHT}
_BOTH = frozenset({"both", "either", "my", "the"})


class Cue(Value):
    """What a coach says of an exercise, of a place that hurts, or of a place that hurts in an exercise.

    Attributes:
        row_id: Row it is kept in; later ones are higher.
        for_one: True when it is for this client alone.
        exercise: Key; None for any.
        site: Where it hurts; None for a cue that is shown with the exercise.
        side: Left or right; None for both.
        text: What she says. [1..200 characters]
    """

    row_id: int
    for_one: bool
    exercise: str | None
    site: Site | None
    side: Side | None = None
    text: str


class BodyPlace(Value):
    """A site, and a side where one was said."""

    site: Site
    side: Side | None = None


def exercise_cue(cues: Iterable[Cue], exercise: str, *, for_one: bool) -> str | None:
    """Return what a coach says of an exercise to one client, or to all; None where she says nothing.

    Args:
        cues: Those for this client and those for all.
        exercise: Key.
        for_one: True for what is for this client alone.
    """
    found = [one for one in cues if one.site is None and one.exercise == exercise and one.for_one is for_one]
    return max(found, key=lambda one: one.row_id).text if found else None


def cue_at(cues: Iterable[Cue], report: PainReport) -> str | None:
    """Return what a coach says of pain like this; None where she says nothing or pain asks for more than a cue.

    What is for this client goes before what is for all, then what is for the exercise, then what is for the side.
    """
    if in_session_action(report) is not PainAction.NOTE or band(report) is not Band.LOW:
        return None
    found = [one for one in cues if _fits(one, report)]
    nearest = max(found, key=_nearness, default=None)
    return nearest.text if nearest is not None else None


def _fits(cue: Cue, report: PainReport) -> bool:
    return (
        cue.site is report.site
        and cue.exercise in (None, report.exercise)
        and (cue.side is None or report.side in (None, cue.side))
    )


def _nearness(cue: Cue) -> tuple[bool, bool, bool, int]:
    return cue.for_one, cue.exercise is not None, cue.side is not None, cue.row_id


def place_named(text: str) -> BodyPlace | None:
    """Return the place that words name, such as `left knee`; None for none, and for words that may mean two."""
    words = text.casefold().split()
    sides = {_SIDES[word] for word in words if word in _SIDES}
    rest = " ".join(word for word in words if word not in _SIDES and word not in _BOTH)
    found = SITE_WORDS.get(rest)
    if found is None or len(found.sites) > 1 or len(sides) > 1:
        return None
    return BodyPlace(site=found.sites[0], side=next(iter(sides), None))
