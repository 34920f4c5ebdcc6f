"""A coach's saved phrases, in words."""

from collections.abc import Sequence
from html import escape

from bot.messages import Message

EXAMPLE = "<code>/phrase knee: Let us look at this on Thursday.</code>"
PAGE = 3500


def listed(phrases: Sequence[tuple[str, str]]) -> Message:
    """List the phrases: name and words."""
    if not phrases:
        return Message(f"You have saved no phrase yet. This saves one:\n{EXAMPLE}", silent=True)
    lines = ["<b>Your phrases</b>"]
    lines += [
        f"<b>{escape(name)}</b>: {escape(text[:100])}{'…' if len(text) > 100 else ''}"
        for name, text in phrases
    ]
    lines += [
        "",
        f"In a reply to somebody, <code>phrase {escape(phrases[0][0])}</code> stands for its words.",
        f"<code>/phrase remove {escape(phrases[0][0])}</code> takes one away.",
    ]
    return Message("\n".join(lines)[:PAGE], silent=True)


def how_to(most_name: int, most_text: int) -> Message:
    """Say how a phrase is saved."""
    return Message(
        f"A name of one word, up to {most_name} letters, a colon, and the words, up to {most_text} letters:\n"
        f"{EXAMPLE}\nNothing was saved.",
        silent=True,
    )


def kept(name: str, text: str, before: str | None) -> Message:
    """Read a phrase back."""
    lines = [f"Saved as <b>{escape(name)}</b>:\n{escape(text)}"]
    if before is not None:
        lines.append(f"In place of: {escape(before)}")
    lines.append(f"In a reply, <code>phrase {escape(name)}</code> stands for it.")
    return Message("\n".join(lines), silent=True)


def one(name: str, text: str) -> Message:
    """Show a phrase whole."""
    return Message(f"<b>{escape(name)}</b>:\n{escape(text)}", silent=True)


def removed(name: str, text: str) -> Message:
    """Say that a phrase is gone, with its words, so that it can be saved again."""
    return Message(f"Taken away: <b>{escape(name)}</b>\n{escape(text)}", silent=True)


def unknown(name: str, names: Sequence[str]) -> Message:
    """Say that there is no such phrase, and that nothing was sent."""
    there = f"There are: {escape(', '.join(names))}." if names else f"This saves one:\n{EXAMPLE}"
    return Message(f"You have no phrase “{escape(name)}”. Nothing was sent or changed. {there}", silent=True)
