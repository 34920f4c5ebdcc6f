"""What goes on to the coach."""

import re
from html import escape, unescape

from bot.messages import Message
from core.programme.exercises import Exercise

KIND_WORDS = {"photo": "a photo", "voice": "a voice message", "video": "a video", "document": "a file"}


def media(name: str, kind: str, file_id: str, caption: str, exercise: Exercise | None) -> Message:
    """Show the coach what a client sent, and what she was doing."""
    during = f" during {escape(exercise.name.lower())}" if exercise else ""
    words = f"\n{escape(caption[:700])}" if caption else ""
    return Message(
        f"<b>{escape(name)}</b> sends {KIND_WORDS[kind]}{during}.{words}", media_kind=kind, file_id=file_id
    )


def words(name: str, text: str, *, edited: bool) -> Message:
    """Show the coach what a client wrote."""
    verb = "corrects" if edited else "writes"
    return Message(f"<b>{escape(name)}</b> {verb}:\n{escape(text[:3000])}")


def passed_on() -> Message:
    """Tell the client that it went to the coach."""
    return Message("Passed on to your coach.", silent=True)


def join_first() -> Message:
    """Tell somebody who has not finished joining that nothing was passed on."""
    return Message(
        "Please finish joining first: answer the question above. Nothing was passed on.", silent=True
    )


def not_yet() -> Message:
    """Tell a coach that a picture of hers goes nowhere."""
    return Message(
        "I can take a block as a file (xlsx, csv or yaml). This file I cannot pass on.", silent=True
    )


def unreachable(name: str) -> Message:
    """Tell the coach that a client cannot be reached."""
    return Message(
        f"<b>{escape(name)}</b> has blocked me, so nothing reaches them here. "
        "Their silence is not counted as missed sessions. Please write to them another way."
    )


def in_doubt(name: str | None, words: str) -> Message:
    """Tell the coach that nobody knows whether a message arrived; `name` is None when it was for the coach."""
    plain = unescape(re.sub(r"<[^>]*>", "", words)).strip()
    began = f": “{escape(plain.splitlines()[0][:80])}”" if plain else ""
    if name is None:
        return Message(f"A message to you may not have arrived{began}. I tried twice and do not try again.")
    return Message(
        f"I cannot tell whether a message reached <b>{escape(name)}</b>{began}. "
        "I tried twice and do not try again. Please ask them."
    )
