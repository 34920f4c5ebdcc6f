"""What may come after a block, in words: each option with the numbers for and against it, and why they speak so."""

from collections.abc import Iterator
from decimal import Decimal

from bot.render.loads import load_words
from core.oversight.options import Code, Evidence, Option, OptionKind
from core.oversight.report_parts import Report
from core.units import plain

TENTH = Decimal("0.1")
MOST_NAMES = 4
"""Names in one piece of evidence. Our proposal: what can be read on a phone."""
OPTION_WORDS = {
    OptionKind.SAME: ("The same block again, loads from its last full week", "Common practice, no source."),
    OptionKind.FEWER_REPS: ("Fewer reps with more load", "Common practice, no source."),
    OptionKind.LIGHTER: ("A lighter block", "Our proposal."),
}
FOR: dict[OptionKind, dict[Code, str]] = {
    OptionKind.SAME: {
        Code.RISING: "so it still works",
        Code.TARGETS: "so it does what you want",
        Code.KEPT: "so it fits the week",
    },
    OptionKind.FEWER_REPS: {
        Code.RISING: "so more load may go",
        Code.STALLED: "so something new may help",
        Code.REPS: "so there is room for fewer",
    },
    OptionKind.LIGHTER: {
        Code.HELD: "so less is the careful way",
        Code.PAIN: "so less is the careful way",
        Code.FALLING: "so an easier time may help",
        Code.STALLED: "so an easier time may help",
        Code.KEPT: "so less may fit the week better",
        Code.LIGHTER_SINCE: "so one is due",
    },
}
"""Why a number speaks for an option. Our proposal."""
AGAINST: dict[OptionKind, dict[Code, str]] = {
    OptionKind.SAME: {
        Code.HELD: "so nothing goes on as it was yet",
        Code.FALLING: "so the same does not work there",
        Code.STALLED: "so the same does not work there",
        Code.PAIN: "so the same may be too much",
        Code.TARGETS: "so it does less than you want",
        Code.KEPT: "so it may be too much for the week",
    },
    OptionKind.FEWER_REPS: {
        Code.HELD: "so no more load yet",
        Code.PAIN: "so no more load yet",
        Code.FALLING: "so more load is too soon",
        Code.REPS: "so there is little room for fewer",
        Code.NO_TREND: "so more load is a guess",
        Code.KEPT: "so more load is too soon",
    },
    OptionKind.LIGHTER: {
        Code.RISING: "so there is no need yet",
        Code.NO_PAIN: "so there is no need for it",
        Code.KEPT: "so it was not too much",
        Code.LIGHTER_SINCE: "so none is due yet",
    },
}
"""Why a number speaks against an option. Our proposal."""


def option_lines(option: Option, found: Report) -> list[str]:
    """Say what an option would be, and which numbers speak for and against it."""
    lines = list(_begins(found)) if option.kind is OptionKind.SAME else []
    for head, said in (("For", for_words(option)), ("Against", against_words(option))):
        lines += [f"{head}: {each}" for each in said] or [f"{head}: nothing in the numbers"]
    return lines


def for_words(option: Option) -> list[str]:
    """Say each number that speaks for an option, and why it does."""
    return [f"{evidence_words(each)}, {FOR[option.kind][each.code]}" for each in option.speaks_for]


def against_words(option: Option) -> list[str]:
    """Say each number that speaks against an option, and why it does."""
    return [f"{evidence_words(each)}, {AGAINST[option.kind][each.code]}" for each in option.speaks_against]


def _begins(found: Report) -> Iterator[str]:
    """Say from which loads the block would begin: those before a lighter week, where one came last."""
    loads = [(each, (each.full or each.last).load) for each in found.lifts]
    moved = [(each, load) for each, load in loads if load is not None and load != each.first.load]
    if moved:
        said = [
            f"{each.exercise.name} {load_words(load, each.exercise.basis)}"
            for each, load in moved[:MOST_NAMES]
        ]
        yield f"It would begin with {', '.join(said)}{_more(len(moved) - MOST_NAMES)}."


def evidence_words(each: Evidence) -> str:
    """Say one number, whatever it speaks for."""
    names = f"{', '.join(each.names[:MOST_NAMES])}{_more(len(each.names) - MOST_NAMES)}"
    count = plain(each.count.quantize(TENTH))
    worst = f", {each.worst} of 10 at most" if each.worst is not None else ""
    said = {
        Code.HELD: "the plan is on hold",
        Code.RISING: f"{names} went up",
        Code.FALLING: f"{names} went down",
        Code.STALLED: f"{names}: no gain for long",
        Code.NO_TREND: f"{names}: too little known for a trend",
        Code.KEPT: f"{count} of {each.of} sessions kept",
        Code.PAIN: f"pain told {_times(count)}{worst}, {each.late} in the last 14 days",
        Code.NO_PAIN: "no pain was told",
        Code.TARGETS: f"{count} of {each.of} end targets reached",
        Code.REPS: f"main lifts ask for {count} reps on average",
        Code.LIGHTER_SINCE: (
            f"{count} week{'s' * (count != '1')} without a lighter one (your rules: {each.of} at most)"
            if each.count
            else "the last week was a lighter one"
        ),
    }
    return said[each.code]


def _times(count: str) -> str:
    return "once" if count == "1" else f"{count} times"


def _more(count: int) -> str:
    return f" and {count} more" if count > 0 else ""
