"""The report of a block in words: plain lines, for the message and for the pages alike."""

from collections.abc import Sequence
from html import escape

from bot.messages import Message
from bot.render.loads import load_words
from bot.render.pain import place_words
from bot.render.progress import BRACKETS, kept_words, long_date, short_date, trend_words
from bot.render.report_options import OPTION_WORDS, option_lines
from bot.render.roster import week_words
from bot.render.season import span_words
from core.loads.trend import Direction, Trend
from core.oversight.progress import LiftSeen
from core.oversight.report_parts import LiftRun, PainAt, Report, SetSeen, TargetMet
from core.programme.plan_cells import target_text

MOST = 3900
MOST_LIFTS, MOST_PLACES = 8, 6
"""Lifts, and places that hurt. Our proposal: what can be read on a phone."""
LONGEST_ANSWER = 300
FILES = {
    "pdf": "The report as pages, to read and to print.",
    "xlsx": "The same in tables: weeks, lifts, muscles, pain, every set.",
}
NOTHING = "No session of this block is over yet. The report comes with the first one."
DECIDES = "What comes next: three options, with the numbers for and against each. You decide."
NO_RISE = "Whatever you choose, no load rises through pain: the load line holds that."


def report_text(found: Report) -> Message:
    """Tell a report in one message; the options stand last."""
    parts = [
        "\n".join([f"<b>{escape(title(found))}</b>", *map(escape, head_lines(found))]),
        _listed("Main lifts", [*lift_lines(found), *([BRACKETS] if has_trend(found) else [])]),
        _listed("End targets", target_lines(found)),
        _listed("Pain", pain_lines(found)),
        _listed("Said at the end", answer_lines(found)),
        _options(found),
    ]
    text = "\n\n".join(part for part in parts if part)
    if len(text) > MOST:
        text = "\n\n".join(part for part in (parts[0], parts[-1]) if part)
    return Message(text[:MOST], silent=True)


def _listed(head: str, lines: Sequence[str]) -> str:
    return "\n".join([f"<b>{head}</b>", *map(escape, lines)]) if lines else ""


def _options(found: Report) -> str:
    lines = [f"<b>{escape(DECIDES)}</b>"]
    for number, option in enumerate(found.options, 1):
        said, source = OPTION_WORDS[option.kind]
        lines += ["", f"<b>{number}. {escape(said)}</b>. {source}", *map(escape, option_lines(option, found))]
    return "\n".join([*lines, "", NO_RISE])


def title(found: Report) -> str:
    """Name a report: `Report, Ada: Harbour strength`."""
    return f"Report, {found.name}: {found.block}"


def head_lines(found: Report) -> list[str]:
    """Say when, how far, sessions kept, and working sets done of written ones."""
    done, written = found.sets
    days = span_words(found.first, found.last, found.today)
    far = "over" if found.over else f"so far, {week_words(found.week, found.weeks)}"
    lines = [f"{days}, {far}", kept_words(found.kept, found.policy).capitalize()]
    if written:
        lines.append(f"Working sets: {done} done, {written} written for {_weeks(found.weeks_seen)}.")
    return lines


def _weeks(count: int) -> str:
    return f"{count} week{'s' * (count != 1)}"


def has_trend(found: Report) -> bool:
    """Return whether any lift has a trend, so that its brackets must be explained."""
    return any(isinstance(each.trend, Trend) for each in found.lifts[:MOST_LIFTS])


def lift_lines(found: Report) -> list[str]:
    """Say each main lift from first to last, and where it goes as far as that may be said."""
    lines = [
        f"{each.exercise.name}: {_first_to_last(each)}; {trend_words(seen(each))}{_mark(each)}"
        for each in found.lifts[:MOST_LIFTS]
    ]
    if len(found.lifts) > MOST_LIFTS:
        lines.append(f"… and {len(found.lifts) - MOST_LIFTS} more, in the tables.")
    return lines


def seen(lift: LiftRun) -> LiftSeen:
    """Return a lift in the form in which progress tells of it."""
    return LiftSeen(exercise=lift.exercise, points=lift.points, trend=lift.trend)


def _first_to_last(each: LiftRun) -> str:
    if each.sessions == 1:
        return f"{set_words(each.first, each)}, once"
    if each.full is None or each.full == each.last:
        return f"{set_words(each.first, each)} at first, {set_words(each.last, each)} last"
    return f"{set_words(each.first, each)} at first, {set_words(each.full, each)} in the last full week"


def set_words(one: SetSeen, lift: LiftRun | TargetMet) -> str:
    """Write a set: `92.5 kg × 8`."""
    load = load_words(one.load, lift.exercise.basis)
    return f"{load} × {one.reps}" if load else f"{one.reps} reps"


def _mark(each: LiftRun) -> str:
    if each.falling:
        return "; falling in the last three sessions"
    goes = each.trend.direction if isinstance(each.trend, Trend) else Direction.UNSURE
    return "; no gain for long" if each.stalled and goes is Direction.UNSURE else ""


def target_lines(found: Report) -> list[str]:
    """Say of each end target whether it was reached."""
    return [f"{target_text(each.target, each.exercise)}: {target_words(each)}" for each in found.targets]


def target_words(each: TargetMet) -> str:
    """Say whether a target was reached, and with what."""
    if each.met is not None:
        return f"reached on {long_date(each.met.on)} with {set_words(each.met, each)}"
    nearest = f"; nearest {set_words(each.best, each)} on {long_date(each.best.on)}" if each.best else ""
    return f"{'not reached' if each.over else 'open'}{nearest}"


def pain_lines(found: Report) -> list[str]:
    """Say where it hurt, how often and how much at most."""
    lines = [pain_words(each) for each in found.pain[:MOST_PLACES]]
    if len(found.pain) > MOST_PLACES:
        lines.append(f"… and {len(found.pain) - MOST_PLACES} places more, in the tables.")
    return lines or ["No pain was told in this time."]


def pain_words(each: PainAt) -> str:
    """Say how often a place hurt, how much at most, and what was said last."""
    place = place_words(each.site, each.side)
    on, score = each.felt[-1]
    last = f"last {_number(score)} on {short_date(on)}"
    if len(each.felt) == 1:
        return f"{place.capitalize()}: once, {_number(score)} on {short_date(on)}"
    return f"{place.capitalize()}: {len(each.felt)} times, {_number(each.worst)} at most, {last}"


def _number(score: int | None) -> str:
    return "no number given" if score is None else f"{score} of 10"


def answer_lines(found: Report) -> list[str]:
    """Return the client's own words at the end of the block."""
    return [f"{question} {answer[:LONGEST_ANSWER]}" for question, answer in found.answers]


def no_block(name: str) -> Message:
    """Say that there is nothing to report."""
    return Message(f"{escape(name)} has had no block yet. /assign puts a client on one.", silent=True)
