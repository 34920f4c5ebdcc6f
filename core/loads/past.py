"""What a decision rests on: what was asked and done, the person, and where in the plan."""

from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import ClassVar

from pydantic import Field, ValidationInfo, model_validator

from core.checkin.pain import PainReport
from core.loads.equipment import Kit
from core.loads.go_ahead import GoAhead
from core.loads.health import Birth, Illness
from core.loads.lift import Lift
from core.loads.limits import Limit
from core.loads.order import CoachOrder
from core.policy import Policy
from core.programme.exercises import Exercise, Side
from core.programme.muscles import Muscle
from core.programme.prescription import Dose, Load
from core.value import Grown, Value


class Outcome(StrEnum):
    """How an exercise ended in a session."""

    DONE = "done"
    PARTIAL = "partial"
    SKIPPED = "skipped"


class Cause(StrEnum):
    """Why less was done, when it was said. Time, kit and grip are no misses."""

    TIME = "time"
    KIT = "kit"
    GRIP = "grip"
    PAIN = "pain"
    ILL = "ill"


class SetDone(Value):
    """One working set as it was logged.

    Attributes:
        row_id: Row it is kept in.
        set_no: From 1.
        side: Which side, for work done a side at a time and logged so.
        load: As lifted, in the exercise's basis.
        reps: None for timed sets; 0 is a failed set.
        seconds: None for counted sets. [s]
        left: Reps left, only when the client gave a number; 4 means four or more.
        metres: Only for sets over a distance. [m]
    """

    row_id: int
    set_no: int
    side: Side | None = None
    load: Load | None = None
    reps: int | None = None
    seconds: int | None = None
    left: int | None = None
    metres: int | None = None


class Exposure(Value):
    """One exercise in one past session.

    Attributes:
        session_id: Session it belongs to.
        on: The client's local date.
        week_no: Week of the block, from 1.
        dose: What was asked for that day, with the load that had been decided.
        sets: Every set logged and not taken back, in order.
        by_tap: True when every set comes from "done as written": load and reps, nothing about effort.
        outcome: How it ended.
        cause: Why less was done, if said.
        effort: The session's effort, 1 very easy to 5 very hard; None when not given.
        deload: True in a planned deload.
        written: The load as the coach wrote it for that week, before any decision; None when not known. It tells a
            load that she newly wrote from one that only stands there still.
        eased: True in a session that the coach had eased by an order.
        merged: True in a session that had taken in a lift of another day.
        least: The fewest reps, seconds or metres that the card asked for, where that was less than is written: pain
            eases by reps where the load cannot fall.
    """

    session_id: int
    on: date
    week_no: int
    dose: Dose
    sets: tuple[SetDone, ...]
    by_tap: bool = False
    outcome: Outcome = Outcome.DONE
    cause: Cause | None = None
    effort: int | None = Field(default=None, ge=1, le=5)
    deload: bool = False
    written: Load | None = None
    eased: bool = False
    merged: bool = False
    least: int | None = None


class Lifter(Grown):
    """What the rules need to know of the person.

    Attributes:
        age_band: "18-39", "40-59" or "60+".
        new: True in the first three months of lifting.
        frozen: True while a stop sign or a health question holds the plan.
        pain: Every report of the last 56 days, oldest first.
        ill: Illnesses of the last 56 days, and every one that is not over.
        pregnant: True from when she says so until she says that it is over.
        birth: A birth in the last 12 months, if there was one.
        pressure_untreated: True where high blood pressure is not treated, or nobody knows whether it is.
        taken_up_on: When the coach last took the plan up again after a stop sign, in the last 56 days.
    """

    later: ClassVar[frozenset[str]] = frozenset(
        {"ill", "pregnant", "birth", "pressure_untreated", "taken_up_on"}
    )

    age_band: str = "18-39"
    new: bool = False
    frozen: bool = False
    pain: tuple[PainReport, ...] = ()
    ill: tuple[Illness, ...] = ()
    pregnant: bool = False
    birth: Birth | None = None
    pressure_untreated: bool = False
    taken_up_on: date | None = None


class Moment(Grown):
    """Where in the plan this decision stands.

    Attributes:
        today: The client's local date of the session decided for.
        week_no: Week of the block, from 1.
        deload: True when the block plans a deload that week.
        merged: True when the session takes in a lift of another day.
        deload_due: True when signs ask for a lighter week (`core.loads.deload_due`). It is the coach's to plan one;
            by itself it makes one only where her settings say so.
    """

    later: ClassVar[frozenset[str]] = frozenset({"deload_due"})

    today: date
    week_no: int
    deload: bool = False
    merged: bool = False
    deload_due: bool = False


class MuscleSets(Value):
    """Hard sets of a muscle, before and this week.

    Attributes:
        muscle: Which.
        before: Most hard sets of a week among the last four that were no lighter ones. [sets, > 0]
        now: Hard sets of this week, done or given already, without those decided for here. [sets]
    """

    muscle: Muscle
    before: Decimal = Field(gt=0)
    now: Decimal = Field(default=Decimal(0), ge=0)


WEEK_CAPS = ("cap_week_upper", "cap_week_lower")
"""Settings that came after decisions had been stored."""


class Inputs(Grown):
    """Everything a decision rests on; kept with it, so that it can be replayed to the same bytes.

    What was stored before there was a cap a week has none when it is replayed; what was added to the inputs since is
    written only where it says something.

    Attributes:
        exercise: From the catalogue.
        dose: As the coach wrote it for this week.
        history: Exposures of this exercise on this kit's place, oldest first, at most the last 12.
        kit: Of the place where the session will be.
        policy: The coach's settings for this client and exercise.
        lifter: The person.
        moment: Where in the plan.
        last_trained: Last date the pattern was trained with at least 80 % of its load; None when never.
        comeback_set_on: When the coach set the way back from a break of 56 days or more; None while she has not.
        trained_on: Dates before today, of the last 84 days, on which anything at all was trained, oldest first;
            empty when not known.
        orders: What the coach has ordered beside the block, and what still stands of it.
        limits: What clinicians have limited for this client.
        week_sets: Hard sets a week of the muscles that this exercise is for; empty where the weeks before are not
            known.
        lifts: Sets of other lifts that say where a search for a load may begin; looked at only while there is none.
        go_aheads: Places that hurt 1 to 3 and at which the coach lets raises go on.
    """

    later: ClassVar[frozenset[str]] = frozenset({"limits", "week_sets", "lifts", "go_aheads"})

    exercise: Exercise
    dose: Dose
    history: tuple[Exposure, ...] = ()
    kit: Kit
    policy: Policy = Policy()
    lifter: Lifter = Lifter()
    moment: Moment
    last_trained: date | None = None
    comeback_set_on: date | None = None
    trained_on: tuple[date, ...] = ()
    orders: tuple[CoachOrder, ...] = ()
    limits: tuple[Limit, ...] = ()
    week_sets: tuple[MuscleSets, ...] = ()
    lifts: tuple[Lift, ...] = ()
    go_aheads: tuple[GoAhead, ...] = ()

    @model_validator(mode="before")
    @classmethod
    def _of_its_time(cls, given: dict[str, object], info: ValidationInfo) -> dict[str, object]:
        """Read settings that were stored before there was a cap a week as having none."""
        policy = given.get("policy")
        if info.mode == "json" and isinstance(policy, dict):
            return given | {"policy": dict.fromkeys(WEEK_CAPS) | policy}
        return given
