"""Answers to raises that wait: what is read, and what is none."""

import pytest

from core.checkin.raise_words import RaiseSaid, raise_said, undo_said


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("agree", RaiseSaid(agree=True)),
        ("Agree to all", RaiseSaid(agree=True)),
        ("hold all.", RaiseSaid(agree=False)),
        ("agree 1", RaiseSaid(agree=True, numbers=(1,))),
        ("hold 2 and 3", RaiseSaid(agree=False, numbers=(2, 3))),
        ("agree 1, 12", RaiseSaid(agree=True, numbers=(1, 12))),
        ("agree Ada", RaiseSaid(agree=True, about="Ada")),
        ("agreed Ada: hip thrust", RaiseSaid(agree=True, about="Ada hip thrust")),
        ("hold Ada hip thrust", RaiseSaid(agree=False, about="Ada hip thrust")),
        ("I agree with you", None),
        ("holding on", None),
        ("disagree", None),
    ],
)
def test_an_answer_is_read_whole(line: str, expected: RaiseSaid | None) -> None:
    assert raise_said(line) == expected


@pytest.mark.parametrize(
    ("line", "expected"),
    [("undo raise", True), ("Undo the last raises.", True), ("undo hold", True), ("undo order", False)],
)
def test_the_last_answer_is_taken_back_by_words(line: str, expected: bool) -> None:
    assert undo_said(line) is expected
