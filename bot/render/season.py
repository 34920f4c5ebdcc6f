"""A season in words: blocks in time, what falls into them, how long it is to an event."""

from collections.abc import Sequence
from datetime import date
from html import escape

from bot.messages import Action, Message
from bot.render.blocks_running import cut
from bot.render.counts import counted
from bot.render.dates import MONTHS, day_words
from bot.render.setting_up import Buttons
from core.oversight.season import (
    Clash,
    Gap,
    Season,
    SeasonRow,
    Span,
    SpanKind,
    clashes,
    countdown,
    gaps,
    mondays,
)
from core.programme.block import weeks_text

__all__ = ["Buttons"]

CAPTION = "The season in weeks. Numbers are those of the list."
HOW = (
    "<code>/holiday 20-31 July</code> for all, <code>/holiday Ada 3-10 May</code> for one.\n"
    "<code>/event Ada: 10k row 14 June</code>"
)
OLD = "This is how it stands."
KINDS = {SpanKind.HOLIDAY: "Holiday", SpanKind.EVENT: "Event", SpanKind.AWAY: "Away"}


def span_words(first: date, last: date, today: date) -> str:
    """Write days: `Sun 14 June`, `3 to 10 May`, `28 April to 3 May`; with the year where it is another."""
    year = f" {last.year}" if last.year != today.year else ""
    if first == last:
        return f"{day_words(first)}{year}"
    month = MONTHS[last.month - 1]
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day} to {last.day} {month}{year}"
    begin = f"{first.day} {MONTHS[first.month - 1]}" + (f" {first.year}" if first.year != last.year else "")
    return f"{begin} to {last.day} {month}{year}"


def countdown_words(event: Span, today: date) -> str:
    """Say how long it is to an event: `in 8 weeks and 6 days`."""
    weeks, days = countdown(event, today)
    if days < 0:
        return "over"
    if not weeks and days < 2:
        return ("today", "tomorrow")[days]
    parts = [counted(weeks, "week")] * bool(weeks) + [counted(days, "day")] * bool(days)
    return f"in {' and '.join(parts)}"


def season_of_one(seen: Season) -> list[Message]:
    """Show one client's season: what there is, what to look at, and week by week."""
    row, today = seen.rows[0], seen.today
    both = SeasonRow(name=row.name, spans=_in_order((*row.spans, *seen.everybody.spans)))
    parts = [f"<b>Season, {escape(row.name or '')}</b>, {day_words(today)}"]
    lines = [_span(each, today) for each in both.spans]
    parts.append("\n".join(lines) if lines else "Nothing is planned yet.")
    looks = [_clash(each, today) for each in clashes(row, seen.everybody)]
    looks += [_gap(each, today) for each in gaps(row, seen.everybody, today)]
    if looks:
        parts.append("\n".join(["<b>To look at</b>", *looks]))
    if lines:
        parts.append("\n".join(["<b>By week</b>, from Monday", *_weeks(both, seen)]))
    return [Message(text, silent=True) for text in cut([*parts, HOW])]


def season_of_all(seen: Season) -> list[Message]:
    """Show everybody's season, a few lines a client."""
    today = seen.today
    parts = [f"<b>Season</b>, {day_words(today)}"]
    if seen.everybody.spans:
        lines = [_span(each, today) for each in seen.everybody.spans]
        parts.append("\n".join(["<b>Everybody</b>", *lines]))
    for row in seen.rows:
        spans = [each for each in row.spans if each.last >= today]
        lines = [_span(each, today) for each in spans]
        if not any(each.kind is SpanKind.BLOCK for each in spans):
            lines.insert(0, "no block")
        lines += [_gap(each, today) for each in gaps(row, SeasonRow(name=None, spans=()), today)]
        parts.append("\n".join([f"<b>{escape(row.name or '')}</b>", *lines]))
    if not seen.rows:
        parts.append("You have no clients yet. <code>/invite Ada</code> makes a link.")
    return [
        Message(text, silent=True)
        for text in cut([*parts, f"{HOW}\n<code>/season Ada</code> shows one client week by week."])
    ]


def _in_order(spans: Sequence[Span]) -> tuple[Span, ...]:
    return tuple(sorted(spans, key=lambda each: (each.first, each.last, each.name)))


def _span(each: Span, today: date) -> str:
    days = span_words(each.first, each.last, today)
    if each.kind is SpanKind.BLOCK:
        going = f", now week {each.week_on(today)}" if each.touches(today, today) else ""
        return f"{escape(each.name)}: {days}{going}"
    number = f"{each.number}. " if each.number is not None else ""
    until = f", {countdown_words(each, today)}" if each.kind is SpanKind.EVENT else ""
    return f"{number}{entry_words(each)}: {days}{until}"


def entry_words(each: Span) -> str:
    """Say what a holiday, an event or an absence is: `Holiday Crete`, `Event 10k row`."""
    return f"{KINDS[each.kind]} {escape(each.name)}".rstrip()


