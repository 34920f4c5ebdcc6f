"""A client's progress in words and numbers: facts alone, no praise and no score."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from html import escape

from bot.messages import Action, Message, Rows
from bot.render.dates import MONTHS
from bot.render.setting_up import Buttons
from core.loads.trend import Direction, NoTrend, Trend
from core.oversight.kept_share import kept_share
from core.oversight.misses import Tally
from core.oversight.progress import LiftSeen, Progress, SiteFelt
from core.policy import Policy
from core.programme.exercises import Exercise
from core.units import Mass, plain

__all__ = ["Buttons"]

MOST_LIFTS, MOST_SITES, MOST_BUTTONS = 8, 6, 8
"""Lines of lifts and of sites, and lifts with a button."""

BRACKETS = "In brackets: where the trend may lie, in 95 of 100 cases."
CAPTIONS = {
    "lifts": "Main lifts, estimated for one rep from sets of at most 12 reps with those left.",
    "kept": "Sessions kept of due, by week.",
    "body": "Pain as it was said, by place.",
}


def progress_text(name: str | None, seen: Progress, buttons: Buttons) -> Message:
    """Say how a client has come along: sessions kept, main lifts, body reports.

    Args:
        name: Whose, for a coach; None for the client herself.
        seen: What there is to say.
        buttons: Makes the buttons of lifts.
    """
    whose = f"Progress, {escape(name)}" if name is not None else "Your progress"
    lines = [f"<b>{whose}</b>", "", f"Since {long_date(seen.first)}: {kept_words(seen.kept, seen.policy)}"]
    if seen.lifts:
        lines += ["", "<b>Main lifts</b>, estimated for one rep"]
        for lift in seen.lifts[:MOST_LIFTS]:
            lines.append(f"{escape(lift.exercise.name)}: {stands_words(lift)}; {trend_words(lift)}")
        if any(isinstance(lift.trend, Trend) for lift in seen.lifts[:MOST_LIFTS]):
            lines.append(BRACKETS)
    else:
        lines += ["", "No main lift has an estimate yet: it takes a set of at most 12 reps with those left."]
    if seen.sites:
        lines += ["", "<b>Body</b>", *(_site(each) for each in seen.sites[:MOST_SITES])]
    rows = _lift_rows(seen.lifts, buttons)
    if rows:
        lines += [
            "",
            "Tap a lift, or type it: <code>/progress bench</code>" if name is None else "Tap a lift.",
        ]
    return Message("\n".join(lines), rows=rows, silent=True)


def _lift_rows(lifts: Sequence[LiftSeen], buttons: Buttons) -> Rows:
    made = [
        buttons.one(each.exercise.name, Action.CHART, number)
        for number, each in enumerate(lifts[:MOST_BUTTONS])
    ]
    return tuple(tuple(made[at : at + 2]) for at in range(0, len(made), 2))


def lift_text(name: str | None, lift: LiftSeen) -> Message:
    """Say how one lift has come along."""
    whose = f"{escape(name)}, " if name is not None else ""
    title = f"<b>{whose}{escape(lift.exercise.name)}</b>"
    if not lift.points:
        return Message(
            f"{title}\nNo estimate can be made: that takes a load, and at most 12 reps with those left. "
            "/records shows the best sets.",
            silent=True,
        )
    said = f"A{stands_words(lift)[1:]}; {trend_words(lift)}"
    brackets = f"\n{BRACKETS}" if isinstance(lift.trend, Trend) else ""
    return Message(f"{title}, estimated for one rep\n{said}{brackets}", silent=True)


def which_lift(asked: str, lifts: Sequence[Exercise]) -> Message:
    """Say that a lift is not known, with those that are."""
    names = ", ".join(escape(each.name) for each in lifts[:MOST_LIFTS])
    there = f" There are: {names}." if names else ""
    return Message(f"“{escape(asked[:40])}” is none of the lifts that are logged here.{there}", silent=True)


def trend_words(lift: LiftSeen) -> str:
    """Say where a lift is going, as far as that may be said."""
    match lift.trend:
        case Trend():
            return _going(lift.trend)
        case NoTrend.FEW:
            return f"too few for a trend: {_sessions(sum(each.usual for each in lift.points))}"
        case _:
            return "too short a time for a trend"


def stands_words(lift: LiftSeen) -> str:
    """Say where a lift stands."""
    newest = lift.points[-1]
    return f"about {newest.mass.rounded()} on {short_date(newest.on)}"


def _going(found: Trend) -> str:
    low, middle, high = (_tenth(each) for each in (found.low, found.slope, found.high))
    match found.direction:
        case Direction.RISING:
            return f"up {plain(middle)} {found.unit} a week (from {plain(low)} to {plain(high)})"
        case Direction.FALLING:
            return f"down {plain(-middle)} {found.unit} a week (from {plain(-high)} to {plain(-low)})"
        case _:
            return f"no clear trend (from {_signed(low)} to {_signed(high)} {found.unit} a week)"


def _tenth(number: float) -> Decimal:
    return Mass.of(f"{number:.6f}").rounded().value


def _signed(number: Decimal) -> str:
    return f"{'−' if number < 0 else '+' if number > 0 else ''}{plain(abs(number))}"


def _sessions(count: int) -> str:
    return f"{count} session{'s' * (count != 1)}"


def kept_words(counted: Tally, policy: Policy) -> str:
    """Say sessions kept of due; a percentage only where there were enough."""
    if not counted.due:
        return "no session was due."
    share = kept_share(counted, policy)
    percent = "" if share.percent is None else f" ({share.percent} %)"
    return f"{counted.kept} of {counted.due} sessions kept{percent}."


def _site(site: SiteFelt) -> str:
    on, score = site.felt[-1]
    number = "no number given" if score is None else f"{score} of 10"
    times = "once" if len(site.felt) == 1 else f"{len(site.felt)} times"
    return f"{escape(site.place.capitalize())}: {times}, last {number} on {long_date(on)}"


def short_date(on: date) -> str:
    """Write a date short: `3 Mar`."""
    return f"{on.day} {MONTHS[on.month - 1][:3]}"


def long_date(on: date) -> str:
    """Write a date: `3 March`."""
    return f"{on.day} {MONTHS[on.month - 1]}"
