"""A coach's setting up, in words."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from html import escape

from bot.messages import Action, Button, Message, Rows, Tap, encode
from bot.render.dates import DAYS, day_words
from bot.render.join import LABELS, day_list, known_words
from bot.render.personalise import LEAVE_OUT
from bot.render.problems import problem_line
from core.checkin.zones import city_of
from core.programme.block import weeks_text
from core.programme.day_length import DayLength
from core.programme.problems import Problem, Severity
from core.programme.spacing_checks import ClosePair

PAGE = 3500
"""Most characters on a page of problems; the platform takes 4096."""
MOST_PAGES = 8
MOST_BUTTONS = 40
MOST_CLOSE = 4
"""Most pairs of sessions that are told to be close. Our proposal."""
STALE = "That button was from an earlier question. Here is where we are."


@dataclass(frozen=True, slots=True)
class Buttons:
    """Makes the buttons of one prompt at its revision."""

    prompt_id: int
    revision: int

    def one(self, label: str, action: Action, argument: int = 0) -> Button:
        """A button."""
        short = label if len(label) <= 40 else f"{label[:39]}…"
        return Button(short, encode(Tap(self.prompt_id, self.revision, action, argument)))

    def picks(self, options: Sequence[tuple[int, str]], width: int) -> Rows:
        """One choice a button, `width` in a row."""
        made = [self.one(label, Action.PICK, argument) for argument, label in options[:MOST_BUTTONS]]
        return tuple(tuple(made[at : at + width]) for at in range(0, len(made), width))

    @property
    def back(self) -> tuple[Button, ...]:
        """The row with the way back."""
        return (self.one("Back", Action.BACK),)


def only_for_coaches() -> Message:
    """Answer a client or a stranger who sends what only a coach may."""
    return Message("Only a coach can do that here. Nothing was changed.", silent=True)


def how_to_invite() -> Message:
    """Say how to invite."""
    return Message(
        "Whom do you invite? Write the name with it: <code>/invite Ada</code>\n"
        "What you know already can stand behind a colon, and is only confirmed: "
        "<code>/invite Ada: kg, 7:00, mon tue thu, Lisbon, home, dumbbells, 60 min, new</code>\n"
        "For a client with a new account: <code>/invite again Ada</code>",
        silent=True,
    )


def link_made(name: str, until: datetime, known: Mapping[str, object], *, replaces: bool) -> Message:
    """Tell the coach what to do with the next message, and what was filled in."""
    who = escape(name)
    lines = [f"{LABELS[step]}: {escape(known_words(step, value))}" for step, value in known.items()]
    filled = f"\n\nFilled in for {who}, who only confirms it:\n" + "\n".join(lines) if lines else ""
    earlier = f"The earlier link for {who} no longer works. " if replaces else ""
    return Message(
        f"Forward the next message to {who}. The link works once, until {day_words(until.date())}. "
        f"{earlier}I tell you when {who} has joined.{filled}",
        silent=True,
    )


def invitation(name: str, coach: str, bot_name: str, code: str) -> Message:
    """The message that a coach forwards."""
    link = f"https://t.me/{bot_name}?start={code}"
    return Message(
        f"Hello {escape(name)}, {escape(coach)} would like to send you your training here. Open this link:\n"
        f"{escape(link)}\n\n"
        f"Or write to @{escape(bot_name)}: <code>/start {escape(code)}</code>",
        silent=True,
    )


def problem_pages(name: str, problems: Sequence[Problem]) -> list[Message]:
    """Tell every problem of a file, errors first, on as many messages as it takes (up to eight)."""
    ordered = sorted(problems, key=lambda one: one.severity is Severity.WARNING)
    count = sum(one.severity is Severity.ERROR for one in problems)
    noun, them = ("problem", "it") if count == 1 else ("problems", "them")
    head = f"<b>{escape(name[:80])}</b> was not taken: {count} {noun}. Put {them} right and send it again.\n"
    return pages(head, [f"\n• {escape(problem_line(one))}" for one in ordered])


def pages(head: str, lines: Sequence[str]) -> list[Message]:
    """Return lines under a head on as many messages as it takes, up to eight, and how many more there are."""
    texts = [head]
    for number, line in enumerate(lines):
        if len(texts[-1]) + len(line) > PAGE:
            if len(texts) == MOST_PAGES:
                texts[-1] += f"\n… and {len(lines) - number} more."
                break
            texts.append("")
        texts[-1] += line
    return [Message(text.strip("\n"), silent=True) for text in texts]


def which_client(clients: Sequence[tuple[int, str]], buttons: Buttons, note: str | None) -> Message:
    """Ask whom to put on a block."""
    return _asked(
        "Who? Tap, or type the name. Those without a block come first.", note, buttons.picks(clients, 2)
    )


def which_block(
    client: str, blocks: Sequence[tuple[int, str]], buttons: Buttons, note: str | None
) -> Message:
    """Ask which block."""
    rows = (*buttons.picks(blocks, 1), buttons.back)
    return _asked(f"<b>{escape(client)}</b>: which block? Tap, or type its name.", note, rows)


def which_start(client: str, days: Sequence[date], buttons: Buttons, note: str | None) -> Message:
    """Ask from which day."""
    rows = (*buttons.picks([(day.toordinal(), day_words(day)) for day in days], 2), buttons.back)
    return _asked(
        f"<b>{escape(client)}</b>: from which day? Each week of the block runs seven days from there. "
        f"Tap, or type a date, like <code>{days[0].isoformat()}</code>.",
        note,
        rows,
    )


def _asked(text: str, note: str | None, rows: Rows) -> Message:
    return Message(f"{note}\n\n{text}" if note else text, rows=rows, silent=True)


@dataclass(frozen=True, slots=True)
class Summary:
    """What putting a client on a block comes to.

    Attributes:
        fitted: Lines that tell what changes for her.
        ends: Name of what she runs now.
        goes_on: True where it runs on until the new one begins.
        over_on: Its last day, where that lies behind.
    """

    client: str
    block: str
    weeks: int
    needed: int
    first_week: Sequence[tuple[date, str]]
    days: Sequence[int]
    hour: time | None
    zone: str | None
    fitted: Sequence[str]
    ends: str | None
    goes_on: bool
    frozen: bool
    over_on: date | None = None
    close: Sequence[ClosePair] = ()
    minutes: int | None = None
    longer: Sequence[DayLength] = ()


def summary_card(summary: Summary, buttons: Buttons, note: str | None) -> Message:
    """Show what it comes to before it starts."""
    client = escape(summary.client)
    lines = [f"<b>{client}: {escape(summary.block)}</b>, {summary.weeks} week{'s' * (summary.weeks > 1)}"]
    if not summary.first_week:
        lines.append(
            f"{client} trains on {len(summary.days)} days ({day_list(summary.days)}), and the block has "
            f"{summary.needed} sessions a week. It cannot start like this."
        )
        rows: Rows = ((buttons.one("Not yet", Action.CANCEL),), buttons.back)
        return _asked("\n".join(lines), note, rows)
    clock = f", clock of {escape(city_of(summary.zone))}" if summary.zone else ""
    at = f" at {summary.hour:%H:%M}" if summary.hour else ""
    lines.append(f"First week{at}{clock}:")
    lines += [f"{day_words(on)}: {escape(name)}" for on, name in summary.first_week]
    lines += summary.fitted
    if summary.close:
        lines += ["\nLess than 48 h apart:", *(_close_line(pair) for pair in summary.close[:MOST_CLOSE])]
    if summary.longer:
        days = ", ".join(f"{escape(each.day)} about {each.minutes}" for each in summary.longer)
        lines.append(f"\nLonger than the {summary.minutes} min that {client} has: {days}.")
    if summary.ends and summary.over_on is not None:
        lines.append(f"\n{escape(summary.ends)} has been over since {day_words(summary.over_on)}.")
    elif summary.ends and summary.goes_on:
        lines.append(f"\nUntil then {client} goes on with {escape(summary.ends)}.")
    elif summary.ends:
        lines.append(f"\nEnds what {client} runs now: {escape(summary.ends)}.")
    if summary.frozen:
        lines.append(f"\n{client}'s plan is on hold; no session goes out until you release it.")
    rows = (
        (buttons.one("Start it", Action.CONFIRM), buttons.one("Not yet", Action.CANCEL)),
        buttons.back,
    )
    return _asked("\n".join(lines), note, rows)


def which_instead(text: str, offered: Sequence[str], buttons: Buttons, note: str | None) -> Message:
    """Ask what a client does in place of what cannot be placed; the first button leaves it out."""
    options = [(0, LEAVE_OUT), *enumerate(offered, 1)]
    return _asked(text, note, (*buttons.picks(options, 1), buttons.back))


def _close_line(pair: ClosePair) -> str:
    first, second = (f"{escape(name)} ({DAYS[on]})" for name, on in pair.days)
    both = ", ".join(pattern.value for pattern in pair.patterns)
    return f"{first} and {second}, both heavy: {both}; week {weeks_text(pair.weeks)}"


def started(client: str, block: str, first_on: date, *, frozen: bool) -> Message:
    """Tell the coach that it is done."""
    hold = " The plan is on hold: nothing goes out until you release it." if frozen else ""
    return Message(
        f"<b>{escape(client)} is on {escape(block)}.</b> First session: {day_words(first_on)}.{hold}",
        silent=True,
    )


def not_started() -> Message:
    """Say that nothing was started."""
    return Message("Nothing was started. /assign asks again.", silent=True)


def no_longer_open() -> Message:
    """Say that this card is over."""
    return Message("This is settled, or can no longer be done. /assign asks again.", silent=True)


def block_begins(coach: str, block: str, first_on: date, hour: time, *, frozen: bool) -> Message:
    """Tell the client when her first session comes."""
    if frozen:
        return Message(
            f"{escape(coach)} has put you on a new block: {escape(block)}. Your plan is on hold, so no session "
            f"comes until {escape(coach)} has taken it up again."
        )
    return Message(
        f"{escape(coach)} has put you on a new block: <b>{escape(block)}</b>. "
        f"Your first session comes on {day_words(first_on)} at {hour:%H:%M}."
    )
