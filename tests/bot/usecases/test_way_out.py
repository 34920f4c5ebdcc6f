"""Raises at a place that is steady at 1 to 3: asked of the coach once, honoured, and ended."""

from datetime import date

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import plain_text

from bot.messages import Action, decode
from bot.store.units import Units
from bot.usecases import talk as talking
from core.loads.decision import Inputs
from core.loads.go_ahead import GoAhead
from core.programme.exercises import Site


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "tick 2026-04-07 07:00",
            "Ada [All done as written]",
            "Ada: pain left knee 2",
            "tick 2026-04-08 07:00",
            "Ada [1]",
            "tick 2026-04-10 07:00",
            "Ada [All done as written]",
            "Ada: pain left knee 2",
            "tick 2026-04-11 07:00",
        ),
    )


def allowed(play: Talk, coach: str = "Marit", client: int = 1) -> tuple[GoAhead, ...]:
    return play.house.reading(
        play.someone(coach), lambda unit: unit.go_aheads.allowed(unit.accounts.find(client).client_id)
    )


def asks(lines: list[str]) -> bool:
    return any("Shall raises go on there?" in line for line in lines)


def test_the_coach_is_asked_once_and_her_silence_holds(play: Talk) -> None:
    assert asks(play.take("Ada [1]"))
    play.take("Ada: pain left knee 2")
    play.take("tick 2026-04-12 07:00")

    assert allowed(play) == ()
    play.take("tick 2026-04-14 07:00")
    play.take("Ada [All done as written]")
    play.take("Ada: pain left knee 2")
    play.take("tick 2026-04-15 07:00")
    assert not asks(play.take("Ada: pain left knee 1"))


def test_a_morning_that_is_worse_asks_nothing(play: Talk) -> None:
    assert not asks(play.take("Ada [3]"))


def test_what_she_allows_is_kept_with_the_score_and_taken_back_with_the_other_button(play: Talk) -> None:
    play.take("Ada [1]")
    play.take("Marit [Raises go on]")

    assert [(each.site, each.side, each.score) for each in allowed(play)] == [("knee", "L", 2)]
    play.take("Marit [Keep holding]")
    assert allowed(play) == ()


def test_it_is_stored_with_the_decision_that_rests_on_it(play: Talk) -> None:
    play.take("Ada [1]")
    play.take("Marit [Raises go on]")
    play.take("tick 2026-04-14 07:00")

    def look(unit):
        session = unit.sessions.open_one(unit.accounts.find(1).client_id)
        item = unit.sessions.items(session.id)[1]
        return Inputs.model_validate_json(unit.decisions.get(item.decision_id).inputs).go_aheads

    assert play.house.reading(play.someone("Marit"), look) == allowed(play)


@pytest.mark.parametrize(
    "report", ["Ada: pain left knee 3", "Ada: pain left knee 5", "Ada: my left knee hurts"]
)
def test_the_question_no_longer_stands_after_a_report_above(play: Talk, report: str) -> None:
    play.take("Ada [1]")
    play.take(report)
    play.take("Marit [Raises go on]")

    assert allowed(play) == ()
    assert "has told of more pain since" in plain_text(play.someone("Marit").last)


def test_a_report_above_ends_what_was_allowed_and_the_next_morning_clears_it(play: Talk) -> None:
    play.take("Ada [1]")
    play.take("Marit [Raises go on]")
    play.take("Ada: pain left knee 4")
    play.take("tick 2026-04-12 07:00")
    play.take("Ada [3]")

    assert allowed(play) == ()


def test_only_the_coach_of_the_client_answers(play: Talk) -> None:
    play.take("Ada [1]")
    marit = play.someone("Marit")
    data = marit.data("Raises go on")

    for name in ("Ada", "Orla", "Ben"):
        play.someone(name).does(talking.tapped, talking.Tapped(decode(data)))
    marit.does(talking.tapped, talking.Tapped(decode(marit.forged("Raises go on", action=Action.SKIP))))

    assert allowed(play) == ()
    assert allowed(play, "Orla", 901) == ()


