"""Show me: the coach's clip, as a link under the exercise, or its address for who types."""

import pytest
from dialogs.moments import acted_out
from dialogs.talks import Talk

from bot.messages import Button
from bot.store.units import Unit, Units

CLIP = "https://clips.example/hip?a=1&b=2"


def began_with_a_clip(made: Talk) -> None:
    made.take("tick 2026-04-07 07:00")

    def with_clip(unit: Unit) -> None:
        account = unit.accounts.find(1)
        assert account is not None
        session = unit.sessions.open_one(account.client_id or 0)
        assert session is not None
        first = unit.sessions.items(session.id)[0]
        written = first.prescription.model_copy(update={"link": CLIP})
        unit.sessions.change_item(first.id, prescription=written.model_dump(mode="json"))

    made.house.reading(made.someone("Marit"), with_clip)
    made.take("Ada [Start]")


@pytest.fixture
def play(units: Units) -> Talk:
    return acted_out(units, began_with_a_clip)


def clips(play: Talk) -> list[Button]:
    return [button for row in play.someone("Ada").last.rows for button in row if button.url]


def test_the_coachs_clip_is_a_link_under_its_exercise_alone(play: Talk) -> None:
    here = clips(play)
    play.take("Ada [B1]")

    assert here == [Button("Show me", url=CLIP)]
    assert clips(play) == []


def test_a_clip_of_another_exercise_is_not_shown(play: Talk) -> None:
    play.take("Ada [Swap]")
    play.take("Ada [Glute bridge]")

    assert clips(play) == []


def test_who_types_gets_the_address(play: Talk) -> None:
    play.take("Ada: show me")
    first = play.someone("Ada").last.html
    play.take("Ada [B1]")
    play.take("Ada: show me")

    assert first.startswith("https://clips.example/hip?a=1&amp;b=2\n\n")
    assert play.someone("Ada").sees.startswith("There is no clip of it.\n\n")


def test_the_link_stands_apart_from_pain_and_from_done(play: Talk) -> None:
    rows = [[button.label for button in row] for row in play.someone("Ada").last.rows]

    assert rows == [
        ["Done as written"],
        ["Change numbers", "Swap", "Skip"],
        ["B1", "B2", "C", "D"],
        ["Show me", "Short on time", "Rest reminder"],
        ["Undo", "Why", "End here", "Hurts"],
    ]
