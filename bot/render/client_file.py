"""A client's card for her coach."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, time
from html import escape
from itertools import chain

from bot.messages import Action, Button, Message, Rows
from bot.render.beside_block import BesideBlock, beside_lines
from bot.render.client_log import DoneSession, SaidOfBody, report_line, session_lines
from bot.render.dates import day_words
from bot.render.join import KIT_WORDS, day_list
from bot.render.last_loads import date_words, load_and_reps
from bot.render.loads import dose_words, load_words
from bot.render.ordering import order_line, take_up_label
from bot.render.pain import place_words
from bot.render.reasons import why_line
from bot.render.roster import week_words
from bot.render.season import countdown_words, entry_words, span_words
from bot.render.setting_up import Buttons
from bot.render.week_changes import weeks_alone
from core.checkin.zones import city_of
from core.loads.decision import Decision, Kind
from core.loads.order import CoachOrder, OrderKind
from core.oversight.season import Span, SpanKind
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Site
from core.programme.last_loads import LastLoad
from core.programme.prescription import Dose, Load, LoadKind

__all__ = ["Buttons", "ClientView", "Coming", "NextLine", "client_card", "closed"]

OLD = "That button was from before. This is how things stand."
UNDER_WAY = "A session has been begun with it, so it stays."
MOST = 3900
MOST_NOTED = 8
"""Most last loads that the card lists. Our proposal."""


@dataclass(frozen=True, slots=True)
class NextLine:
    """An exercise of the next session as it would be given now."""

    order: str
    exercise: Exercise
    given: Dose
    decision: Decision


@dataclass(frozen=True, slots=True)
class Coming:
    """The next session."""

    day: str
    on: date
    lines: tuple[NextLine, ...]


@dataclass(frozen=True, slots=True)
class ClientView:
    """What a coach reads of a client.

    `ahead` is what comes: days off, an event. `limits` is what is ruled out for her, `said` what is kept of her care
    and what she has said of her health, a line each, as plain text.
    """

    name: str
    block: str | None
    week: int
    weeks: int
    days: tuple[int, ...]
    hour: time | None
    zone: str | None
    on_hold: date | None
    reachable: bool
    state: str
    kit: str | None
    alone: bool
    card_out: DoneSession | None
    sessions: tuple[DoneSession, ...]
    pain: Sequence[SaidOfBody]
    stop_signs: Sequence[SaidOfBody]
    orders: tuple[CoachOrder, ...]
    coming: Coming | None
    can_correct: bool
    release: Rows
    note: str | None
    catalogue: Mapping[str, Exercise] = field(default_factory=lambda: CATALOGUE)
    noted: tuple[LastLoad, ...] = ()
    today: date = date.min
    daily: str | None = None
    own_weeks: tuple[int, ...] = ()
    newer: tuple[int, date] | None = None
    said: tuple[str, ...] = ()
    ahead: tuple[Span, ...] = ()
    limits: tuple[str, ...] = ()
    beside: BesideBlock = field(default_factory=BesideBlock)


def client_card(view: ClientView, buttons: Buttons) -> Message:
    """Show a client's card; where it would be too long the oldest sessions go, and never what is ruled out for her."""
    whole = (_parts(view, sessions) for sessions in range(len(view.sessions), -1, -1))
    tries = chain(whole, [[_head(view), _ruled_out(view)], [_head(view)]])
    texts = ("\n\n".join(part for part in parts if part) for parts in tries)
    text = next(each for each in texts if len(each) <= MOST)
    return Message(text, rows=_rows(view, buttons), silent=True, protect=True)


def _parts(view: ClientView, sessions: int) -> list[str]:
    return [
        view.note or "",
        _head(view),
        _ruled_out(view),
        _card_out(view),
        _next(view),
        _last(view, sessions),
        _noted(view),
        _pain(view),
        beside_lines(view.beside),
        _care(view),
    ]


def _head(view: ClientView) -> str:
    block = f"{escape(view.block)}, {week_words(view.week, view.weeks)}" if view.block else "no block"
    lines = [f"<b>{escape(view.name)}</b> · {block}"]
    if view.days and view.hour and view.zone:
        lines.append(f"{day_list(view.days)} at {view.hour:%H:%M}, clock of {escape(city_of(view.zone))}")
    if view.own_weeks:
        lines.append(weeks_alone(view.name, view.own_weeks))
    if view.newer is not None:
        lines.append(f"Version {view.newer[0]} holds from {day_words(view.newer[1])}.")
    if view.kit is not None:
        lines.append(f"{KIT_WORDS[view.kit].capitalize()}.")
    if view.on_hold is not None:
        lines.append(f"The plan is on hold since {day_words(view.on_hold)}. Only you can release it.")
    if view.state != "active":
        lines.append({"joining": "Still joining.", "paused": "Paused: no cards go out."}.get(view.state, ""))
    lines += [_ahead(each, view.today) for each in view.ahead]
    if not view.reachable:
        lines.append("Has blocked me: nothing arrives there.")
    return "\n".join(line for line in lines if line)


def _card_out(view: ClientView) -> str:
    if view.card_out is None:
        return ""
    return f"<b>{day_words(view.card_out.on)}</b>, {session_lines(view.card_out)[0]}"


