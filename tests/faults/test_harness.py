"""A week with ten kills and a seed, and a morning of two processes; each invariant over what was seen, spoilt."""

import copy
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from databases import SHARED
from faults.breaking import week_of
from faults.calendars import APRIL, MORNING, TURNING
from faults.harness import plans, played
from faults.invariants import INVARIANTS, Seen
from faults.people import CLIENTS
from faults.stores import FileShelf, server_shelf
from faults.week import Week

from bot.messages import Lane

SEED, KILLS = 7, 10
MORNING_SEED = 12


@pytest.fixture(scope="module")
def week(sqlite_files, tmp_path_factory: pytest.TempPathFactory) -> Week:
    folder = tmp_path_factory.mktemp("harness")
    sqlite_files.copy(folder / f"{APRIL.name}.db")
    [plan] = plans(SEED, KILLS)
    return played(plan, FileShelf(folder), Path(folder) / "week")


def test_ten_kills_and_what_breaks_beside_them_break_no_promise(week):
    assert week.result.broken == [], "\n".join(week.result.led_to)
    assert week.result.counts["kills"] == KILLS
    assert len(week.result.safety_s) == 2


def _a_set_is_lost(seen: Any) -> None:
    seen.sets = seen.sets[1:]


def _a_report_is_kept_twice(seen: Any) -> None:
    seen.reports = [*seen.reports, *seen.reports]


def _help_is_queued_twice(seen: Any) -> None:
    seen.outbox = [*seen.outbox, *(each for each in seen.outbox if ":help:" in each.key)]


def _a_message_comes_twice(seen: Any) -> None:
    seen.kills, last = [], seen.came[-1]
    seen.came = [*seen.came, last, replace(last, at=last.at + 1)]


def _one_kill_costs_many(seen: Any) -> None:
    talk = list({each.text: each for each in seen.came if seen.lane(each) is Lane.TALK}.values())[-3:]
    kill = max(each.at for each in seen.came) + 1
    seen.kills = [kill]
    seen.came = [*seen.came, *(replace(each, at=kill + 1) for each in talk for _ in seen.outbox)]


def _two_messages_change_places(seen: Any) -> None:
    mine = [
        each for each in seen.outbox if each.state == "sent" and each.lane is Lane.TALK and each.message_id
    ]
    first, second = [each for each in mine if each.chat_id == mine[0].chat_id][:2]
    swapped = {first.id: second.message_id, second.id: first.message_id}
    seen.outbox = [each._replace(message_id=swapped.get(each.id, each.message_id)) for each in seen.outbox]


def _safety_is_late(seen: Any) -> None:
    seen.came = [replace(each, at=each.at + 60) for each in seen.came]


def _safety_never_comes(seen: Any) -> None:
    seen.came = [each for each in seen.came if not each.text.startswith("Stop now")]


def _a_card_never_came(seen: Any) -> None:
    seen.came = [each for each in seen.came if "Thu 9 April" not in each.text]


def _a_card_came_a_day_late(seen: Any) -> None:
    seen.came = [replace(each, story=each.story + timedelta(days=1)) for each in seen.came]


def _a_card_came_an_hour_early(seen: Any) -> None:
    seen.came = [
        replace(each, story=each.story - timedelta(hours=1)) if "Thu 9 April" in each.text else each
        for each in seen.came
    ]


def _a_card_came_late(seen: Any) -> None:
    seen.between = lambda begin, end, **_: end - begin
    seen.came = [
        replace(each, story=each.story + timedelta(minutes=4)) if "Thu 9 April" in each.text else each
        for each in seen.came
    ]


def _a_card_is_queued_twice(seen: Any) -> None:
    seen.outbox = [*seen.outbox, *(each for each in seen.outbox if each.text.startswith("Push · "))]


def _somebody_is_woken(seen: Any) -> None:
    first = next(each for each in seen.came if each.text.startswith("Lower A"))
    seen.came = [*seen.came, replace(first, text="Hello?", silent=False, story=first.story.replace(hour=2))]


SPOILT = [
    ("each reply has its effect once", _a_set_is_lost),
    ("each reply has its effect once", _a_report_is_kept_twice),
    ("each reply has its effect once", _help_is_queued_twice),
    ("duplicates", _a_message_comes_twice),
    ("duplicates", _one_kill_costs_many),
    ("order in a chat", _two_messages_change_places),
    ("safety within 5 s", _safety_is_late),
    ("safety within 5 s", _safety_never_comes),
    ("sessions on their day", _a_card_never_came),
    ("sessions on their day", _a_card_came_a_day_late),
    ("sessions on their day", _a_card_came_an_hour_early),
    ("sessions on their day", _a_card_came_late),
    ("sessions on their day", _a_card_is_queued_twice),
    ("quiet hours", _somebody_is_woken),
]


@pytest.mark.parametrize(("name", "spoil"), SPOILT)
def test_an_invariant_speaks_when_what_was_seen_is_spoilt(week, name, spoil):
    seen: Seen = copy.copy(week.seen)
    spoil(seen)

    assert list(INVARIANTS[name](seen)) != []


def test_every_invariant_is_spoilt_at_least_once():
    assert {name for name, _ in SPOILT} == set(INVARIANTS)


@pytest.mark.parametrize("calendar", TURNING, ids=lambda each: each.name)
def test_a_week_whose_clocks_change_has_its_sessions_at_another_instant_after_the_night(calendar):
    friday, sunday = calendar.first, calendar.first + timedelta(days=2)
    hours = {calendar.due(each, sunday) - calendar.due(each, friday) for each in CLIENTS}
    turns = [each for each in calendar.phases if each.moves]

    assert hours == {timedelta(days=2, hours=1 if "autumn" in calendar.name else -1)}
    assert [each.at for each in calendar.phases] == sorted(each.at for each in calendar.phases)
    assert len(turns) == 1


@pytest.mark.parametrize("_", SHARED)
def test_two_processes_on_one_database_break_no_promise_when_they_are_killed(_, tmp_path):
    with server_shelf(tmp_path) as shelf:
        plan = week_of(MORNING_SEED, 0, 3, CLIENTS, shelf.kinds, MORNING)
        result = played(plan, shelf, tmp_path / "week", processes=2).result

    assert result.broken == [], "\n".join(result.led_to)
    assert result.counts["kills"] == 4
    assert len(result.safety_s) + len(result.taken_over_s) == 1
