"""A coach's own exercises beside ours."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from functools import cached_property
from types import MappingProxyType

from sqlalchemy import insert, select, update

from bot.store.presence import holds_nothing
from bot.store.rows import Rows, given
from bot.store.tables import exercise
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise

_OWN = select(exercise.c.spec).where(given(exercise.c.coach_id)).order_by(exercise.c.id)


class Exercises(Rows):
    """Exercises that one coach may name: ours and her own. Looked up once in a transaction."""

    def own(self) -> tuple[Exercise, ...]:
        """Return her own, in the order in which she added them; those she took out are not among them."""
        return tuple(one for one in self._kept if not one.retired)

    def catalogue(self) -> Mapping[str, Exercise]:
        """Return every exercise that she may name, by its key.

        Hers come first, so that one of ours that is added later cannot take the meaning of a name of hers. What she
        took out is still found by its key, since what was trained stands in the log; no name finds it.
        """
        return self._catalogue

    def get(self, key: str) -> Exercise:
        """Return one exercise, hers or ours.

        Raises:
            KeyError: There is none, a bug of ours: keys are written by us alone.
        """
        return self._catalogue[key]

    def keep(self, exercises: Sequence[Exercise], now: datetime) -> None:
        """Add exercises of hers; one whose key is there changes from now on."""
        there = {one.key for one in self._kept}
        for one in exercises:
            spec = one.model_dump(mode="json")
            if one.key in there:
                self.connection.execute(
                    update(exercise)
                    .where(exercise.c.coach_id == self.coach_id, exercise.c.key == one.key)
                    .values(spec=spec)
                )
            else:
                self.connection.execute(
                    insert(exercise).values(coach_id=self.coach_id, key=one.key, spec=spec, created_at=now)
                )
        self._forget()

    def retire(self, key: str) -> None:
        """Take an exercise of hers out: no name finds it any more, and the log still does."""
        kept = next(one for one in self._kept if one.key == key)
        self.connection.execute(
            update(exercise)
            .where(exercise.c.coach_id == self.coach_id, exercise.c.key == key)
            .values(spec=kept.model_copy(update={"retired": True}).model_dump(mode="json"))
        )
        self._forget()

    @cached_property
    def _kept(self) -> tuple[Exercise, ...]:
        if holds_nothing(self, exercise):
            return ()
        specs = self.connection.execute(_OWN, {"coach_id": self.coach_id}).scalars()
        return tuple(Exercise.model_validate(spec) for spec in specs)

    @cached_property
    def _catalogue(self) -> Mapping[str, Exercise]:
        out = {one.key for one in self._kept if one.retired}
        own = {one.key: _without(one, out) for one in self._kept}
        return MappingProxyType({**own, **CATALOGUE}) if own else CATALOGUE

    def _forget(self) -> None:
        for name in ("_kept", "_catalogue"):
            self.__dict__.pop(name, None)


def _without(one: Exercise, out: set[str]) -> Exercise:
    """Return an exercise without the equals that were taken out."""
    return (
        one.model_copy(update={"equals": tuple(key for key in one.equals if key not in out)}) if out else one
    )
