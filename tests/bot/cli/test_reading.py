import io
import json

import pytest
from rich.console import Console
from typer.testing import CliRunner

from bot.cli.app import app
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
    assert (status, "line 2" in errors.getvalue(), "line 5" in errors.getvalue()) == (1, True, True)


BAD = [
    "[1]",
    '"80 8 8 7"',
    '{"text": 8}',
    '{"text": null}',
    '{"text": "8 8 8", "exercise": ["Hip thrust"]}',
    '{"text": "8 8 8", "planned": 3}',
    '{"text": "8 8 8", "unit": {}, "planned": 1}',
    "[" * 100_000,
    '{"text": "8 8 8", "exercise": "\\ud800"}',
]


@pytest.mark.parametrize("bad", BAD, ids=[each[:40] for each in BAD])
def test_a_bad_line_of_a_batch_is_answered_in_its_place(bad):
    out, errors = io.StringIO(), io.StringIO()

    status = read_batch(
        io.StringIO(f'{{"text": "done"}}\n{bad}\n{{"text": "skip"}}\n'), out, Console(file=errors)
    )

    answers = [json.loads(line) for line in out.getvalue().encode().splitlines()]
    assert (status, [next(iter(each)) for each in answers]) == (1, ["understood", "error", "understood"])
    assert (answers[0]["as_written"], answers[2]["skip"]) == (True, True)


def test_a_batch_without_a_bad_line_succeeds():
    out = io.StringIO()

    assert read_batch(io.StringIO('{"text": "done"}\n\n'), out, Console(file=io.StringIO())) == 0
    assert len(out.getvalue().splitlines()) == 1


def test_each_line_of_a_batch_is_answered_before_the_next_is_read():
    out = io.StringIO()
    seen = []

    def asked():
        for text in ("done", "skip", "undo"):
            seen.append(len(out.getvalue().splitlines()))
            yield json.dumps({"text": text}) + "\n"

    read_batch(asked(), out, Console(file=io.StringIO()))

    assert seen == [0, 1, 2]


@pytest.mark.parametrize(
    ("text", "load", "side", "unit"),
    [
        ("bw 8", "bw", None, None),
        ("bw+5 8", "bw+5", None, "kg"),
        ("bw-10 8", "bw-10", None, "kg"),
        ("82,50kg 8", "82.5", None, "kg"),
        ("L8 R8", None, "L", None),
    ],
)
def test_load_and_side_are_text(text, load, side, unit):
    _, answer = read_one(text, None, None, None)

    assert isinstance(answer, dict)
    first = answer["sets"][0]
    assert (first["load"], first["side"], first["unit"]) == (load, side, unit)


def test_help_says_what_a_batch_and_a_reading_hold():
    shown = CliRunner().invoke(app, ["read", "--help"], env={"COLUMNS": "200", "TERM": "dumb"}).output

    for word in ("--batch", '"planned"', "bw-10", "as_written", "exit status is then 1", "soreness"):
        assert word in shown


def test_a_batch_on_standard_input_may_hold_bytes_of_no_character():
    lines = b'{"text": "80 8 \xff"}\n{"text": "80 8"}\n'
    answered = CliRunner().invoke(app, ["read", "--batch"], input=lines)

    assert answered.exit_code == 0
    assert len(answered.stdout.splitlines()) == 2
