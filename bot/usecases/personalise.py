"""A block for one client: what she can be given, what was shown to her coach, and what her coach chose."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from bot.store.people import Client
from bot.store.placements import Placed
from bot.store.units import Unit
from bot.usecases.decisions import kit_of
from core.loads.equipment import Kit
from core.loads.limits import Limit
from core.loads.personalise import Change, Choices, Personalised, may_choose, personalised
from core.loads.substitutes import Against, Circumstances, against
from core.programme.block import Block
from core.programme.prescription import Prescription
from core.programme.sisters import broken


def about(client: Client, on: date, unit: Unit, kit: Kit | None = None) -> Circumstances:
    """Return what of a client decides which exercises she can be given on a date: anywhere, or with one place's kit."""
    limits = unit.clinician_limits.standing(client.id, on)
    return Circumstances(
        kits=(kit_of(client, unit), *unit.kits.elsewhere(client.id)) if kit is None else (kit,),
        new=client.experience == "new",
        restrictions=unit.restrictions.of(client.id),
        limits=tuple(each for each in limits if each.forbids and each.stands(on)),
    )


def fitted(
    block: Block, client: Client, choices: Choices, on: date, unit: Unit, more: Iterable[Limit] = ()
) -> Personalised:
    """Return a block as a client does it on a date, with what her coach chose.

    Args:
        block: As written.
        client: Whose.
        choices: What her coach chose, by the key of the written exercise.
        on: Date on which it is looked at: a clinician's limit has a first and a last day.
        unit: Open transaction.
        more: Limits that are only read back yet, as if they held.
    """
    hers = about(client, on, unit)
    drafted = tuple(each for each in more if each.forbids and each.stands(on))
    if drafted:
        hers = hers.model_copy(update={"limits": (*hers.limits, *drafted)})
    return personalised(block, hers, unit.exercises.catalogue(), choices)


def keep(assignment_id: int, changes: Iterable[Change], unit: Unit) -> None:
    """Keep what becomes of exercises as it was shown, so that sessions go out so.

    What the coach chose before stays kept, even while the client cannot be given it.
    """
    shown = {
        one.exercise: Placed(
            instead=one.instead, why=tuple(each.code.value for each in one.why), chosen=one.chosen
        )
        for one in changes
        if not one.open
    }
    before = unit.placements.of(assignment_id) or {}
    chosen = {key: one for key, one in before.items() if one.chosen}
    unit.placements.keep(assignment_id, shown | chosen)


@dataclass(frozen=True, slots=True)
class Placing:
    """How exercises are placed in a client's sessions.

    Attributes:
        about: The client as she is now.
        changes: What was shown or chosen when she was put on the block; None where nothing was shown.
    """

    about: Circumstances
    changes: Mapping[str, Placed] | None

    def said(self, exercise: str) -> Placed | None:
        """Return what was shown or chosen for an exercise; None where nothing was."""
        return (self.changes or {}).get(exercise)

    def why(self, asked: Prescription, unit: Unit) -> str | None:
        """Return why an exercise is not given as written: a code, or that the coach chose; None where it may be.

        What the kit lacks is not among it: that is found on the day. What was never shown to the coach is judged by
        limits and restrictions alone.
        """
        exercise, said = unit.exercises.get(asked.exercise), self.said(asked.exercise)
        if self.about.limit_on(exercise) is not None:
            return Against.LIMIT.value
        if broken(exercise, self.about.restrictions):
            return Against.RESTRICTION.value
        if said is not None and said.chosen:
            return None if said.instead == asked.exercise else CHOSEN
        if self.changes is None:
            return None
        now = {one.code for one in against(exercise, [asked], self.about)}
        shown = set() if said is None else set(said.why)
        if Against.ALONE in now or (Against.ALONE in shown and self.about.alone):
            return Against.ALONE.value
        return Against.LEVEL.value if Against.LEVEL in now else None


CHOSEN = "chosen"
"""Why an exercise is another where the coach chose it."""


def placing(client: Client, assignment_id: int, on: date, unit: Unit, kit: Kit | None = None) -> Placing:
    """Return how exercises are placed in a client's session of a date, anywhere or with the kit of one place.

    What the coach chose and the client can no longer be given counts as no choice.
    """
    hers, kept = about(client, on, unit, kit), unit.placements.of(assignment_id)
    if kept is None:
        return Placing(hers, None)
    catalogue = unit.exercises.catalogue()
    standing = {
        key: one
        for key, one in kept.items()
        if not one.chosen or one.instead == key or may_choose(one.instead, key, (), hers, catalogue)
    }
    return Placing(hers, standing)
