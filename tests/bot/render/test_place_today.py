"""Place today and rest reminders in words, and which side goes first."""

from dataclasses import replace
from datetime import date

import pytest
from setting_out import labels, plain_text

from bot.render.place_today import ANY, fitted, kind_meant, place_meant, there_already
from bot.render.resting import rest_is_over, will_remind
from bot.render.session import session_card
from bot.render.session_lines import weaker_side
from bot.render.session_views import ItemView, SessionView
from core.checkin.training_log import Item
from core.loads.decision import Decision
from core.loads.outcome import Reason
from core.loads.reasons import ReasonCode
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Dose, Prescription, Span

PLACES = ("gym", "home", "my club", "elsewhere")


def item(decision: Decision | None = None, rest_s: int | None = 90) -> ItemView:
    dose = Dose(sets=3, reps=Span(low=8, high=8), each_side=True)
    written = Prescription(order="A", exercise="split-squat", dose=dose, rest_s=rest_s)
    kept = Item(7, 1, 0, "split-squat", written, dose, None, "open", None, None)
    return ItemView(kept, CATALOGUE["split-squat"], decision, (), ())


def view(screen: str = "overview", **more: object) -> SessionView:
    shown = SessionView(
        day="Lower A",
        week_no=1,
        weeks=4,
        local_on=date(2026, 4, 7),
        late=False,
        state="sent" if screen == "overview" else "started",
        screen=screen,
        items=(item(),),
        cursor=7,
        prompt_id=1,
        revision=2,
        places=PLACES,
    )
    return replace(shown, **more)


@pytest.mark.parametrize(
    ("text", "alone", "place"),
    [
        ("at home", False, "home"),
        ("I’m at home today.", False, "home"),
        ("training at the gym", False, "gym"),
        ("at my club", False, "my club"),
        ("at the club today", False, "my club"),
        ("elsewhere", False, "elsewhere"),
        ("I'm somewhere else today", False, "elsewhere"),
        ("another place", False, ANY),
        ("home", False, None),
        ("home", True, "home"),
        ("the gym", True, "gym"),
        ("at work", False, None),
        ("it hurts at home too", False, None),
    ],
)
def test_a_place_is_meant_or_not(text: str, alone: bool, place: str | None) -> None:
    assert place_meant(text, PLACES, alone=alone) == place


@pytest.mark.parametrize(
    ("text", "kind"), [("Bar and plates", 1), ("dumbbells.", 2), ("both", 3), ("nothing", 4), ("a lot", None)]
)
def test_a_kind_of_kit_is_meant_or_not(text: str, kind: int | None) -> None:
    assert kind_meant(text) == kind


def test_the_card_names_other_places_only_where_there_are_several() -> None:
    one = session_card(view(place="gym", usual_place="gym"))
    several = session_card(view(place="gym", usual_place="gym", several_places=True))

    assert "Home" not in labels(one)
    assert [button.label for button in several.rows[-2]] == ["Home", "My club", "Elsewhere"]
    assert "Today" not in plain_text(several)


@pytest.mark.parametrize(
    ("place", "said"),
    [
        ("home", "Today at home."),
        ("gym", "Today at the gym."),
        ("elsewhere", "Today elsewhere."),
        ("a<b", "Today at a<b."),
    ],
)
def test_the_head_says_where_when_it_is_not_the_usual_place(place: str, said: str) -> None:
    assert plain_text(session_card(view(place=place, usual_place="den"))).splitlines()[1] == said


def test_what_a_place_has_changed_is_said() -> None:
    squat, press = CATALOGUE["goblet-squat"], CATALOGUE["bench-press"]

    assert fitted("home", [("A", squat)], [("B", press)], machines=True) == (
        "Set for today at home. Now A goblet squat. Not there, so left out: B bench press. "
        "A machine here is another one than yours: find its load anew."
    )
    assert fitted("elsewhere", [], [], machines=False) == "Set for today elsewhere."
    assert there_already("gym") == "It is set for today at the gym already."


def test_a_reminder_is_short_and_has_a_sound() -> None:
    message = rest_is_over(90, "A", CATALOGUE["bench-press"])

    assert (message.html, message.silent) == ("Rest is over, 1:30 min. Next: A Bench press.", False)
    assert rest_is_over(45, "", None).html == "Rest is over, 45 s."
    assert will_remind(90, every=False) == "I write when 1:30 min are over."


@pytest.mark.parametrize(
    ("reminder", "found"),
    [
        ("", ["Rest reminder"]),
        ("once", ["Remind me again", "Every rest"]),
        ("every", ["Rest now", "No reminders"]),
    ],
)
def test_what_can_be_asked_about_rests_stands_under_the_open_exercise(
    reminder: str, found: list[str]
) -> None:
    card = session_card(view("item", reminder=reminder))

    assert found in [[button.label for button in row] for row in card.rows]


def test_without_a_rest_there_is_no_reminder() -> None:
    assert "Rest reminder" not in labels(session_card(view("item", items=(item(rest_s=None),))))


@pytest.mark.parametrize(
    ("side", "said"),
    [
        ("left", "Left side first: it is behind. The right does as many."),
        ("right", "Right side first: it is behind. The left does as many."),
    ],
)
def test_the_weaker_side_goes_first(side: str, said: str) -> None:
    told = Reason(code=ReasonCode.SIDES_APART, facts={"side": side, "reps": "3"})
    behind = item(Decision.model_construct(reasons=(told,)))

    assert weaker_side(behind) == said
    assert weaker_side(item()) is None
    assert weaker_side(item(Decision.model_construct(reasons=()))) is None
