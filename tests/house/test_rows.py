"""A table that is one test fails as its rows would have failed, and names them."""

import inspect

import pytest
from rows import RowsFailed, each_row


def test_every_row_that_fails_is_named_with_what_failed() -> None:
    @each_row(("number", "square"), [(1, 1), (2, 5), (3, 9), (4, 17)])
    def squares(number: int, square: int) -> None:
        assert number**2 == square, "no square"

    with pytest.raises(RowsFailed) as caught:
        squares()

    said = str(caught.value)
    assert said.startswith("2 of 4 rows failed")
    assert all(words in said for words in ("[1: 2, 5]", "[3: 4, 17]", "AssertionError: no square"))
    assert not any(words in said for words in ("[0: 1, 1]", "[2: 3, 9]"))


def test_a_row_that_raises_nothing_where_it_should_fails() -> None:
    @each_row("text", ["1", "x"])
    def refused(text: str) -> None:
        with pytest.raises(ValueError, match="invalid literal"):
            int(text)

    with pytest.raises(RowsFailed, match="1 of 2 rows failed") as caught:
        refused()
    assert list(caught.value.failed) == ["0: '1'"]


def test_two_tables_are_tried_with_each_other() -> None:
    seen = []

    @each_row("one", [1, 2])
    @each_row("other", "ab")
    def pairs(one: int, other: str, kept: list[tuple[int, str]]) -> None:
        kept.append((one, other))
        assert one == 1

    with pytest.raises(RowsFailed) as caught:
        pairs(kept=seen)

    assert seen == [(1, "a"), (1, "b"), (2, "a"), (2, "b")]
    assert list(caught.value.failed) == ["1: 2"]
    assert "[0: 'a']" in str(caught.value)
    assert list(inspect.signature(pairs).parameters) == ["kept"]


def test_a_table_without_rows_is_no_test() -> None:
    with pytest.raises(ValueError, match="no rows of text"):
        each_row("text", [])


def test_a_coroutine_is_no_test_of_rows() -> None:
    async def waits(text: str) -> None: ...

    with pytest.raises(TypeError, match="waits would never be waited for"):
        each_row("text", ["a"])(waits)
