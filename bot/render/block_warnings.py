"""What is worth another look in a block: its warnings by kind, as many as a phone shows, and their sources."""

from collections.abc import Mapping, Sequence
from textwrap import wrap
from types import MappingProxyType

from bot.render.problems import problem_line
from core.loads.kit_fit import Undoable
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.problems import Code, Problem

LINES = 25
"""Lines that a phone shows at once. Our proposal."""
ACROSS = 40
"""Letters of a line on a phone. Our proposal."""
SAFETY = (Code.LIMIT_UNDER_BAR, Code.OPEN_UNDER_BAR)
_UNDOABLE = "undoable"
NAMES = 3
"""Most clients named for one equal. Our proposal."""

_BAND = (
    "Sets: one for the muscle that an exercise is for, a half for one that helps (Pelland and others, 2024). The band "
    "is our proposal; ACSM names about 10 a week for growth (2026)."
)
_UNDER_BAR = "Reps kept in hand under a bar: our proposal."
_BALANCE = "What stands against what: common practice, no source."
_SOURCES: Mapping[str, str] = MappingProxyType(
    {
        Code.LIMIT_UNDER_BAR: _UNDER_BAR,
        Code.OPEN_UNDER_BAR: _UNDER_BAR,
        Code.LOAD_JUMP: "Rises of a load: our proposal, under the 2 to 10 % of ACSM (2009).",
        Code.REPS_JUMP: "Rises of reps: our proposal.",
        Code.SETS_JUMP: "Rises of sets: our proposal.",
        Code.HEAVY_CLOSE: "48 h between heavy days of one pattern: common practice, no source. Heavy is 8 reps or "
        "fewer, about 80 % of the maximum (NSCA).",
        Code.LONG_WITHOUT_DELOAD: "Lighter weeks: 246 lifters had one every 5.6 weeks, give or take 2.3 (Rogerson and "
        "others, 2024). The bound is our proposal.",
        Code.TARGET_FAR: "Reps are counted over by Epley's line (1985); rises are your caps, over four weeks those of "
        "a newcomer.",
        Code.PUSH_TO_PULL: _BALANCE,
        Code.KNEE_TO_HIP: _BALANCE,
        Code.MUSCLES_LOW: _BAND,
        Code.MUSCLES_HIGH: _BAND,
        Code.MUSCLES_UNTRAINED: "Told of chest, lats, upper back, quads, hamstrings and glutes alone: our proposal.",
    }
)


def warning_lines(
    warnings: Sequence[Problem],
    undoable: Sequence[Undoable],
    catalogue: Mapping[str, Exercise] = CATALOGUE,
) -> list[list[str]]:
    """Return the lines of each kind of warning: of safety first, then what nobody can do, then as they come."""
    kinds: dict[str, list[str]] = {code: [] for code in SAFETY}
    kinds[_UNDOABLE] = [undoable_line(one, catalogue) for one in undoable]
    for one in warnings:
        kinds.setdefault(one.code, []).append(problem_line(one))
    return [lines for lines in kinds.values() if lines]


def some_of(by_kind: Sequence[Sequence[str]], room: int, least: int) -> tuple[list[str], int]:
    """Return the lines that fit, one of each kind before a second of any, and how many are left out.

    Args:
        by_kind: Lines of each kind.
        room: Lines of a phone that there are.
        least: Lines shown whether or not they fit.
    """
    in_turn = sorted((place, kind) for kind, of_kind in enumerate(by_kind) for place in range(len(of_kind)))
    chosen: set[tuple[int, int]] = set()
    for place, kind in in_turn:
        room -= phone_lines(by_kind[kind][place])
        if room < 0 and len(chosen) >= least:
            break
        chosen.add((kind, place))
    shown = [by_kind[kind][place] for kind, place in sorted(chosen)]
    return shown, len(in_turn) - len(shown)


def phone_lines(text: str) -> int:
    """Return how many lines a text takes on a phone."""
    return sum(max(1, len(wrap(line, ACROSS))) for line in text.split("\n"))


def sources_of(warnings: Sequence[Problem]) -> list[str]:
    """Return where the figures of these warnings come from, each once."""
    return list(dict.fromkeys(_SOURCES[one.code] for one in warnings if one.code in _SOURCES))


def undoable_line(undoable: Undoable, catalogue: Mapping[str, Exercise] = CATALOGUE) -> str:
    """Return an exercise that nobody can load, and what stands in for whom."""
    groups: dict[str | None, list[str]] = {}
    for one in undoable.stand_ins:
        groups.setdefault(one.exercise, []).append(one.client)
    name = catalogue[undoable.exercise].name
    said = [
        f"{catalogue[key].name if key else 'nothing'} for {_names(clients)}"
        for key, clients in groups.items()
    ]
    return f"Nobody's kit loads {name}. In its place: {'; '.join(said)}."


def _names(clients: Sequence[str]) -> str:
    if len(clients) > NAMES:
        return f"{', '.join(clients[:NAMES])} and {len(clients) - NAMES} more"
    return " and ".join((*((", ".join(clients[:-1]),) if clients[:-1] else ()), clients[-1]))
