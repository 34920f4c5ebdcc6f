from bot.render.blocks import block_preview
from core.programme.block import Block, Day, Line, Weekday
from core.programme.prescription import Dose, Prescription, Span


def line(order: str, exercise: str, sets: int, *weeks: int) -> Line:
    dose = Dose(sets=sets, reps=Span(low=8, high=8))
    return Line(weeks=frozenset(weeks), prescription=Prescription(order=order, exercise=exercise, dose=dose))


def test_the_preview_says_days_weeks_sets_and_presses_to_pulls() -> None:
    push = Day(
        key="push", name="Push & pull", lines=(line("A", "bench-press", 4, 1), line("A", "bench-press", 3, 2))
    )
    legs = Day(
        key="legs", name="Legs", lines=(line("A", "back-squat", 3, 1, 2), line("B", "pull-up", 4, 1, 2))
    )
    block = Block(name="Slip <way>", weeks=2, week_starts=Weekday.SUN, days=(push, legs))

    assert block_preview(block) == (
        "<b>Slip &lt;way&gt;</b>\n"
        "2 weeks from Sunday\n"
        "2 a week: Push &amp; pull, Legs\n"
        "\n"
        "<b>Sets a week</b>\n"
        "squat 3\n"
        "horizontal press 3–4\n"
        "vertical pull 4\n"
        "\n"
        "Presses to pulls: 3–4 to 4 sets"
    )


def test_a_block_for_the_legs_alone_says_nothing_of_presses() -> None:
    legs = Day(key="legs", name="Legs", lines=(line("A", "back-squat", 3, 1),))

    preview = block_preview(Block(name="Legs", weeks=1, days=(legs,)))

    assert preview == "<b>Legs</b>\n1 week from Monday\n1 a week: Legs\n\n<b>Sets a week</b>\nsquat 3"
