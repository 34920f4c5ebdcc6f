"""What is typed between sets, as it is kept: effort of each set, and pain before a question is answered."""

from datetime import datetime
from decimal import Decimal
from typing import Any

import pytest
from dialogs.moments import acted_out
from dialogs.talks import LISBON, Talk
from setting_out import Someone
from sqlalchemy import select

from bot.store.tables import body_report, item, logged_set
from bot.store.units import Units


def began(play: Talk) -> None:
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    play.someone("Ada").tap("Start")


@pytest.fixture
def play(units: Units) -> Talk:
    return acted_out(units, began)


@pytest.fixture
def ada(play: Talk) -> Someone:
    return play.someone("Ada")


def rows(play: Talk, *columns: Any) -> list[tuple[Any, ...]]:
    with play.units.read(None) as house:
        query = select(*columns).order_by(columns[0].table.c.id)
        return [tuple(row) for row in house.connection.execute(query)]


SAID = [
    ("90 8@7 8@8 8@8.5 7@9", [(8, 3, "7"), (8, 2, "8"), (8, 1, "8.5"), (7, 1, "9")], 1),
    ("90 8 8 8 7 rpe 7 8 8 9", [(8, 3, "7"), (8, 2, "8"), (8, 2, "8"), (7, 1, "9")], 1),
    ("90 8 8 8 7 rir 3 2 1 0", [(8, 3, None), (8, 2, None), (8, 1, None), (7, 0, None)], 0),
    ("90 8 8 8 7 rpe 8.5", [(8, None, None), (8, None, None), (8, None, None), (7, 1, "8.5")], 1),
    ("90 8 8 8 7, 2 left", [(8, None, None), (8, None, None), (8, None, None), (7, 2, None)], 2),
    ("90 8 8@9 8 7", [(8, None, None), (8, 1, "9"), (8, None, None), (7, None, None)], None),
    ("90 8 8 8 7 rpe 5", [(8, None, None), (8, None, None), (8, None, None), (7, None, "5")], None),
]


@pytest.mark.parametrize(("text", "kept", "left"), SAID, ids=[each[0] for each in SAID])
def test_effort_is_kept_with_the_set_it_was_said_for(
    play: Talk, ada: Someone, text: str, kept: list[tuple[int, int | None, str | None]], left: int | None
) -> None:
    play.typed(ada, text)

    expected = [(reps, rir, Decimal(rpe) if rpe else None) for reps, rir, rpe in kept]
    assert rows(play, logged_set.c.reps, logged_set.c.rir, logged_set.c.rpe) == expected
    assert [each[0] for each in rows(play, item.c.left_last, item.c.state) if each[1] == "done"] == [left]


def test_effort_of_each_set_is_said_back(play: Talk, ada: Someone) -> None:
    play.typed(ada, "90 8@7 8@8 8@8.5 7@9")

    assert ada.sees.startswith("Noted: Hip thrust 90 kg × 8 8 8 7, RPE 7 8 8.5 9.")


def test_pain_is_kept_before_the_question_about_sets_is_answered_and_once(play: Talk, ada: Someone) -> None:
    play.typed(ada, "900 8 8 8 8, left knee 2")

    kept = (body_report.c.site, body_report.c.side, body_report.c.score)
    assert rows(play, *kept) == [("knee", "L", 2)]
    assert rows(play, logged_set.c.id) == []

    ada.tap("90 kg × 8 8 8 8")

    assert rows(play, *kept) == [("knee", "L", 2)]
    assert [each[0] for each in rows(play, logged_set.c.reps)] == [8, 8, 8, 8]


def test_pain_stays_when_none_of_the_readings_is_right(play: Talk, ada: Someone) -> None:
    play.typed(ada, "900 8 8 8 8, left knee 2")
    ada.tap("No, I type again")

    assert rows(play, body_report.c.site) == [("knee",)]
    assert rows(play, logged_set.c.id) == []


def test_a_slip_put_right_in_the_same_line_keeps_what_came_after(play: Talk, ada: Someone) -> None:
    play.typed(ada, "90 8 8 8 8 sorry 7")

    assert [each[0] for each in rows(play, logged_set.c.reps)] == [8, 8, 8, 7]
