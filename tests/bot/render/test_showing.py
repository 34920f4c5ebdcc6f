"""A clip with no exercise at hand."""

from bot.render.showing import how_it_is_done


def test_with_nothing_at_hand_there_is_no_clip() -> None:
    assert how_it_is_done(None) == "There is no clip of it."
