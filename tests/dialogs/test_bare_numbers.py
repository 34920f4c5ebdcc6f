"""A bare number means what was asked: the same `7`, `4` and `60` under every question that may be open."""

from collections.abc import Iterator
from datetime import time
from typing import Any

import pytest
from databases import SqliteFiles
from dialogs.moments import one_database, played_to
from dialogs.talks import Talk
from sqlalchemy import func, select

from bot.store.tables import (
    body_report,
    client,
    due_question,
    forwarded,
    goal,
    item,
    logged_set,
    other_training,
    prompt,
)
from bot.store.units import Units
from bot.usecases.week_clock import CHECK_IN as CHECK_IN_KIND

CARD = ("tick 2026-04-07 07:00",)
BEGUN = (*CARD, "Ada [Start]")
FELT = (*BEGUN, "Ada: 90 8 8 8 8", *["Ada: skip"] * 4)
CHECK_IN = ("tick 2026-04-12 18:00",)
WORRY = (*CHECK_IN, "Ada [Hard]", "Ada: sleep good, stress low")
MORNING = ("Ada: pain left knee 5", "tick 2026-04-07 08:00")
SHARED = (CARD, BEGUN, FELT, CHECK_IN, WORRY, MORNING)
"""What several questions come by."""

NO_SESSION = ({}, "There is no session open, so I stored nothing.")
TO_COACH = ({"words": 1}, "Passed on to your coach.")
SETS = ({"asks": 1}, "How many sets was that? Nothing is stored yet.")
LOAD = ({"asks": 1}, "That can be read in more than one way. Which is it? Nothing is stored yet.")
IS_IT_SETS = (SETS, SETS, LOAD)
NOT_NOW = (NO_SESSION, NO_SESSION, TO_COACH)
"""No number was asked for and none is sensible: nothing is stored, and a number that is no set goes to the coach."""
TAP_IT = ({}, "I could not tell which one. Tap it, or type it once more.")


def again(words: str) -> tuple[Any, ...]:
    return (({}, words),) * 3


def pain(before: tuple[int, ...], score: int) -> tuple[dict[str, Any], str]:
    return {
        "pain": (*before, score)
    }, "Stop here for today." if score == 7 else f"Noted: left knee, {score} of 10"


QUESTIONS: dict[str, tuple[tuple[str, ...], tuple[Any, ...]]] = {
    "nothing": ((), NOT_NOW),
    "how bad it is": (
        ("Ada: left knee hurts",),
        (pain((), 7), pain((), 4), ({}, "how bad is it at its worst, from 0 to 10?")),
    ),
    "how bad it is, in a session": ((*BEGUN, "Ada: left knee hurts"), (pain((), 7), pain((), 4), LOAD)),
    "where it hurts": ((*BEGUN, "Ada: something hurts"), IS_IT_SETS),
    "what it feels like": (("Ada: low back 5",), NOT_NOW),
    "whether something was taken": (("Ada: pain left knee 3",), NOT_NOW),
    "the morning after": (MORNING, (pain((5,), 7), pain((5,), 4), LOAD)),
    "the morning after, while training": ((*MORNING, "Ada [Start]"), IS_IT_SETS),
    "a card that is not begun": (CARD, IS_IT_SETS),
    "an exercise": (BEGUN, IS_IT_SETS),
    "an exercise whose load is to be found": ((*BEGUN, "Ada [D]"), IS_IT_SETS),
    "which reading": ((*BEGUN, "Ada: 900 8 8 8"), IS_IT_SETS),
    "whether anything hurts": (
        FELT,
        (({}, "is logged or left out already"), ({}, "is logged or left out already"), TO_COACH),
    ),
    "reps left": (
        (*FELT, "Ada [Nothing hurts]"),
        (
            ({"left": (4,)}, "Logged."),
            ({"left": (4,)}, "Logged."),
            ({}, "I could not read that as reps left."),
        ),
    ),
    "the check-in, words": (CHECK_IN, (TAP_IT,) * 3),
    "the check-in, two rows": ((*CHECK_IN, "Ada [Hard]"), (TAP_IT,) * 3),
    "the check-in, a line": (
        WORRY,
        (({"answers": 3, "words": 1}, "Noted, and passed on to your coach."),) * 3,
    ),
    "the check-in, a line, while training": ((*WORRY, "tick 2026-04-13 07:00", "Ada [Start]"), IS_IT_SETS),
    "the hour": (
        ("Ada: /settings hour",),
        (({}, "Your hour: 07:00."), ({"hour": time(4)}, "Your hour: 04:00."), ({}, "I could not read that.")),
    ),
    "the length": (
        ("Ada: /settings length",),
        (({}, "Type minutes"), ({}, "Type minutes"), ({}, "Your length: 60 min.")),
    ),
    "the days": (("Ada: /settings days",), again("I could not read that. Type days")),
    "the clock": (("Ada: /settings clock",), again("What time is it where you are?")),
    "the unit": (("Ada: /settings unit",), again("I could not read that. Tap a button, or type kg or lb.")),
    "the length, while training": (
        (*BEGUN, "Ada: /settings length"),
        (SETS, SETS, ({}, "Your length: 60 min.")),
    ),
    "the menu of settings": (("Ada: /settings",), NOT_NOW),
    "what there is to lift": (("Ada: /kit",), NOT_NOW),
    "other training": (("Ada: /other",), NOT_NOW),
    "how long other training was": (
        ("Ada: swam",),
        tuple(({"other": (minutes,)}, f"Kept: a swim, {minutes} min") for minutes in (7, 4, 60)),
    ),
    "goals": (("Ada: /goals",), NOT_NOW),
    "when away": (("Ada: /away",), NOT_NOW),
    "how ill": (("Ada: /ill",), NOT_NOW),
    "the plan of the week": (("Ada: /plan",), NOT_NOW),
}
CASES = [
    (question, typed, *meant)
    for question, (_, meanings) in QUESTIONS.items()
    for typed, meant in zip(("7", "4", "60"), meanings, strict=True)
]


