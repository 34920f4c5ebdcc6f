"""Faults on a plan: what goes wrong, where, how often."""

from collections.abc import Callable
from dataclasses import dataclass, field
from enum import StrEnum


class Kind(StrEnum):
    """What goes wrong: with a call, or with the next update that is offered."""

    REFUSE = "refuse"
    """The connection is reset; nothing was done."""
    TOO_MANY = "too many"
    """429 with `retry_after`, also as a header."""
    FORBIDDEN = "forbidden"
    """403."""
    CONFLICT = "conflict"
    """409."""
    SERVER_ERROR = "server error"
    """500 in JSON, or from 502 on the page of a gateway; nothing was done."""
    DROP_BEFORE = "drop before"
    """The connection ends without an answer; nothing was done."""
    DROP_AFTER = "drop after"
    """Done, and the connection ends without an answer."""
    SLOW = "slow"
    """Done, and answered late."""
    SLOW_BEFORE = "slow before"
    """Late, and then done and answered."""
    AGAIN = "again"
    """The update comes twice under one id."""
    AGAIN_NEW_ID = "again, new id"
    """The update comes twice under two ids."""
    SWAPPED = "swapped"
    """The update overtakes the one before it that still waits."""
    MALFORMED = "malformed"
    """An update that makes no sense comes before it in the same batch."""


OF_UPDATES = frozenset({Kind.AGAIN, Kind.AGAIN_NEW_ID, Kind.SWAPPED, Kind.MALFORMED})
WHILE_WAITING = frozenset({Kind.CONFLICT, Kind.SERVER_ERROR, Kind.REFUSE, Kind.DROP_BEFORE})
"""What can befall a poll that already waits. The others need a call that begins, or an answer."""


@dataclass
class Fault:
    """One planned fault.

    Attributes:
        kind: What goes wrong.
        method: In which method; None for any. Faults of updates have none.
        chat_id: In which chat; None for any.
        times: How often still.
        retry_after: For TOO_MANY. [s]
        status: For SERVER_ERROR.
        seconds: For SLOW and SLOW_BEFORE, on the machine's clock: it is the client's patience that is tried. [s]
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
    """Faults to come, first planned first met.

    Attributes:
        planned: Those that have not happened yet.
        on_plan: Called with every new one: a poll that waits may be hit.
    """

    planned: list[Fault] = field(default_factory=list)
    on_plan: Callable[[], None] = lambda: None

    def plan(self, fault: Fault) -> None:
        """Plan a fault."""
        self.planned.append(fault)
        self.on_plan()

    def next_for(self, method: str, chat_id: object) -> Fault | None:
        """Take the next fault that fits a call which begins."""
        return self._take(
            lambda fault: (
                fault.kind not in OF_UPDATES
                and fault.method in (None, method)
                and fault.chat_id in (None, chat_id)
            )
        )

    def next_while_waiting(self) -> Fault | None:
        """Take the next fault that names getUpdates and can hit a poll which already waits."""
        return self._take(lambda fault: fault.method == "getUpdates" and fault.kind in WHILE_WAITING)

    def next_of_update(self, chat_id: int) -> Fault | None:
        """Take the next fault that fits an update of a chat."""
        return self._take(lambda fault: fault.kind in OF_UPDATES and fault.chat_id in (None, chat_id))

    def _take(self, fits: Callable[[Fault], bool]) -> Fault | None:
        fault = next(filter(fits, self.planned), None)
        if fault is not None:
            fault.times -= 1
            if fault.times <= 0:
                self.planned.remove(fault)
        return fault
