"""Talks that begin where an earlier one had come to: the steps up to there are played once a process."""

from collections.abc import Callable, Collection, Hashable, Iterator
from contextlib import contextmanager
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from databases import SqliteFiles
from dialogs.talks import Talk
from set_up_once import Kept, bring_back, keep

from bot.store.engine import make_engine
from bot.store.units import Units

Steps = tuple[str, ...]

OWN = ("message", "links", "messages", "tapped_last", "old")
"""What a talk knows beside its house."""


@dataclass(frozen=True)
class Moment:
    """A talk at one moment; `own` is what it knows beside its house."""

    kept: Kept
    own: dict[str, Any]

    @classmethod
    def of(cls, play: Talk) -> "Moment":
        return cls(keep(play.house), deepcopy({name: getattr(play, name) for name in OWN}))

    def again(self, units: Units) -> Talk:
        """A talk at this moment, over a migrated database of one's own on SQLite."""
        play = Talk(units, bare=True)
        bring_back(play.house, self.kept)
        for name, value in deepcopy(self.own).items():
            setattr(play, name, value)
        return play


_MOMENTS: dict[Hashable, Moment] = {}


def played_to(units: Units, steps: Steps, shared: Collection[Steps] = ()) -> Talk:
    """The talk after some steps, over SQLite. It is kept there, and at each of `shared` that it comes by."""
    known = (steps[:number] for number in range(len(steps), 0, -1))
    begun: Steps = next((each for each in known if each in _MOMENTS), ())
    play = _MOMENTS[begun].again(units) if begun else Talk(units)
    for number in range(len(begun), len(steps)):
        play.take(steps[number])
        reached = steps[: number + 1]
        if reached == steps or reached in shared:
            _MOMENTS[reached] = Moment.of(play)
    return play


def acted_out(units: Units, act: Callable[[Talk], object]) -> Talk:
    """The talk after what a function makes of it, over SQLite. It is kept there, under the function."""
    if act in _MOMENTS:
        return _MOMENTS[act].again(units)
    play = Talk(units)
    act(play)
    _MOMENTS[act] = Moment.of(play)
    return play


@contextmanager
def one_database(files: SqliteFiles, folder: Path) -> Iterator[Units]:
    """A database for all tests of a module, each of which begins with `played_to`: queries are compiled once."""
    engine = make_engine(files.copy(folder / "one.db"))
    yield Units(engine)
    engine.dispose()
