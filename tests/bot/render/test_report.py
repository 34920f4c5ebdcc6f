"""The report of a block in words, on pages and in tables."""

import re
from datetime import timedelta
from decimal import Decimal

from matplotlib.figure import Figure

from bot.render.drawing import DRAWING
from bot.render.report import no_block, report_text
from bot.render.report_options import AGAINST, FOR, against_words, evidence_words, for_words
from bot.render.report_pages import HEIGHT, MOST_PAGES, report_pdf, report_sheets
from bot.render.report_tables import report_tables
from core.oversight.misses import Tally
from core.oversight.options import Code, EndFacts, Evidence, OptionKind, options
from core.oversight.report_parts import PainAt
from core.policy import Policy
from core.programme.block import Target
from core.programme.exercises import Side, Site
from core.programme.prescription import Load
from tests.core.oversight.blocks_done import FIRST, day, reported, rising

KNEE = PainAt(site=Site.KNEE, side=Side.LEFT, felt=((FIRST, 2), (FIRST + timedelta(days=50), 4)))
BACK = PainAt(site=Site.LOW_BACK, side=None, felt=((FIRST, None),))
SAID = (("What worked in this block?", "=<b>rows & rest</b>"), ("What did not work?", "long " * 100))


def target(exercise: str, load: str, week: int = 8) -> Target:
    return Target(exercise=exercise, load=Load.of(load), reps=5, week=week)


def test_a_report_so_far_tells_what_there_is() -> None:
    found = reported(
        [day(1, "done", ("hip-thrust", "90", (8, 8)))],
        target("hip-thrust", "100"),
        today=FIRST + timedelta(days=8),
        pain=(BACK,),
    )

    assert report_text(found).html == (
        "<b>Report, Ada: Harbour strength</b>\n"
        "7 April to 1 June, so far, week 2 of 8\n"
        "1 of 1 sessions kept.\n"
        "Working sets: 2 done, 32 written for 2 weeks.\n\n"
        "<b>Main lifts</b>\n"
        "Hip thrust: 90 kg × 8, once; too few for a trend: 1 session\n\n"
        "<b>End targets</b>\n"
        "Hip thrust 100 kg x 5 by week 8: open; nearest 90 kg × 8 on 7 April\n\n"
        "<b>Pain</b>\n"
        "Low back: once, no number given on 7 Apr\n\n"
        "<b>What comes next: three options, with the numbers for and against each. You decide.</b>\n\n"
        "<b>1. The same block again, loads from its last full week</b>. Common practice, no source.\n"
        "For: 1 of 1 sessions kept, so it fits the week\n"
        "Against: pain told once, 1 in the last 14 days, so the same may be too much\n\n"
        "<b>2. Fewer reps with more load</b>. Common practice, no source.\n"
        "For: main lifts ask for 8 reps on average, so there is room for fewer\n"
        "Against: pain told once, 1 in the last 14 days, so no more load yet\n"
        "Against: Hip thrust: too little known for a trend, so more load is a guess\n\n"
        "<b>3. A lighter block</b>. Our proposal.\n"
        "For: pain told once, 1 in the last 14 days, so less is the careful way\n"
        "Against: 1 of 1 sessions kept, so it was not too much\n"
        "Against: 2 weeks without a lighter one (your rules: 8 at most), so none is due yet\n\n"
        "Whatever you choose, no load rises through pain: the load line holds that."
    )


def test_the_end_of_a_block_tells_targets_trends_and_the_clients_own_words() -> None:
    found = reported(
        rising(), target("hip-thrust", "100"), target("bench-press", "70"), pain=(KNEE, BACK), answers=SAID
    )

    text = report_text(found).html

    assert "7 April to 1 June, over\n16 of 16 sessions kept (100 %)." in text
    assert re.search(r"Hip thrust: 90\.5 kg × 8 at first, .* last; up .* a week \(from .* to .*\)", text)
    assert "Bench press: 50 kg × 8 at first, 50 kg × 8 last; no clear trend" in text
    assert "no gain for long" in text
    assert re.search(r"Hip thrust 100 kg x 5 by week 8: reached on \d+ May with", text)
    assert "Bench press 70 kg x 5 by week 8: not reached; nearest 50 kg × 8 on 10 April" in text
    assert "Left knee: 2 times, 4 of 10 at most, last 4 of 10 on 27 May" in text
    assert "What worked in this block? =&lt;b&gt;rows &amp; rest&lt;/b&gt;" in text
    assert "It would begin with Hip thrust" in text
    assert len(text) < 4096


def test_a_lift_that_falls_says_so() -> None:
    sessions = [
        day(week, "done", ("hip-thrust", load, (8, 8))) for week, load in ((1, "100"), (2, "94"), (3, "88"))
    ]

    assert (
        "too few for a trend: 3 sessions; falling in the last three sessions"
        in report_text(reported(sessions)).html
    )


def test_right_after_a_lighter_week_no_number_of_weeks_is_said() -> None:
    said = [evidence_words(Evidence(code=Code.LIGHTER_SINCE, count=Decimal(count), of=8)) for count in (0, 1)]

    assert said == ["the last week was a lighter one", "1 week without a lighter one (your rules: 8 at most)"]


