"""A block made to fit one client: what stays, what is done in place of what and why, and what the coach is asked.

An exercise that is written on several days is replaced by the same one on all of them, so that it has one log.
"""

from collections.abc import Iterable, Mapping

from core.loads.kit_fit import not_loadable
from core.loads.substitutes import OVERRULED, Circumstances, Why, against, can_stand_in, substitutes
from core.programme.block import Block, Day
from core.programme.carried_over import carried_over
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.prescription import Prescription
from core.value import Value

LIKELY = 2
"""Most exercises that are offered at once where the coach is asked. Our proposal."""

Choices = Mapping[str, str | None]
"""What the coach chose for exercises that she wrote, by key: another, the same to keep it, None to leave it out."""


class Change(Value):
    """What becomes of an exercise that a client is not given as written.

    Attributes:
        exercise: Key, as written.
        instead: Key of what is done in its place; None where it is left out or the coach has yet to say.
        why: What stands against it, the weightiest first; none where the coach alone wants it otherwise.
        chosen: True where the coach chose.
        likely: Where she has yet to say, what she may choose, nearest first; maybe nothing.
    """

    exercise: str
    instead: str | None
    why: tuple[Why, ...] = ()
    chosen: bool = False
    likely: tuple[str, ...] = ()

    @property
    def open(self) -> bool:
        """True where it cannot be placed and the coach has yet to say."""
        return self.instead is None and not self.chosen

    @property
    def kept(self) -> bool:
        """True where something stands against it and the coach keeps it all the same."""
        return self.instead == self.exercise


class Elsewhere(Value):
    """What cannot be loaded at another place of hers; it is swapped on the day.

    Attributes:
        place: Her word for it.
        exercises: Keys, in the order written.
    """

    place: str
    exercises: tuple[str, ...]


class Personalised(Value):
    """A block as one client does it.

    Attributes:
        block: With what is done in place of what was written; what is open stays as written, what is left out is gone.
        changes: In the order written.
        elsewhere: For each other place where something is lacking.
    """

    block: Block
    changes: tuple[Change, ...]
    elsewhere: tuple[Elsewhere, ...] = ()

    @property
    def asked(self) -> tuple[Change, ...]:
        """What cannot be placed, and what the coach is asked about."""
        return tuple(one for one in self.changes if one.open)


def personalised(
    block: Block,
    about: Circumstances,
    catalogue: Mapping[str, Exercise] = CATALOGUE,
    choices: Choices | None = None,
) -> Personalised:
    """Return a block as a client does it: pure, so that the same client and block give the same.

    Args:
        block: As written.
        about: Her kit by place, her restrictions, her level, whether she is alone.
        catalogue: Exercises that may be named.
        choices: What the coach chose; a choice that a client cannot be given counts as none.
    """
    chosen = choices or {}
    changes: dict[str, Change] = {}
    for key, asked in _by_exercise(block).items():
        change = _change(key, asked, about, catalogue, chosen, _beside(key, block, changes))
        if change is not None:
            changes[key] = change
    made = block.model_copy(
        update={"days": tuple(_day(day, changes, catalogue) for day in block.days)},
    )
    others = ((kit.place, not_loadable(made, kit, catalogue)) for kit in about.kits[1:])
    return Personalised(
        block=made,
        changes=tuple(changes.values()),
        elsewhere=tuple(Elsewhere(place=place, exercises=keys) for place, keys in others if keys),
    )


def may_choose(
    key: str | None, written: str, why: Iterable[Why], about: Circumstances, catalogue: Mapping[str, Exercise]
) -> bool:
    """Return whether a coach can have a client do an exercise in place of one, keep it, or leave it out (None).

    She may judge level and being alone herself, of the exercise that she wrote and of another; a restriction and a
    kit that has nothing for it stand.
    """
    if key is None:
        return True
    if key == written:
        return all(one.code in OVERRULED for one in why)
    hers = about.model_copy(
        update={
            "new": False,
            "kits": tuple(kit.model_copy(update={"usually_alone": False}) for kit in about.kits),
        }
    )
    return key in catalogue and can_stand_in(catalogue[key], hers)


def _change(
    key: str,
    asked: tuple[Prescription, ...],
    about: Circumstances,
    catalogue: Mapping[str, Exercise],
    choices: Choices,
    beside: frozenset[str],
) -> Change | None:
    """Return what becomes of an exercise; None where it stays as written."""
    exercise = catalogue[key]
    why = against(exercise, asked, about)
    if key in choices and may_choose(choices[key], key, why, about, catalogue):
        kept = choices[key] == key
        return None if kept and not why else Change(exercise=key, instead=choices[key], why=why, chosen=True)
    if not why:
        return None
    instead = tuple(each for one in asked for each in one.instead)
    found = substitutes(exercise, instead, about, catalogue)
    nearest = next((one for one in found if one not in beside), found[0] if found else None)
    if nearest is not None:
        return Change(exercise=key, instead=nearest, why=why)
    near = substitutes(exercise, instead, about, catalogue, counted_alike=False)
    return Change(exercise=key, instead=None, why=why, likely=near[:LIKELY])


def _by_exercise(block: Block) -> dict[str, tuple[Prescription, ...]]:
    found: dict[str, tuple[Prescription, ...]] = {}
    for asked in (line.prescription for day in block.days for line in day.lines):
        found[asked.exercise] = (*found.get(asked.exercise, ()), asked)
    return found


def _beside(key: str, block: Block, changes: Mapping[str, Change]) -> frozenset[str]:
    """Return what is done on the days of an exercise beside it, so that nothing need come twice in a session."""
    days = [{line.prescription.exercise for line in day.lines} for day in block.days]
    there = {one for day in days if key in day for one in day}
    instead = (changes[one].instead for one in there if one in changes)
    return frozenset(there | {one for one in instead if one is not None})


def _day(day: Day, changes: Mapping[str, Change], catalogue: Mapping[str, Exercise]) -> Day:
    lines = []
    for line in day.lines:
        change = changes.get(line.prescription.exercise)
        if change is None or change.open or change.kept:
            lines.append(line)
        elif change.instead is not None:
            replaced = replacement(line.prescription, catalogue[change.instead])
            lines.append(line.model_copy(update={"prescription": replaced}))
    return day.model_copy(update={"lines": tuple(lines)})


def replacement(asked: Prescription, exercise: Exercise) -> Prescription:
    """Return what is asked for with another exercise in its place: same order, rest and tempo.

    The coach's words and her clip are about the exercise that she wrote, so they do not go with another.
    """
    return asked.model_copy(
        update={
            "exercise": exercise.key,
            "dose": carried_over(asked.dose, exercise),
            "tempo": None if exercise.timed else asked.tempo,
            "cue": None,
            "link": None,
            "instead": tuple(key for key in asked.instead if key != exercise.key),
        }
    )
