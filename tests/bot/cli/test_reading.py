import io
import json

import pytest
from rich.console import Console

from bot.cli.reading import read_batch, read_one


def set_of(load: str, unit: str, reps: int) -> dict[str, object]:
    return {
        "load": load,
        "unit": unit,
        "reps": reps,
        "side": None,
        "seconds": None,
        "rir": None,
        "rpe": None,
    }


def test_a_reply_is_printed_as_it_is_understood():
    status, answer = read_one("92,5 8 8 8 7 6", "Hip thrust", "5x8 @ 92.5 kg", None)

    assert status == 0
    assert answer == {
        "understood": True,
        "sets": [set_of("92.5", "kg", reps) for reps in (8, 8, 8, 7, 6)],
        "as_written": False,
        "skip": False,
        "undo": False,
        "effort": {},
        "pain": [],
        "soreness": [],
        "note": None,
        "ask": None,
        "stop_sign": False,
    }


def test_without_a_unit_the_planned_one_counts():
    _, answer = read_one("100 6 6", "Bench press", "2x6 @ 100 lb", None)

    assert isinstance(answer, dict)
    assert answer["sets"] == [set_of("100", "lb", 6), set_of("100", "lb", 6)]


@pytest.mark.parametrize(
    ("exercise", "planned", "unit", "words"),
    [
        ("Hip thurst", None, "kg", "Did you mean: Hip thrust"),
        (None, "lots", "kg", "Cannot read what was planned: lots"),
        (None, None, "stone", "No such unit: stone"),
    ],
)
def test_a_question_that_cannot_be_taken_says_what_would_be_right(exercise, planned, unit, words):
    status, answer = read_one("8 8 8", exercise, planned, unit)

    assert status == 2
    assert words in answer


def test_a_batch_is_answered_line_by_line_in_order():
    asked = [
        {"text": "done", "exercise": "Hip thrust", "planned": "3x8 @ 80 kg", "unit": "kg"},
        {"exercise": "Hip thrust"},
        {"text": "skip"},
    ]
    out, errors = io.StringIO(), io.StringIO()
    lines = "\n".join(json.dumps(each) for each in asked) + "\n\nnot json\n"

    status = read_batch(io.StringIO(lines), out, Console(file=errors, width=200))

    answers = [json.loads(line) for line in out.getvalue().splitlines()]
    assert [next(iter(each)) for each in answers] == ["understood", "error", "understood", "error"]
    assert (answers[0]["as_written"], answers[2]["skip"]) == (True, True)
    assert (status, "line 2" in errors.getvalue(), "line 5" in errors.getvalue()) == (2, True, True)
