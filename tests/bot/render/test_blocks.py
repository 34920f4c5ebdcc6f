from itertools import pairwise

from bot.messages import Action, decode
from bot.render.block_warnings import phone_lines
from bot.render.blocks import all_warnings, block_preview, kept, picture_caption
from bot.render.setting_up import Buttons
from core.loads.kit_fit import StandIn, Undoable
from core.programme.block import Block, Day, Line, Phase, Target, Weekday
from core.programme.checks import block_warnings
from core.programme.prescription import Dose, Load, Prescription, Span
from core.programme.problems import Code, Place, Problem, problem
from core.programme.rows import BlockFile

BUTTONS = Buttons(prompt_id=7, revision=0)


def line(order: str, exercise: str, sets: int, *weeks: int) -> Line:
    dose = Dose(sets=sets, reps=Span(low=8, high=8))
    return Line(weeks=frozenset(weeks), prescription=Prescription(order=order, exercise=exercise, dose=dose))


PUSH = Day(
    key="push", name="Push & pull", lines=(line("A", "bench-press", 4, 1), line("A", "bench-press", 3, 2))
)
LEGS = Day(key="legs", name="Legs", lines=(line("A", "back-squat", 3, 1, 2), line("B", "pull-up", 4, 1, 2)))
BLOCK = Block(name="Slip <way>", weeks=2, week_starts=Weekday.SUN, days=(PUSH, LEGS))
HEAD = "<b>Slip &lt;way&gt;</b>\n2 weeks from Sunday\n2 a week: Push &amp; pull, Legs\n"


def test_the_preview_says_days_weeks_and_sets_of_large_muscles_and_sides() -> None:
    assert block_preview(BLOCK) == (
        f"{HEAD}\n<b>Sets a week</b>\n"
        "chest 3–4, lats 4, upper back 2, quads 3, glutes 3\n"
        "presses 3–4, pulls 4, knees 3, hips 0"
    )


def test_the_whole_preview_has_every_muscle() -> None:
    assert (
        "chest 3–4, front delts 1.5–2, triceps 1.5–2, biceps 2, forearms 2, lats 4, upper back 2"
        in block_preview(BLOCK, whole=True)
    )


def test_a_block_for_the_legs_alone_says_nothing_of_presses() -> None:
    legs = Day(key="legs", name="Legs", lines=(line("A", "leg-extension", 3, 1),))

    assert block_preview(Block(name="Legs", weeks=1, days=(legs,))) == (
        "<b>Legs</b>\n1 week from Monday\n1 a week: Legs\n\n<b>Sets a week</b>\nquads 3\nknees 3, hips 0"
    )


def test_a_block_without_anything_has_no_sets() -> None:
    assert block_preview(Block(name="Tide", weeks=1, days=())).endswith("0 a week: ")


def test_the_plan_is_said_in_a_few_lines() -> None:
    phases = tuple(Phase(name=f"Part {week}", weeks=frozenset({week})) for week in range(1, 8))
    target = Target(exercise="back-squat", load=Load.of(100), reps=5, week=12)
    days = (PUSH.model_copy(update={"lighter_weeks": frozenset({8, 12})}),)
    block = Block(
        name="Long", weeks=14, days=days, phases=phases, testing_weeks=frozenset({13}), targets=(target,)
    )
    text = block_preview(block)

    assert "Part 7: week 7\nLighter: weeks 8, 12\n… and 2 more.\n" in text
    assert "Tests: week 13\nTarget: Back squat 100 kg x 5 by week 12" in block_preview(
        block.model_copy(update={"phases": ()})
    )


def test_a_block_without_warnings_is_shown_with_what_comes_next() -> None:
    message = kept(BlockFile(block=BLOCK), 1, (), BUTTONS)

    assert message.html == f"{block_preview(BLOCK)}\n\nKept. Next: /assign puts a client on it."
    assert (message.rows, message.silent) == ((), True)


def empty_day(day: str) -> Problem:
    return problem(Code.DAY_EMPTY_IN_WEEK, Place(), day=day, weeks="2")


def test_a_later_version_says_who_stays_and_a_warning_is_escaped() -> None:
    html = kept(BlockFile(block=BLOCK, warnings=(empty_day("<A>"),)), 2, (), BUTTONS).html

    assert "• The day &quot;&lt;A&gt;&quot; asks for nothing in week 2." in html
    assert html.endswith(
        "Kept as version 2. Who runs an earlier one stays on it. Next: /assign puts a client on it."
    )


def test_many_warnings_fit_a_phone_and_a_button_shows_all() -> None:
    jumps = [
        problem(
            Code.REPS_JUMP,
            Place(),
            exercise="Bench press",
            day="Push",
            from_week=week,
            from_reps=8,
            to_week=other,
            to_reps=12,
        )
        for week, other in pairwise(range(1, 30))
    ]
    alone = problem(Code.LIMIT_UNDER_BAR, Place(), exercise="Back squat", day="Legs", left=0)
    message = kept(BlockFile(block=BLOCK, warnings=(*jumps, empty_day("A"), alone)), 1, (), BUTTONS)
    ((button,),) = message.rows
    tap = decode(button.data or "")

    assert phone_lines(message.html) <= 25
    assert (
        message.html.index("Back squat")
        < message.html.index("Bench press")
        < message.html.index("day &quot;A")
    )
    assert "… and 26 more." in message.html
    assert (button.label, tap and (tap.prompt, tap.action)) == ("See all 30", (7, Action.PICK))


def test_without_buttons_the_number_left_is_said_all_the_same() -> None:
    message = kept(BlockFile(block=BLOCK, warnings=tuple(empty_day("A" * 60) for _ in range(40))), 1)

    assert "more." in message.html
    assert message.rows == ()


def test_all_warnings_come_with_what_nobody_can_do_and_where_the_figures_come_from() -> None:
    undoable = Undoable(exercise="back-squat", stand_ins=(StandIn(client="<Ada>", exercise="goblet-squat"),))
    warnings = block_warnings(BLOCK)
    (page,) = all_warnings("Slip <way>", warnings, [undoable])

    assert page.html.startswith(
        "<b>Slip &lt;way&gt;</b>, all that is worth another look; it can be used as it is:\n\n• "
    )
    assert "• Nobody&#x27;s kit loads Back squat. In its place: Goblet squat for &lt;Ada&gt;." in page.html
    assert page.html.count("\n• ") == len(warnings) + 1
    assert "<b>Where the figures come from</b>\n" in page.html
    assert page.html.count("Pelland and others, 2024") == 1


def test_warnings_that_rest_on_no_figure_name_no_source() -> None:
    (page,) = all_warnings("Slip", [empty_day("A")], [])

    assert "come from" not in page.html


def test_the_caption_says_in_words_what_the_picture_shows() -> None:
    assert picture_caption("<A>") == (
        "&lt;A&gt;: sets a muscle by week. A set counts one for the muscle it is for, a half for one that helps."
    )
