"""What waits for the coach and can wait until her day: for the digest."""

from datetime import date
from decimal import Decimal

from pydantic import Field

from core.programme.prescription import Load
from core.value import Value


class RaiseWaiting(Value):
    """A raise over the coach's size, which waits for her word.

    Attributes:
        exercise: Key in the catalogue.
        before: Load that holds until then.
        now: Load that it would be.
        since: Date on which it was asked.
    """

    exercise: str
    before: Load | None
    now: Load
    since: date


class ReferralDue(Value):
    """A referral that is to be looked at again.

    Attributes:
        what: What it is about, in the coach's words.
        review_on: When.
    """

    what: str
    review_on: date


class Reminder(Value):
    """What the coach wants to be reminded of.

    Attributes:
        text: Her words.
        on: Date on her own calendar.
        name: Client it is about; None for nobody.
    """

    text: str
    on: date
    name: str | None = None


class VideosWaiting(Value):
    """Videos that nobody has answered.

    Attributes:
        count: How many. [1..]
        days: Whole days since the oldest came. [days]
    """

    count: int = Field(ge=1)
    days: int = Field(ge=0)


class LiftCourse(Value):
    """A lift that falls or stalls, as `core.oversight.alerts` found it.

    Attributes:
        exercise: Key in the catalogue.
        since: First date of the fall, or of the best that was not beaten.
        by: Share lost over three sessions; None for a stall. [fraction]
        times: Sessions of the fall, or exposures without a gain.
    """

    exercise: str
    since: date
    by: Decimal | None = None
    times: int = 0


class Waits(Value):
    """What waits for the coach, of one client."""

    name: str
    videos: VideosWaiting | None = None
    raises: tuple[RaiseWaiting, ...] = ()
    referrals: tuple[ReferralDue, ...] = ()
    lifts: tuple[LiftCourse, ...] = ()

    @property
    def is_anything(self) -> bool:
        """Whether anything waits."""
        return bool(self.videos or self.raises or self.referrals or self.lifts)