@pytest.fixture(scope="module")
def units(sqlite_files: SqliteFiles, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Units]:
    with one_database(sqlite_files, tmp_path_factory.mktemp("bare")) as found:
        yield found


@pytest.mark.parametrize(
    ("question", "typed", "kept", "said"), CASES, ids=[f"{each[0]}: {each[1]}" for each in CASES]
)
def test_a_bare_number_answers_what_is_open_or_is_asked_about(
    units: Units, question: str, typed: str, kept: dict[str, Any], said: str
) -> None:
    play = played_to(units, QUESTIONS[question][0], SHARED)
    before = kept_of(play)

    lines = play.take(f"Ada: {typed}")

    after = kept_of(play)
    counted = {"words", "asks"}
    changed = {
        name: after[name] - before[name] if name in counted else after[name]
        for name in after
        if after[name] != before[name]
    }
    assert changed == kept
    assert said in " ".join(line.strip() for line in lines)


def kept_of(play: Talk) -> dict[str, Any]:
    """What is kept of Ada, by what it is."""
    ada = play.house.client_of(play.someone("Marit"), play.someone("Ada")).id
    with play.units.read(None) as house:

        def all_of(column: Any, *which: Any) -> tuple[Any, ...]:
            return tuple(house.connection.scalars(select(column).where(*which)))

        def count(table: Any, *which: Any) -> int:
            return house.connection.scalars(select(func.count()).select_from(table).where(*which)).one()

        hers = client.c.id == ada
        answers = all_of(
            due_question.c.answers, due_question.c.client_id == ada, due_question.c.kind == CHECK_IN_KIND
        )
        return {
            "pain": all_of(
                body_report.c.score, body_report.c.client_id == ada, body_report.c.voided_at.is_(None)
            ),
            "sets": all_of(logged_set.c.reps, logged_set.c.voided_at.is_(None)),
            "left": all_of(item.c.left_last, item.c.left_last.is_not(None)),
            "hour": all_of(client.c.hour, hers)[0],
            "own": [all_of(client.c[name], hers) for name in ("minutes", "days", "zone", "unit")],
            "other": all_of(other_training.c.minutes, other_training.c.voided_at.is_(None)),
            "answers": sum(len(each["said"]) for each in answers if each),
            "goals": count(goal),
            "words": count(forwarded),
            "asks": count(prompt, prompt.c.kind == "reading"),
        }
