"""What a coach reads of a client beside the block."""

from datetime import date

from bot.render.beside_block import Answered, BesideBlock, beside_lines
from bot.render.goals import Line
from bot.render.other_training import Kept
from core.checkin.other_training_words import Trained


def test_nothing_is_said_of_nothing() -> None:
    assert beside_lines(BesideBlock()) == ""


def test_a_line_each() -> None:
    beside = BesideBlock(
        goals=[Line("swim")],
        answered=[Answered("hard", date(2026, 4, 12)), Answered("the days", date(2026, 4, 5), of_block=True)],
        other=[Kept(Trained.RUN, date(2026, 4, 13), 40)],
        is_off=True,
    )

    assert beside_lines(beside) == (
        "Goals: swim.\n"
        "Check-in, Sun 12 April: hard.\n"
        "End of a block, Sun 5 April: the days.\n"
        "The check-in is off.\n"
        "Other training in 7 days: a run, 40 min, Mon 13 April."
    )