def _next(view: ClientView) -> str:
    if view.coming is None:
        return "No session is laid out."
    coming = f"{escape(view.coming.day)}, {day_words(view.coming.on)}"
    if view.on_hold is not None:
        return f"No card goes out while the plan is on hold. The next one laid out is {coming}."
    head = f"<b>Next: {coming}</b>"
    return "\n".join([head, *(_next_line(each) for each in view.coming.lines)])


def _next_line(each: NextLine) -> str:
    name, decision = escape(each.exercise.name), each.decision
    if decision.kind in (Kind.PAUSE, Kind.SWAP):
        return f"{each.order} {name}: left out. {why_line(decision, coach=True)}"
    mass = decision.line.mass
    line = ""
    given = each.given.load
    if mass is not None and given is not None and given.kind is LoadKind.MASS and given.mass != mass:
        line = f" (load line {load_words(Load(LoadKind.MASS, mass), each.exercise.basis)})"
    return (
        f"{each.order} {name} {dose_words(each.given, each.exercise)}{line}. {why_line(decision, coach=True)}"
    )


def _last(view: ClientView, count: int) -> str:
    lines: list[str] = []
    for session in view.sessions[:count]:
        first, *rest = session_lines(session)
        lines += [f"{day_words(session.on)}, {first}", *rest]
    return "\n".join(["<b>Last sessions</b>", *lines]) if lines else ""


def _noted(view: ClientView) -> str:
    """Say what the coach has noted of exercises that were never logged here."""
    lines = [
        f"{escape(exercise.name)} {load_and_reps(each, exercise)} ({date_words(each.on, view.today)})"
        for each in view.noted[:MOST_NOTED]
        for exercise in (view.catalogue[each.exercise],)
    ]
    if len(view.noted) > MOST_NOTED:
        lines.append(f"… and {len(view.noted) - MOST_NOTED} more.")
    return "\n".join(["<b>Last loads from you, not logged here yet</b>", *lines]) if lines else ""


def _pain(view: ClientView) -> str:
    by_place: dict[str, list[str]] = {}
    for report in view.pain:
        place = place_words(Site(report.site or ""), report.side)
        score = "no number" if report.score is None else str(report.score)
        more = " sudden" * report.sudden + " spreading" * report.spreading
        by_place.setdefault(place, []).append(
            f"{score}{more} ({report.local_on.day}/{report.local_on.month})"
        )
    signs = [f"{report_line(each, view.catalogue)} ({day_words(each.local_on)})." for each in view.stop_signs]
    if not by_place:
        return "\n".join([*signs, "No pain reported in 56 days."])
    lines = [f"{place}: {', '.join(said[-6:])}" for place, said in by_place.items()]
    return "\n".join([*signs, "<b>Pain, 0 to 10, last 56 days</b>", *lines])


def _ahead(span: Span, today: date) -> str:
    """Say what comes and how long it is to it: `Event 10k row: Sun 14 June, in 8 weeks and 6 days`."""
    until = "now" if span.first <= today and span.kind is not SpanKind.EVENT else countdown_words(span, today)
    return f"{entry_words(span)}: {span_words(span.first, span.last, today)}, {until}"


def _ruled_out(view: ClientView) -> str:
    return "\n".join(["<b>Ruled out or limited</b>", *map(escape, view.limits)]) if view.limits else ""


def _care(view: ClientView) -> str:
    lines = [*map(escape, view.said), *([view.daily] if view.daily is not None else [])]
    lines += [order_line(each, view.catalogue) for each in view.orders]
    if view.alone:
        lines.append("Trains alone without safety arms: always 2 or more left under a bar.")
    return "\n".join(lines)


def _rows(view: ClientView, buttons: Buttons) -> Rows:
    eased = next((each for each in view.orders if each.kind is OrderKind.EASE), None)
    rows: list[tuple[Button, ...]] = [
        *view.release,
        (buttons.one("Write to them", Action.WRITE), buttons.one("Show the log", Action.LOG)),
    ]
    rows.append((buttons.one("Ask for a video", Action.VIDEO),))
    if view.can_correct:
        rows.append((buttons.one("Correct a set", Action.CORRECT),))
    rows += [
        (buttons.one("Progress", Action.CHART, 0), buttons.one("Report", Action.CHART, 1)),
        (buttons.one("Log as a file", Action.CHART, 2), buttons.one("Why", Action.WHY)),
    ]
    if eased is not None:
        rows.append((buttons.one("Do not ease", Action.CANCEL, eased.row_id),))
    elif view.coming is not None and view.on_hold is None:
        rows.append(
            (
                buttons.one("Ease next −10 %", Action.EASE, 10),
                buttons.one("Ease next −20 %", Action.EASE, 20),
            )
        )
    rows += [
        (buttons.one(take_up_label(each, view.catalogue), Action.TAKE_UP, each.row_id),)
        for each in view.orders
        if each.kind is OrderKind.PAUSE
    ]
    return tuple(rows)


def closed(name: str) -> Message:
    """Say of an older card that there is a newer one."""
    return Message(f"<b>{escape(name)}</b>: there is a newer card. /client shows it.", silent=True)
