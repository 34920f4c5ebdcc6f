"""What a locked screen shows of a message that a client did not ask for: the first line. It says nothing of her body.

Looked for in every talk: what comes to a client from the clock, or from what somebody else does.
"""

import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest

from bot.render.releasing import released_client

TALKS = sorted((Path(__file__).parents[2] / "dialogs").glob("*.talk"))
OF_THE_BODY = re.compile(
    r"\b(pain|hurt|sore|ache|ill\b|sick|fever|flu\b|medicine|pregnan|birth|doctor|physio|injur|clinic|emergenc|numb|"
    r"knee|elbow|ankle|wrist|neck|shoulder|(left|right) (hip|foot|hand|arm|leg))|\b\d+ of 10\b|\b\d+/10\b",
    re.IGNORECASE,
)
COACHES = ("Marit", "Orla")


def unasked(talk: str) -> Iterator[tuple[str, str, str]]:
    """Yield each step, the client to whom it brought a new message that was not her own doing, and its first line."""
    step, lines = "", talk.splitlines()
    for line, following in pairwise(lines):
        if line and not line.startswith((" ", "#")):
            step = line
        found = re.fullmatch(r"    to (\w+):", line)
        if found and found[1] not in (*COACHES, "Somebody") and not step.startswith(found[1]):
            yield step, found[1], following.strip()


def test_no_first_line_that_comes_unasked_says_anything_of_a_clients_body() -> None:
    found = [each for path in TALKS for each in unasked(path.read_text(encoding="utf-8"))]

    assert len(found) > 250
    assert [each for each in found if OF_THE_BODY.search(each[2])] == []


@pytest.mark.parametrize("what", ["plan", "health", "slip", "pain"])
def test_what_was_released_is_not_said_in_the_first_line(what: str) -> None:
    assert OF_THE_BODY.search(released_client(what).html.splitlines()[0]) is None


def test_a_first_line_about_the_body_is_found() -> None:
    talk = (
        "tick 2026-04-07 07:00\n    to Ada:\n        Left knee: how is it?\n    to Marit:\n        x\n"
        "Ada: hi\n    to Ada:\n        Left knee: noted.\n"
    )
    [(step, who, line)] = unasked(talk)

    assert (step, who) == ("tick 2026-04-07 07:00", "Ada")
    assert OF_THE_BODY.search(line)
