"""A coach's rules in words: whole texts, values with their units, and whom a change touches."""

from datetime import date, time
from decimal import Decimal

import pytest
from rows import each_row

from bot.render import rules as say
from bot.render import rules_said as answers
from bot.render.rule_values import range_words, source_words, value_words
from core.oversight.rule import Group, Setting, steps_from
from core.oversight.rule_words import RULES, rules_of
from core.programme.catalogue import exercise
from core.programme.prescription import Dose, Load, Span
from core.units import Mass

BUTTONS = say.Buttons(7, 1)
PAIN, QUIET = RULES["pain_drop"], RULES["quiet_from"]
ALL, ADA = say.Scope(), say.Scope("Ada & Co")
BENCH = exercise("bench-press")


def dose(load: str, left: int | None = None) -> Dose:
    return Dose(sets=3, reps=Span(low=8, high=8), load=Load.of(load), left=left)


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("pain_drop", Decimal("0.30"), "30 %"),
        ("cap_upper", Decimal("0.025"), "2.5 %"),
        ("sets_rise_share", 1, "100 %"),
        ("cap_upper_mass", Mass.of("1.25"), "1.25 kg"),
        ("cap_upper_mass", Mass.of(2, "lb"), "2 lb"),
        ("ill_wait", 1, "1 day"),
        ("ill_wait", 2, "2 days"),
        ("miss_first_days", 0, "0 days"),
        ("quiet_from", time(22, 30), "22:30"),
        ("limit_from_60", True, "on"),
        ("limit_from_60", False, "off"),
        ("cap_week_upper", None, "off"),
    ],
)
def test_a_value_has_its_unit(field: str, value: Setting, words: str) -> None:
    assert value_words(RULES[field], value) == words


@pytest.mark.parametrize(
    ("field", "words"),
    [
        ("pain_drop", "from 10 % to 50 %"),
        ("cap_week_upper", "from 0.1 % to 10 %, or off"),
        ("quiet_to", "from 05:00 to 10:00"),
        ("limit_from_60", "on or off"),
        ("ill_wait", "from 1 day to 7 days"),
        ("cap_lower_mass", "from 0.25 kg to 10 kg"),
    ],
)
def test_a_range_is_said(field: str, words: str) -> None:
    assert range_words(RULES[field]) == words


@pytest.mark.parametrize(
    ("field", "words"),
    [
        ("pain_drop", "Our proposal."),
        ("cap_upper", "Our proposal under ACSM 2009&#x27;s 2-10 %."),
        ("cap_upper_mass", "Our reading of NSCA 2.5-5 lb to 5-10 lb a raise."),
        ("miss_drop", "Common practice, no source."),
    ],
)
def test_where_a_default_comes_from_is_said(field: str, words: str) -> None:
    assert source_words(RULES[field]) == words


def test_what_differs_comes_first_with_who_set_it_and_when() -> None:
    changed = [
        say.RuleSet(QUIET, ALL, time(22), "you", date(2026, 4, 6)),
        say.RuleSet(PAIN, ADA, Decimal("0.3"), "another account", date(2026, 4, 7), fits=False),
    ]
    assert say.menu(changed, BUTTONS, "Old.").html == (
        "Old.\n\n<b>Your rules</b>\nOther than the defaults:\n"
        "quiet from, for all: <b>22:00</b>, default 21:00. You, 6 April.\n"
        "pain drop, for Ada &amp; Co: <b>30 %</b>, default 20 %. Another account, 7 April. "
        "It does not fit what else is set, and is left out.\n\n"
        "Tap what it is about, or type one line:\n"
        "<code>/rules quiet from 22:00</code>\n<code>/rules raise cap upper 4%</code>\n"
        "<code>/rules for Ada: pain drop 30%</code>\n<code>/rules bench press: raise by 1 kg</code>\n"
        "<code>/rules reset quiet from</code>\n\n"
        "No rule changes what a stop sign does, what is told at once, or lets a load rise at pain of 4 and over."
    )
    assert "All at their defaults." in say.menu([], BUTTONS).html
    labels = [each.label for row in say.menu([], BUTTONS).rows for each in row]
    assert labels == [each.capitalize() for each in Group]


