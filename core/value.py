"""The base of every value that is stored, compared or replayed."""

from functools import cache
from typing import Any, ClassVar

from pydantic import BaseModel, ConfigDict, SerializerFunctionWrapHandler, model_serializer


class Value(BaseModel):
    """An immutable value; an unknown field is refused.

    `model_dump_json()` writes fields in the order they are declared, so the same value is always the same bytes.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", ser_json_inf_nan="constants")


class Grown(Value):
    """A value that was given more fields after some had been stored.

    What was added later is written only where it says something, so that what was stored before is still read, and
    written, as the same bytes.
    """

    later: ClassVar[frozenset[str]] = frozenset()
    """Names of the fields that were added; each has a default, and the default says nothing."""

    @model_serializer(mode="wrap")
    def _without_what_says_nothing(self, rest: SerializerFunctionWrapHandler) -> dict[str, object]:
        fields: dict[str, object] = rest(self)
        for name, default in _defaults(type(self)):
            if (value := getattr(self, name)) is default or value == default:
                del fields[name]
        return fields


@cache
def _defaults(kind: type[Grown]) -> tuple[tuple[str, Any], ...]:
    """Return the fields of a kind of value that came later, each with what says nothing."""
    return tuple((name, kind.model_fields[name].default) for name in kind.later)
