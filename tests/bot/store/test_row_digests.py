from datetime import UTC, date, datetime, time, timedelta, timezone
from decimal import Decimal
from typing import Any

import pytest

from bot.store.row_digests import _digest, _parsed

SUMMER = timezone(timedelta(hours=1))


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (Decimal("92.50"), Decimal("92.5")),
        (Decimal("1E+2"), Decimal(100)),
        (Decimal("-0.0"), Decimal(0)),
        (datetime(2026, 3, 29, 2, tzinfo=SUMMER), datetime(2026, 3, 29, 1, tzinfo=UTC)),
        (_parsed('{"a": [1, {}], "b": null}'), _parsed('{"b":null,"a":[1.0,{}]}')),
        (_parsed('"\\u00df"'), _parsed('"ß"')),
    ],
)
def test_what_is_written_otherwise_and_says_the_same_has_one_digest(one: Any, other: Any) -> None:
    assert _digest([one]) == _digest([other])


DIFFERENT = [
    None, True, False, 0, 1, "", "0", "1", "None", "true", "ß", "ss", b"", b"1",
    Decimal(1), Decimal("0.1"), Decimal(10), Decimal(-1), Decimal("0.10000000000000000000000000000000001"),
    _parsed("null"), _parsed("1"), _parsed('"1"'), _parsed("true"), _parsed("[]"), _parsed("{}"), _parsed("[[]]"),
    _parsed("[1, 2]"), _parsed("[2, 1]"), _parsed('{"1": 2}'), _parsed('["1", 2]'), _parsed('["number", "1e0"]'),
    _parsed("0.1"), _parsed("0.1000000000000000055511151231257827"),
    date(2026, 3, 29), time(2, 0), datetime(2026, 3, 29, tzinfo=UTC), datetime(2026, 3, 29, 0, 0, 0, 1, tzinfo=UTC),
    "2026-03-29",
]  # fmt: skip


def test_no_two_values_that_differ_have_one_digest() -> None:
    found = [_digest([each]) for each in DIFFERENT] + [
        _digest([]),
        _digest([None, None]),
        _digest(["", None]),
    ]

    assert len(set(found)) == len(found)


@pytest.mark.parametrize(
    ("value", "refusal"), [(Decimal("NaN"), ValueError), (_parsed("NaN"), TypeError), (object(), TypeError)]
)
def test_what_is_no_value_of_a_database_has_no_digest(value: Any, refusal: type[Exception]) -> None:
    with pytest.raises(refusal):
        _digest([value])
