"""A summary for a practitioner: only with the client's yes, which she may take back; drawn, and told what is in it."""

from datetime import date, datetime, timedelta
from typing import Any

import pytest
from dialogs.talks import LISBON, Talk
from sqlalchemy import select

from bot.render.physio_summary import Hurt, Summary, summary_lines, text
from bot.render.physio_summary_page import summary_page
from bot.store.tables import outbox, picture
from bot.store.units import Units
from bot.usecases import physio_summary
from bot.usecases.physio_summary_seen import summary_of
from core.oversight.misses import Tally
from core.oversight.progress import SiteFelt

TODAY = date(2026, 4, 6)
FELT = (
    "2 (25.3.), 3 (26.3.), 4 (27.3.), ? (28.3.), 1 (29.3.), 2 (30.3.), "
    "3 (31.3.), 4 (1.4.), ? (2.4.), 1 (3.4.), 2 (4.4.), 3 (5.4.)"
)


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def files(play: Talk) -> list[tuple[int, bytes]]:
    sent = [each for each in play.house.sends if each.message.media_kind == "document"]

    def content(unit: Any, row: int | None) -> bytes:
        found: bytes = unit.connection.execute(
            select(picture.c.bytes).where(picture.c.id == row)
        ).scalar_one()
        return found

    marit = play.someone("Marit")
    return [
        (
            each.chat_id,
            play.house.reading(marit, lambda unit, each=each: content(unit, each.message.picture_id)),
        )
        for each in sent
    ]


def agreed(play: Talk) -> None:
    play.take("Marit: /summary Ada")
    play.take("Ada [Yes, Marit may hand it on]")


def newest(play: Talk) -> Any:
    marit = play.someone("Marit")
    ada = play.house.client_of(marit, play.someone("Ada"))
    return play.house.reading(marit, lambda unit: unit.hand_ons.newest(ada.id))


def test_without_a_yes_there_is_none(play: Talk) -> None:
    for step in ("Marit: /summary Ada", "Marit: /summary Ada", "Ada [No]", "Marit: /summary Ada"):
        play.take(step)
    assert files(play) == []
    assert "said no on Mon 6 April" in play.someone("Marit").sees


def test_with_a_yes_the_coach_gets_a_page_at_once_and_once(play: Talk) -> None:
    agreed(play)
    [(chat, content)] = files(play)
    assert (chat, content[:5]) == (100, b"%PDF-")
    assert "Marit gets the summary as of today" in play.someone("Ada").sees
    assert newest(play).handed_at == play.house.now
    play.take("Marit: /summary Ada")
    assert len(files(play)) == 1
    assert play.someone("Marit").sees.startswith("I have asked Ada")


def test_in_the_coachs_night_it_waits_and_a_yes_taken_back_keeps_it_from_going_out(play: Talk) -> None:
    play.house.now = play.house.now.replace(hour=22)
    agreed(play)
    waiting = [each for each in play.house.sends if each.key.startswith("summary:said:")]
    assert [each.due_at > play.house.now for each in waiting if each.due_at] == [True] * 3
    play.take("Ada [Take back my yes]")
    with play.units.read(None) as house:
        query = select(outbox.c.key, outbox.c.state).where(outbox.c.key.contains("summary:said:"))
        states = {row.key.rpartition(":")[2]: row.state for row in house.connection.execute(query)}
    assert states == {
        **dict.fromkeys(("handed", "text", "page"), "cancelled"),
        "withdrawn": "queued",
    }


@pytest.mark.parametrize("back", ["Ada [Take back my yes]", "Ada: take back my yes"])
def test_a_yes_that_is_taken_back_ends_it(play: Talk, back: str) -> None:
    agreed(play)
    play.take(back)
    assert "Do not hand it on, and delete it" in play.someone("Marit").sees
    play.take("Marit: /summary Ada")
    assert len(files(play)) == 1
    assert "I have asked Ada" in play.someone("Marit").sees


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("yes, Marit may hand it on", "One page for a practitioner"),
        ("hand it on", "One page for a practitioner"),
        ("do not hand it on", "does not want"),
    ],
)
def test_the_answer_is_typed_too(play: Talk, typed: str, told: str) -> None:
    play.take("Marit: /summary Ada")
    play.take(f"Ada: {typed}")
    assert told in play.someone("Marit").sees


def test_the_same_words_with_nothing_asked_go_to_the_coach(play: Talk) -> None:
    play.take("Ada: hand it on")
    assert newest(play) is None


def test_a_yes_can_be_taken_back_while_she_is_asked_anew(play: Talk) -> None:
    agreed(play)
    play.take("Marit: /summary Ada")
    play.take("Ada: take back my yes")
    assert "Marit is told not to hand the summary on" in play.someone("Ada").sees
    assert "has taken back the yes" in play.someone("Marit").sees
    assert newest(play).is_open


def test_a_question_that_was_asked_anew_is_over(play: Talk) -> None:
    play.take("Marit: /summary Ada")
    play.take("Ada keeps [Yes, Marit may hand it on] as yes")
    play.house.now += timedelta(days=8)
    play.take("Marit: /summary Ada")
    play.take("Ada taps the old yes")
    assert play.someone("Ada").sees == "That question is over. Nothing was handed on by it."


def test_she_is_asked_again_only_after_a_week(play: Talk) -> None:
    play.take("Marit: /summary Ada")
    play.take("Ada [No]")
    play.house.now += timedelta(days=8)
    play.take("Marit: /summary Ada")
    assert "I have asked Ada" in play.someone("Marit").sees
    play.house.now += timedelta(days=8)
    play.take("Marit: /summary Ada")
    assert "I have asked Ada" in play.someone("Marit").sees


