import pytest

from bot.render.coming_back import comeback_words

TWO_WEEKS = (
    "14 days without training. What you lifted before comes back in 3 sessions: the first at about 90 % of the load, "
    "with about 50 % of the sets. Muscles and tendons need that time."
)
LONG = (
    "56 days without training. What you lifted before begins at 80 % at most, with about half the sets, until your "
    "coach sets the way back. After so long muscles and tendons need time."
)


def test_a_break_is_said_in_plain_words() -> None:
    assert comeback_words(14) == TWO_WEEKS
    assert comeback_words(27) == TWO_WEEKS.replace("14", "27")
    assert comeback_words(28) == TWO_WEEKS.replace("14", "28").replace("in 3", "in 4").replace("90 %", "80 %")
    assert comeback_words(56) == LONG


def test_from_60_on_the_table_is_read_one_row_lower() -> None:
    assert comeback_words(8, older=True) == TWO_WEEKS.replace("14", "8")
    assert comeback_words(28, older=True) == LONG.replace("56", "28")
    assert comeback_words(90, older=True) == LONG.replace("56", "90")


@pytest.mark.parametrize(("days", "older"), [(0, False), (7, True), (8, False), (13, False)])
def test_what_changes_nothing_is_not_said(days: int, older: bool) -> None:
    assert comeback_words(days, older=older) == ""
