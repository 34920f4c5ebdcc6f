"""Every question that a client may be asked can be left for something else and taken up again, by button and typed."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from typing import Any

import pytest
from databases import SqliteFiles
from dialogs.moments import Moment, one_database, played_to
from dialogs.talks import Talk
from sqlalchemy import Connection, func, select

from bot.store import tables as t
from bot.store.units import Units
from bot.usecases.talk import KINDS

CARD = ("tick 2026-04-07 07:00",)
BEGUN = (*CARD, "Ada [Start]")
DONE = (*CARD, "Ada: 90 8 8 8 8", *["Ada: skip"] * 4, "Ada [Nothing hurts]", "Ada [2]")
STOP = "my chest feels tight and my left arm hurts"
SILENT = (
    *DONE,
    "tick 2026-04-09 07:00",
    "tick 2026-04-10 07:00",
    "tick 2026-04-10 12:00",
    "tick 2026-04-11 12:00",
    "tick 2026-04-13 07:00",
    "tick 2026-04-14 07:00",
    "tick 2026-04-14 12:00",
)
OVER = ("tick 2026-05-04 07:00", "tick 2026-05-04 18:00", "tick 2026-05-05 18:00")

Look = Callable[[Connection], Any]


def column(of: Any, *which: Any) -> Look:
    return lambda connection: tuple(connection.scalars(select(of).where(*which)))


def count(of: Any, *which: Any) -> Look:
    return lambda connection: connection.scalars(select(func.count()).select_from(of).where(*which)).one()


def answers(kind: str) -> Look:
    query = select(t.due_question.c.answers).where(t.due_question.c.kind == kind)
    return lambda connection: [
        answer for each in connection.scalars(query) if each for _, answer in each.get("said", ())
    ]


@dataclass(frozen=True)
class Row:
    """How a question is opened, taken up by button and typed, and what is kept then, once.

    `takes_lines`: any line is an answer, so that none is said beside it. `typed_kept`: words do something else.
    """

    opens: tuple[str, ...]
    tapped: tuple[str, ...]
    typed: tuple[str, ...]
    look: Look
    kept: Any
    in_session: bool = False
    takes_lines: bool = False
    typed_kept: Any = None


ADA = t.client.c.name == "Ada"
HERS = select(t.client.c.id).where(ADA).scalar_subquery()
STANDS = t.body_report.c.voided_at.is_(None)
KNEE = column(t.body_report.c.score, STANDS, t.body_report.c.site == "knee")
SETS = column(t.logged_set.c.reps, t.logged_set.c.voided_at.is_(None))

ROWS: dict[str, Row] = {
    "session": Row(
        CARD,
        ("Ada [Start]",),
        ("Ada: start",),
        column(t.session.c.state, t.session.c.state == "started"),
        ("started",),
        in_session=True,
    ),
    "reading": Row(
        (*BEGUN, "Ada: 900 8 8 8"),
        ("Ada [90 kg × 8 8 8]",),
        ("Ada: 90 8 8 8",),
        SETS,
        (8, 8, 8),
        in_session=True,
    ),
    "pain": Row(
        ("Ada: left knee hurts",),
        ("Ada [3]",),
        ("Ada replies to “how bad is it at its worst”: 3",),
        KNEE,
        (3,),
    ),
    "stopped": Row(
        (f"Ada: {STOP}",),
        ("Ada [That is not what I meant]",),
        (f"Ada: {STOP}", "Ada [That is not what I meant]"),
        column(t.client.c.frozen_for, t.client.c.frozen_at.is_not(None)),
        ("emergency now",),
    ),
    "progress": Row(
        (*DONE, "Ada: /progress"),
        ("Ada [Hip thrust]",),
        ("Ada: /progress hip",),
        SETS,
        (8, 8, 8, 8),
    ),
    "missed": Row(
        ("tick 2026-04-09 07:00", "tick 2026-04-10 12:00"),
        ("Ada [No time]",),
        ("Ada: no time",),
        column(t.session.c.left_reason, t.session.c.client_id == HERS, t.session.c.left_reason.is_not(None)),
        ("time",),
        in_session=True,
        typed_kept=(),
    ),
    "forget": Row(("Ada: /forget",), ("Ada [Keep it]",), ("Ada: /forget no",), count(t.client, ADA), 1),
    "settings": Row(
        ("Ada: /settings hour",),
        ("Ada [06:00]",),
        ("Ada: /settings hour", "Ada: 6:00"),
        lambda connection: str(connection.scalars(select(t.client.c.hour).where(ADA)).one()),
        "06:00:00",
    ),
    # Whatever comes of her ends the silence, so that the question is over and its buttons pause nothing.
    "silence": Row(
        (*SILENT, "Ada keeps [Pause a week] as pause"),
        ("Ada taps the old pause",),
        ("Ada: hello",),
        count(t.client, ADA, t.client.c.state == "paused"),
        0,
        in_session=True,
    ),
    "away": Row(
        ("Ada: /away 9-13 April, no training",),
        ("Ada [Yes, note it]",),
        ("Ada: /away 9-13 April, no training", "Ada: yes"),
        count(t.away, t.away.c.voided_at.is_(None)),
        1,
    ),
    "illness": Row(
        ("Ada: /ill",),
        ("Ada [Head cold, no fever]",),
        ("Ada: head cold",),
        count(t.illness),
        1,
    ),
    "kit": Row(
        ("Ada: /kit home: kettlebells 8 12 16",),
        ("Ada [Keep]",),
        ("Ada: /kit home: kettlebells 8 12 16", "Ada: keep"),
        count(t.kit, t.kit.c.place == "home"),
        1,
    ),
    "checkin": Row(
        ("tick 2026-04-12 18:00",),
        ("Ada [Hard]",),
        ("Ada: /checkin", "Ada: hard"),
        answers("checkin"),
        ["hard"],
    ),
    "blockend": Row(
        OVER,
        ("Ada [The loads]",),
        ("Ada: /checkin", "Ada: the loads"),
        answers("blockend"),
        ["the loads"],
        takes_lines=True,
    ),
    "plan": Row(
        ("Ada: /plan",),
        ("Ada [Keep]",),
        ("Ada: /plan", "Ada: keep"),
        count(t.session, t.session.c.attempt > 1),
        0,
    ),
    "other": Row(
        ("Ada: /other",),
        ("Ada [A run]", "Ada [45 min]"),
        ("Ada: a run",),
        count(t.other_training, t.other_training.c.voided_at.is_(None)),
        1,
    ),
    "goals": Row(
        ("Ada: /goals",),
        ("Ada [Add a goal]", "Ada: deadlift 100 by 1 June"),
        ("Ada: /goals deadlift 100 by 1 June",),
        count(t.goal),
        1,
    ),
    "daily prep": Row(
        ("Marit: /prep Ada: hips", "tick 2026-04-07 07:00", "tick 2026-04-08 07:00"),
        ("Ada [Step by step]",),
        ("Ada: step by step",),
        count(t.prompt, t.prompt.c.kind == "daily prep"),
        1,
        in_session=True,
    ),
    "summary": Row(
        ("Marit: /summary Ada",),
        ("Ada [Yes, Marit may hand it on]",),
        ("Ada: yes, Marit may hand it on",),
        count(t.hand_on, t.hand_on.c.given_at.is_not(None)),
        1,
    ),
    "join kit": Row(
        (),
        ("Ada [Say what I have to lift]",),
        ("Ada: /kit",),
        count(t.kit, t.kit.c.client_id == HERS),
        1,
    ),
}
COACHS = frozenset(
    {
        "blocks",
        "coach away",
        "limit",
        "order",
        "orders",
        "pausing",
        "raises waiting",
        "referral",
        "referrals",
        "reminder",
        "report",
        "rules",
        "season",
        "second",
        "tell",
        "video ask",
        "video cue",
        "week note",
        "why",
        "alert",
        "assign",
        "block",
        "checkin list",
        "client",
        "coach settings",
        "correct",
        "cue",
        "cues",
        "invites",
        "last loads",
        "prep set",
        "preview",
        "raises",
        "release",
        "roster",
        "version",
        "week",
        "which week",
        "whom",
        "write",
    }
)
"""What only coaches, and who stands in for them, are asked."""
ELSEWHERE = frozenset({"join"})
"""Joining is left and taken up at every step in the tests of joining."""
ELBOW = column(t.body_report.c.score, STANDS, t.body_report.c.site == "elbow")
PHOTOS = count(t.forwarded, t.forwarded.c.kind == "photo")


def test_every_question_that_a_client_is_asked_stands_in_the_table() -> None:
    assert set(ROWS) | COACHS | ELSEWHERE == set(KINDS)
    assert not set(ROWS) & (COACHS | ELSEWHERE)


def seen(play: Talk, look: Look) -> Any:
    with play.units.read(None) as house:
        return look(house.connection)


ALONE = ("Orla: /pause Ben",)
"""Next door nothing falls due, which would take as long as what does here."""
OTHER = (*ALONE, "Ada: /settings", "Ada keeps [Hour] as other", "Ada: /settings")
"""A button of a card that another one has taken the place of."""
SHARED = (OTHER, *((*OTHER, *steps) for steps in (CARD, BEGUN, DONE)))


@pytest.fixture(scope="module")
def units(sqlite_files: SqliteFiles, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Units]:
    with one_database(sqlite_files, tmp_path_factory.mktemp("left")) as found:
        yield found


def opened(units: Units, kind: str) -> Talk:
    """A talk with the question open, and a button of a card that another one has taken the place of."""
    before = OTHER if kind != "join kit" else ALONE
    play = played_to(units, (*before, *ROWS[kind].opens), SHARED)
    assert seen(play, count(t.prompt, t.prompt.c.kind == kind, t.prompt.c.client_id == HERS)) >= 1
    return play


def left_for_something_else(play: Talk, row: Row) -> Moment:
    """What is left of it when the program ends: what is in the database alone."""
    sets = seen(play, SETS)
    steps = ("Ada: 80 8 8 8", "Ada: pain right elbow 2", "Ada sends a photo", "Ada: /today")
    first = 2 if row.takes_lines else 1 if row.in_session else 0
    for step in steps[first:]:
        play.take(step)
    if play.old:
        play.take("Ada taps the old other")
    play.units.engine.dispose()
    assert (seen(play, SETS), seen(play, PHOTOS)) == (sets, 1)
    assert seen(play, ELBOW) == (() if row.takes_lines else (2,))
    return Moment.of(play)


@pytest.mark.parametrize("kind", ROWS)
def test_what_was_left_is_taken_up_and_answered_once_tapped_or_typed(units: Units, kind: str) -> None:
    row = ROWS[kind]
    left = left_for_something_else(opened(units, kind), row)

    for steps, kept in ((row.tapped, None), (row.typed, row.typed_kept)):
        play = left.again(units)
        for step in steps:
            assert play.take(step), step

        assert seen(play, row.look) == (row.kept if kept is None else kept), steps
        assert seen(play, ELBOW) == (() if row.takes_lines else (2,))


@pytest.mark.parametrize("kind", ROWS)
def test_an_answer_of_the_next_day_is_taken_or_said_to_be_late_and_never_kept_twice(
    units: Units, kind: str
) -> None:
    row = ROWS[kind]
    play = opened(units, kind)
    before = seen(play, row.look)
    old = row.tapped[0].replace("Ada [", "Ada keeps [") + " as answer"
    old = "Ada keeps [Pause a week] as answer" if kind == "silence" else old
    play.take(old)
    play.tick(play.house.now + timedelta(days=1))

    typed_first = row.typed if kind == "pain" else ()  # its question is gone once it is answered
    lines = [line for step in typed_first for line in play.take(step)]
    play.take("Ada taps the old answer")
    play.take("Ada taps the old answer")

    assert seen(play, row.look) in (before, row.kept)
    assert [*lines, *(line for step in row.typed[len(typed_first) :] for line in play.take(step))]
