"""What a short reply was understood to say."""

from enum import StrEnum

from core.programme.exercises import Exercise, Side, Site
from core.programme.prescription import Dose
from core.units import Unit
from core.value import Value


class SetRead(Value):
    """One set as read.

    Attributes:
        load: Decimal as text (`92.5`), `bw`, `bw+5`, `bw-10`; None when the reply gave none and none was planned.
        unit: Unit of `load`; None without a load or for bare `bw`.
        reps: None for timed sets.
        side: Left, right or None.
        seconds: None for counted sets. [s]
        rir: Reps left, said for this set.
        rpe: RPE, said for this set, as text for halves ("8.5").
    """

    load: str | None
    unit: Unit | None
    reps: int | None
    side: Side | None = None
    seconds: int | None = None
    rir: int | None = None
    rpe: str | None = None


class BodyRead(Value):
    """Pain or soreness as read; `score` None when no number was given."""

    site: Site | None
    side: Side | None = None
    score: int | None = None


class Effort(Value):
    """Effort said once for the exercise: reps left or RPE (6-10, halves as text)."""

    rir: int | None = None
    rpe: str | None = None


class AskWhy(StrEnum):
    """Why the bot must ask instead of storing."""

    TWO_READINGS = "two readings"
    FAR_OFF = "far off"
    UNIT = "unit"
    SITE = "site"
    SCORE = "score"
    SETS = "number of sets"
    TYPO = "typo"
    SIDE = "side"


class Reading(Value):
    """A reply as understood.

    When `ask` is not empty nothing is stored until the person chooses one of its readings (or types again).

    Attributes:
        understood: False when nothing in it could be used; then `note` holds the text.
        sets: Sets in order; a reply without a load takes the load as written.
        as_written: "done": load and reps as written.
        skip: The exercise is left out.
        undo: Take back the last entry.
        effort: Said once for the exercise.
        pain: Reports of pain.
        soreness: Reports of muscle soreness.
        note: Plain words for the coach.
        ask: Sensible readings to choose from; may hold a single reading to confirm.
        ask_why: Why it must be asked.
        stop_sign: True when the stop-sign scan found something: safety first, nothing else is answered.
    """

    understood: bool
    sets: tuple[SetRead, ...] = ()
    as_written: bool = False
    skip: bool = False
    undo: bool = False
    effort: Effort = Effort()
    pain: tuple[BodyRead, ...] = ()
    soreness: tuple[BodyRead, ...] = ()
    note: str | None = None
    ask: tuple["Reading", ...] = ()
    ask_why: AskWhy | None = None
    stop_sign: bool = False


class Context(Value):
    """What a reply is read against.

    Attributes:
        exercise: The exercise at the cursor; None outside a session.
        dose: What was asked for today, with the decided load; None outside a session.
        unit: The client's unit.
        last_loads: Loads of the last exposures of this exercise, newest first, as text in the client's unit; they
            tell whether a load is plausible.
        best_reps: Most reps ever done in a set of it; None when never.
        open_question: What the reply answers: "reps left", "pain score", "load", "bodyweight"; None for a free
            reply in a session. A load or a bodyweight comes back as one set with neither reps nor seconds.
        loads_differ: True where the card's sets have loads of their own: a set that was said without one has none.
    """

    exercise: Exercise | None = None
    dose: Dose | None = None
    unit: Unit = Unit.KG
    last_loads: tuple[str, ...] = ()
    best_reps: int | None = None
    open_question: str | None = None
    loads_differ: bool = False
