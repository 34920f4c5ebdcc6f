"""A coach's cues in one line: read back, on the card, in the talk about pain; hers alone."""

from datetime import datetime

import pytest
from dialogs.talks import LISBON, Talk
from setting_out import Someone, plain_text

from bot.messages import Send
from bot.store.units import Units
from bot.usecases import cues


@pytest.fixture
def play(units: Units) -> Talk:
    """Ada and Ben run the same block, each with a coach of her own."""
    return Talk(units)


def says(play: Talk, name: str, text: str) -> str:
    """What a coach reads after a cue."""
    [found] = play.does(play.someone(name), cues.cue, cues.CueSaid(text))
    assert isinstance(found, Send)
    return plain_text(found.message)


def lists(play: Talk, name: str, text: str = "") -> str:
    [found] = play.does(play.someone(name), cues.cues_asked, cues.CuesAsked(text))
    assert isinstance(found, Send)
    return plain_text(found.message)


def begins(play: Talk, name: str = "Ada", letter: str | None = None) -> str:
    """The open exercise on somebody's card: the first, a hip thrust, for which the block has a cue; or another."""
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    play.someone(name).tap("Start")
    if letter is not None:
        play.someone(name).tap(letter)
    return play.someone(name).sees


def reports(play: Talk, name: str, text: str) -> str:
    person = play.someone(name)
    found = play.typed(person, text)
    return "\n".join(
        plain_text(each.message)
        for each in found
        if isinstance(each, Send) and each.chat_id == person.user_id
    )


def test_a_cue_for_all_stands_on_the_card_of_her_clients_alone(play: Talk) -> None:
    says(play, "Orla", "calf raise: heels high")

    assert "heels high" not in begins(play, "Ada", "D")
    assert "heels high" in begins(play, "Ben", "D")


def test_a_cue_for_one_goes_before_one_for_all(play: Talk) -> None:
    says(play, "Marit", "calf raise: for all")
    says(play, "Marit", "ADA , calf raises: for her")

    seen = begins(play, letter="D")
    assert "for her" in seen
    assert "for all" not in seen


def test_a_cue_of_the_block_goes_before_one_for_all_and_behind_one_for_her(play: Talk) -> None:
    says(play, "Marit", "hip thrust: for all")
    says(play, "Orla", "Ben, hip thrust: for him")

    ada, ben = begins(play, "Ada"), begins(play, "Ben")

    assert ("Ribs down at the top." in ada, "for all" in ada) == (True, False)
    assert ("Ribs down at the top." in ben, "for him" in ben) == (False, True)


@pytest.mark.parametrize(
    ("score", "said"),
    [(0, False), (1, True), (2, True), (3, True), (4, False), (6, False), (7, False), (10, False)],
)
def test_a_cue_for_a_site_is_said_from_1_to_3_alone(play: Talk, score: int, said: bool) -> None:
    says(play, "Marit", "Ada, hip thrust, left knee: push the floor apart")
    begins(play)

    assert ("push the floor apart" in reports(play, "Ada", f"pain left knee {score}")) is said


def test_a_cue_never_stands_in_place_of_a_safety_text(play: Talk) -> None:
    says(play, "Marit", "knee: shorter steps")
    begins(play)

    assert reports(play, "Ada", "pain left knee 2").splitlines() == [
        "Noted: left knee, 2 of 10, during the session.",
        "The load will not go up while it is there. Tell me tomorrow morning if it is worse.",
        "Your coach for this: shorter steps",
        "",
        "Did you take something for it?",
    ]
    assert "shorter steps" not in reports(play, "Ada", "pain left knee")


def test_it_is_said_once_for_each_report(play: Talk) -> None:
    says(play, "Marit", "low back: shorter range")
    begins(play)
    ada = play.someone("Ada")

    asked = reports(play, "Ada", "pain low back 2")
    ada.tap("None of these")

    assert "shorter range" not in asked
    assert ada.sees.count("shorter range") == 1


def test_pain_that_spreads_gets_no_cue_at_any_score(play: Talk) -> None:
    says(play, "Marit", "low back: shorter range")
    begins(play)
    ada = play.someone("Ada")

    reports(play, "Ada", "pain low back 2")
    ada.tap("Down the leg or arm, numb, tingling")

    assert not any("shorter range" in plain_text(message) for message in ada.screen.values())


def test_the_same_again_replaces_it_and_undo_brings_it_back(play: Talk) -> None:
    marit = play.someone("Marit")
    says(play, "Marit", "hip thrust: first")

    assert "In place of: first" in says(play, "Marit", "hip thrust: second")
    assert "first" not in lists(play, "Marit")
    marit.tap("Undo")
    assert "The one before stands again: first" in marit.sees
    listed = lists(play, "Marit")
    assert "first" in listed
    assert "second" not in listed


