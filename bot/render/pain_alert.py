"""What the coach reads of pain: who, what, since when, how it goes on, what was done about it."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from html import escape

from bot.messages import Message, Rows
from bot.render.clinicians import BY
from bot.render.dates import day_words
from bot.render.exercise_names import in_sentence
from bot.render.loads import load_words
from bot.render.pain import place_words
from core.checkin.pain import Felt, PainAction, PainReport, in_session_action, urgent
from core.checkin.pain_course import Course
from core.loads.limits import Clinician
from core.policy import Policy
from core.programme.exercises import Exercise
from core.programme.prescription import Load, LoadKind

DROP = Policy().pain_drop
"""Fall of the next load where a coach has set nothing else."""


@dataclass(frozen=True, slots=True)
class Referred:
    """A referral that stands.

    Attributes:
        to: To whom.
        on: When it was noted, on the client's own calendar.
        seen_on: When the client was seen; None while not known.
        told: True once the client was told of it.
    """

    to: Clinician
    on: date
    seen_on: date | None
    told: bool


def during(exercise: Exercise, load: Load | None) -> str:
    """Say what was being done, and with which load."""
    known = load is not None and load.kind is not LoadKind.FIND
    at = f" at {load_words(load, exercise.basis)}" if known and load_words(load) != "bodyweight" else ""
    return f", during {escape(in_sentence(exercise.name))}{at}"


def alert(
    name: str,
    report: PainReport,
    doing: str,
    *,
    training: bool,
    rows: Rows = (),
    course: Course | None = None,
    drop: Decimal = DROP,
    referred: Referred | None = None,
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
        referred: A referral that stands; a physiotherapist is not suggested beside it.
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
    lines += _course_lines(course, referred) if course is not None else []
    lines.append(_did(report, training=training).replace(NEXT, _next_eased(drop)))
    return Message("\n".join(lines), rows=rows)


def _course_lines(course: Course, referred: Referred | None) -> list[str]:
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
    if course.suggests_physio:
        lines.append(_stands(referred) if referred is not None else "Suggest a physiotherapist.")
    return lines


def _stands(referred: Referred) -> str:
    """Say that a referral stands, since when, and whether it came to anything yet."""
    since = f"A referral to {BY[referred.to]} stands since {day_words(referred.on)}"
    if referred.seen_on is not None:
        return f"{since}: seen {day_words(referred.seen_on)}. What came of it? /referrals has it."
    told = "" if referred.told else ", and they were not told of it"
    return f"{since}: not seen yet{told}. /referrals has it."


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