def test_every_number_says_why_it_speaks_for_an_option_or_against_it() -> None:
    unlike = EndFacts(rising=("A",), falling=("B",), stalled=("C",), unknown=("D",), targets=2)
    badly = {"held": True, "pain": 2, "pain_worst": 4, "kept": Tally(kept=1, due=4), "reached": 1}
    well = {"kept": Tally(kept=4, due=4), "reached": 2, "reps": Decimal(9)}
    table = (
        unlike.model_copy(update={**badly, "reps": Decimal(4), "weeks_since_lighter": 9}),
        unlike.model_copy(update=well),
    )
    made = [each for facts in table for each in options(facts, Policy())]

    assert {each.kind: set(FOR[each.kind]) for each in made} == {
        kind: {one.code for each in made if each.kind is kind for one in each.speaks_for}
        for kind in OptionKind
    }
    assert {each.kind: set(AGAINST[each.kind]) for each in made} == {
        kind: {one.code for each in made if each.kind is kind for one in each.speaks_against}
        for kind in OptionKind
    }
    assert for_words(made[2])[-1] == "9 weeks without a lighter one (your rules: 8 at most), so one is due"
    assert against_words(made[1])[0] == "the plan is on hold, so no more load yet"


def test_the_same_block_begins_from_the_loads_before_the_lighter_week() -> None:
    found = reported([*rising(4), day(5, "done", ("hip-thrust", "85", (8,)))], weeks=5)

    text = report_text(found).html
    assert "Hip thrust: 90.5 kg × 8 at first, 98 kg × 8 in the last full week;" in text
    assert "It would begin with Hip thrust 98 kg." in text


def test_a_report_that_is_too_long_keeps_its_options() -> None:
    answers = tuple((f"Question {number}?", "long " * 60) for number in range(12))

    text = report_text(reported(rising(), answers=answers)).html

    assert "3. A lighter block" in text
    assert "Question 1?" not in text


def test_many_lifts_and_places_are_named_up_to_a_number() -> None:
    evidence = Evidence(code=Code.RISING, names=tuple("ABCDEF"))
    places = tuple(PainAt(site=each, side=None, felt=((FIRST, 1),)) for each in list(Site)[:8])

    assert evidence_words(evidence) == "A, B, C, D and 2 more went up"
    assert "… and 2 places more, in the tables." in report_text(reported([], pain=places)).html


def test_who_had_no_block_is_told_so() -> None:
    assert no_block("A<b>").html == "A&lt;b&gt; has had no block yet. /assign puts a client on one."


def pages(*args: object, **facts: object) -> list[Figure]:
    with DRAWING:
        return list(report_sheets(reported(*args, **facts)))


def test_the_pages_are_at_most_three_and_fit_a_phone() -> None:
    long = rising(16)
    everything = pages(
        long,
        target("hip-thrust", "100"),
        pain=(KNEE, BACK),
        answers=SAID,
        weeks=16,
        today=FIRST + timedelta(200),
    )

    assert 1 <= len(everything) <= MOST_PAGES
    for page in everything:
        width, height = page.get_size_inches() * page.dpi
        assert width == 900
        assert height <= HEIGHT


def test_the_three_options_stand_together_on_a_page() -> None:
    made = pages(rising(16), target("hip-thrust", "100"), pain=(KNEE, BACK), answers=SAID, weeks=16)

    numbered = [
        [text.get_text() for text in page.axes[0].texts if text.get_weight() == "bold"] for page in made
    ]
    begun = [[one[:2] for one in page if one[:2] in ("1.", "2.", "3.")] for page in numbered]
    assert [each for each in begun if each] == [["1.", "2.", "3."]]


def test_nothing_on_a_page_leaves_it() -> None:
    for page in pages(rising(), target("hip-thrust", "100"), pain=(KNEE,), answers=SAID):
        width, height = page.get_size_inches() * page.dpi
        for text in page.axes[0].texts:
            box = text.get_window_extent()
            assert box.x0 >= 0 and box.x1 <= width, text.get_text()  # noqa: PT018
            assert box.y0 >= 0 and box.y1 <= height, text.get_text()  # noqa: PT018


def test_a_report_with_little_in_it_is_one_page_or_two() -> None:
    assert len(pages([], today=FIRST - timedelta(days=2))) <= 2


def test_the_same_report_is_the_same_pdf() -> None:
    found = reported(rising())

    content = report_pdf(found)

    assert content.startswith(b"%PDF-")
    assert report_pdf(found) == content


def test_the_tables_hold_weeks_lifts_estimates_muscles_and_pain() -> None:
    found = reported(rising(), target("hip-thrust", "100"), pain=(KNEE, BACK), answers=SAID)

    tables = {name: (heads, rows) for name, heads, rows in report_tables(found)}

    assert list(tables) == ["Summary", "Weeks", "Main lifts", "Estimates", "Muscles", "Pain"]
    assert tables["Weeks"][1][4] == (5, "lighter", 2, 2, 2, 8, 10)
    assert all(len(row) <= len(heads) for heads, rows in tables.values() for row in rows)
    assert ("Left knee", FIRST, 2) not in tables["Pain"][1]
    assert ("left knee", FIRST, 2) in tables["Pain"][1]
    assert ("low back", FIRST, "no number given") in tables["Pain"][1]
    assert [row[0] for row in tables["Summary"][1] if str(row[0]).startswith("Option")] == [
        "Option 1",
        "Option 2",
        "Option 3",
    ]
