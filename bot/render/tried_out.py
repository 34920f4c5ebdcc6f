"""Words of the page on which the program is tried out, as far as the server says them."""

from datetime import datetime
from html import escape
from zoneinfo import ZoneInfo

from bot.render.dates import DAYS, MONTHS, WEEKDAYS

PLACES = {
    "due": "Next thing due",
    "hour": "One hour on",
    "session": "Tomorrow's session",
    "digest": "Coach's digest",
}
"""Where the clock can be moved to, as buttons."""

OPENING = "The story is being played up to its opening."
SETTING_OUT = "A coach and two clients set out, by messages, with your block."
SETTLING = "Half a minute goes by for the answer."

NO_KEY = "Use the address that the program printed when it was started: it has the key."
NO_PERSON = "There is nobody of that name here."
NO_MESSAGE = "That message is not on the screen any more."
NO_BUTTON = "That button is not there any more."
NO_FILE = "There is no file with that message."
NO_PLACE = "The clock cannot be moved to there."
NOTHING_THERE = "Nothing like that is coming."
MOVING = "The clock is moving already. Wait until it stands still."
NOT_READ = "What was sent could not be read."
TOO_LARGE = "That is too large. A file has at most 20 MB, a message 4096 characters."
TOO_LONG = "A message has 1 to 4096 characters."
BLOCKED = "This person has blocked the bot."
NOT_OWN = "Only one's own text can be edited."
NO_SUCH_PAGE = "There is no such page."
NO_SUCH_METHOD = "That is not how this page is asked."
NOT_FROM_HERE = "That did not come from this page."
TOO_MANY = "Too many windows look at once. Close one."
NO_SESSION = "No session of the block falls within two weeks."


def told(now: datetime, zone: str) -> str:
    """Say an instant in full, on somebody's clock: `Tuesday 14 April 2026, 07:00 in Lisbon`."""
    here = now.astimezone(ZoneInfo(zone))
    day = f"{WEEKDAYS[here.weekday()]} {here.day} {MONTHS[here.month - 1]} {here.year}"
    return f"{day}, {here:%H:%M} in {zone.rpartition('/')[2].replace('_', ' ')}"


def local(now: datetime, zone: str) -> str:
    """Say an instant in short, on somebody's clock: `Tue 14 Apr, 07:00`."""
    here = now.astimezone(ZoneInfo(zone))
    return f"{DAYS[here.weekday()]} {here.day} {MONTHS[here.month - 1][:3]}, {here:%H:%M}"


def acting(name: str, at: datetime, zone: str) -> str:
    """Say who of the story is doing something, and when."""
    return f"{local(at, zone)}: {name}"


def going_to(place: str) -> str:
    """Say where the clock is going."""
    return f"{PLACES[place]}: time goes on."


def not_put_on(name: str, answer: str) -> str:
    """Say that a client could not be put on a block, with the program's answer."""
    return f"{name} could not be put on the block: {answer}"


def refusal_page(words: str) -> str:
    """Return a plain page that says one thing."""
    return (
        '<!doctype html><html lang="en"><meta charset="utf-8"><title>Plimsoll, tried out here</title>'
        f"<h1>Plimsoll, tried out here</h1><p>{escape(words)}</p></html>"
    )


# --- what happened ----------------------------------------------------------------------------------------------------

TITLES = {"queue": "Queue", "due": "Due", "decisions": "Decisions"}
COLUMNS = {
    "queue": ("When", "Between", "What", "Where it stands"),
    "due": ("When", "Who", "What", "Where it stands"),
    "decisions": ("Who", "Exercise", "Decided", "Made"),
}
NOTES = {
    "queue": "Every message is a row first, and is sent from there. Of a message that came in, nothing said is kept.",
    "due": "What falls due is a row with a time, on the clock of whoever it is for.",
    "decisions": "The newest decision for each exercise, with its reasons and the sets and reports it rests on.",
}
STATES = {
    "queued": "waits",
    "sending": "on its way",
    "sent": "arrived",
    "cancelled": "taken back",
    "expired": "too late to send",
    "dead": "could not be sent",
    "doubtful": "may have arrived",
    "new": "waits for an answer",
    "failed": "the program failed on it",
    "quarantined": "set aside",
}
LANES = {"safety": "safety, before all else", "talk": "an answer", "bulk": "for many, after all else"}
OPS = {
    "send": "a message",
    "edit": "a change to a message",
    "move": "a card, moved down",
    "strip": "buttons off",
}
DIGEST = "the digest"
QUESTIONS = {
    "morning": "how a place is that hurt",
    "checkin": "the weekly check-in",
    "plan": "the plan of the week",
    "blockend": "how the block was",
    "illness": "how an illness goes",
}
"""Kinds of questions that fall due, in words."""

WAITS_FOR_TIME = "planned"


def first_line(text: str) -> str:
    """Return the first line of a text, shortened."""
    line = text.strip().partition("\n")[0]
    return line if len(line) <= 70 else f"{line[:69]}…"


def decided(kind: str, load: object, sets: int, target: object) -> str:
    """Say a decision in short."""
    given = "no load" if load is None else str(load)
    return f"{kind}: {given}, {'1 set' if sets == 1 else f'{sets} sets'} of {target}"


def session(day: str, week_no: int) -> str:
    """Name a session."""
    return f"session: {day}, week {week_no}"


def question(kind: str) -> str:
    """Name a question that falls due."""
    return f"question: {QUESTIONS.get(kind, kind.replace('_', ' '))}"


def to_whom(name: str) -> str:
    """Say to whom something goes."""
    return f"to {name}"


def from_whom(name: str) -> str:
    """Say from whom something came."""
    return f"from {name}"


def queued(what: str, lane: str, key: str, tries: int) -> str:
    """Say of a row what it does, in which lane, under which key, and how often it was tried."""
    return f"{what}; {lane}; key {key}; {'1 try' if tries == 1 else f'{tries} tries'}"