def test_old_buttons_change_nothing(play: Talk) -> None:
    play.take("Marit: /summary Ada")
    play.take("Ada keeps [No] as no")
    play.take("Ada [Yes, Marit may hand it on]")
    play.take("Ada taps the old no")
    assert "You said yes" in play.someone("Ada").sees
    play.take("Ada: do not hand it on")
    assert newest(play).stands


def test_a_question_that_is_shown_anew_still_asks(play: Talk) -> None:
    play.take("Marit: /summary Ada")
    ada = play.someone("Ada")
    ada.tap_data(ada.forged("No", revision=7))
    assert ada.buttons == ["Yes, Marit may hand it on", "No"]


def test_nobody_else_answers_or_asks_for_her(play: Talk) -> None:
    play.take("Marit: /summary Ada")
    play.take("Ada keeps [Yes, Marit may hand it on] as yes")
    play.take("Ben taps the old yes")
    play.take("Marit taps the old yes")
    play.take("Orla: /summary Ada")
    play.take("Ada: /summary Ada")
    play.take("Marit: /summary")
    assert "asks Ada first" in play.someone("Marit").sees
    play.take("Marit: /summary Ada")
    assert files(play) == []
    made = physio_summary.prepared(play.units, 900, physio_summary.SummaryAsked("Ada"), play.house.now)
    assert made.made is None


def test_who_cannot_be_reached_is_not_asked(play: Talk) -> None:
    play.take("Ada blocks the bot")
    play.take("Marit: /summary Ada")
    assert "cannot be asked here now" in play.someone("Marit").sees


def test_a_yes_for_which_nothing_was_drawn_gives_it_when_the_coach_asks(play: Talk) -> None:
    play.take("Marit: /summary Ada")
    play.someone("Ada").tap("Yes, Marit may hand it on")
    assert "Marit may have the summary" in play.someone("Ada").sees
    play.someone("Marit").does(physio_summary.summary_asked, physio_summary.SummaryAsked("Ada"))
    assert files(play) == []
    assert "/summary Ada gives it" in play.someone("Marit").sees
    play.take("Marit: /summary Ada")
    assert len(files(play)) == 1


def test_nothing_is_drawn_for_who_is_not_asked_or_is_no_client(play: Talk) -> None:
    assert [physio_summary.made_for_yes(play.units, each, play.house.now) for each in (1, 100, 999)] == [
        None
    ] * 3


def test_it_has_exercises_that_hurt_with_their_loads_and_limits(play: Talk) -> None:
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    for step in (
        "Ada [Start]",
        "Ada: 90 8 8 8 8",
        "Marit: /limit Ada: no step-ups, by physiotherapist",
        "Marit [Let it hold]",
    ):
        play.take(step)
    play.take("Ada: pain left knee 4")

    def made(unit: Any) -> Summary:
        ada = next(each for each in unit.clients.roster() if each.name == "Ada")
        return summary_of(ada, unit, date(2026, 4, 7))

    found = play.house.reading(play.someone("Marit"), made)
    assert found.sites == (SiteFelt(place="left knee", felt=((date(2026, 4, 7), 4),)),)
    assert [each.place for each in found.hurts] == ["left knee"]
    assert found.limits == (
        "No step of any kind. By a physiotherapist, from Tue 7 April 2026, no end named.",
    )


def summary(**more: Any) -> Summary:
    return Summary(client="Ada <Quill>", coach="Marit", first=date(2026, 1, 12), today=TODAY, **more)


def test_the_lines_of_a_summary() -> None:
    felt = tuple((TODAY - timedelta(days=14 - number), number % 5 or None) for number in range(14))
    made = summary(
        sites=(SiteFelt(place="left knee", felt=felt),),
        hurts=(Hurt("Back squat", "left knee", 4, TODAY, "60 kg"), Hurt("Lunge", "left knee", None, TODAY)),
        limits=("No step of any kind.",),
        kept=Tally(kept=9, due=10),
    )
    assert summary_lines(made) == [
        "Ada <Quill>: training summary",
        "Mon 12 January 2026 to Mon 6 April 2026.",
        "Written by Marit, strength coach, on Mon 6 April 2026.",
        "As the client said and logged it. No diagnosis.",
        "Pain by place, 0 to 10:",
        f"left knee: 2 earlier, then {FELT}",
        "Exercises in which it hurt:",
        "Back squat at 60 kg: left knee, 4 of 10, Mon 6 April 2026",
        "Lunge: left knee, no number, Mon 6 April 2026",
        "Limits set by clinicians:",
        "No step of any kind.",
        "Sessions:",
        "9 of 10 sessions kept (90 %).",
    ]


def test_a_long_one_is_cut_between_lines_and_the_page_counts_the_rest() -> None:
    hurts = tuple(Hurt("Back squat", "left knee", 4, TODAY, "60 kg") for _ in range(120))
    made = summary(hurts=hurts)
    message = text(made)
    assert len(message.html) < 4096
    assert message.html.endswith("The page has the rest.")
    assert summary_page(made).startswith(b"%PDF-")


def test_the_same_summary_is_the_same_page() -> None:
    made = summary(sites=(SiteFelt(place="left knee", felt=((TODAY, 4), (TODAY, None))),))
    assert summary_page(made) == summary_page(made)
