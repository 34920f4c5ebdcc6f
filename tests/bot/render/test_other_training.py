"""Other training, in words."""

from datetime import date

from setting_out import labels, plain_text

from bot.render import other_training as say
from bot.render.setting_up import Buttons
from core.checkin.other_training_words import Trained

BUTTONS = Buttons(1, 0)
TODAY = date(2026, 4, 14)
RUN = say.Kept(Trained.RUN, TODAY)


def test_every_kind_has_its_words() -> None:
    assert set(say.NAMES) == set(Trained)


def test_it_is_asked_with_a_button_for_each_kind() -> None:
    message = say.ask(BUTTONS)

    assert plain_text(message) == (
        "Other training\n\nWhat did you do today? One tap is enough. Or type it, like run 40 min yesterday."
    )
    assert labels(message) == [
        "A run",
        "A ride",
        "A match",
        "A swim",
        "A hike",
        "A class",
        "Physical work",
        "Something else",
    ]


def test_what_is_kept_with_what_may_be_added() -> None:
    message = say.kept(RUN, TODAY, BUTTONS, say.NO_DISTANCE)

    assert plain_text(message) == (
        "Kept: a run, Tue 14 April.\n\nI keep minutes, no distance.\n\n"
        "How long, and how hard? Tap, type it, or leave it."
    )
    assert labels(message)[-2:] == ["It was yesterday", "Undo"]
    timed = say.kept(say.Kept(Trained.RUN, TODAY, minutes=40), TODAY, BUTTONS)
    assert plain_text(timed).endswith("How hard? Tap, type it, or leave it.")
    felt = say.kept(say.Kept(Trained.RUN, TODAY, effort=4), TODAY, BUTTONS)
    assert plain_text(felt).endswith("How long? Tap, type it, or leave it.")


def test_nothing_is_asked_when_all_is_said() -> None:
    message = say.kept(say.Kept(Trained.CLASS, date(2026, 4, 13), 60, 5), TODAY, BUTTONS)

    assert plain_text(message) == "Kept: a class, 60 min, very hard, Mon 13 April."
    assert labels(message) == ["Undo"]


def test_in_doubt_it_is_asked() -> None:
    message = say.ask_whether(say.Kept(Trained.MATCH, TODAY, 90), BUTTONS)

    assert plain_text(message) == "Was that other training?"
    assert labels(message) == ["A match, 90 min, Tue 14 April", "No, it is for my coach"]


def test_a_week_in_one_line_with_its_minutes_where_all_are_known() -> None:
    match = say.Kept(Trained.MATCH, TODAY, 90, 4)

    assert say.week_line([match]) == "a match, 90 min, hard, Tue 14 April"
    assert say.week_line([match, say.Kept(Trained.RUN, TODAY, 40)]) == (
        "a match, 90 min, hard, Tue 14 April; a run, 40 min, Tue 14 April (130 min in all)"
    )
    assert say.week_line([match, RUN]) == "a match, 90 min, hard, Tue 14 April; a run, Tue 14 April"
    assert say.kept_of("run", TODAY, None, None) == RUN


def test_the_rest_of_its_words() -> None:
    assert plain_text(say.for_coach()) == "Passed on to your coach. Nothing else was kept."
    assert plain_text(say.taken_back()) == "Taken back. Nothing is kept of it."
    assert [each.label for row in say.row(BUTTONS) for each in row] == ["Other training"]
