"""Taps on buttons, each of which turns a spinner on a phone until it is answered."""

from dataclasses import dataclass, field
from datetime import datetime

from bot.clock import Clock
from bot.localchat.updates import TAP_LASTS


@dataclass
class Tap:
    """One tap.

    Attributes:
        chat_id: Where.
        label: What the button said, or the data of a forged one.
        until: The service takes an answer until then.
        answered: Whether it has one.
        message_id: On which message; 0 where there was none.
    """

    chat_id: int
    label: str
    until: datetime
    answered: bool = False
    message_id: int = 0


@dataclass
class Taps:
    """Every tap of a network."""

    clock: Clock
    _made: dict[str, Tap] = field(default_factory=dict)

    def make(self, chat_id: int, label: str, message_id: int = 0) -> str:
        """Return the id of a new tap."""
        tap_id = f"tap{len(self._made) + 1}"
        self._made[tap_id] = Tap(chat_id, label, self.clock.now() + TAP_LASTS, message_id=message_id)
        return tap_id

    def answer(self, tap_id: str) -> bool:
        """Answer a tap; False when there is none such, it is too long ago, or it has its answer."""
        tap = self._made.get(tap_id)
        if tap is None or not self._waits(tap):
            return False
        tap.answered = True
        return True

    def spinning(self, chat_id: int) -> tuple[str, ...]:
        """Return the labels of a chat's taps that still wait for an answer."""
        return tuple(tap.label for tap in self._made.values() if tap.chat_id == chat_id and self._waits(tap))

    def spinning_by_message(self, chat_id: int) -> dict[int, tuple[str, ...]]:
        """Return the same by the message that was tapped."""
        found: dict[int, tuple[str, ...]] = {}
        for tap in self._made.values():
            if tap.chat_id == chat_id and self._waits(tap):
                found[tap.message_id] = (*found.get(tap.message_id, ()), tap.label)
        return found

    def _waits(self, tap: Tap) -> bool:
        return not tap.answered and self.clock.now() <= tap.until
