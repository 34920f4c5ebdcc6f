"""Prep routines: what to do in the minutes before a session, by the joints that the day loads.

Hips and ankles before squats and hinges, chest, upper back and shoulders before pressing: common practice, no
source. A routine makes ready to train; it treats no pain, clears nobody, and keeps to every restriction given.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from types import MappingProxyType

from core.programme.drill import Drill, Stage
from core.programme.drills import DRILLS, drills_that_fit
from core.programme.exercises import Implement, Level, Pattern, Site, Station
from core.programme.restrictions import Restriction
from core.value import Value

MINUTES = 7
"""How long a routine is unless something else is asked for. [min] Our proposal: what people really do."""
DAILY_MINUTES = 5
"""How long a daily routine is. [min] Our proposal."""
MOST = 8
"""Most drills of one routine. Our proposal: what fits one card."""

JOINTS: Mapping[Pattern, tuple[Site, ...]] = MappingProxyType(
    {
        Pattern.SQUAT: (Site.HIP, Site.ANKLE),
        Pattern.LUNGE: (Site.HIP, Site.ANKLE),
        Pattern.STEP: (Site.HIP, Site.ANKLE),
        Pattern.JUMP: (Site.ANKLE, Site.HIP),
        Pattern.HINGE: (Site.HIP, Site.ANKLE, Site.HAMSTRING),
        Pattern.SWING: (Site.HIP, Site.HAMSTRING),
        Pattern.BRIDGE: (Site.HIP, Site.BUTTOCK),
        Pattern.KNEE_EXTENSION: (Site.THIGH,),
        Pattern.KNEE_FLEXION: (Site.HAMSTRING,),
        Pattern.HIP_ABDUCTION: (Site.HIP,),
        Pattern.HIP_ADDUCTION: (Site.GROIN,),
        Pattern.CALF: (Site.ANKLE,),
        Pattern.HORIZONTAL_PRESS: (Site.CHEST, Site.UPPER_BACK, Site.SHOULDER),
        Pattern.DIP: (Site.CHEST, Site.SHOULDER),
        Pattern.VERTICAL_PRESS: (Site.SHOULDER, Site.UPPER_BACK),
        Pattern.RAISE: (Site.SHOULDER,),
        Pattern.HORIZONTAL_PULL: (Site.UPPER_BACK, Site.SHOULDER),
        Pattern.VERTICAL_PULL: (Site.SHOULDER, Site.UPPER_BACK),
        Pattern.SHRUG: (Site.NECK, Site.SHOULDER),
        Pattern.CURL: (Site.ELBOW,),
        Pattern.ELBOW_EXTENSION: (Site.ELBOW,),
        Pattern.CARRY: (Site.SHOULDER, Site.LOW_BACK),
        Pattern.TRUNK: (Site.LOW_BACK,),
    }
)
"""What is loosened before a pattern, first things first. Common practice, no source."""


class PrepStep(Value):
    """One drill of a routine with its dose.

    Attributes:
        drill: Key of the drill.
        reps: How often, a side where it has sides; None where it is held.
        seconds: How long it is held, a side where it has sides. [s]
        each_side: True when it is done a side at a time.
        takes_s: How long it takes with both sides and the change to it. [s]
    """

    drill: str
    reps: int | None = None
    seconds: int | None = None
    each_side: bool = False
    takes_s: int


def prep_for(
    patterns: Iterable[Pattern],
    kit: Collection[Implement | Station] = (),
    minutes: int = MINUTES,
    *,
    history: Collection[Site] = (),
    restrictions: Collection[Restriction] = (),
    level: Level = Level.FIRST_MONTH,
    drills: Mapping[str, Drill] = DRILLS,
) -> tuple[PrepStep, ...]:
    """Return a short routine before a session: loosen, wake up, rehearse.

    Args:
        patterns: Of the day's exercises, in their order.
        kit: Implements and stations that there are; the body is always there.
        minutes: It takes no longer.
        history: Sites that were trouble once: those that the day loads are loosened first. What hurts today is no
            history, and nothing here is a treatment.
        restrictions: Limits that were given; no drill breaks one.
        level: What the client may do.
        drills: To choose from.

    The same arguments give the same routine. It is empty where nothing fits.
    """
    day = tuple(dict.fromkeys(patterns))
    fitting = drills_that_fit(kit, restrictions, level, drills)
    chosen = _within(_wanted(day, _sites_of(day, history), fitting), minutes)
    return tuple(step_of(drill) for stage in Stage for drill in chosen if drill.stage is stage)


def daily_for(
    sites: Iterable[Site],
    kit: Collection[Implement | Station] = (),
    minutes: int = DAILY_MINUTES,
    *,
    restrictions: Collection[Restriction] = (),
    level: Level = Level.FIRST_MONTH,
    drills: Mapping[str, Drill] = DRILLS,
) -> tuple[PrepStep, ...]:
    """Return a routine for every day that keeps the sites moving which were trouble once.

    Only what loosens: one drill for each site in turn, then a second. It is no treatment of pain; the words that are
    shown with it say so.
    """
    places = tuple(dict.fromkeys(sites))
    loose = [each for each in drills_that_fit(kit, restrictions, level, drills) if each.stage is Stage.LOOSEN]
    serving = [[drill for drill in loose if site in drill.sites] for site in places]
    turns = (row[turn] for turn in (0, 1) for row in serving if turn < len(row))
    return tuple(step_of(drill) for drill in _within(turns, minutes))


def _sites_of(day: Sequence[Pattern], history: Collection[Site]) -> tuple[Site, ...]:
    """Return what the day loads, in turn: what was trouble once, then the first joint of each pattern, and so on."""
    rows = [JOINTS[pattern] for pattern in day]
    in_turn = [row[turn] for turn in range(3) for row in rows if turn < len(row)]
    once = [site for site in Site if site in history and site in in_turn]
    return tuple(dict.fromkeys((*once, *in_turn)))


def _wanted(day: Sequence[Pattern], sites: Sequence[Site], fitting: Sequence[Drill]) -> Iterator[Drill]:
    """Yield drills in the order in which they are worth their time."""
    loose = [each for each in fitting if each.stage is Stage.LOOSEN]
    loosening = _loosening(day, sites, loose)
    waking = _for_patterns(day, [each for each in fitting if each.stage is Stage.WAKE])
    rehearsing = _for_patterns(day, [each for each in fitting if each.stage is Stage.REHEARSE])
    yield from (*loosening[:3], *rehearsing[:1], *waking[:1], *rehearsing[1:2], *loosening[3:], *waking[1:])
    more = [drill for drill in loose if drill.sites.intersection(sites) and drill.prepares.intersection(day)]
    yield from sorted(more, key=lambda drill: _worth(drill, day, set(sites)), reverse=True)


def _loosening(day: Sequence[Pattern], sites: Sequence[Site], drills: Sequence[Drill]) -> list[Drill]:
    """Return a drill for each site that none before it serves: the one that serves and prepares most."""
    chosen: list[Drill] = []
    for site in sites:
        if any(site in drill.sites for drill in chosen):
            continue
        served = {each for drill in chosen for each in drill.sites}
        open_sites = set(sites) - served
        serving = [drill for drill in drills if site in drill.sites]
        if serving:
            chosen.append(max(serving, key=lambda drill: _worth(drill, day, open_sites)))
    return chosen


def _worth(drill: Drill, day: Sequence[Pattern], open_sites: set[Site]) -> tuple[int, int]:
    return len(drill.prepares.intersection(day)), len(drill.sites & open_sites)


def _for_patterns(day: Sequence[Pattern], drills: Sequence[Drill]) -> list[Drill]:
    """Return for each pattern, in order, the first drill that prepares it, unless one before it did."""
    chosen: list[Drill] = []
    for pattern in day:
        if not any(pattern in drill.prepares for drill in chosen):
            chosen += [drill for drill in drills if pattern in drill.prepares][:1]
    return chosen


def _within(wanted: Iterable[Drill], minutes: int) -> list[Drill]:
    """Return what fits the time, passing over what does not, and never more than fits a card."""
    chosen: dict[str, Drill] = {}
    left = minutes * 60
    for drill in wanted:
        if drill.key not in chosen and drill.takes_s <= left and len(chosen) < MOST:
            chosen[drill.key] = drill
            left -= drill.takes_s
    return list(chosen.values())


def step_of(drill: Drill) -> PrepStep:
    """Return a drill with its dose."""
    return PrepStep(
        drill=drill.key,
        reps=drill.reps,
        seconds=drill.seconds,
        each_side=drill.each_side,
        takes_s=drill.takes_s,
    )
