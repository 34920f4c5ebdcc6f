"""What stands against an exercise for one client, and what may be done in its place, nearest first.

Every rule here is our proposal; what is an equal of what is the catalogue's and the coach's.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from enum import StrEnum

from pydantic import Field

from core.loads.asked import SAFE_LEFT, is_without_end
from core.loads.equipment import Kit, is_likely_there
from core.loads.kit_fit import can_be_done, can_load
from core.loads.limits import Limit
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Level, Pattern
from core.programme.prescription import Dose, Prescription
from core.programme.restrictions import Restriction, Restrictions
from core.programme.siblings import sharing, siblings
from core.programme.sisters import INSTEAD, broken, sisters
from core.value import Value


class Circumstances(Value):
    """What of a client decides which exercises she can be given.

    Attributes:
        kits: Of each place where she trains, the usual one first.
        new: True in the first months of lifting.
        restrictions: What the coach has said that she must not do.
        limits: What clinicians have said of the day, of those that leave nothing of what they bear on.
    """

    kits: tuple[Kit, ...] = Field(min_length=1)
    new: bool = False
    restrictions: Restrictions = frozenset()
    limits: tuple[Limit, ...] = ()

    @property
    def kit(self) -> Kit:
        """The kit of the usual place."""
        return self.kits[0]

    @property
    def alone(self) -> bool:
        """True where a failed rep would leave a bar on her with nobody there."""
        return self.kit.usually_alone and not self.kit.safety_arms

    @property
    def barred(self) -> frozenset[Restriction]:
        """What she must not do, whoever said so."""
        return self.restrictions | {each.restriction for each in self.limits if each.restriction is not None}

    def limit_on(self, exercise: Exercise) -> Limit | None:
        """Return the first limit of a clinician that leaves nothing of an exercise; None where none does."""
        return next((each for each in self.limits if each.forbids and each.bears_on(exercise)), None)

    def allows(self, exercise: Exercise) -> bool:
        """Return whether neither the coach nor a clinician has ruled an exercise out."""
        return self.limit_on(exercise) is None and not broken(exercise, self.restrictions)


class Against(StrEnum):
    """What stands against an exercise, in order of authority."""

    LIMIT = "limit"
    """A clinician has ruled it out. by (who), until (last day, where one is named)."""
    RESTRICTION = "restriction"
    """It breaks what she must not do. restriction (as it is said)."""
    KIT = "kit"
    """The kit of her usual place cannot load it. lacks (what is lifted), place."""
    ALONE = "alone"
    """It goes to the limit under a bar, and she is alone without safeties. left (fewest that are safe)."""
    LEVEL = "level"
    """It is for trained people, and she is in her first months."""


class Why(Value):
    """Why an exercise is not given to a client.

    Attributes:
        code: What stands against it.
        facts: Short strings by name, as the code says.
    """

    code: Against
    facts: dict[str, str] = Field(default_factory=dict)


EXPLOSIVE = frozenset({Pattern.JUMP, Pattern.SWING})
"""Patterns done fast: not to be put in place of slow ones unasked. Our proposal."""

OVERRULED = frozenset({Against.ALONE, Against.LEVEL})
"""What a coach may judge otherwise: the exercise is then given as written, with two left under a bar."""


def against(exercise: Exercise, asked: Sequence[Prescription], about: Circumstances) -> tuple[Why, ...]:
    """Return what stands against an exercise as it is asked for; none where it can be given.

    Args:
        exercise: As written.
        asked: What is asked for of it, in whatever weeks.
        about: The client.
    """
    limit = about.limit_on(exercise)
    found = [] if limit is None else [Why(code=Against.LIMIT, facts=_limit_facts(limit))]
    found += [
        Why(code=Against.RESTRICTION, facts={"restriction": each.value})
        for each in broken(exercise, about.restrictions)
    ]
    if not can_be_done(exercise, asked, about.kit):
        found.append(
            Why(code=Against.KIT, facts={"lacks": exercise.implement.value, "place": about.kit.place})
        )
    if exercise.needs_safeties and about.alone and any(_to_the_limit(one.dose) for one in asked):
        found.append(Why(code=Against.ALONE, facts={"left": str(SAFE_LEFT)}))
    if about.new and exercise.level is Level.TRAINED:
        found.append(Why(code=Against.LEVEL))
    return tuple(found)


def _limit_facts(limit: Limit) -> dict[str, str]:
    until = {} if limit.until is None else {"until": limit.until.isoformat()}
    return {"by": limit.by.value, **until}


def _to_the_limit(dose: Dose) -> bool:
    """Return whether a set is to end with fewer left than is safe alone, or goes on until no more can be done."""
    return is_without_end(dose) if dose.left is None else dose.left < SAFE_LEFT


def can_stand_in(exercise: Exercise, about: Circumstances) -> bool:
    """Return whether a client can be given an exercise in place of another, whatever is asked for of it.

    The kit loads it, neither the coach nor a clinician rules it out, it fits her level, and never needs safeties where
    she has none.
    """
    return (
        not exercise.retired
        and can_load(exercise, about.kit)
        and about.allows(exercise)
        and not (about.new and exercise.level is Level.TRAINED)
        and not (about.alone and exercise.needs_safeties)
    )


def substitutes(
    exercise: Exercise,
    instead: Iterable[str],
    about: Circumstances,
    catalogue: Mapping[str, Exercise] = CATALOGUE,
    *,
    counted_alike: bool = True,
) -> tuple[str, ...]:
    """Return what a client can be given in place of an exercise, nearest first; the exercise itself never.

    The coach's own equals come first, then the catalogue's, then others of the pattern, then its sister patterns; in
    each but the coach's own what is likely there goes before what is not. Of what is for trained people an equal of
    the same pattern goes before one of another.

    Args:
        exercise: As written.
        instead: Keys that the coach wrote beside it, best first.
        about: The client.
        catalogue: Exercises that may be named.
        counted_alike: True where a hold must not become reps, nor reps a hold.
    """
    near = dict.fromkeys(_nearest(exercise, instead, about, catalogue))
    return tuple(
        key
        for key in near
        if key != exercise.key
        and (row := catalogue.get(key)) is not None
        and (row.timed == exercise.timed or not counted_alike)
        and can_stand_in(row, about)
    )


def _nearest(
    exercise: Exercise, instead: Iterable[str], about: Circumstances, catalogue: Mapping[str, Exercise]
) -> Iterator[str]:
    too_hard = about.new and exercise.level is Level.TRAINED

    def distance(row: Exercise) -> tuple[bool, bool]:
        return too_hard and row.pattern is not exercise.pattern, not is_likely_there(row, about.kit)

    yield from instead
    equals = (catalogue[key] for key in exercise.equals if key in catalogue)
    tiers = [
        [*equals],
        [*siblings(exercise, catalogue)],
        *([*sharing(one, catalogue)] for one in _sisters(exercise.pattern, about.barred)),
    ]
    if too_hard:
        tiers[:2] = [[*tiers[0], *tiers[1]]]
    for tier in tiers:
        yield from (row.key for row in sorted(tier, key=distance))


def _sisters(pattern: Pattern, restrictions: Iterable[Restriction]) -> tuple[Pattern, ...]:
    """Return the patterns that may stand in, those first that are named for what a restriction forbids.

    Nothing explosive stands in for what is not.
    """
    given = frozenset(restrictions)
    named = (INSTEAD.get(each, {}).get(pattern) for each in Restriction if each in given)
    near = dict.fromkeys((*(one for one in named if one is not None), *sisters(pattern)))
    return tuple(one for one in near if pattern in EXPLOSIVE or one not in EXPLOSIVE)
