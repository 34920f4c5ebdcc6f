"""The tables of a report and of a training log: sheets with headings and plain cells."""

from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from html import unescape

from bot.render.client_log import STATES, DoneSession, SaidOfBody, report_line
from bot.render.loads import load_words
from bot.render.pain import place_words
from bot.render.progress import trend_words
from bot.render.report import DECIDES, head_lines, seen, set_words, target_words, title
from bot.render.report_options import OPTION_WORDS, against_words, for_words
from core.checkin.training_log import LoggedSet
from core.loads.trend import Trend
from core.oversight.report_parts import Report
from core.programme.exercises import Exercise
from core.programme.plan_cells import target_text

Cells = Sequence[str | int | Decimal | date | None]
Sheet = tuple[str, tuple[str, ...], list[Cells]]
"""Name, headings, rows."""

TENTH = Decimal("0.1")


def report_tables(found: Report) -> list[Sheet]:
    """Return the tables of a report."""
    return [_summary(found), _weeks(found), _lifts(found), _estimates(found), _muscles(found), _pain(found)]


def _summary(found: Report) -> Sheet:
    rows: list[Cells] = [("Report", title(found)), *(("", each) for each in head_lines(found))]
    rows += [
        ("End target", target_text(each.target, each.exercise), target_words(each)) for each in found.targets
    ]
    rows += [("Said at the end", question, answer) for question, answer in found.answers]
    rows.append(("What next", DECIDES))
    for number, option in enumerate(found.options, 1):
        said, source = OPTION_WORDS[option.kind]
        rows.append((f"Option {number}", said, source))
        rows += [("for", each) for each in for_words(option)]
        rows += [("against", each) for each in against_words(option)]
    return "Summary", ("What", "Says", "More"), rows


def _weeks(found: Report) -> Sheet:
    rows: list[Cells] = [
        (
            each.week,
            "lighter" if each.lighter else "",
            each.sessions,
            each.counted.due,
            each.counted.kept,
            each.sets,
            each.done,
        )
        for each in found.by_week
    ]
    heads = ("Week", "Kind", "Sessions written", "Sessions due", "Sessions kept", "Sets written", "Sets done")
    return "Weeks", heads, rows


def _lifts(found: Report) -> Sheet:
    rows: list[Cells] = []
    for each in found.lifts:
        known = each.trend if isinstance(each.trend, Trend) else None
        numbers = (known.slope, known.low, known.high) if known is not None else ()
        rows.append(
            (
                each.exercise.name,
                each.sessions,
                each.first.on,
                set_words(each.first, each),
                each.last.on,
                set_words(each.last, each),
                trend_words(seen(each)),
                *(Decimal(f"{number:.2f}") for number in numbers),
            )
        )
    heads = ("Lift", "Sessions", "First on", "First", "Last on", "Last", "Trend of estimates")
    return "Main lifts", (*heads, "A week", "From", "To (95 %)"), rows


def _estimates(found: Report) -> Sheet:
    rows: list[Cells] = [
        (
            each.exercise.name,
            point.on,
            point.mass.value.quantize(TENTH),
            str(point.mass.unit),
            "" if point.usual else "left out of the trend",
        )
        for each in found.lifts
        for point in each.points
    ]
    return "Estimates", ("Lift", "On", "For one rep", "Unit", "Note"), rows


def _muscles(found: Report) -> Sheet:
    rows: list[Cells] = [
        (each.muscle.value, each.planned.quantize(TENTH), each.done.quantize(TENTH)) for each in found.muscles
    ]
    return "Muscles", ("Muscle", "Hard sets a week, written", "Hard sets a week, done"), rows


def _pain(found: Report) -> Sheet:
    rows: list[Cells] = [
        (place_words(each.site, each.side), on, score if score is not None else "no number given")
        for each in found.pain
        for on, score in each.felt
    ]
    return "Pain", ("Place", "On", "0 to 10"), rows


def log_tables(
    sessions: Sequence[DoneSession], reports: Sequence[SaidOfBody], catalogue: Mapping[str, Exercise]
) -> list[Sheet]:
    """Return a training log: every set of every session, and what was said of the body, oldest first."""
    sets: list[Cells] = []
    for session in sessions:
        about = (session.on, session.week_no, session.name, STATES[session.state])
        logged = [(item, one) for item, done in session.items for one in done]
        sets += [
            (*about, catalogue[item.exercise].name, *_set(one, catalogue[item.exercise]))
            for item, one in logged
        ]
        if not logged:
            sets.append(about)
    body: list[Cells] = [(each.local_on, _said(each, catalogue)) for each in reports]
    heads = ("On", "Week", "Day", "State", "Exercise", "Set", "Side", "Load", "Reps", "Seconds", "Metres")
    return [
        ("Sets", (*heads, "Reps left", "RPE", "By a tap"), sets),
        ("Body", ("On", "Said"), body),
    ]


def _set(one: LoggedSet, exercise: Exercise) -> Cells:
    return (
        one.set_no,
        {"L": "left", "R": "right"}.get(one.side, ""),
        load_words(one.load, exercise.basis),
        one.reps,
        one.seconds,
        one.metres,
        one.rir,
        one.rpe,
        "yes" if one.by_tap else "",
    )


def _said(each: SaidOfBody, catalogue: Mapping[str, Exercise]) -> str:
    return unescape(report_line(each, catalogue))
