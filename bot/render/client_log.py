"""A client's log as text, for her coach."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from html import escape
from typing import Protocol

from bot.messages import Message
from bot.render.dates import day_words
from bot.render.exercise_names import in_sentence
from bot.render.loads import sets_words
from bot.render.moving import MovedTo, TakenIn, moved_words, taken_in_line
from bot.render.pain import place_words
from core.checkin.training_log import Item, LoggedSet
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Site

PAGE = 3500
STATES = {
    "sent": "card out, not begun",
    "started": "under way",
    "asking": "under way",
    "done": "done",
    "partial": "done in part",
    "left_out": "left out",
    "missed": "missed",
    "unsent": "no card went out",
    "held": "on hold",
    "moved": "moved to another day",
    "planned": "to come",
}


@dataclass(frozen=True, slots=True)
class DoneSession:
    """A session with what was done in it."""

    name: str
    week_no: int
    on: date
    state: str
    items: tuple[tuple[Item, tuple[LoggedSet, ...]], ...]
    to: MovedTo | None = None
    with_lift: TakenIn | None = None
    catalogue: Mapping[str, Exercise] = field(default_factory=lambda: CATALOGUE)


def session_lines(session: DoneSession) -> list[str]:
    """Say what was done in a session: a line for it, and one for each exercise."""
    state = moved_words(session.to) if session.state == "moved" else STATES[session.state]
    if session.state == "held" and any(sets for _, sets in session.items):
        state = "stopped"
    lines = [f"{escape(session.name)}, week {session.week_no}: {state}"]
    if session.with_lift is not None:
        lines.append(f"   {taken_in_line(session.with_lift)}")
    if session.state in ("left_out", "missed", "unsent", "sent", "moved"):
        return lines
    if session.state == "held":
        return lines + [
            _item_line(session.catalogue[item.exercise], item, sets) for item, sets in session.items if sets
        ]
    return lines + [_item_line(session.catalogue[item.exercise], item, sets) for item, sets in session.items]


def _item_line(exercise: Exercise, item: Item, sets: Sequence[LoggedSet]) -> str:
    name = escape(exercise.name)
    if not sets:
        why = " for pain" if item.cause == "pain" else ""
        return f"   {name}: {'open' if item.state == 'open' else f'left out{why}'}"
    said = [each.rir for each in sets if each.rir is not None]
    left = item.left_last if item.left_last is not None else (said[-1] if said else None)
    tail = "" if left is None else f", {'4 or more' if left >= 4 else left} left"
    return f"   {name}: {sets_words(sets)}{tail}"


class SaidOfBody(Protocol):
    """What a client said of her body, as kept."""

    @property
    def kind(self) -> str:
        """`pain`, `soreness` or `stop_sign`."""
        ...

    @property
    def local_on(self) -> date:
        """The client's date."""
        ...

    @property
    def site(self) -> str | None:
        """Where."""
        ...

    @property
    def side(self) -> str | None:
        """`L` or `R`, where it was said."""
        ...

    @property
    def score(self) -> int | None:
        """0-10, where it was given."""
        ...

    @property
    def exercise(self) -> str | None:
        """Key of the exercise it came with."""
        ...

    @property
    def sudden(self) -> bool:
        """Whether it came suddenly or with a pop."""
        ...

    @property
    def spreading(self) -> bool:
        """Whether it goes down a leg or arm."""
        ...

    @property
    def released_at(self) -> datetime | None:
        """When the coach released what it held."""
        ...


def report_line(report: SaidOfBody, catalogue: Mapping[str, Exercise] = CATALOGUE) -> str:
    """Say what a client said of her body."""
    if report.kind == "stop_sign":
        return "Stop sign" + (", released" if report.released_at else ", not released")
    if report.kind == "soreness":
        score = "" if report.score is None else f" {report.score}"
        return f"Sore: {escape(report.site or 'muscles')}{score}"
    place = place_words(Site(report.site or ""), report.side)
    score = "no number" if report.score is None else f"{report.score} of 10"
    more = ", sudden" * report.sudden + ", spreading" * report.spreading
    during = f", {in_sentence(catalogue[report.exercise].name)}" if report.exercise else ""
    return f"Pain: {place} {score}{more}{escape(during)}"


def log(name: str, days: int, found: Sequence[tuple[date, list[str]]]) -> list[Message]:
    """Show the log, newest day last, on as many messages as it takes."""
    pages = [f"<b>{escape(name)}</b>, the last {days} days"]
    if not found:
        pages[0] += "\n\nNothing yet."
    for on, lines in found:
        text = "\n".join([f"<b>{day_words(on)}</b>", *lines])
        if len(pages[-1]) + len(text) > PAGE:
            pages.append(text)
        else:
            pages[-1] += f"\n\n{text}"
    return [Message(page, silent=True, protect=True) for page in pages]
