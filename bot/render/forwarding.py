"""What goes on to the coach."""

import re
from dataclasses import dataclass
from datetime import time
from html import escape, unescape
from typing import Protocol

from bot.messages import Message
from bot.render.exercise_names import in_sentence
from bot.render.loads import dose_words, sets_words
from core.checkin.training_log import LoggedSet
from core.programme.exercises import Exercise
from core.programme.prescription import Dose

KIND_WORDS = {
    "photo": "a photo",
    "voice": "a voice message",
    "video": "a video",
    "video_note": "a round video",
    "audio": "a sound file",
    "animation": "a moving picture",
    "document": "a file",
    "sticker": "a sticker",
    "contact": "a contact",
}
BARE = frozenset({"video_note", "sticker"})
"""Kinds that nothing can stand under: what is said of them goes before."""
LONGEST_CAPTION = 700
"""Letters under a file; the platform takes 1,024, and the head needs some."""
LONGEST_WORDS = 3500
"""Letters on a message; the platform takes 4,096."""


class Sent(Protocol):
    """What somebody sent that is no text."""

    @property
    def kind(self) -> str:
        """Which."""
        ...

    @property
    def file_id(self) -> str:
        """The platform's id of it; empty for a contact."""
        ...

    @property
    def caption(self) -> str:
        """What stands under it."""
        ...

    @property
    def name(self) -> str:
        """What its sender calls a file."""
        ...


@dataclass(frozen=True, slots=True)
class Doing:
    """What a client was doing when she sent something.

    Attributes:
        exercise: The one that is open.
        given: What was asked of it.
        logged: The exercise that was logged last, with its sets.
    """

    exercise: Exercise | None
    given: Dose | None
    logged: tuple[Exercise, tuple[LoggedSet, ...]] | None


def media(
    name: str, sent: Sent, doing: Doing | None, *, again: bool = False, asked: str | None = None
) -> tuple[Message, ...]:
    """Show the coach what a client sent, and what she was doing.

    `again` is for more of the same album; `asked` says of a video that she asked for it.
    """
    head = f"<b>{escape(name)}</b>, the same album." if again else _head(name, sent, doing)
    head = head if asked is None else f"{head}\n{asked}"
    return carried(head, sent.kind, sent.file_id, sent.caption)


def _head(name: str, sent: Sent, doing: Doing | None) -> str:
    called = f" ({escape(sent.name[:60])})" if sent.name else ""
    if doing is None:
        return f"<b>{escape(name)}</b> sends {KIND_WORDS[sent.kind]}{called}."
    during = ""
    if doing.exercise is not None and doing.given is not None:
        asked = re.sub(r"</?b>", "", dose_words(doing.given, doing.exercise))
        during = f" during {escape(in_sentence(doing.exercise.name))}, {asked}"
    lines = [f"<b>{escape(name)}</b> sends {KIND_WORDS[sent.kind]}{called}{during}."]
    if doing.logged is not None:
        exercise, sets = doing.logged
        lines.append(f"Logged last: {escape(in_sentence(exercise.name))} {sets_words(sets)}.")
    return "\n".join(lines)


def carried(
    head: str, kind: str, file_id: str | None, caption: str, *, silent: bool = False
) -> tuple[Message, ...]:
    """Return a file with what is said of it and what stood under it, on as many messages as that takes."""
    media_kind = None if kind == "contact" else kind
    if kind in BARE:
        return (
            Message(head, silent=silent),
            Message("", silent=True, media_kind=media_kind, file_id=file_id),
        )
    if len(caption) <= LONGEST_CAPTION:
        words = f"\n{escape(caption)}" if caption else ""
        return (Message(f"{head}{words}", silent=silent, media_kind=media_kind, file_id=file_id or None),)
    rest = [Message(escape(each), silent=True) for each in _parts(caption)]
    return (Message(head, silent=silent, media_kind=media_kind, file_id=file_id or None), *rest)


def _parts(text: str) -> list[str]:
    return [text[at : at + LONGEST_WORDS] for at in range(0, len(text), LONGEST_WORDS)]


def words(name: str, text: str, *, edited: bool) -> tuple[Message, ...]:
    """Show the coach what a client wrote, on as many messages as that takes."""
    verb = "corrects" if edited else "writes"
    first, *rest = _parts(text) or [""]
    return (
        Message(f"<b>{escape(name)}</b> {verb}:\n{escape(first)}"),
        *(Message(f"<b>{escape(name)}</b>, the rest:\n{escape(each)}") for each in rest),
    )


def passed_on() -> Message:
    """Tell the client that it went to the coach."""
    return Message("Passed on to your coach.", silent=True)


def join_first() -> Message:
    """Tell somebody who has not finished joining that nothing was passed on."""
    return Message(
        "Please finish joining first: answer the question above. Nothing was passed on.", silent=True
    )


def too_many(most: int, until: time) -> Message:
    """Tell a client that no more of what she sends goes on for a while; words do."""
    return Message(
        f"I pass on {most} pictures, voices, videos and files an hour. What you send me of them until "
        f"{until:%H:%M} does not reach your coach: please send it again then. Words still go to your coach. "
        "Nobody watches this chat in real time.",
        silent=True,
    )


def nobody_there() -> Message:
    """Tell a client that her coach cannot be reached here."""
    return Message("Your coach is not here at the moment, so nothing was passed on.", silent=True)


def send_anew() -> Message:
    """Tell a client that a file which was changed does not go on by itself."""
    return Message("A picture or file that you change stays as it was. Please send it anew.", silent=True)


def for_whom() -> Message:
    """Ask a coach to say for whom a picture or film is."""
    return Message(
        "For whom is that? Nothing is sent. Reply with it to a message of theirs, or tap “Write to them” on "
        "<code>/client Ada</code> first. A block I take as a file (xlsx, csv or yaml).",
        silent=True,
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
    began = f": “{escape(plain.splitlines()[0][:80].removesuffix('.'))}”" if plain else ""
    if name is None:
        return Message(f"A message to you may not have arrived{began}. I tried twice and do not try again.")
    return Message(
        f"I cannot tell whether a message reached <b>{escape(name)}</b>{began}. "
        "I tried twice and do not try again. Please ask them."
    )
