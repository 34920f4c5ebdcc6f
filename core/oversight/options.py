"""What may come after a block: three options, each with the numbers that speak for and against it. It never decides."""

from decimal import Decimal
from enum import StrEnum

from core.oversight.misses import Tally
from core.policy import Policy
from core.value import Value

KEPT_WELL = Decimal("0.75")
"""Share of sessions kept from which it speaks for going on as it was. [fraction] Our proposal."""
MANY_REPS = 8
"""Mean reps of the main lifts from which there is room for fewer with more load. [reps] Common practice, no source."""
FEW_REPS = 5
"""Mean reps up to which there is little room for fewer. [reps] Common practice, no source."""
PAIN_COUNTS = 4
"""Score from which pain speaks against more load, whenever in the block it was. [0..10] Our proposal: from there on a
load falls."""


class OptionKind(StrEnum):
    """What may come next."""

    SAME = "same"
    """The same block again, with the loads of its last full week. Common practice, no source."""
    FEWER_REPS = "fewer reps"
    """Fewer reps with more load. Common practice, no source."""
    LIGHTER = "lighter"
    """A lighter block. Our proposal."""


class Code(StrEnum):
    """What a number is about."""

    HELD = "held"
    """The plan is on hold."""
    RISING = "rising"
    FALLING = "falling"
    STALLED = "stalled"
    NO_TREND = "no trend"
    """Too little is known to say where lifts go."""
    KEPT = "kept"
    PAIN = "pain"
    NO_PAIN = "no pain"
    TARGETS = "targets"
    REPS = "reps"
    LIGHTER_SINCE = "lighter since"


class Evidence(Value):
    """A number that speaks for or against an option.

    Attributes:
        code: What it is about.
        names: Of lifts.
        count: How many: kept, reached, reports of pain, weeks, or reps on average.
        of: Of how many: sessions due, targets; or the most weeks without a lighter one that the coach's rules have.
        worst: Highest score of pain; None where no number was given.
        late: Reports of the last two weeks.
    """

    code: Code
    names: tuple[str, ...] = ()
    count: Decimal = Decimal(0)
    of: int = 0
    worst: int | None = None
    late: int = 0


class Option(Value):
    """What may come next.

    Attributes:
        kind: What.
        speaks_for: Numbers that speak for it.
        speaks_against: Numbers that speak against it.
    """

    kind: OptionKind
    speaks_for: tuple[Evidence, ...]
    speaks_against: tuple[Evidence, ...]


class EndFacts(Value):
    """What the options rest on.

    Attributes:
        held: True while the plan is on hold.
        rising: Lifts whose whole trend goes up.
        falling: Lifts whose whole trend goes down, or that fell over the last three sessions.
        stalled: Lifts without a gain for long.
        unknown: Lifts of which too little is known for a trend.
        kept: Sessions.
        pain: Reports of pain.
        pain_worst: Highest score; None where there is none.
        pain_late: Reports of the last two weeks.
        reached: Targets that were reached.
        targets: Targets whose week is over.
        reps: Mean reps that the main lifts ask for in one set, in the last full week; None where they ask for none.
        weeks_since_lighter: Weeks trained since the last lighter week.
    """

    held: bool = False
    rising: tuple[str, ...] = ()
    falling: tuple[str, ...] = ()
    stalled: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()
    kept: Tally = Tally()
    pain: int = 0
    pain_worst: int | None = None
    pain_late: int = 0
    reached: int = 0
    targets: int = 0
    reps: Decimal | None = None
    weeks_since_lighter: int = 0

    @property
    def hurts(self) -> bool:
        """True where pain speaks against more load."""
        return self.pain_late > 0 or (self.pain_worst or 0) >= PAIN_COUNTS

    @property
    def kept_well(self) -> bool:
        """True where three quarters of what was due were kept."""
        return self.kept.kept >= KEPT_WELL * self.kept.due


def options(facts: EndFacts, policy: Policy) -> tuple[Option, ...]:
    """Return three options with what speaks for and against each: always all three, in the same order."""
    return (_same(facts), _fewer_reps(facts), _lighter(facts, policy))


def _same(facts: EndFacts) -> Option:
    speaks_for = [*_lifts(Code.RISING, facts.rising), *_targets(facts, reached=True)]
    against = [*_held(facts), *_worse(facts), *_pain(facts), *_targets(facts, reached=False)]
    (speaks_for if facts.kept_well else against).extend(_kept(facts))
    return Option(kind=OptionKind.SAME, speaks_for=tuple(speaks_for), speaks_against=tuple(against))


def _fewer_reps(facts: EndFacts) -> Option:
    reps = [Evidence(code=Code.REPS, count=facts.reps)] if facts.reps is not None else []
    speaks_for = [*_lifts(Code.RISING, facts.rising), *_lifts(Code.STALLED, facts.stalled)]
    against = [*_held(facts), *_pain(facts), *_lifts(Code.FALLING, facts.falling)]
    if facts.reps is not None and facts.reps >= MANY_REPS:
        speaks_for += reps
    elif facts.reps is not None and facts.reps <= FEW_REPS:
        against += reps
    against += _lifts(Code.NO_TREND, facts.unknown)
    if not facts.kept_well:
        against += _kept(facts)
    return Option(kind=OptionKind.FEWER_REPS, speaks_for=tuple(speaks_for), speaks_against=tuple(against))


def _lighter(facts: EndFacts, policy: Policy) -> Option:
    since = [
        Evidence(code=Code.LIGHTER_SINCE, count=Decimal(facts.weeks_since_lighter), of=policy.deload_after)
    ]
    speaks_for = [*_held(facts), *_pain(facts), *_worse(facts)]
    against = [*_lifts(Code.RISING, facts.rising)]
    if not facts.pain:
        against.append(Evidence(code=Code.NO_PAIN))
    (against if facts.kept_well else speaks_for).extend(_kept(facts))
    (speaks_for if facts.weeks_since_lighter >= policy.deload_after else against).extend(since)
    return Option(kind=OptionKind.LIGHTER, speaks_for=tuple(speaks_for), speaks_against=tuple(against))


def _held(facts: EndFacts) -> list[Evidence]:
    return [Evidence(code=Code.HELD)] if facts.held else []


def _worse(facts: EndFacts) -> list[Evidence]:
    return [*_lifts(Code.FALLING, facts.falling), *_lifts(Code.STALLED, facts.stalled)]


def _lifts(code: Code, names: tuple[str, ...]) -> list[Evidence]:
    return [Evidence(code=code, names=names, count=Decimal(len(names)))] if names else []


def _pain(facts: EndFacts) -> list[Evidence]:
    if not facts.hurts:
        return []
    return [Evidence(code=Code.PAIN, count=Decimal(facts.pain), worst=facts.pain_worst, late=facts.pain_late)]


def _kept(facts: EndFacts) -> list[Evidence]:
    if not facts.kept.due:
        return []
    return [Evidence(code=Code.KEPT, count=Decimal(facts.kept.kept), of=facts.kept.due)]


def _targets(facts: EndFacts, *, reached: bool) -> list[Evidence]:
    """Return the count of targets, where all were reached or where some were not."""
    if not facts.targets or (facts.reached == facts.targets) is not reached:
        return []
    return [Evidence(code=Code.TARGETS, count=Decimal(facts.reached), of=facts.targets)]
