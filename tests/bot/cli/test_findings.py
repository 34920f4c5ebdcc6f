from datetime import timedelta

import pytest

from bot.cli.findings import span


@pytest.mark.parametrize(
    ("length", "expected"),
    [
        (timedelta(seconds=-5), "0 s"),
        (timedelta(seconds=119), "119 s"),
        (timedelta(seconds=120), "2 min"),
        (timedelta(minutes=119), "119 min"),
        (timedelta(hours=2), "2 h"),
        (timedelta(hours=47), "47 h"),
        (timedelta(hours=48), "2 days"),
    ],
)
def test_a_length_of_time_has_one_unit(length: timedelta, expected: str) -> None:
    assert span(length) == expected
