"""Every threshold and default that is a coach's judgement, with its range and source.

All are our proposals unless a source stands beside them; a coach changes them by rule.
"""

from datetime import time
from decimal import Decimal
from itertools import pairwise
from typing import Self

from pydantic import ConfigDict, Field, model_validator

from core.units import Mass
from core.value import Value

IN_ORDER = (
    ("quiet_to", "late_latest", "quiet_from"),
    ("quiet_to", "week_asked_at", "quiet_from"),
    ("muscle_sets_least", "muscle_sets_most"),
)
"""Settings of which each is under the next: what is sent by day is sent outside quiet hours."""


class Policy(Value):
    """The coach's settings that rules compute with. Attribute docstrings give unit, source and reason.

    No setting bears on what a stop sign does, on what is told at once, or lets a load rise at pain of 4 and over: a
    coach may make those stricter by an order, and nothing else of them is hers to set.
    """

    model_config = ConfigDict(use_attribute_docstrings=True)

    @model_validator(mode="after")
    def _each_under_the_next(self) -> Self:
        for names in IN_ORDER:
            for under, over in pairwise(names):
                if getattr(self, under) >= getattr(self, over):
                    raise ValueError(f"{under} is not under {over}")
        return self

    cap_upper: Decimal = Field(default=Decimal("0.05"), gt=0, le=Decimal("0.10"))
    """Most that an upper-body load may rise from one session to the next. [fraction] Our proposal under
    [ACSM2009]'s 2-10 %."""
    cap_lower: Decimal = Field(default=Decimal("0.10"), gt=0, le=Decimal("0.10"))
    """The same for the lower body and trunk. [fraction] Our proposal under [ACSM2009]'s 2-10 %."""
    cap_upper_mass: Mass = Field(default=Mass.of("2.5"), ge=Mass.of("0.25"), le=Mass.of("5"))
    """The smaller of this and the percentage wins, upper body. Our reading of [NSCA] 2.5-5 lb to 5-10 lb a raise."""
    cap_lower_mass: Mass = Field(default=Mass.of("5"), ge=Mass.of("0.25"), le=Mass.of("10"))
    """The smaller of this and the percentage wins, lower body. Our reading of [NSCA] 5-10 lb to 10-15 lb a raise."""
    cap_week_upper: Decimal | None = Field(default=Decimal("0.05"), gt=0, le=Decimal("0.10"))
    """Most that an upper-body load may rise over 7 days; None for no such cap. [fraction] Our proposal: a week's cap is
    tradition, not proven."""
    cap_week_lower: Decimal | None = Field(default=Decimal("0.10"), gt=0, le=Decimal("0.10"))
    """The same for the lower body and trunk. [fraction] Our proposal."""
    cap_four_weeks_new: Decimal = Field(default=Decimal("0.20"), gt=0, le=Decimal("0.5"))
    """Most that a load may rise over 28 days for someone in the first three months. [fraction] Our proposal."""
    cap_four_weeks_trained: Decimal = Field(default=Decimal("0.10"), gt=0, le=Decimal("0.5"))
    """Most that a load may rise over 28 days otherwise. [fraction] Our proposal."""
    raise_asks_over: Decimal | None = Field(default=None, gt=0, le=Decimal("0.5"))
    """Raise of a load over which it waits until the coach has agreed; None for no raise that waits. [fraction] Our
    proposal: none, since every raise is under the caps already; a coach who wants to see each sets 0.001, one who wants
    to see what only a coarse kit makes sets 0.05."""
    muscle_sets_least: int = Field(default=5, ge=1, le=20)
    """Hard sets a week under which a block is said to do little for a large muscle. [sets] Our proposal: the lowest
    band in [Schoenfeld2017] is under 5; [ACSM2026] names about 10 for growth."""
    muscle_sets_most: int = Field(default=20, ge=10, le=40)
    """Hard sets a week over which a block is said to do much for a muscle. [sets] Our proposal: twice the about 10 of
    [ACSM2026]."""
    sets_rise: int = Field(default=2, ge=1, le=6)
    """Most hard sets a muscle has more than in the weeks before. [sets] Our proposal."""
    sets_rise_share: Decimal = Field(default=Decimal("0.20"), gt=0, le=1)
    """The same as a share; the greater of the two counts. [fraction] Our proposal."""
    deload_after: int = Field(default=8, ge=3, le=16)
    """Most weeks without a lighter one. [weeks] Our proposal: [Rogerson2024] has one every 5.6 weeks, with a standard
    deviation of 2.3."""
    left_default: int = Field(default=2, ge=0, le=5)
    """Reps left asked for where the block does not say. Common practice, no source."""
    long_reps: int = Field(default=20, ge=12, le=50)
    """Reps past which an earned jump becomes a bridge. [reps] Our proposal."""
    miss_drop: Decimal = Field(default=Decimal("0.05"), ge=Decimal("0.025"), le=Decimal("0.10"))
    """Fall after a second miss running. [fraction] Common practice, no source."""
    pain_drop: Decimal = Field(default=Decimal("0.20"), ge=Decimal("0.10"), le=Decimal("0.5"))
    """Fall of the next load after pain of 4-6 on an exercise. [fraction] Our proposal."""
    ill_drop: Decimal = Field(default=Decimal("0.20"), ge=Decimal("0.10"), le=Decimal("0.20"))
    """Fall of the load in the first session after an illness; its sets are half. [fraction] Our proposal, 10 to 20 %:
    the cautious end."""
    ill_wait: int = Field(default=2, ge=1, le=7)
    """Days free of symptoms and of fever medicine before training goes on. [days] Our proposal, 24 to 48 hours: the
    cautious end."""
    cold_days: int = Field(default=7, ge=3, le=21)
    """Days that a head cold holds every load, unless it is said to be over sooner. [days] Our proposal."""
    away_most: int = Field(default=182, ge=28, le=366)
    """Most days of one absence that a client says. [days] Our proposal: over that her coach should hear it herself."""
    deload_by_itself: bool = False
    """Whether a lighter week that signs ask for is made without the coach planning it. Our proposal: it is hers to
    plan, so no."""
    limit_from_60: bool = False
    """Whether the coach orders sets to the limit for somebody of 60 and over. Our proposal: only by her order."""
    quiet_from: time = Field(default=time(21), ge=time(18), le=time(23, 30))
    """Quiet hours begin, on the person's own wall clock. Our proposal."""
    quiet_to: time = Field(default=time(7), ge=time(5), le=time(10))
    """Quiet hours end. Our proposal."""
    most_unasked: int = Field(default=3, ge=1, le=6)
    """Most notifying messages a day that a client did not ask for; what is urgent is not counted. Our proposal."""
    media_an_hour: int = Field(default=20, ge=5, le=100)
    """Pictures, voices, videos and files of a client that are passed on in an hour; words always are. [messages] Our
    proposal."""
    week_asked_at: time = Field(default=time(18), ge=time(8), le=time(22))
    """Wall-clock hour at which the check-in, the week's plan and the end of a block are asked. Our proposal."""
    late_latest: time = Field(default=time(20), ge=time(12), le=time(22))
    """Latest wall-clock hour at which a session that is late still goes out. Our proposal."""
    miss_grace: int = Field(default=12, ge=1, le=48)
    """A session counts as missed so long after the end of the client's local day. [h] Our proposal."""
    miss_run: int = Field(default=2, ge=2, le=5)
    """Misses in a row that the coach hears of. [sessions] Our proposal."""
    miss_window: int = Field(default=14, ge=7, le=28)
    """Days in which less than half kept is told to the coach. [days] Our proposal."""
    miss_least_due: int = Field(default=3, ge=2, le=8)
    """Sessions due under which nothing is said of a half. [sessions] Our proposal: one of two says little."""
    miss_first_days: int = Field(default=21, ge=0, le=56)
    """Days from a client's first session in which one miss is told to the coach. [days] Our proposal."""
    silent_stop: int = Field(default=3, ge=2, le=6)
    """Cards unanswered in a row after which no more are sent. [sessions] Our proposal."""
    outage_spares: int = Field(default=1, ge=0, le=24)
    """A session that the bot's own outage of this length fell into is no miss of the client. [h] Our proposal."""
    percent_from: int = Field(default=8, ge=5, le=20)
    """Sessions due from which kept of due is also a percentage. [sessions] Our proposal."""
    digest_words: int = Field(default=5, ge=1, le=20)
    """Clients named first in the digest; safety matters are named beyond it. [clients] Our proposal."""
    block_ends: int = Field(default=14, ge=7, le=28)
    """The digest names blocks that end within so many days. [days] Our proposal."""
    block_last_days: int = Field(default=7, ge=3, le=14)
    """Days before the end of a block at which the coach is told that none follows it. [days] Our proposal."""
    video_hours: int = Field(default=48, ge=12, le=168)
    """Hours after which a video without an answer stands in the digest. [h] Our proposal."""
    video_days: int = Field(default=5, ge=2, le=14)
    """Days after which it is told the same day. [days] Our proposal."""
    check_in_days: int = Field(default=14, ge=7, le=56)
    """Days for which no check-in was answered that are told the same day. [days] Our proposal."""
    over_line: Decimal = Field(default=Decimal("0.10"), ge=Decimal("0.05"), le=Decimal("0.5"))
    """A set heavier than the load line by more than this, or by more than one step, is told. [fraction] Our
    proposal."""
    left_asked: int = Field(default=2, ge=1, le=4)
    """Reps left asked for from which none left, twice running, is told. [reps] Our proposal."""
    trend_points: int = Field(default=6, ge=6, le=20)
    """Fewest estimates of a lift that a trend is shown of; five cannot show one. [exposures] Our proposal."""
    trend_days: int = Field(default=21, ge=14, le=84)
    """Fewest days between the first and the last of them. [days] Our proposal."""
    fall_share: Decimal = Field(default=Decimal("0.06"), ge=Decimal("0.03"), le=Decimal("0.20"))
    """What a lift must lose over three sessions to be called falling. [fraction] Our proposal."""
    stall_exposures: int = Field(default=4, ge=3, le=12)
    """Exposures without a gain after which a lift may be called stalled. [exposures] Our proposal."""
    stall_days: int = Field(default=28, ge=14, le=84)
    """Fewest days without a gain after which a lift may be called stalled. [days] Our proposal."""
