"""The words of the digest: whom to write to first, then the week in short lines, and never a client cut in two."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from html import escape

from bot.render.counts import counted
from bot.render.dates import day_words
from bot.render.digest_waiting import basis_of, from_to, waiting_sections
from bot.render.misses import REASON_WORDS
from bot.render.other_training import kept_of, week_line
from bot.render.pain import place_words
from bot.render.questionnaire import said_line
from core.loads.decision import Kind
from core.oversight.digest import MONTH, Change, Coming, Digest, Ending, Kept, Other, Said, Well, Word
from core.oversight.misses import EXCUSED, Tally
from core.oversight.words import Why, WhyCode
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise

LONGEST = 3500
"""Characters of a message, under the platform's 4096."""

CHANGES_SHOWN = 4
"""Changes named for one client; the rest are counted."""

NAMED = 5
"""Names on the first line."""

NAMED_A_LINE = 20
"""Names on a line that says the same of all of them."""


def digest_texts(value: Digest, catalogue: Mapping[str, Exercise] = CATALOGUE) -> tuple[str, ...]:
    """Write a digest as messages of HTML. A quiet week is three lines.

    Args:
        value: What it says.
        catalogue: Exercises that the coach may name.
    """
    if value.is_quiet:
        return ("\n".join(_quiet(value)),)
    head = f"<b>{_first_line(value)}</b>\n{_week_line(value)}"
    sections: list[tuple[str, Iterable[str]]] = [
        ("Needs a word", [*(_word(each, catalogue) for each in value.words), *_more(value)]),
        *waiting_sections(value, catalogue),
        ("Doing well", (_well(each, catalogue) for each in value.well)),
        ("Sessions kept of due", map(_kept, value.kept)),
        ("Check-ins", _check_ins(value)),
        ("Other training", map(_other, value.other)),
        ("Block runs out", _endings(value.ending, value.last)),
        ("Changes in the next seven days", (_coming(each, catalogue) for each in value.coming)),
    ]
    return _packed(head, sections)


def picture_caption(value: Digest) -> str:
    """Say in words what the picture shows."""
    first = value.last - MONTH
    return f"Sessions kept of due, by client, {day_words(first)} to {day_words(value.last)}."


def _packed(head: str, sections: Iterable[tuple[str, Iterable[str]]]) -> tuple[str, ...]:
    """Return messages that end between two clients. A title is never left alone, and comes again where one goes on."""
    messages = [head]
    for title, entries in sections:
        for place, entry in enumerate(entries):
            added = f"\n{entry}" if place else f"\n\n<b>{title}</b>\n{entry}"
            if len(messages[-1]) + len(added) <= LONGEST:
                messages[-1] += added
            else:
                messages.append(f"<b>{title}</b>{' (continued)' if place else ''}\n{entry}")
    return tuple(messages)


def _quiet(value: Digest) -> list[str]:
    changes = [change for each in value.coming for change in each.changes]
    rose = sum(len(each.rose) for each in value.well)
    week = value.week
    kept = f"kept all {counted(week.due, 'session')} due" if week.due else "no session was due"
    ups = f"; {counted(rose, 'load')} rose" if rose else ""
    return [
        "<b>Nobody needs a word this week.</b>",
        f"{day_words(value.first)} to {day_words(value.last)}: {kept}{ups}.",
        f"Next seven days: {_counted(changes)}.",
    ]


def _counted(changes: Sequence[Change]) -> str:
    said = (
        (Kind.RAISE, "going up"),
        (Kind.LOWER, "going down"),
        (Kind.PAUSE, "on hold"),
        (Kind.SWAP, "swapped"),
    )
    counts = [(sum(change.kind is kind for change in changes), words) for kind, words in said]
    told = [f"{number} {words}" for number, words in counts if number]
    return f"of the loads {', '.join(told)}" if told else "nothing changes"


def _first_line(value: Digest) -> str:
    names = [escape(each.name) for each in value.words]
    if not names:
        return "Nobody needs a word this week."
    shown, rest = names[:NAMED], len(names) - NAMED + value.more
    if rest > 0:
        return f"Write first to {', '.join(shown)} and {rest} more."
    return f"Write first to {_listed(shown)}."


def _lines(said: str, names: Sequence[str]) -> list[str]:
    """Say something of many people: a line for some of them at a time, so that none is too long for a message."""
    return [f"{said}: {_listed(names[at : at + NAMED_A_LINE])}." for at in range(0, len(names), NAMED_A_LINE)]


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _week_line(value: Digest) -> str:
    week = value.week
    kept = f"kept {week.kept} of {counted(week.due, 'session')} due" if week.due else "no session was due"
    return f"{day_words(value.first)} to {day_words(value.last)}: {kept}."


def _of(counted: Tally) -> str:
    return f"{counted.kept} of {counted.due}"


def _more(value: Digest) -> list[str]:
    return [f"And {value.more} more."] if value.more else []


def _word(word: Word, catalogue: Mapping[str, Exercise]) -> str:
    reasons = "; ".join(_why(each, catalogue) for each in word.reasons)
    return f"<b>{escape(word.name)}</b>: {reasons}."


def _since(why: Why) -> str:
    return f" since {day_words(why.on)}" if why.on is not None else ""


