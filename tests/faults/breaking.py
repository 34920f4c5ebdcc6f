"""What is to break, and when: a plan that is drawn from a seed and holds for a played week."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from faults.calendars import MOST_PHASES, Calendar, calendar_of

from bot.clock import seeded_chance
from bot.localchat.faults import Fault, Kind

SENDS = "sendMessage"
KINDS: dict[str, Any] = {
    "429 in a chat, short": lambda chat: Fault(Kind.TOO_MANY, SENDS, chat, retry_after=1),
    "429 in a chat, long": lambda chat: Fault(Kind.TOO_MANY, SENDS, chat, retry_after=5),
    "429 for all": lambda _: Fault(Kind.TOO_MANY, SENDS, times=3, retry_after=2),
    "500": lambda chat: Fault(Kind.SERVER_ERROR, SENDS, chat, status=500),
    "502": lambda _: Fault(Kind.SERVER_ERROR, SENDS),
    "502 on a fetch": lambda _: Fault(Kind.SERVER_ERROR, "getUpdates"),
    "refused": lambda _: Fault(Kind.REFUSE),
    "dropped before": lambda _: Fault(Kind.DROP_BEFORE, SENDS),
    "dropped after": lambda chat: Fault(Kind.DROP_AFTER, SENDS, chat),
    "a fetch dropped after": lambda _: Fault(Kind.DROP_AFTER, "getUpdates"),
    "slow": lambda _: Fault(Kind.SLOW, SENDS, seconds=1),
    "slow before": lambda _: Fault(Kind.SLOW_BEFORE, SENDS, seconds=1),
    "an update twice": lambda _: Fault(Kind.AGAIN),
    "updates swapped": lambda _: Fault(Kind.SWAPPED),
    "a malformed update": lambda _: Fault(Kind.MALFORMED),
    "a second poller": None,
    "the database locked": None,
    "an hour asleep": None,
}
PER_WEEK = 10
LEADS = 0.6
"""How often, of several processes, it is the one that leads that is killed."""


@dataclass(frozen=True)
class Break:
    """Something that goes wrong, so many seconds after the program first fetched."""

    after_s: float
    kind: str
    chat_id: int

    def __str__(self) -> str:
        return f"{self.kind} ({self.chat_id}) at {self.after_s:.1f} s"


@dataclass(frozen=True)
class LifePlan:
    """How one life goes: when it is killed, from its birth or its first fetch; None: once all is at rest."""

    kill_s: float | None
    from_birth: bool
    breaks: tuple[Break, ...]
    victim: float = 0.0
    """Which of several is killed: the one that leads below `LEADS`, else one of the others. [0..1)"""

    def __str__(self) -> str:
        when = "at rest" if self.kill_s is None else f"at {self.kill_s:.2f} s"
        since = " from its birth" if self.from_birth else ""
        return f"killed {when}{since}; " + ("; ".join(map(str, self.breaks)) or "nothing breaks")


@dataclass(frozen=True)
class WeekPlan:
    """A week: the lives of each phase, and who does what."""

    calendar: Calendar
    lives: tuple[tuple[LifePlan, ...], ...]
    stops: int
    stops_at_night: int
    sore: int
    blocks: int
    helped: tuple[int, int]

    @property
    def kills(self) -> int:
        return sum(map(len, self.lives))


def week_of(
    seed: int,
    number: int,
    kills: int,
    clients: Sequence[int],
    more_kinds: Sequence[str] = (),
    calendar: Calendar | None = None,
) -> WeekPlan:
    """Draw a week of a seed: with so many kills, among these people; `more_kinds` of breaks come to the usual ones."""
    if calendar is None:
        calendar = calendar_of(seed, number if kills >= MOST_PHASES else 0)
    chance = seeded_chance(seed, number)
    who = [int(each) for each in chance.permutation(clients)]
    shares = [max(1, round(kills * phase.share)) for phase in calendar.phases]
    shares[0] = max(1, shares[0] + kills - sum(shares))
    kinds = [*KINDS, *more_kinds]
    lives = tuple(
        tuple(_life(chance, clients, kinds, last=each == share - 1) for each in range(share))
        for share in shares
    )
    helped = (who[4], who[5])
    return WeekPlan(calendar, lives, who[0], who[1], who[2], who[3], helped)


def _life(chance: Any, clients: Sequence[int], kinds: Sequence[str], *, last: bool) -> LifePlan:
    breaks = [
        Break(
            round(float(chance.uniform(0, 1.5)), 2),
            kinds[int(chance.integers(len(kinds)))],
            clients[int(chance.integers(len(clients)))],
        )
        for _ in range(int(chance.integers(1, 4)))
    ]
    early = bool(chance.random() < 0.15)
    kill_s = round(float(chance.uniform(0.1, 0.5) if early else chance.uniform(0.02, 1.8)), 2)
    plan = tuple(sorted(breaks, key=lambda each: each.after_s))
    victim = round(float(chance.random()), 2)
    return LifePlan(None if last else kill_s, early and not last, plan, victim)