def test_the_rules_of_one_client_are_shown_alone() -> None:
    mine = [say.RuleSet(PAIN, ADA, Decimal("0.3"), "you", date(2026, 4, 7))]
    assert say.for_client("Ada & Co", mine).html == (
        "<b>Rules for Ada &amp; Co</b>\npain drop, for Ada &amp; Co: <b>30 %</b>, default 20 %. You, 7 April.\n\n"
        "<code>/rules for Ada &amp; Co: pain drop 30%</code>"
    )
    assert "Nothing of their own: what holds for all." in say.for_client("Bo", []).html


def test_a_group_shows_each_rule_with_its_value_range_and_source() -> None:
    values = [(each, each.default) for each in rules_of(Group.PAIN)]
    shown = say.group(Group.PAIN, values, BUTTONS)
    assert shown.html == (
        "<b>Pain</b>, for all\n<b>pain drop</b>: 20 %\n"
        "   Fall of the next load after pain of 4 to 6 on an exercise. From 10 % to 50 %. Our proposal."
    )
    assert [[each.label for each in row] for row in shown.rows] == [["Pain drop"], ["Back"]]


@pytest.mark.parametrize("which", Group)
def test_a_group_fits_one_message(which: Group) -> None:
    values = [(each, each.default) for each in rules_of(which)]
    assert len(say.group(which, values, BUTTONS).html) < 4096


def test_a_rule_shows_what_a_button_sets_it_to_and_its_history() -> None:
    before = [
        say.RuleSet(PAIN, ADA, Decimal("0.3"), "you", date(2026, 4, 7)),
        say.RuleSet(PAIN, ADA, Decimal("0.25"), "you", date(2026, 4, 1), date(2026, 4, 7)),
    ]
    shown = say.one(PAIN, ADA, Decimal("0.3"), before, BUTTONS, is_set=True)
    assert shown.html == (
        "<b>Pain drop</b>, for Ada &amp; Co\n"
        "Fall of the next load after pain of 4 to 6 on an exercise: <b>30 %</b>\n"
        "Default 20 %, from 10 % to 50 %.\nOur proposal.\n\n"
        "30 % by you, 7 April\n25 % by you, 1 April, until 7 April\n\n"
        "Or type <code>/rules for Ada &amp; Co: pain drop 20%</code>"
    )
    labels = [[each.label for each in row] for row in shown.rows]
    assert labels == [["20 %", "25 %", "35 %"], ["40 %"], ["Back to 20 %"], ["Back"]]


def test_a_change_says_whom_it_touches_before_it_holds() -> None:
    shifts = (say.Shift("Ada", BENCH, dose("60"), dose("57.5")),)
    names = tuple(f"Client {number}" for number in range(8))
    touched = say.Touched(names, ("Bo",), shifts)
    shown = say.preview(PAIN, ALL, Decimal("0.2"), Decimal("0.25"), touched, BUTTONS)
    assert shown.html == (
        "<b>Pain drop</b>, for all\n"
        "Fall of the next load after pain of 4 to 6 on an exercise: <b>25 %</b>, now 20 %.\n\n"
        "Touches Client 0, Client 1, Client 2, Client 3, Client 4, Client 5 and 2 more.\n"
        "Not touched, since a rule of their own stands: Bo.\n"
        "Next loads that change, of the next seven days:\n"
        "Ada, Bench press: 3 × 8 at <b>57.5 kg</b>, now 3 × 8 at <b>60 kg</b>\n\n"
        "Nothing has changed yet. Tap, or type <code>set it</code>."
    )