def _pain(why: Why) -> str:
    if why.pain is None:
        return ""
    report = why.pain
    score = f"{report.score} of 10" if report.score is not None else "pain without a number"
    marks = [
        words
        for stands, words in (
            (report.sudden, "sudden"),
            (report.spreading, "spreading, numb or tingling"),
            (report.painkiller, "took something for it"),
        )
        if stands
    ]
    later = f", last {why.since} of 10" if why.since is not None else ""
    place = place_words(report.site, report.side.value if report.side else None)
    return f"{place} on {day_words(report.on)}: {', '.join([score, *marks])}{later}"


def _recent(why: Why) -> str:
    return f"kept {_of(why.recent)} in 14 days" if why.recent is not None else ""


WHY: dict[WhyCode, Callable[[Why], str]] = {
    WhyCode.STOP_SIGN: lambda why: f"plan on hold{_since(why)} after a stop sign; only you can release it",
    WhyCode.HEALTH_QUESTION: lambda why: (
        f"on hold{_since(why)} because of a health question; only you can release the first session"
    ),
    WhyCode.LOCKED: lambda why: f"{_pain(why)}; what loads it is locked until you look",
    WhyCode.PAIN: _pain,
    WhyCode.SILENT: lambda why: f"no word{_since(why)}, so no more cards go out",
    WhyCode.UNREACHABLE: lambda _: "has blocked the bot, so nothing reaches them here",
    WhyCode.RUN: lambda why: f"missed {why.misses} sessions in a row, {_recent(why)}",
    WhyCode.HALF: _recent,
    WhyCode.FIRST_WEEKS: lambda why: f"missed the last session, in the first three weeks; {_recent(why)}",
}


def _why(why: Why, catalogue: Mapping[str, Exercise]) -> str:
    if why.code is WhyCode.COACH_DECIDES:
        return f"{_exercise(why.exercise or '', catalogue)} waits for your decision"
    return WHY[why.code](why)


def _exercise(key: str, catalogue: Mapping[str, Exercise]) -> str:
    return escape(catalogue[key].name) if key in catalogue else escape(key)


def _well(well: Well, catalogue: Mapping[str, Exercise]) -> str:
    parts = [_changed(each, catalogue) for each in well.rose]
    if well.week.due and well.week.kept == well.week.due:
        parts.append(f"kept {_of(well.week)}")
    return f"{escape(well.name)}: {_shortly(parts)}."


def _kept(kept: Kept) -> str:
    if kept.on_hold:
        return f"{escape(kept.name)}: plan on hold"
    if kept.paused_until is not None:
        return f"{escape(kept.name)}: paused until {day_words(kept.paused_until)}"
    if not (kept.month.due or kept.month.pending):
        return f"{escape(kept.name)}: nothing due yet"
    said = [each for each in kept.reasons if each in REASON_WORDS]
    excused = ", ".join(REASON_WORDS[each] for each in said if each in EXCUSED)
    counted = _of(kept.week) if kept.week.due else "none due"
    parts = [f"{counted} (excused: {excused})" if excused else counted]
    parts += [REASON_WORDS[each] for each in said if each not in EXCUSED]
    if kept.month.pending:
        parts.append(f"{kept.month.pending} still open")
    if kept.month.due > kept.week.due:
        share = f" ({kept.percent} %)" if kept.percent is not None else ""
        parts.append(f"in four weeks {_of(kept.month)}{share}")
    return f"{escape(kept.name)}: {', '.join(parts)}"


def _check_ins(value: Digest) -> list[str]:
    """Say what was answered, and whose check-in stayed open."""
    lines = [_said(each) for each in value.said]
    return [*lines, *_lines("Not answered", [escape(name) for name in value.unanswered])]


def _said(said: Said) -> str:
    return f"{escape(said.name)}: {said_line(said.said)}."


def _other(other: Other) -> str:
    trained = [kept_of(each.kind, each.on, each.minutes, each.effort) for each in other.trained]
    return f"{escape(other.name)}: {week_line(trained)}."


def _coming(coming: Coming, catalogue: Mapping[str, Exercise]) -> str:
    order = (Kind.PAUSE, Kind.SWAP, Kind.LOWER, Kind.RAISE)
    changes = sorted(coming.changes, key=lambda each: order.index(each.kind))
    return f"{escape(coming.name)}: {_shortly([_changed(each, catalogue) for each in changes])}."


def _shortly(parts: Sequence[str]) -> str:
    rest = len(parts) - CHANGES_SHOWN
    told = [*parts[:CHANGES_SHOWN], *([f"{rest} more"] if rest > 0 else [])]
    return "; ".join(told)


def _changed(change: Change, catalogue: Mapping[str, Exercise]) -> str:
    name = _exercise(change.exercise, catalogue)
    if change.kind is Kind.PAUSE:
        return f"{name} on hold"
    if change.kind is Kind.SWAP or change.now is None or change.before is None:
        return f"{name}: something else"
    basis = basis_of(change.exercise, catalogue)
    return f"{name} {from_to(change.before, change.now, basis)}"


def _endings(endings: Sequence[Ending], today: date) -> list[str]:
    """Say which block ends when and for whom, soonest first; then who has none."""
    by_end: dict[tuple[date, str], list[str]] = {}
    for each in endings:
        if each.block is not None and each.ends is not None:
            by_end.setdefault((each.ends, each.block), []).append(escape(each.name))
    lines = [
        line
        for (ends, block), names in sorted(by_end.items())
        for line in _lines(f"{escape(block)} {'ended' if ends < today else 'ends'} {day_words(ends)}", names)
    ]
    without = [escape(each.name) for each in endings if each.block is None or each.ends is None]
    return [*lines, *_lines("No block", without)]
