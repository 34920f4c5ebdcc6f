"""What waits for the coach, in the digest: videos, raises, lifts to look at, referrals, reminders."""

from collections.abc import Iterator, Mapping
from html import escape

from bot.render.dates import day_words
from bot.render.loads import load_words
from core.oversight.digest import Digest
from core.oversight.waiting import LiftCourse, RaiseWaiting, Reminder, VideosWaiting, Waits
from core.programme.exercises import Basis, Exercise
from core.programme.prescription import Load, LoadKind
from core.units import plain

Sections = Iterator[tuple[str, list[str]]]


def waiting_sections(value: Digest, catalogue: Mapping[str, Exercise]) -> Sections:
    """Return title and lines of each section, a client a line.

    Args:
        value: The week.
        catalogue: Exercises that the coach may name.
    """
    waits = value.waits
    yield "Videos waiting", [f"{_name(each)}: {_videos(each.videos)}." for each in waits if each.videos]
    yield (
        "Raises waiting for your word: /raises",
        [
            f"{_name(each)}: {'; '.join(_raise(one, catalogue) for one in each.raises)}."
            for each in waits
            if each.raises
        ],
    )
    yield (
        "Lifts to look at",
        [
            f"{_name(each)}: {'; '.join(lift_words(one, catalogue) for one in each.lifts)}."
            for each in waits
            if each.lifts
        ],
    )
    yield (
        "Referrals to look at again",
        [
            f"{_name(each)}: {'; '.join(f'{escape(one.what)}, {day_words(one.review_on)}' for one in each.referrals)}."
            for each in waits
            if each.referrals
        ],
    )
    yield "Your reminders", [_reminder(each) for each in value.reminders]


def lift_words(lift: LiftCourse, catalogue: Mapping[str, Exercise]) -> str:
    """Say how a lift goes that falls or stalls. Numbers only: no cause is guessed, and nobody blamed."""
    name = _exercise(lift.exercise, catalogue)
    if lift.by is not None:
        return f"{name} down {lift.by:.0%} over {lift.times} sessions, since {day_words(lift.since)}".replace(
            "%", " %"
        )
    return f"{name} no gain in {lift.times} sessions since {day_words(lift.since)}"


def _videos(videos: VideosWaiting | None) -> str:
    if videos is None:
        return ""
    many = "1 video" if videos.count == 1 else f"{videos.count} videos"
    days = "1 day" if videos.days == 1 else f"{videos.days} days"
    return f"{many}, {days} old" if videos.count == 1 else f"{many}, the oldest {days} old"


def _raise(waiting: RaiseWaiting, catalogue: Mapping[str, Exercise]) -> str:
    name, basis = _exercise(waiting.exercise, catalogue), basis_of(waiting.exercise, catalogue)
    return f"{name} {from_to(waiting.before, waiting.now, basis)}, since {day_words(waiting.since)}"


def from_to(before: Load | None, now: Load, basis: Basis | None = None) -> str:
    """Write a load that changes: the one before, without its unit where both have the same, and the one that comes."""
    comes = load_words(now, basis)
    if before is None:
        return comes
    same = before.mass is not None and now.mass is not None and before.mass.unit is now.mass.unit
    if same and before.mass is not None and before.kind is now.kind is LoadKind.MASS:
        return f"{plain(before.mass.value)} → {comes}"
    return f"{load_words(before)} → {comes}"


def basis_of(key: str, catalogue: Mapping[str, Exercise]) -> Basis | None:
    """Return what the load of an exercise is counted as; None where it is not known any more."""
    return catalogue[key].basis if key in catalogue else None


def _reminder(reminder: Reminder) -> str:
    about = f", {escape(reminder.name)}" if reminder.name else ""
    return f"{day_words(reminder.on)}{about}: {escape(reminder.text)}"


def _exercise(key: str, catalogue: Mapping[str, Exercise]) -> str:
    return escape(catalogue[key].name) if key in catalogue else escape(key)


def _name(waits: Waits) -> str:
    return escape(waits.name)