@pytest.mark.parametrize(
    ("touched", "words"),
    [
        (say.Touched(None), "It is about what you are shown; nobody's training changes."),
        (say.Touched(()), "It touches nobody now."),
        (
            say.Touched(("Ada",), (), ()),
            "Touches Ada.\nIn the next seven days each exercise's next load stays as it is.",
        ),
        (
            say.Touched(("Ada",), (), (say.Shift("Ada", BENCH, dose("60"), dose("50")),) * 7),
            "now 3 × 8 at <b>60 kg</b>\nand 1 more",
        ),
        (
            say.Touched(("Ada",), (), (say.Shift("Ada", BENCH, dose("60"), dose("60", left=3)),)),
            "Bench press: 3 × 8 at <b>60 kg</b>, 3 reps left, now no reps left asked",
        ),
    ],
)
def test_who_is_touched_is_said(touched: say.Touched, words: str) -> None:
    assert words in say.preview(QUIET, ALL, time(21), time(22), touched, BUTTONS).html


def test_what_holds_from_now_on_is_said_with_a_way_back() -> None:
    held = say.done(PAIN, ADA, Decimal("0.3"), BUTTONS)
    assert held.html == (
        "Set. Pain drop, for Ada &amp; Co: <b>30 %</b>. Default: 20 %.\n"
        "A card that is out stays as it is; it holds from the next one."
    )
    assert [each.label for row in held.rows for each in row] == ["Undo"]
    back = say.done(PAIN, ADA, Decimal("0.2"), None, undone=True)
    assert (back.html, back.rows) == ("Taken back. Pain drop, for Ada &amp; Co: <b>20 %</b>.", ())
    assert (
        say.done(QUIET, ALL, time(22), BUTTONS).html
        == "Set. Quiet from, for all: <b>22:00</b>. Default: 21:00."
    )


@pytest.mark.parametrize(
    ("message", "words"),
    [
        (answers.not_now(PAIN, ALL, Decimal("0.2")), "Left as it is: pain drop, for all, 20 %."),
        (answers.out_of_range(PAIN), "Pain drop goes from 10 % to 50 %. Nothing was changed."),
        (
            answers.not_read(PAIN, "a <lot>"),
            "I could not read “a &lt;lot&gt;” for pain drop. It goes from 10 % to 50 %. Nothing was changed.",
        ),
        (
            answers.in_the_way(QUIET, time(19), RULES["late_latest"], time(20), under=False),
            "Quiet from 19:00 must be after late until, which is 20:00. Change that first. Nothing was changed.",
        ),
        (
            answers.in_the_way(RULES["late_latest"], time(21), QUIET, time(21), under=True),
            "Late until 21:00 must be before quiet from, which is 21:00. Change that first. Nothing was changed.",
        ),
        (
            answers.in_the_way(RULES["muscle_sets_most"], 10, RULES["muscle_sets_least"], 12, under=False),
            "Most sets 10 sets must be over fewest sets, which is 12 sets. Change that first. Nothing was changed.",
        ),
        (
            answers.nobody("Zoe", ("Bench press",)),
            "I do not know “Zoe” as one client or one exercise. Did you mean Bench press? Nothing was changed.",
        ),
        (answers.never(), f"{say.FLOORS} Nothing was changed."),
        (answers.closed(), "These rules are from before. /rules shows them as they are now."),
        (answers.nothing_to_undo(), "There is no change of a rule to take back."),
    ],
)
def test_what_cannot_be_is_said(message: say.Message, words: str) -> None:
    assert message.html == words


def test_what_may_be_meant_is_asked_with_a_button_each() -> None:
    asked = say.which("raise by", [RULES["cap_upper"], RULES["cap_lower"]], BUTTONS)
    assert asked.html == "Which one is “raise by”?"
    assert [each.label for row in asked.rows for each in row] == ["Raise cap upper", "Raise cap lower"]


@each_row("field", RULES)
def test_no_label_of_a_button_is_cut(field: str) -> None:
    rule = RULES[field]
    labels = [rule.name, *(value_words(rule, each) for each in steps_from(rule, rule.default))]
    assert max(len(each) for each in labels) <= 32
