"""Faults on a plan: what goes wrong, where, how often."""

from dataclasses import dataclass, field
from enum import StrEnum


class Kind(StrEnum):
    """What goes wrong."""

    REFUSE = "refuse"
    """The connection is closed before anything is read."""
    TOO_MANY = "too many"
    """429 with `retry_after`."""
    FORBIDDEN = "forbidden"
    """403."""
    CONFLICT = "conflict"
    """409."""
    SERVER_ERROR = "server error"
    """500 or 502 with a page."""
    DROP_BEFORE = "drop before"
    """The connection is closed; nothing was done."""
    DROP_AFTER = "drop after"
    """Done, and the connection is closed without an answer."""
    SLOW = "slow"
    """Done, and answered late."""


@dataclass
class Fault:
    """One planned fault.

    Attributes:
        kind: What goes wrong.
        method: In which method; None for any.
        chat_id: In which chat; None for any.
        times: How often still.
        retry_after: For TOO_MANY. [s]
        status: For SERVER_ERROR.
        seconds: For SLOW. [s]
    """

    kind: Kind
    method: str | None = None
    chat_id: int | None = None
    times: int = 1
    retry_after: int = 1
    status: int = 502
    seconds: float = 0.0


@dataclass
class Faults:
    """Faults to come, first planned first met."""

    planned: list[Fault] = field(default_factory=list)

    def plan(self, fault: Fault) -> None:
        """Plan a fault."""
        self.planned.append(fault)

    def next_for(self, method: str, chat_id: int | None) -> Fault | None:
        """Take the next fault that fits a call."""
        for fault in self.planned:
            if fault.method in (None, method) and fault.chat_id in (None, chat_id):
                fault.times -= 1
                if fault.times <= 0:
                    self.planned.remove(fault)
                return fault
        return None
