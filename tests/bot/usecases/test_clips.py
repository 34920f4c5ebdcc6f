"""A coach's clips of prep drills: kept, shown to her clients, and to nobody else's."""

from datetime import datetime

import pytest
from dialogs.talks import LISBON, Talk

from bot.store.units import Units
from bot.usecases.clips import ClipAsked, clip_asked
from core.errors import LinkUnreadable, UnknownDrill

LINK = "https://clips.example/ankle-rock"


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def says(play: Talk, text: str, who: str = "Marit") -> str:
    person = play.someone(who)
    person.does(clip_asked, ClipAsked(text))
    return person.sees


def test_a_clip_is_kept_replaced_listed_and_taken_away(play: Talk) -> None:
    assert says(play, f"ankle rock {LINK}").startswith(f"Kept: Ankle rock is shown at {LINK}.")
    says(play, f"Ankle-Rock {LINK}?two")
    assert says(play, "").splitlines()[-2:] == ["Kept", f"Ankle rock: {LINK}?two"]
    assert f"Your clip: {LINK}?two" in says(play, "ankle rock")

    assert says(play, "ankle rock stop") == "Ankle rock has no clip any more."
    assert "Kept" not in says(play, "")
    assert "There is no clip of it." in says(play, "ankle rock")


@pytest.mark.parametrize(
    ("text", "error", "facts"),
    [
        (f"ankel rock {LINK}", UnknownDrill, {"written": "ankel rock", "known": "Ankle rock"}),
        ("squat", UnknownDrill, None),
        ("ankle rock clips", LinkUnreadable, {"written": "clips"}),
        ("ankle rock javascript:alert(1)", LinkUnreadable, {"written": "javascript:alert(1)"}),
    ],
)
def test_a_drill_that_there_is_not_and_an_address_that_is_none_are_told(
    play: Talk, text: str, error: type[Exception], facts: dict[str, str] | None
) -> None:
    with pytest.raises(error) as caught:
        says(play, text)

    assert facts is None or caught.value.facts == facts


def test_only_a_coach_keeps_clips_and_another_coachs_clients_do_not_see_them(play: Talk) -> None:
    assert (
        says(play, f"ankle rock {LINK}", who="Ada") == "Only a coach can do that here. Nothing was changed."
    )
    says(play, f"ankle rock {LINK}")
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))

    for name, shown in (("Ada", True), ("Ben", False)):
        play.someone(name).tap("Prep")
        play.someone(name).tap("Next")
        assert (f"See it: {LINK}" in play.someone(name).sees) is shown
