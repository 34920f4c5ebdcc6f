"""A coach's roster: one line a client."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Message
from bot.render.client_log import STATES
from bot.render.dates import day_words
from bot.render.setting_up import Buttons

__all__ = ["Buttons", "Row", "Standing", "has_left", "pages", "which"]

PAGE = 3000
PER_PAGE = 24
"""Most clients on a message, each with a button."""


@dataclass(frozen=True, slots=True)
class Standing:
    """What a coach should know first of a client, most urgent first."""

    on_hold: bool
    now: bool
    today: bool
    unreachable: bool
    paused: bool
    paused_until: date | None
    missed: bool
    no_block: bool
    joining: bool

    def words(self) -> list[str]:
        """Say it."""
        until = f" until {day_words(self.paused_until)}" if self.paused_until else ""
        said = (
            (self.on_hold, "plan on hold"),
            (self.now, "alert not seen"),
            (self.today, "alert of today not seen"),
            (self.unreachable, "has blocked me"),
            (self.paused, f"paused{until}"),
            (self.missed, "last session missed"),
            (self.no_block, "no block"),
            (self.joining, "still joining"),
        )
        return [words for stands, words in said if stands]

    @property
    def rank(self) -> int:
        """Rises with how long it can wait."""
        order = (
            self.on_hold or self.now,
            self.today,
            self.unreachable,
            self.paused,
            self.missed,
            self.no_block,
            self.joining,
        )
        return next((place for place, stands in enumerate(order) if stands), len(order))


@dataclass(frozen=True, slots=True)
class Row:
    """One client."""

    id: int
    name: str
    block: str | None
    week: int
    weeks: int
    last: tuple[date, str] | None
    coming: date | None
    standing: Standing

    @property
    def rank(self) -> int:
        """Who needs a look first."""
        return self.standing.rank


def pages(rows: Sequence[Row], buttons: Buttons) -> list[Message]:
    """Show the roster on as many messages as it takes."""
    if not rows:
        return [Message("You have no clients yet. <code>/invite Ada</code> makes a link.", silent=True)]
    groups: list[list[Row]] = [[]]
    for row in rows:
        size = sum(len(_line(each)) for each in groups[-1])
        if len(groups[-1]) == PER_PAGE or size + len(_line(row)) > PAGE:
            groups.append([])
        groups[-1].append(row)
    count = f"<b>{len(rows)} client{'s' * (len(rows) > 1)}</b>, who needs a look first"
    return [
        Message(
            "\n".join([*([count, ""] if number == 0 else []), *(_line(each) for each in group)]),
            rows=buttons.picks([(each.id, each.name) for each in group], 2),
            silent=True,
        )
        for number, group in enumerate(groups)
    ]


def _line(row: Row) -> str:
    parts = [f"<b>{escape(row.name)}</b>", *row.standing.words()]
    if row.block is not None:
        parts.append(f"{escape(row.block)}, {week_words(row.week, row.weeks)}")
    if row.last is not None:
        on, state = row.last
        parts.append(f"last {day_words(on)}, {STATES[state]}")
    if row.coming is not None:
        parts.append(f"next {day_words(row.coming)}")
    return " · ".join(parts)


def week_words(week: int, weeks: int) -> str:
    """Say which week of a block it is."""
    if week < 1:
        return "not begun"
    return f"week {week} of {weeks}" if week <= weeks else "over"


def which(clients: Sequence[tuple[int, str]], unknown: str, buttons: Buttons) -> Message:
    """Ask which client is meant; `unknown` is a name that nobody has."""
    known = f"Nobody of yours is called {escape(unknown[:80])}. " if unknown else ""
    return Message(f"{known}Which client?", rows=buttons.picks(clients, 2), silent=True)


def has_left() -> Message:
    """Say that a client is no longer here."""
    return Message("That client has left.", silent=True)