def test_a_stale_button_shows_how_it_stands(play: Talk) -> None:
    play.take("Ada [1]")
    play.take("Marit keeps [Raises go on] as yes")
    play.take("Marit [Keep holding]")

    assert play.take("Marit taps the old yes")[1].strip() == "Ada, left knee: loads stay held while it hurts."


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("raises go on", ["knee"]),
        ("Raises go on.", ["knee"]),
        ("Ada: let raises go on", ["knee"]),
        ("raises may go on, left knee", ["knee"]),
        ("Ada: keep holding", []),
        ("raises go on, right knee", []),
        ("Ben: raises go on", []),
        ("raises go on as planned", []),
    ],
)
def test_the_coach_types_what_her_buttons_say(play: Talk, line: str, expected: list[str]) -> None:
    play.take("Ada [1]")
    play.take(f"Orla: {line}")
    assert allowed(play) == ()

    play.take(f"Marit: {line}")

    assert [each.site for each in allowed(play)] == expected


def test_what_was_typed_is_taken_back_by_words_and_an_unasked_word_changes_nothing(play: Talk) -> None:
    unasked = play.take("Marit: raises go on")
    play.take("Ada [1]")
    for line in ("raises go on", "keep holding"):
        said = play.take(f"Marit: {line}")

    assert allowed(play) == ()
    assert "Ada, left knee: loads stay held while it hurts." in "\n".join(said)
    assert "No question about raises is open." in "\n".join(unasked)


def test_of_two_places_she_is_asked_which(play: Talk) -> None:
    play.take("Ada [1]")

    def another(unit):
        client, user_id = unit.accounts.find(1).client_id, play.someone("Marit").user_id
        unit.go_aheads.ask(client, Site.WRIST, "R", 2, user_id, play.house.now)

    play.house.reading(play.someone("Marit"), another)
    said = "\n".join(play.take("Marit: raises go on"))

    assert "Ada: raises go on, left knee" in said
    assert "Ada: raises go on, right wrist" in said
    assert allowed(play) == ()
    play.take("Marit: Ada: raises go on, left knee")
    assert [each.site for each in allowed(play)] == ["knee"]


def asks_signs(play: Talk) -> None:
    def born(unit):
        client = unit.accounts.find(1).client_id
        unit.health_answers.keep(client, "birth", play.house.now, yes=True, said_on=date(2026, 1, 5))

    play.house.reading(play.someone("Marit"), born)


def test_in_the_year_after_a_birth_other_signs_stop_the_exercise_and_are_told(units: Units) -> None:
    play = Talk(units)
    play.take("tick 2026-04-07 07:00")
    play.take("Ada [Start]")
    asks_signs(play)
    play.take("Ada [Hurts]")

    lines = [line.strip() for line in play.take("Ada [Heaviness, leaking, doming, bleeding]")]

    assert "Stop this exercise." in lines
    assert "alert now to Marit:" in lines
    assert "Ada: heaviness, leaking, doming or bleeding, during hip thrust at 90 kg (Tue 7 April)." in lines
    assert "[Release what is locked]" in lines
    assert not any(line.startswith("A  Hip thrust  4 × 8") for line in lines)


@pytest.mark.parametrize("asked", [(), ("Ada [Hurts]",)])
@pytest.mark.parametrize("words", ["leaking", "Some bleeding again", "heaviness and leaking when I jump"])
def test_the_signs_after_a_birth_are_typed_as_well(units: Units, asked: tuple[str, ...], words: str) -> None:
    play = Talk(units)
    for step in ("tick 2026-04-07 07:00", "Ada [Start]"):
        play.take(step)
    asks_signs(play)
    for step in asked:
        play.take(step)

    lines = [line.strip() for line in play.take(f"Ada: {words}")]

    assert "Stop this exercise." in lines
    assert "Ada: heaviness, leaking, doming or bleeding, during hip thrust at 90 kg (Tue 7 April)." in lines
    assert not any(line.startswith("A  Hip thrust  4 × 8") for line in lines)


def test_words_that_name_no_sign_or_deny_it_are_none(units: Units) -> None:
    play = Talk(units)
    play.take("tick 2026-04-07 07:00")
    unborn = "\n".join(play.take("Ada: leaking"))
    asks_signs(play)
    denied = "\n".join(play.take("Ada: no bleeding"))

    assert "Stop this exercise." not in unborn + denied


def test_without_a_birth_nothing_of_the_kind_is_asked(units: Units) -> None:
    play = Talk(units)
    play.take("tick 2026-04-07 07:00")
    play.take("Ada [Something hurts]")

    assert "Heaviness, leaking, doming, bleeding" not in play.someone("Ada").buttons
