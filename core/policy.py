"""Every threshold and default that is a coach's judgement, with its range and source.

All are our proposals unless a source stands beside them; a coach changes them by rule.
"""

from datetime import time
from decimal import Decimal

from pydantic import Field

from core.units import Mass
from core.value import Value


class Policy(Value):
    """The coach's settings that rules compute with. Attribute docstrings give unit, source and reason."""

    cap_upper: Decimal = Field(default=Decimal("0.05"), gt=0, le=Decimal("0.10"))
    """Most that an upper-body load may rise from one session to the next. [fraction] Our proposal under
    [ACSM2009]'s 2-10 %."""
    cap_lower: Decimal = Field(default=Decimal("0.10"), gt=0, le=Decimal("0.10"))
    """The same for the lower body and trunk. [fraction] Our proposal under [ACSM2009]'s 2-10 %."""
    cap_upper_mass: Mass = Mass.of("2.5")
    """The smaller of this and the percentage wins, upper body. Our reading of [NSCA] 2.5-5 lb to 5-10 lb a raise."""
    cap_lower_mass: Mass = Mass.of("5")
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
    quiet_from: time = time(21)
    """Quiet hours begin, on the person's own wall clock. Our proposal."""
    quiet_to: time = time(7)
    """Quiet hours end. Our proposal."""
    most_unasked: int = Field(default=3, ge=1, le=6)
    """Most notifying messages a day that a client did not ask for; what is urgent is not counted. Our proposal."""
    media_an_hour: int = Field(default=20, ge=5, le=100)
    """Pictures, voices, videos and files of a client that are passed on in an hour; words always are. [messages] Our
    proposal."""
    week_asked_at: time = time(18)
    """Wall-clock hour at which the check-in, the week's plan and the end of a block are asked. Our proposal."""
    late_latest: time = time(20)
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
    trend_points: int = Field(default=6, ge=6, le=20)
    """Fewest estimates of a lift that a trend is shown of; five cannot show one. [exposures] Our proposal."""
    trend_days: int = Field(default=21, ge=14, le=84)
    """Fewest days between the first and the last of them. [days] Our proposal."""
    fall_share: Decimal = Field(default=Decimal("0.06"), ge=Decimal("0.03"), le=Decimal("0.20"))
    """What a lift must lose over three sessions to be called falling. [fraction] Our proposal."""
    stall_exposures: int = Field(default=4, ge=3, le=12)
    """Exposures without a gain after which a lift may be called stalled. [exposures] Our proposal."""
    stall_days: int = Field(default=28, ge=14, le=84)
    """Days without a gain that it takes beside them. [days] Our proposal."""
