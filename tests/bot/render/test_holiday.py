"""A holiday in words, for the coach who gives it and for the client."""

from datetime import date

import pytest

from bot.render import holiday as say

TODAY = date(2026, 4, 15)
MAY = (date(2026, 5, 3), date(2026, 5, 10))
ONE = (date(2026, 4, 17), date(2026, 4, 17))
HELD = "No card comes on these days, and nothing counts as missed.\n"


@pytest.mark.parametrize(
    ("found", "name", "words"),
    [
        (
            say.Comes(sessions=2, clients=1, days=7, in_line=False),
            "A & B",
            (
                "What is planned on them is left out: so far 2 sessions. The plan goes on after it.\n"
                "A &amp; B is told in the days before it."
            ),
        ),
        (
            say.Comes(sessions=3, clients=2, days=8, in_line=False, begun=True),
            None,
            (
                "What is planned on them is left out: so far 3 sessions of 2 clients. The plan goes on after it.\n"
                "After so long a break loads stay or begin lower.\n"
                "Each client is told now."
            ),
        ),
        (
            say.Comes(sessions=0, clients=0, days=1, in_line=False),
            "Ada",
            (
                "What is planned on them is left out. The plan goes on after it.\n"
                "Ada is told in the days before it."
            ),
        ),
        (
            say.Comes(sessions=0, clients=0, days=1, in_line=True),
            "Ada",
            "What is planned waits and comes after it, in its order.\nAda is told in the days before it.",
        ),
    ],
)
def test_a_coach_reads_what_a_holiday_comes_to(found: say.Comes, name: str | None, words: str) -> None:
    assert say.comes_to(found, name) == HELD + words


def test_a_client_is_told_plainly() -> None:
    assert say.ahead("M & O", [ONE, MAY], TODAY).html == (
        "M &amp; O has planned a holiday: Fri 17 April and 3 to 10 May. No session comes then, and nothing counts as "
        "missed. Your plan goes on after it."
    )
    assert say.off_again("Marit", *MAY, TODAY).html == (
        "Marit has taken the holiday back: 3 to 10 May. Your sessions come as planned again."
    )
