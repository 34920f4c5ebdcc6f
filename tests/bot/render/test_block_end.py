"""The end of a block, in words and numbers."""

from bot.render import block_end as say
from core.oversight.misses import Tally
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Load

LIFT = say.Lift(CATALOGUE["hip-thrust"], Load.of(90), Load.of(105))


def test_what_was_done_and_why_questions_follow() -> None:
    assert say.lead("Harbour & strength", Tally(kept=13, due=16), [LIFT]) == (
        "Harbour &amp; strength is over. Sessions kept: 13 of 16.\n"
        "Hip thrust: 90 kg at first, 105 kg last\n\n"
        "A few quick ones for what comes next. Your coach reads them."
    )


def test_a_block_in_which_nothing_was_due() -> None:
    assert say.lead("Slipway", Tally(), []).startswith("Slipway is over. No session was due.\n\n")


def test_four_lifts_are_told_at_most() -> None:
    assert len(say.lift_lines([LIFT] * 6)) == 4


def test_what_the_coach_reads_in_one_message() -> None:
    told = say.for_coach("Ada", "Slipway", Tally(kept=2, due=3), [LIFT], [("What did not work?", "a < b")])

    assert told == (
        "<b>Ada</b> has ended Slipway. Sessions kept: 2 of 3.\n"
        "Hip thrust: 90 kg at first, 105 kg last\n\n"
        "What did not work? a &lt; b"
    )
    assert say.for_coach("Ada", "Slipway", Tally(), [], []).endswith("\n\nEvery question was skipped.")
