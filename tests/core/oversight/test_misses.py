"""When a session is missed, what counts as due, and who must hear of it."""

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.oversight.misses import (
    Concern,
    Past,
    Question,
    Standing,
    Tally,
    grace_end,
    is_due,
    percentage,
    standing,
    tally,
)
from core.policy import Policy
from tests.core.oversight.logs import FIRST, log, noon

POLICY = Policy()
LONG_AGO = date(2025, 1, 1)
LETTERS = st.text(alphabet="kpmtiacITuhs", max_size=20)


def stand(text: str, began_on: date | None = LONG_AGO, heard_at: datetime | None = None) -> Standing:
    return standing(log(text), began_on, heard_at, FIRST + timedelta(days=max(len(text) - 1, 0)), POLICY)


@pytest.mark.parametrize(
    ("on", "zone", "expected"),
    [
        (date(2026, 4, 7), "Europe/Lisbon", datetime(2026, 4, 8, 11, tzinfo=UTC)),
        (date(2026, 4, 7), "Asia/Kathmandu", datetime(2026, 4, 8, 6, 15, tzinfo=UTC)),
        # The night in which clocks go forward: twelve hours are twelve hours.
        (date(2026, 3, 28), "Europe/Berlin", datetime(2026, 3, 29, 11, tzinfo=UTC)),
        (date(2026, 4, 7), "Pacific/Auckland", datetime(2026, 4, 8, 0, tzinfo=UTC)),
    ],
)
def test_the_grace_ends_hours_after_the_clients_own_day(on: date, zone: str, expected: datetime) -> None:
    assert grace_end(on, zone, POLICY) == expected


@pytest.mark.parametrize(
    ("letter", "due"),
    [
        ("k", True),
        ("p", True),
        ("m", True),
        ("T", True),
        ("t", True),
        ("i", False),
        ("I", False),
        ("a", False),
        ("c", False),
        ("h", False),
        ("u", False),
        ("s", False),
    ],
)
def test_only_sickness_absence_the_coach_and_what_never_came_are_not_due(letter: str, due: bool) -> None:
    assert is_due(log(letter)[0]) == due


def test_kept_of_due_is_counted_between_two_dates() -> None:
    sessions = log("kkmiphst")

    assert tally(sessions, FIRST, FIRST + timedelta(days=30)) == Tally(kept=3, due=5, pending=1)
    assert tally(sessions, FIRST + timedelta(days=1), FIRST + timedelta(days=2)) == Tally(kept=1, due=2)


@given(LETTERS)
def test_a_tally_is_the_sum_of_its_days(text: str) -> None:
    days = [FIRST + timedelta(days=number) for number in range(len(text))]
    whole = tally(log(text), FIRST, FIRST + timedelta(days=30))

    assert sum((tally(log(text), day, day) for day in days), Tally()) == whole
    assert whole.kept == sum(letter in "kp" for letter in text)
    assert whole.due == sum(letter in "kpmtT" for letter in text)
    assert whole.pending == text.count("s")


@pytest.mark.parametrize(
    ("kept", "due", "expected"),
    [(2, 3, None), (7, 7, None), (8, 8, 100), (7, 8, 88), (9, 12, 75), (0, 9, 0), (1, 16, 6), (2, 16, 13)],
)
def test_a_percentage_is_given_only_from_eight_due(kept: int, due: int, expected: int | None) -> None:
    assert percentage(Tally(kept=kept, due=due), POLICY) == expected


@pytest.mark.parametrize(
    ("text", "run"),
    [
        ("", 0),
        ("kkm", 1),
        ("kmm", 2),
        ("mmk", 0),
        ("kmim", 2),
        ("kmIhum", 2),
        ("kmt", 0),
        ("mts", 0),
        ("TT", 2),
    ],
)
def test_a_row_of_misses_is_broken_only_by_what_was_due(text: str, run: int) -> None:
    assert len(stand(text).run) == run


def test_the_order_of_the_log_does_not_matter() -> None:
    today = FIRST + timedelta(days=3)

    assert standing(log("kkmm"), LONG_AGO, None, today, POLICY) == standing(
        log("kkmm")[::-1], LONG_AGO, None, today, POLICY
    )


@pytest.mark.parametrize(
    ("text", "began_on", "heard_on", "concern", "question"),
    [
        ("kkk", LONG_AGO, None, None, None),
        ("kkkm", LONG_AGO, None, None, Question.REASON),
        ("kkkm", FIRST, None, Concern.FIRST_WEEKS, Question.REASON),
        ("kkkk", FIRST, None, None, None),
        ("kkkm", None, None, None, Question.REASON),
        ("kkkmm", LONG_AGO, None, Concern.RUN, Question.SILENCE),
        ("kkkmm", LONG_AGO, 4, Concern.RUN, Question.REASON),
        ("kkkmmm", LONG_AGO, None, Concern.SILENT, Question.STOPPED),
        ("kkkmmm", LONG_AGO, 5, Concern.RUN, Question.REASON),
        ("kkkmmm", LONG_AGO, 3, Concern.RUN, Question.SILENCE),
        ("ttkm", LONG_AGO, None, Concern.HALF, Question.REASON),
        ("tk", LONG_AGO, None, None, None),
        ("ttk", LONG_AGO, None, Concern.HALF, None),
        ("tkkt", LONG_AGO, None, None, None),
    ],
)
def test_who_must_hear_of_misses(
    text: str,
    began_on: date | None,
    heard_on: int | None,
    concern: Concern | None,
    question: Question | None,
) -> None:
    heard_at = noon(FIRST + timedelta(days=heard_on)) if heard_on is not None else None
    found = stand(text, began_on, heard_at)

    assert (found.concern, found.question) == (concern, question)


def test_the_first_weeks_are_over_after_twenty_one_days() -> None:
    def concern(days: int) -> Concern | None:
        sessions = log("kkm", FIRST + timedelta(days=days - 2))
        return standing(sessions, FIRST, None, FIRST + timedelta(days=days), POLICY).concern

    assert [concern(20), concern(21)] == [Concern.FIRST_WEEKS, None]


def test_a_half_is_of_the_last_fourteen_days() -> None:
    sessions = log("tttkkkk", every=4)
    last = sessions[-1].on

    assert standing(sessions, LONG_AGO, None, last, POLICY).recent == Tally(kept=4, due=4)


def test_a_missed_session_that_was_never_sent_is_no_silence() -> None:
    unsent = [each.model_copy(update={"sent_at": None}) for each in log("mmm")]

    assert standing(unsent, LONG_AGO, None, FIRST + timedelta(days=2), POLICY).unanswered == 0


@given(LETTERS, st.integers(0, 20))
def test_nobody_is_silent_who_was_heard_after_the_last_card(text: str, days: int) -> None:
    found = stand(text, heard_at=noon(FIRST + timedelta(days=len(text) + days)))

    assert found.unanswered == 0
    assert found.question in (None, Question.REASON)


@pytest.mark.parametrize("reason", ["time", "away", None])
def test_a_session_that_moved_to_another_day_is_no_miss_and_not_due(reason: str | None) -> None:
    moved = Past(session_id=1, on=date(2026, 4, 7), state="moved", reason=reason)
    missed = Past(session_id=2, on=date(2026, 4, 9), state="missed")

    assert not is_due(moved)
    assert tally([moved], date(2026, 4, 1), date(2026, 4, 30)) == Tally()
    assert standing([moved, missed], None, None, date(2026, 4, 10), Policy()).run == (missed,)