def test_undo_works_once_and_an_old_button_says_so(play: Talk) -> None:
    marit = play.someone("Marit")
    says(play, "Marit", "hip thrust: first")
    play.kept(marit, "Undo", "one")
    marit.tap("Undo")
    play.tapped_old(marit, "one")
    assert "Taken back" in marit.sees

    says(play, "Marit", "hip thrust: second")
    play.kept(marit, "Undo", "two")
    lists(play, "Marit", "remove hip thrust")
    play.tapped_old(marit, "two")
    assert marit.sees.endswith("This was settled before. /cues shows what stands.")


def test_a_list_takes_one_back_and_an_old_button_changes_nothing(play: Talk) -> None:
    marit = play.someone("Marit")
    says(play, "Marit", "hip thrust: first")
    says(play, "Marit", "knee: second")
    lists(play, "Marit")
    play.kept(marit, "Take back 1", "one")

    marit.tap("Take back 1")
    assert marit.sees.startswith("Taken back. All clients, hip thrust")
    assert marit.buttons == ["Take back 1"]
    play.tapped_old(marit, "one")
    assert "second" in marit.sees
    marit.tap("Take back 1")
    assert "No cue of yours stands." in marit.sees


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "What it is about, then a colon, then the cue:"),
        ("hip thrust", "What it is about, then a colon, then the cue:"),
        ("hip thrust:  ", "What it is about, then a colon, then the cue:"),
        (": ribs down", "What it is about, then a colon, then the cue:"),
        ("hip thrst: ribs down", "I do not know what “hip thrst” is about"),
        ("Ada: ribs down", "I do not know what “Ada” is about"),
        ("Ben, hip thrust: ribs down", "I do not know what “Ben” is about"),
        ("hip thrust, Ada: ribs down", "I do not know what “hip thrust, Ada” is about"),
        ("Ada, hip thrust, knee, hip: ribs down", "I do not know what “Ada, hip thrust, knee, hip” is about"),
        (", : ribs down", "I do not know what “,” is about"),
        (f"hip thrust: {'x' * 201}", "201 characters; up to 200 fit on a card. Nothing was kept."),
    ],
)
def test_what_cannot_be_told_is_never_guessed(play: Talk, text: str, said: str) -> None:
    assert says(play, "Marit", text).startswith(said)
    assert lists(play, "Marit").startswith("No cue of yours stands.")


def test_a_word_that_is_a_client_and_a_place_is_asked_about(play: Talk) -> None:
    marit = play.someone("Marit")
    play.house.invited(marit, "Knee", 77)

    assert says(play, "Marit", "knee: slow").startswith("All clients, pain at the knee")
    assert says(play, "Marit", "knee, knee: slow").startswith("Knee, pain at the knee")
    play.house.invited(marit, "Plank", 78)
    assert says(play, "Marit", "plank, calf: slow").startswith("“plank, calf” may be two things.")


def test_what_is_named_to_be_taken_back_is_found_or_said_to_be_none(play: Talk) -> None:
    says(play, "Marit", "Ada, hip thrust, left knee: slow")

    assert lists(play, "Marit", "remove hip thrust").startswith("There is no cue for hip thrust.")
    assert lists(play, "Orla", "remove Ada, hip thrust, left knee").startswith(
        "I do not know what “Ada” is about"
    )
    assert lists(play, "Marit", "remove ada, hip thrust, LEFT knee").startswith("Taken back.")


def test_a_client_cannot_write_or_read_them(play: Talk) -> None:
    ada: Someone = play.someone("Ada")

    for usecase, command in ((cues.cue, cues.CueSaid("hip thrust: x")), (cues.cues_asked, cues.CuesAsked())):
        [_, found] = play.does(ada, usecase, command)
        assert isinstance(found, Send)
        assert plain_text(found.message) == "Only a coach can do that here. Nothing was changed."


def test_what_people_write_is_shown_as_they_wrote_it(play: Talk) -> None:
    says(play, "Marit", "Ada, hip thrust: <b>ribs</b> & chin")

    assert "<b>ribs</b> & chin" in begins(play)
    assert "<b>ribs</b> & chin" in lists(play, "Marit")


def test_one_in_place_of_another_has_its_own_cue(play: Talk) -> None:
    says(play, "Marit", "glute bridge: slow at the top")
    begins(play)
    ada = play.someone("Ada")
    ada.tap("Swap")
    ada.type("glute bridge")

    assert "slow at the top" in ada.sees


def test_a_preview_shows_what_she_says_to_all(play: Talk) -> None:
    says(play, "Marit", "calf raise: heels high")
    says(play, "Marit", "Ada, calf raise: for her")
    marit = play.someone("Marit")
    play.commanded(marit, "preview", None)
    for label in ("Lower A", "Week 1", "D"):
        marit.tap(label)

    assert "heels high" in marit.sees
    assert "for her" not in marit.sees
