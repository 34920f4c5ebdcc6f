"""What the coach reads of pain: who, what, since when, how it goes on, what was done about it."""

from decimal import Decimal
from html import escape

from bot.messages import Message, Rows
from bot.render.dates import day_words
from bot.render.loads import load_words
from bot.render.pain import place_words
from core.checkin.pain import Felt, PainAction, PainReport, in_session_action, urgent
from core.checkin.pain_course import Course
from core.policy import Policy
from core.programme.exercises import Exercise
from core.programme.prescription import Load, LoadKind

DROP = Policy().pain_drop
"""Fall of the next load where a coach has set nothing else."""


def during(exercise: Exercise, load: Load | None) -> str:
    """Say what was being done, and with which load."""
    known = load is not None and load.kind is not LoadKind.FIND
    at = f" at {load_words(load, exercise.basis)}" if known and load_words(load) != "bodyweight" else ""
    return f", during {escape(exercise.name.lower())}{at}"


def alert(
    name: str,
    report: PainReport,
    doing: str,
    *,
    training: bool,
    rows: Rows = (),
    course: Course | None = None,
    drop: Decimal = DROP,
) -> Message:
    """Tell the coach of pain: who, what, since when, how it goes on, what was done about it.

    Args:
        name: The client.
        report: What was reported.
        doing: What was being done; "" for nothing.
        training: True in a session.
        rows: Buttons.
        course: How it goes on at that place.
        drop: Fall of the next load by the coach's own rules. [fraction]
    """
    number = "no number given, read as 4–6" if report.score is None else f"{report.score} of 10"
    place = place_words(report.site, report.side.value if report.side else None)
    felt = {Felt.MORNING: ", the morning after", Felt.BEFORE: ", before the session"}.get(report.felt, "")
    what = f"{place}, {number}{doing}{felt}"
    if report.after_birth:
        what = f"heaviness, leaking, doming or bleeding{doing}"
    lines = [f"<b>{escape(name)}</b>: {what} ({day_words(report.on)})."]
    said = {
        "New or growing weakness of one leg or arm.": report.weak,
        "With a fever.": report.fever,
        "Goes down a leg or arm, or numb or tingling.": report.spreading,
        "Came suddenly or with a pop.": report.sudden,
        "Took something for it, so it is read one band higher.": report.painkiller,
    }
    lines += [line for line, holds in said.items() if holds]
    lines += _course_lines(course) if course is not None else []
    lines.append(_did(report, training=training).replace(NEXT, _next_eased(drop)))
    return Message("\n".join(lines), rows=rows)


def _course_lines(course: Course) -> list[str]:
    """Say how it has gone on, where that matters."""
    lines = []
    if course.rose:
        lines.append(
            "Two or more over before the session." if course.morning else "Two or more over its usual."
        )
    if course.flares > 1:
        lines.append(f"Flared {course.flares} times in four weeks.")
    if course.no_better:
        lines.append("No better in two weeks.")
    return [*lines, "Suggest a physiotherapist."] if course.suggests_physio else lines


def _did(report: PainReport, *, training: bool) -> str:
    if report.after_birth:
        return DID_AFTER_BIRTH
    if urgent(report):
        return DID_URGENT
    action = in_session_action(report)
    if action is PainAction.NOTE and report.rose:
        return ROSE
    return (DID if training else DID_OUTSIDE)[action]


SAID_STOP = "I sent the text that says to stop. All that loads it stays locked until you release it."
DID_AFTER_BIRTH = (
    "I said: stop this exercise, and see a doctor or midwife before it is done again. "
    "It stays locked until you release it."
)
DID_URGENT = (
    "I sent the text that says to see a doctor today. The plan is on hold, and all that loads it stays locked. "
    "Only you can release both."
)
ROSE = "No raise near it until two sessions at 2 or less."
HELD_NOW = "Not heavier today where it hurts."
NEXT = "Next time lighter where it hurt, and no raise near it."


def _next_eased(drop: Decimal) -> str:
    return f"Next time {(drop * 100).normalize():f} % less where it hurt, and no raise near it."


DID = {
    PainAction.STOP_SESSION: f"I ended the session. {SAID_STOP}",
    PainAction.STOP_EXERCISE: (
        "I took out bending under load and load on the back, and said that a physiotherapist should look. "
        "Both stay out until you release them."
    ),
    PainAction.EASE: f"I said: lighter or shorter, one try, else leave it. {NEXT}",
    PainAction.SWAP: f"I said: leave it out. {NEXT}",
    PainAction.NOTE: "No raise while it is there.",
}
DID_OUTSIDE = {
    **DID,
    PainAction.STOP_SESSION: SAID_STOP,
    PainAction.EASE: NEXT,
    PainAction.SWAP: NEXT,
}
