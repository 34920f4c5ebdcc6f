"""Words about a client's own data: handing it out, and forgetting it."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from html import escape
from types import MappingProxyType

from bot.messages import Action, Button, Message, Tap, encode

TABLES: Mapping[str, str] = MappingProxyType(
    {
        "client": "what you told about yourself, and what follows for your plan",
        "account": "the chat account you write from",
        "chat": "your chat with this bot",
        "consent": "when you agreed that health data are kept, and when you took it back or it ended",
        "invite": "the invitation you came with",
        "kit": "what you have to lift, by place",
        "assignment": "the blocks you were put on",
        "assignment_version": "from when another version of a block holds for you",
        "week_change": "weeks of a block that your coach changed for you alone",
        "session": "your sessions, with their dates and how they ended",
        "item": "the exercises of each session, as written and as given",
        "logged_set": "every set you logged",
        "last_load": "loads of yours that your coach brought along",
        "body_report": "what you said of pain, soreness and stop signs",
        "due_question": "what you were asked on a date, and what you answered",
        "health_answer": "what you said of your health when you were asked",
        "illness": "when you were ill, and when it was over",
        "away": "when you were away, and what you trained there",
        "other_training": "what you trained beside your block",
        "goal": "what you want to reach",
        "record": "records of yours that you were told",
        "referral": "to whom your coach has sent you, why, and what came of it",
        "clinician_limit": "what a practitioner has limited for you",
        "reminder": "what your coach wants to be reminded of about you",
        "contract": "that your coach keeps an agreement with you",
        "season_entry": "holidays and events that your coach keeps for you",
        "video_ask": "videos that your coach has asked you for",
        "told": "what you were told once already",
        "hand_on": "whether you let a summary be handed on",
        "decision": "what was decided for each exercise, and what it rests on",
        "coach_order": "what your coach ordered beside the block",
        "rule": "settings of your coach for you",
        "cue": "cues of your coach for you",
        "daily_prep": "the daily prep that your coach set for you",
        "alert": "what your coach was told about you",
        "card": "messages that are changed as a session goes on",
        "prompt": "questions you were asked",
        "forwarded": "words, photos and files of yours that were passed on to your coach",
        "picture": "names of files that were made for you",
        "inbox": "messages that came from you",
        "outbox": "messages that went out to you or about you",
    }
)
"""What each table holds, in plain words."""


def index(name: str, now: datetime, tables: Sequence[str]) -> str:
    """Say what each file of the archive is."""
    lines = [
        f"Data about {name}, as of {now:%Y-%m-%d %H:%M} UTC.",
        "",
        "data.json has everything. Each csv file has one kind of it, for a spreadsheet:",
        "",
        *(f"{table}.csv: {TABLES[table]}" for table in tables),
        "",
        "A time is in UTC. A load is in the unit beside it. An empty cell means that nothing is known.",
        "",
    ]
    return "\n".join(lines)


def handed_out() -> str:
    """Say what the file is."""
    return (
        "Everything kept about you, as JSON and csv in one zip. The file index.txt in it says what is what.\n"
        "It holds health data: think before you pass it on."
    )


def forget_question(prompt_id: int, revision: int, note: str | None = None) -> Message:
    """Ask once whether a client means it."""
    return Message(
        (f"{note}\n\n" if note else "")
        + "Delete everything kept about you? Sessions, sets, what you said of your body, messages: all of it goes at "
        "once and cannot come back. Backups lose it within days, as they are replaced.\n"
        "/mydata gives you a copy first. To delete without a button: /forget everything",
        rows=(
            (
                Button("Delete everything", encode(Tap(prompt_id, revision, Action.CONFIRM))),
                Button("Keep it", encode(Tap(prompt_id, revision, Action.CANCEL))),
            ),
        ),
        silent=True,
    )


def kept() -> Message:
    """Say that nothing was deleted."""
    return Message("Nothing was deleted.", silent=True)


def forgotten() -> Message:
    """Say that it is done."""
    return Message(
        "Everything kept about you here is deleted. This chat itself is yours to delete in the app.\n"
        "If something hurts or worries you, a doctor or physiotherapist can help.",
        silent=True,
    )


def has_gone(name: str) -> Message:
    """Tell the coach that a client had everything deleted."""
    return Message(
        f"{escape(name)} had everything deleted that was kept here. No more sessions go out. "
        "What you noted elsewhere is yours to delete.",
    )


def coach_has_no_data() -> Message:
    """Say to a coach that these are for clients."""
    return Message(
        "That is for clients, about their own data. For one of yours, the person who runs this bot can do it: "
        "plimsoll export and plimsoll erase.",
        silent=True,
    )
