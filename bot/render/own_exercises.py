"""A coach's own exercises, in words."""

from collections.abc import Sequence
from html import escape

from bot.messages import Message
from bot.render.pain import place_words
from bot.render.problems import problem_line
from bot.render.setting_up import pages
from core.programme.exercises import Exercise, Implement, Site
from core.programme.own_exercises import OwnExercisesFile

ADD = "To add or change some, fill in the form and send it back to me."


def added(own: Sequence[Exercise]) -> list[Message]:
    """List what a coach has added, on as many messages as it takes."""
    if not own:
        return [Message(f"You have added no exercises yet. {ADD}", silent=True)]
    tail = f"\n\n{ADD}\n<code>/exercises remove {escape(own[0].name)}</code> takes one out."
    return pages("<b>Your own exercises</b>\n", [*(f"\n{exercise_line(one)}" for one in own), tail])


def form() -> str:
    """Say what to do with the form."""
    return (
        "One row for each exercise. What you leave empty I take from the pattern, on the careful side. "
        "A sheet in it says how."
    )


def kept(found: OwnExercisesFile) -> list[Message]:
    """Say what was kept: what is new, what changed, and what I count on where she said nothing."""
    new = [one for one in found.exercises if one.key not in found.changed]
    changed = [one for one in found.exercises if one.key in found.changed]
    lines: list[str] = []
    for title, some in (("New", new), ("Changed from now on", changed)):
        if some:
            lines += [
                f"\n<b>{title}</b>",
                *(f"\n{exercise_line(one)}\n{_cautions(one)}" for one in some),
                "\n",
            ]
    idle = [one.name for one in found.exercises if not one.direct]
    if idle:
        lines.append(f"\nNo muscles named, so its sets count for none: {escape('; '.join(idle))}.")
    lines += [f"\n• {escape(problem_line(one))}" for one in found.warnings]
    lines.append("\nUse the names in a block. /exercises shows them all.")
    number = len(found.exercises)
    return pages(f"Kept: {number} exercise{'' if number == 1 else 's'} of yours.\n", lines)


def unknown(written: str, near: Sequence[Exercise]) -> Message:
    """Say that no exercise of hers has a name."""
    if not written.strip():
        return Message(
            "Which one? Write its name with it: <code>/exercises remove Wedge squat</code>", silent=True
        )
    like = f" Did you mean {escape(' or '.join(one.name for one in near))}?" if near else ""
    return Message(f"You have no exercise “{escape(written[:60])}”.{like} Nothing was changed.", silent=True)


def is_ours(exercise: Exercise) -> Message:
    """Say that an exercise is not hers to take out."""
    return Message(f"{escape(exercise.name)} is one of mine and stays. Nothing was changed.", silent=True)


def in_use(exercise: Exercise, used: Sequence[tuple[str, str]]) -> Message:
    """Say who trains with an exercise now."""
    said = [
        f"{escape(client)} ({escape(block)})" if block else f"{escape(client)} (today's session)"
        for client, block in used
    ]
    return Message(
        f"{escape(exercise.name)} stays, since it is in use: {', '.join(said)}. "
        "Take it out of the block first. Nothing was changed.",
        silent=True,
    )


def removed(exercise: Exercise) -> Message:
    """Say that an exercise is out."""
    return Message(
        f"{escape(exercise.name)} is out: no block can name it any more. What was trained stays in the log. "
        "Send it in again to have it back.",
        silent=True,
    )


def exercise_line(one: Exercise) -> str:
    """Say what an exercise is: `Wedge squat: squat, dumbbell, total`."""
    how = [one.pattern.value, one.implement.value]
    if one.implement not in (Implement.BAND, Implement.BODYWEIGHT):
        how.append(one.basis.value)
    how += ["by time"] * one.timed + ["a side at a time"] * one.each_side
    return f"<b>{escape(one.name)}</b>: {', '.join(dict.fromkeys(how))}"


def _cautions(one: Exercise) -> str:
    """Say what pain and training alone mean for an exercise."""
    sites = ", ".join(place_words(site, None) for site in Site if site in one.loads_sites)
    alone = " Alone it needs safety arms." if one.needs_safeties else ""
    return f"Pain at any of these bears on it: {sites}.{alone}"
