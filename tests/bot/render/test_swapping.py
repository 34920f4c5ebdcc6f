"""The screen of a swap with no exercise at hand."""

from datetime import date

from setting_out import labels

from bot.render.session import session_card
from bot.render.session_views import SessionView


def test_with_nothing_at_hand_there_is_only_the_way_back() -> None:
    view = SessionView("Lower A", 1, 4, date(2026, 4, 7), False, "started", "swap", (), None, 1, 1)

    assert labels(session_card(view)) == ["Back"]
