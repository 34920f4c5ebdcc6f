"""Typed words that belong to the week's talks: check-in, end of a block, goals, the plan, other training."""

from datetime import datetime

from bot.messages import Effect, Person
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import block_end, check_in, goals, other_training, plan_week

OF_A_SESSION = frozenset({"undo", "skip", "done", "back"})
"""Words that go to the training card while one is open."""


def typed(
    text: str, client: Client, person: Person, unit: Unit, now: datetime, *, in_session: bool
) -> list[Effect] | None:
    """Take words that answer one of the week's questions; None for anything else."""
    if in_session and text.casefold().strip(" .!") in OF_A_SESSION:
        return None
    for taken in (check_in.typed, block_end.typed, goals.typed, plan_week.typed):
        found = taken(text, client, person, unit, now)
        if found is not None:
            return found
    return other_training.typed(text, client, person, unit, now, in_session=in_session)
