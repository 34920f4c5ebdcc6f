from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, timezone
from decimal import Decimal
from typing import Any

import pytest
from sqlalchemy import Column, Connection, Engine, MetaData, Table, insert, select
from sqlalchemy.exc import StatementError

from bot.store.types import ExactDecimal, Id, Json, UtcDateTime

held = Table(
    "held",
    MetaData(),
    Column("id", Id, primary_key=True),
    Column("at", UtcDateTime),
    Column("exact", ExactDecimal),
    Column("said", Json),
)


@pytest.fixture
def connection(engine: Engine) -> Iterator[Connection]:
    with engine.connect() as connection:
        held.create(connection)
        yield connection


def kept(connection: Connection, name: str, value: Any) -> Any:
    connection.execute(insert(held).values({name: value}))
    return connection.execute(select(held.c[name])).scalar_one()


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        (
            datetime(2026, 4, 6, 7, 30, 1, 999_999, tzinfo=UTC),
            datetime(2026, 4, 6, 7, 30, 1, 999_999, tzinfo=UTC),
        ),
        (datetime(2026, 4, 6, 6, tzinfo=timezone(timedelta(hours=9))), datetime(2026, 4, 5, 21, tzinfo=UTC)),
        (
            datetime(2026, 4, 6, 6, tzinfo=timezone(timedelta(hours=-2, minutes=-30))),
            datetime(2026, 4, 6, 8, 30, tzinfo=UTC),
        ),
        (datetime(1, 1, 1, tzinfo=UTC), datetime(1, 1, 1, tzinfo=UTC)),
        (None, None),
    ],
)
def test_an_instant_comes_back_in_utc(connection: Connection, given: Any, expected: Any) -> None:
    found = kept(connection, "at", given)

    assert found == expected
    assert found is None or found.utcoffset() == timedelta(0)


def test_a_naive_datetime_is_no_instant(connection: Connection) -> None:
    with pytest.raises(StatementError, match="naive"):
        kept(connection, "at", datetime(2026, 4, 6, 7))  # noqa: DTZ001  (that is the point)


def test_instants_compare_in_order_within_a_second(connection: Connection) -> None:
    start = datetime(2026, 4, 6, 7, tzinfo=UTC)
    steps = [start + timedelta(microseconds=each) for each in (0, 1, 999_999, 1_000_000)]
    connection.execute(insert(held), [{"at": each} for each in reversed(steps)])
    query = select(held.c.at).where(held.c.at > steps[0]).order_by(held.c.at)

    assert connection.execute(query).scalars().all() == steps[1:]


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        ("92.5", "92.5"),
        ("92.50", "92.5"),
        ("100", "100"),
        ("1E+2", "100"),
        ("0", "0"),
        ("-0.0", "0"),
        ("0.0000000001", "0.0000000001"),
        ("-2.5", "-2.5"),
        ("45.359237", "45.359237"),
        ("1234567890123456789.123456789", "1234567890123456789.123456789"),
    ],
)
def test_a_decimal_comes_back_to_the_digit(connection: Connection, given: str, expected: str) -> None:
    assert format(kept(connection, "exact", Decimal(given)), "f") == expected


def test_equal_decimals_are_found_however_they_were_written(connection: Connection) -> None:
    connection.execute(
        insert(held), [{"exact": Decimal(each)} for each in ("92.5", "92.50", "9.25E+1", "92.51")]
    )
    query = select(held.c.id).where(held.c.exact == Decimal("92.500"))

    assert len(connection.execute(query).all()) == 3


def test_no_decimal_stays_none(connection: Connection) -> None:
    assert kept(connection, "exact", None) is None


@pytest.mark.parametrize("given", [92.5, 92, "92.5", True])
def test_an_exact_column_takes_nothing_but_decimals(connection: Connection, given: Any) -> None:
    with pytest.raises(StatementError, match="takes a Decimal"):
        kept(connection, "exact", given)


@pytest.mark.parametrize("given", ["NaN", "Infinity", "-Infinity"])
def test_an_exact_column_takes_nothing_but_numbers(connection: Connection, given: str) -> None:
    with pytest.raises(StatementError, match="finite"):
        kept(connection, "exact", Decimal(given))


def test_ids_beyond_32_bits_are_kept(connection: Connection) -> None:
    connection.execute(insert(held).values(id=7_000_000_000))

    assert connection.execute(select(held.c.id)).scalar_one() == 7_000_000_000


def test_ids_count_up_by_themselves(connection: Connection) -> None:
    made = [
        connection.execute(insert(held).values(at=None).returning(held.c.id)).scalar_one() for _ in range(3)
    ]

    assert made == [1, 2, 3]


@pytest.mark.parametrize("said", [{"a": [1, 2, {"b": None}]}, [], "words, “quoted”", 5, {"å": "✓"}])
def test_json_comes_back_as_it_was(connection: Connection, said: Any) -> None:
    assert kept(connection, "said", said) == said
