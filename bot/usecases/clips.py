"""`/clip`: a coach's own clip of a prep drill, shown step by step to her clients."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Person
from bot.render import clips as say
from bot.store.units import Unit
from bot.usecases.block_files import only_for_coaches
from bot.usecases.leaving import answer
from core.errors import LinkUnreadable, UnknownDrill
from core.programme.drill import Drill
from core.programme.drills import DRILLS, drill_named, drills_like
from core.programme.grammar import is_address

STOPS = frozenset({"stop", "none", "off", "no"})
SOME = 3
"""Drills that are named where none is like what was typed."""


@dataclass(frozen=True, slots=True)
class ClipAsked:
    """`/clip`, with what stands after it: `ankle rock https://...`, `ankle rock stop`, or nothing."""

    text: str = ""


def clip_asked(command: ClipAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep or take away a clip of a drill, or list what there is.

    Raises:
        UnknownDrill: No drill has this name.
        LinkUnreadable: What stands after the name is no address.
    """
    if person.role != "coach":
        return only_for_coaches(person)
    words = command.text.split()
    if not words:
        return [answer(person, "clip", page) for page in say.listed(unit.clips.standing())]
    whole = drill_named(" ".join(words))
    if whole is not None:
        return [answer(person, "clip", say.clip_of(whole, unit.clips.standing().get(whole.key)))]
    *named, last = words
    drill = _drill(" ".join(named) or last)
    if last.casefold() in STOPS:
        unit.clips.keep(drill.key, None, now)
        return [answer(person, "clip", say.taken_away(drill))]
    if not is_address(last):
        raise LinkUnreadable(written=last)
    unit.clips.keep(drill.key, last, now)
    return [answer(person, "clip", say.kept(drill, last))]


def _drill(text: str) -> Drill:
    found = drill_named(text)
    if found is None:
        known = drills_like(text) or "; ".join(each.name for each in list(DRILLS.values())[:SOME])
        raise UnknownDrill(written=text, known=known.replace("; ", ", "))
    return found
