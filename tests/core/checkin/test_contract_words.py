"""What a coach has agreed with a client, as she types it."""

from datetime import date

import pytest

from core.checkin.contract_words import ContractRead, contract_read, is_near

TODAY = date(2026, 4, 6)


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("until 30 June", ContractRead(until_on=date(2026, 6, 30))),
        ("12 sessions", ContractRead(sessions=12)),
        ("1 session left", ContractRead(sessions=1)),
        ("None.", ContractRead(none=True)),
    ],
)
def test_it_is_a_day_or_a_number_of_sessions(text: str, read: ContractRead) -> None:
    assert contract_read(text, TODAY) == read


@pytest.mark.parametrize("text", ["0 sessions", "501 sessions", "until soon", "some day", "12"])
def test_what_is_neither_is_not_read(text: str) -> None:
    assert contract_read(text, TODAY) is None


def test_two_sessions_left_are_near_the_end() -> None:
    assert [left for left in range(5) if is_near(left)] == [0, 1, 2]
