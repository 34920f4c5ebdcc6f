"""What a phone shows."""

from dataclasses import dataclass, field
from datetime import datetime

from bot.localchat.answers import Body
from bot.localchat.keyboards import Keys, Markup


@dataclass
class Shown:
    """One message on the screen.

    Attributes:
        message_id: Number in this chat, from 1.
        mine: True when the person sent it, False when the bot did.
        text: Text or caption, without markup.
        html: The same as the bot wrote it; "" of a person's.
        at: Instant.
        kind: "text", "photo", "document", "voice", "video" or "location".
        markup: What hangs under it.
        file: What was sent, None without.
        silent: True when it did not notify.
        protected: True when it cannot be forwarded.
        revision: How often it was edited.
        reply_to: The message that it answers.
        edited_at: Instant of the last edit.
        content: The same as the service writes it in JSON.
    """

    message_id: int
    mine: bool
    text: str
    html: str
    at: datetime
    kind: str = "text"
    markup: Markup = field(default_factory=Markup)
    file: bytes | None = None
    silent: bool = False
    protected: bool = False
    revision: int = 0
    reply_to: int | None = None
    edited_at: datetime | None = None
    content: Body = field(default_factory=dict)

    @property
    def keys(self) -> Keys:
        """Rows of (label, data)."""
        return self.markup.keys

    @property
    def buttons(self) -> tuple[tuple[str, ...], ...]:
        """Labels by row."""
        return tuple(tuple(label for label, _ in row) for row in self.keys)


def button_with(label: str, messages: list[Shown]) -> tuple[Shown, str, str] | None:
    """Return the newest button with a label, else one whose label begins so: message, label, data."""
    buttons = [
        (shown, text, data)
        for shown in reversed(messages)
        for row in shown.keys
        for text, data in row
        if data is not None
    ]
    exact = (each for each in buttons if each[1] == label)
    return next(exact, None) or next((each for each in buttons if each[1].startswith(label)), None)


def as_text(screen: list[Shown], name: str) -> str:
    """Return a screen as text: who, when, what, and buttons by row."""
    lines: list[str] = []
    for shown in screen:
        lines.append(f"{name if shown.mine else 'Plimsoll'}  {shown.at:%a %d %b %H:%M}")
        lines += [f"  {line}" for line in (shown.text or f"({shown.kind})").splitlines()]
        lines += ["  " + " ".join(f"[{label}]" for label in row) for row in shown.buttons]
        lines.append("")
    return "\n".join(lines)
