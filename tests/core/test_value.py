"""A value that may grow: what came later is written only where it says something."""

from typing import ClassVar

from core.value import Grown


class Tide(Grown):
    """One of its own, so that nobody has asked for its fields before."""

    later: ClassVar[frozenset[str]] = frozenset({"wind"})

    metres: int
    wind: str | None = None


def test_what_came_later_is_written_only_where_it_says_something() -> None:
    assert Tide(metres=2).model_dump_json() == '{"metres":2}'
    assert Tide(metres=2, wind="north").model_dump_json() == '{"metres":2,"wind":"north"}'


def test_what_was_stored_before_is_read_and_written_as_the_same_bytes() -> None:
    stored = '{"metres":3}'

    assert Tide.model_validate_json(stored).model_dump_json() == stored
