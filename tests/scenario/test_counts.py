"""The story counted: taps for a session done as written, and messages with a sound that nobody asked for."""

from collections import Counter
from collections.abc import Iterator
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from scenario.plays import Story

from bot.localchat.records import Recorded

MOST_TAPS = 3
MOST_UNASKED = 3
ANSWERED_WITHIN = timedelta(minutes=1)
"""What comes so soon after something that a client did is an answer to it."""
AS_WRITTEN = "All done as written"
END_TAPS = {"Nothing hurts", "0", "1", "2", "3", "4+", "Not sure"}


def clocks(story: Story) -> dict[int, ZoneInfo]:
    """The clients' chats, with their clocks."""
    return {each.phone: ZoneInfo(each.zone) for each in story.people.clients}


def sessions_as_written(records: list[Recorded]) -> Iterator[int]:
    """How many taps each session took that was told by one button, and in which nothing else was said or tapped."""
    taps: int | None = None
    for each in records:
        if each.sender == "person":
            if each.kind == "tap" and each.text == AS_WRITTEN:
                taps = 1
            elif taps is not None:
                taps = taps + 1 if each.kind == "tap" and each.text in END_TAPS else None
        elif taps is not None and "All done. Logged." in each.text:
            yield taps
            taps = None


def test_a_session_done_as_written_takes_at_most_three_taps(story: Story) -> None:
    found = [taps for chat in clocks(story) for taps in sessions_as_written(story.of(chat))]

    assert len(found) > 40
    assert max(found) <= MOST_TAPS


def loud(records: list[Recorded]) -> Iterator[tuple[Recorded, bool]]:
    """Each new message with a sound, and whether it answers what she had just done."""
    acted: datetime | None = None
    for each in records:
        if each.sender == "person":
            acted = each.at
        elif each.kind in ("text", "photo", "video", "voice", "document") and not each.silent:
            yield each, acted is not None and each.at - acted <= ANSWERED_WITHIN


def test_nobody_gets_more_than_three_a_day_that_she_did_not_ask_for(story: Story) -> None:
    days: Counter[tuple[int, str]] = Counter()
    for chat, zone in clocks(story).items():
        for each, answers in loud(story.of(chat)):
            if not answers:
                days[chat, each.at.astimezone(zone).date().isoformat()] += 1

    assert sum(days.values()) > 100
    assert [day for day, number in days.items() if number > MOST_UNASKED] == []


def test_what_is_kept_as_unasked_is_at_most_three_a_day(story: Story) -> None:
    days: Counter[tuple[int, str]] = Counter()
    for chat, zone in clocks(story).items():
        for each in story.of(chat):
            if each.sender == "bot" and each.revision == 0 and story.unasked.get((chat, each.message_id)):
                days[chat, each.at.astimezone(zone).date().isoformat()] += 1

    assert sum(days.values()) > 100
    assert [day for day, number in days.items() if number > MOST_UNASKED] == []


def deleted(story: Story) -> set[int]:
    """The chats of which nothing is kept any more, at their owner's wish."""
    return {
        each.chat_id for each in story.records if each.text.startswith("Everything kept about you here is")
    }


def test_what_comes_by_itself_with_a_sound_is_kept_as_unasked(story: Story) -> None:
    # Except what is urgent, and what a coach writes herself.
    coaches = tuple(f"{each.name} writes:" for each in story.people.coaches)
    unmarked = [
        each.text.splitlines()[0]
        for chat in clocks(story)
        if chat not in deleted(story)
        for each, answers in loud(story.of(chat))
        if not answers
        and not each.text.startswith(coaches)
        and story.lanes.get((chat, each.message_id)) != "safety"
        and not story.unasked.get((chat, each.message_id))
    ]

    assert unmarked == []


def test_one_person_has_everything_deleted_and_of_all_others_it_is_kept(story: Story) -> None:
    kept = Counter(chat for chat, _ in story.unasked)

    (gone,) = deleted(story)
    assert kept[gone] == 1  # the answer to his wish
    assert all(kept[chat] > 1 for chat in set(clocks(story)) - {gone})


def test_each_is_shown_the_commands_that_are_hers(story: Story) -> None:
    client, coach = story.people.clients[0].phone, story.people.coaches[0].phone

    assert {"today", "away", "forget"} <= story.commands[f"chat {client}"]
    assert {"roster", "assign"} <= story.commands[f"chat {coach}"]
    assert not {"roster", "assign"} & story.commands[f"chat {client}"]
    assert "forget" not in story.commands[f"chat {coach}"]
