"""What hangs under a message: buttons in it, keys in place of the keyboard, or a field to reply in."""

import re
from dataclasses import dataclass
from typing import Any

from bot.localchat.answers import Body, bad_request

BUTTONS = 100
IN_A_ROW = 8
DATA_BYTES = 64
COPIED = 256
PLACEHOLDER = 64
ACTIONS = frozenset({"callback_data", "url", "copy_text"})

Keys = tuple[tuple[tuple[str, str | None], ...], ...]
"""Rows of (label, data); data is None for a button that does not call the bot."""


@dataclass(frozen=True, slots=True)
class Markup:
    """What hangs under a message.

    Attributes:
        keys: Buttons in the message.
        rows: The same as the bot gave them.
        typed: Labels of keys that type their label; None leaves the keys that are there, () takes them away.
        asks_reply: True when the phone opens a field to reply in.
    """

    keys: Keys = ()
    rows: tuple[tuple[Body, ...], ...] = ()
    typed: tuple[tuple[str, ...], ...] | None = None
    asks_reply: bool = False

    @property
    def editable(self) -> bool:
        """Whether a message with this can be edited: only with buttons in it, or nothing."""
        return self.typed is None and not self.asks_reply


def markup_of(given: Body | None) -> Markup:
    """Read `reply_markup`.

    Raises:
        Refused: It is none of the four kinds, or breaks a limit.
    """
    if given is None:
        return Markup()
    kind = next((kind for kind in READERS if kind in given), None)
    if kind is None or not set(given) <= OPTIONS[kind] | {kind}:
        raise bad_request(
            "can't parse reply keyboard markup: one of the four kinds expected, and no other field"
        )
    if not 1 <= len(given.get("input_field_placeholder", "-")) <= PLACEHOLDER:
        raise bad_request("REPLY_MARKUP_INVALID: placeholder")
    return READERS[kind](given[kind])


def inline_only(given: Body | None) -> Markup:
    """Read `reply_markup` of an edit, which can only have buttons in the message.

    Raises:
        Refused: It is something else, or breaks a limit.
    """
    markup = markup_of(given)
    if not markup.editable:
        raise bad_request("inline keyboard expected")
    return markup


def _rows(rows: Any) -> list[list[Any]]:
    if not isinstance(rows, list) or not all(isinstance(row, list) for row in rows):
        raise bad_request("can't parse keyboard: rows of buttons expected")
    if sum(map(len, rows)) > BUTTONS or any(len(row) > IN_A_ROW for row in rows):
        raise bad_request("REPLY_MARKUP_TOO_LONG")
    return [row for row in rows if row]


def _inline(rows: Any) -> Markup:
    read = _rows(rows)
    keys = tuple(tuple(_button(button) for button in row) for row in read)
    return Markup(keys, tuple(tuple(dict(button) for button in row) for row in read))


def _button(button: Any) -> tuple[str, str | None]:
    label = button.get("text") if isinstance(button, dict) else None
    if not isinstance(label, str) or not label.strip():
        raise bad_request("can't parse inline keyboard button: text must be non-empty")
    acts = set(button) - {"text"}
    if len(acts) != 1 or not acts <= ACTIONS:
        raise bad_request("can't parse inline keyboard button: exactly one action, of those known here")
    (act,) = acts
    value = button[act]
    if act == "callback_data":
        if not isinstance(value, str) or not 1 <= len(value.encode()) <= DATA_BYTES:
            raise bad_request("BUTTON_DATA_INVALID")
        return label, value
    if act == "url" and not re.fullmatch(r"(https?|tg)://\S+", str(value)):
        raise bad_request(f"inline keyboard button URL '{value}' is invalid: Wrong HTTP URL")
    if act == "copy_text" and not 1 <= len(dict(value).get("text", "")) <= COPIED:
        raise bad_request("BUTTON_COPY_TEXT_INVALID")
    return label, None


def _typed(rows: Any) -> Markup:
    labels = tuple(tuple(_label(button) for button in row) for row in _rows(rows))
    if not labels:
        raise bad_request("can't parse keyboard: it has no buttons")
    return Markup(typed=labels)


def _label(button: Any) -> str:
    label = button.get("text") if isinstance(button, dict) and set(button) == {"text"} else button
    if not isinstance(label, str) or not label.strip():
        raise bad_request("can't parse keyboard button: a text that is not empty expected, and nothing else")
    return label


def _removed(yes: Any) -> Markup:
    return Markup(typed=()) if yes is True else Markup()


def _forced(yes: Any) -> Markup:
    return Markup(asks_reply=yes is True)


READERS = {
    "inline_keyboard": _inline,
    "keyboard": _typed,
    "remove_keyboard": _removed,
    "force_reply": _forced,
}
OPTIONS: dict[str, frozenset[str]] = {
    "inline_keyboard": frozenset(),
    "keyboard": frozenset(
        {"resize_keyboard", "one_time_keyboard", "selective", "is_persistent", "input_field_placeholder"}
    ),
    "remove_keyboard": frozenset({"selective"}),
    "force_reply": frozenset({"selective", "input_field_placeholder"}),
}
