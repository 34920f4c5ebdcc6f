"""Two coaches' clients in a played week: they train, ask, write notes, report pain, and two write a stop sign."""

import asyncio
from collections.abc import Callable
from typing import TYPE_CHECKING

from faults.crew import TYPED

if TYPE_CHECKING:
    from faults.breaking import WeekPlan
    from faults.calendars import Phase
    from faults.watching import Watched

CREWS = [
    ("Marit", 100, [("Ada", 101), ("Liv", 102), ("Runa", 103)]),
    ("Orla", 900, [("Ben", 901), ("Cleo", 902), ("Dara", 903)]),
]
COACH_OF = {user_id: coach_id for _, coach_id, clients in CREWS for _, user_id in clients}
CLIENTS = list(COACH_OF)
NAMES = {user_id: name for _, _, clients in CREWS for name, user_id in clients}
COACHES = tuple(coach_id for _, coach_id, _ in CREWS)
SOON_S = 30.0
"""After so long who waits looks whether it is all right. [s]"""
PATIENCE_S = 90.0
"""How long somebody waits for an answer before it counts as lost. [s]"""

STOP = "my chest feels tight"
PAIN = "left knee hurts 5"
NOTES = ("amber", "birch", "copper", "dune", "ember", "fjord", "grove", "heron")


def answered(chat: "Watched", user_id: int) -> int:
    """How far the card is: 1 as it came, one more for each exercise that it names as done."""
    lines = [line for text in chat.texts(user_id) for line in text.splitlines() if line.startswith("Done: ")]
    return 1 + max((line.count(",") + 1 for line in lines), default=0)


def has_card(chat: "Watched", user_id: int, title: str) -> bool:
    return any(title in text for text in chat.texts(user_id))


def is_in_doubt(texts: list[str], user_id: int) -> bool:
    """Whether a coach was told that nobody knows whether something reached a client."""
    return any(f"I cannot tell whether a message reached {NAMES[user_id]}" in text for text in texts)


async def waits(chat: "Watched", user_id: int, holds: Callable[[], bool]) -> bool:
    """Wait for an answer; who was given up, being in doubt twice, asks for the card herself."""
    if await chat.until(holds, SOON_S):
        return True
    if is_in_doubt(chat.texts(COACH_OF[user_id]), user_id):
        chat.say(user_id, "today", "/today")
    return await chat.until(holds, PATIENCE_S)


def note(chat: "Watched", user_id: int) -> None:
    """Write to the coach, with a word that comes nowhere else."""
    word = f"{NOTES[len(chat.said) % len(NOTES)]}{chr(97 + len(chat.said) // len(NOTES))}"
    chat.say(user_id, "note", f"slept badly, may I train at the {word} gym?")


async def trains(chat: "Watched", user_id: int, week: "WeekPlan") -> str | None:
    """Train the first session; returns what was waited for in vain."""
    if not await waits(chat, user_id, lambda: has_card(chat, user_id, "Lower A")):
        return f"{NAMES[user_id]} waits for the card"
    for number, text in enumerate(TYPED[:4], 2):
        if user_id == week.stops and number == 4:
            chat.say(user_id, "help", "/help")
            chat.say(user_id, "stop", STOP)
            return None
        chat.say(user_id, "sets", text, len(text.split()) - (text != TYPED[1]))
        if user_id in week.helped and number == 3:
            chat.say(user_id, "help", "/help")
        if not await waits(chat, user_id, lambda number=number: answered(chat, user_id) >= number):
            return f"{NAMES[user_id]} waits for an answer to {text!r}"
    if user_id == week.sore:
        chat.say(user_id, "pain", PAIN)
    return None


async def writes(chat: "Watched", user_id: int) -> str | None:
    """Ask for help and write a note."""
    chat.say(user_id, "help", "/help")
    note(chat, user_id)
    return None


async def stops_at_night(chat: "Watched", user_id: int) -> str | None:
    chat.say(user_id, "help", "/help")
    chat.say(user_id, "stop", STOP)
    return None


def acts(phase: "Phase", chat: "Watched", week: "WeekPlan") -> list["asyncio.Task[str | None]"]:
    """Set everybody to what is done in a phase."""
    if phase.act == "train":
        works = [trains(chat, user_id, week) for user_id in phase.who]
    else:
        works = [writes(chat, each) for each in week.helped if each in phase.who]
    if phase.act == "night":
        chat.phone(week.blocks, "").block()
        works.append(stops_at_night(chat, week.stops_at_night))
    return [asyncio.create_task(each) for each in works]