def _clash(each: Clash, today: date) -> str:
    weeks = f"week{'s' * (len(each.weeks) > 1)} {weeks_text(each.weeks)}"
    days = span_words(each.off.first, each.off.last, today)
    return f"{entry_words(each.off)}, {days}, falls in {weeks} of {escape(each.block.name)}."


def _gap(each: Gap, today: date) -> str:
    weeks, days = divmod(each.days, 7)
    parts = [counted(weeks, "week")] * bool(weeks) + [counted(days, "day")] * bool(days)
    return (
        f"No block {span_words(each.first, each.last, today)}: "
        f"{' and '.join(parts)} before {escape(each.event.name) or 'the event'}."
    )


def _weeks(row: SeasonRow, seen: Season) -> list[str]:
    """Write a line a week, up to the last that has anything; weeks alike without a block stand together."""
    ends = max(each.last for each in row.spans)
    lines: list[tuple[date, date, str]] = []
    for monday in mondays(seen):
        if monday > ends:
            break
        sunday = date.fromordinal(monday.toordinal() + 6)
        said = _in_week(row, monday, sunday)
        if lines and said == lines[-1][2] == "no block":
            lines[-1] = (lines[-1][0], sunday, said)
        else:
            lines.append((monday, sunday, said))
    return [f"{_from(first, last)} · {said}" for first, last, said in lines]


def _from(first: date, last: date) -> str:
    begin = f"{first.day} {MONTHS[first.month - 1][:3]}"
    return begin if (last - first).days < 7 else f"{begin} to {last.day} {MONTHS[last.month - 1][:3]}"


def _in_week(row: SeasonRow, monday: date, sunday: date) -> str:
    parts = []
    for each in row.spans:
        if not each.touches(monday, sunday):
            continue
        if each.kind is SpanKind.BLOCK:
            parts.append(f"{escape(each.name)}, week {each.week_on(min(sunday, each.last))}")
        elif each.kind is SpanKind.EVENT:
            parts.append(f"<b>{escape(each.name) or 'event'}</b> {day_words(each.first)[:3]}")
        else:
            parts.append(f"{KINDS[each.kind].lower()} {escape(each.name)}".rstrip())
    if not any(each.kind is SpanKind.BLOCK and each.touches(monday, sunday) for each in row.spans):
        parts.insert(0, "no block")
    return "; ".join(parts)


def put(
    name: str | None,
    entry: Span,
    today: date,
    buttons: Buttons,
    weeks: Sequence[Clash] = (),
    comes_to: str = "",
) -> Message:
    """Read back what was put into the season; `comes_to` is what it comes to, as HTML."""
    until = f", {countdown_words(entry, today)}" if entry.kind is SpanKind.EVENT else ""
    days = span_words(entry.first, entry.last, today)
    lines = [f"In the season of {_whose(name)}: {entry_words(entry)}, {days}{until}."]
    lines += [_clash(each, today) for each in weeks]
    if comes_to:
        lines.append(comes_to)
    lines.append(f"To take it out: Undo, or <code>/season remove {entry.number}</code>")
    return Message("\n".join(lines), rows=((buttons.one("Undo", Action.UNDO),),), silent=True)


def taken_out(name: str | None, entry: Span, today: date, buttons: Buttons) -> Message:
    """Say that something was taken out of the season, and that cards come again on days that were a holiday."""
    again = "\nCards come on these days again, as planned."
    text = (
        f"Taken out of the season of {_whose(name)}: {entry_words(entry)}, "
        f"{span_words(entry.first, entry.last, today)}."
    )
    text += again if entry.kind is SpanKind.HOLIDAY and entry.last >= today else ""
    return Message(text, rows=((buttons.one("Put it back", Action.UNDO),),), silent=True)


def _whose(name: str | None) -> str:
    return escape(name) if name is not None else "everybody"


def unread(command: str) -> Message:
    """Say how a holiday or an event is written."""
    example = "Ada 3-10 May" if command == "holiday" else "Ada: 10k row 14 June"
    forall = "20-31 July" if command == "holiday" else "all: club day 14 June"
    return Message(
        f"I need {'the days' if command == 'holiday' else 'a name and a day to come'}. Write it so: "
        f"<code>/{command} {example}</code>, or for everybody <code>/{command} {forall}</code>.",
        silent=True,
    )


def who(command: str, typed: str, names: Sequence[str]) -> Message:
    """Ask whom a holiday or an event is for."""
    known = ", ".join(escape(each) for each in names[:12])
    return Message(
        f"Whom is it for? Nobody of yours is called so. For everybody: "
        f"<code>/{command} all: {escape(typed[:80])}</code>" + (f"\nYour clients: {known}." if known else ""),
        silent=True,
    )


def no_such_number(count: int) -> Message:
    """Say that a number is none of the list."""
    there = f"The numbers are 1 to {count}: /season shows them." if count else "There is nothing to take out."
    return Message(f"Nothing was changed. {there}", silent=True)
