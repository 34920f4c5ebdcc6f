"""A coach's own exercises beside ours."""

from collections.abc import Mapping
from types import MappingProxyType

from sqlalchemy import select

from bot.store.rows import Rows
from bot.store.tables import exercise
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise


class Exercises(Rows):
    """Exercises that one coach may name: ours and her own."""

    def own(self) -> tuple[Exercise, ...]:
        """Return her own, in the order in which she added them."""
        query = select(exercise.c.spec).where(exercise.c.coach_id == self.coach_id).order_by(exercise.c.id)
        return tuple(Exercise.model_validate(spec) for spec in self.connection.execute(query).scalars())

    def catalogue(self) -> Mapping[str, Exercise]:
        """Return every exercise that she may name, by its key."""
        own = {one.key: one for one in self.own()}
        return MappingProxyType({**CATALOGUE, **own}) if own else CATALOGUE
