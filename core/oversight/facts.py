"""What the digest rests on: the log of each client, gathered."""

from datetime import date, datetime

from core.checkin.pain import PainReport
from core.loads.decision import Decision
from core.oversight.misses import Past
from core.oversight.waiting import LiftCourse, RaiseWaiting, ReferralDue, VideosWaiting, Waits
from core.policy import Policy
from core.programme.prescription import Load
from core.value import Value


class Lifted(Value):
    """The heaviest load of an exercise in one session, as logged.

    Attributes:
        exercise: Key in the catalogue.
        on: The client's local date.
        session_id: Session it was done in.
        load: As logged.
        full: True when every set that was asked for was done, with the reps asked for or more.
    """

    exercise: str
    on: date
    session_id: int
    load: Load
    full: bool


class Ahead(Value):
    """What stands decided for an exercise of the coming week."""

    exercise: str
    decision: Decision


class CheckedIn(Value):
    """What became of a week's check-in.

    Attributes:
        on: Date on which it was asked, on the client's own calendar.
        said: Question and answer, in order; nothing where it stayed unanswered.
    """

    on: date
    said: tuple[tuple[str, str], ...] = ()


class Beside(Value):
    """Something that was trained beside the block.

    Attributes:
        kind: A kind of `core.checkin.other_training_words.Trained`.
        on: The client's local date.
        minutes: How long; None where that was not said. [min]
        effort: Place in the five words of effort, from 1; None where that was not said.
    """

    kind: str
    on: date
    minutes: int | None = None
    effort: int | None = None


class ClientFacts(Value):
    """All that the digest rests on for one client.

    Attributes:
        client_id: Row.
        name: As the coach knows her.
        state: "active" or "paused".
        paused_until: First day of training again, where she chose a pause.
        frozen_on: Date since when the plan is on hold; None when it is not.
        frozen_by_health: On hold because of a health question, not of a stop sign.
        reachable: False when she has blocked the bot.
        began_on: Date of her very first session.
        heard_at: Instant of her last word or tap.
        past: Sessions of the last four weeks.
        pain: Reports of the last four weeks, and those that still lock something.
        lifted: Top loads by session, oldest first.
        ahead: Decisions for the sessions planned in the coming week.
        block: Name of the block she runs.
        block_ends: Last day of the block.
        check_in: The check-in that was answered, or lapsed, since the digest before; None where there was none.
        beside: What was trained beside the block in the digest's week.
        raises_waiting: Raises that wait for the coach's word.
        referrals_due: Referrals that are to be looked at again.
        videos: Videos that wait for an answer for longer than the policy's hours; None where none does.
        policy: What holds for her alone; None for what holds for all.
        lifts: Lifts that fall or stall and were not told of before.
    """

    client_id: int
    name: str
    state: str
    paused_until: date | None = None
    frozen_on: date | None = None
    frozen_by_health: bool = False
    reachable: bool = True
    began_on: date | None = None
    heard_at: datetime | None = None
    past: tuple[Past, ...] = ()
    pain: tuple[PainReport, ...] = ()
    lifted: tuple[Lifted, ...] = ()
    ahead: tuple[Ahead, ...] = ()
    block: str | None = None
    block_ends: date | None = None
    check_in: CheckedIn | None = None
    beside: tuple[Beside, ...] = ()
    raises_waiting: tuple[RaiseWaiting, ...] = ()
    referrals_due: tuple[ReferralDue, ...] = ()
    videos: VideosWaiting | None = None
    policy: Policy | None = None
    lifts: tuple[LiftCourse, ...] = ()

    @property
    def waits(self) -> Waits:
        """What of her waits for the coach."""
        return Waits(
            name=self.name,
            videos=self.videos,
            raises=self.raises_waiting,
            referrals=self.referrals_due,
            lifts=self.lifts,
        )
