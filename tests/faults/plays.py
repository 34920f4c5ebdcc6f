"""Weeks of several people who do whatever comes to them: two coaches and their clients, in zones of their own.

They tap on what has arrived and type what people type, at any hour; what falls due is done when it is due, and a sender
carries everything out, on a clock that is moved.
"""

import itertools
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime, time, timedelta
from typing import Any, NamedTuple
from zoneinfo import ZoneInfo

from faults.crew import MARIT, ORLA, settle_down
from mailroom import Arrival, Post, Rig
from setting_out import House as Sitting
from sqlalchemy import Engine

from bot.clock import CountedIds, StoryClock, Wake
from bot.messages import Button, decode
from bot.schedule.tick import Tick
from bot.store.units import Units
from bot.usecases import forwarding, media, roster, talk, today
from bot.usecases.replanning import planned_anew
from bot.usecases.runner import Runner
from core.errors import DomainError

START = datetime(2026, 4, 6, 17, tzinfo=UTC)
ADA, LIV, BEN, CLEO = 1, 2, 901, 902
CREWS = (
    ("Orla", ORLA, (("Ben", BEN), ("Cleo", CLEO))),
    ("Marit", MARIT, (("Ada", ADA), ("Liv", LIV))),
)
HOMES = {
    ADA: ("Europe/Lisbon", time(7)),
    LIV: ("America/St_Johns", time(18)),
    BEN: ("Europe/Lisbon", time(5, 30)),
    CLEO: ("Pacific/Auckland", time(12)),
}
"""Where each client lives and when she wants her card. Ben's hour lies in quiet hours, and he chose it."""
COACHES = (MARIT, ORLA)
ZONES = {MARIT: "Europe/Lisbon", ORLA: "Europe/Lisbon", **{each: zone for each, (zone, _) in HOMES.items()}}

WORDS = (
    "90 8 8 8 8",
    "80 8 8 7",
    "10 10 9",
    "left knee hurts 5",
    "lower back 7",
    "knee 2",
    "skip",
    "undo",
    "slept badly, may I train tomorrow?",
    "my chest feels tight",
    "sore legs",
    "nothing hurts",
)
SAID_BY_COACH = ("Well done this week.", "Please rest tomorrow.")


class Act(NamedTuple):
    """What somebody does after a while: which of the buttons that she has, or which words."""

    after_min: int
    who: int
    taps: bool
    which: int


class Did(NamedTuple):
    """An act that was taken."""

    at: datetime
    who: int
    what: str


@dataclass
class Play:
    """Everybody, the program without its doors, and what arrived."""

    engine: Engine
    done: list[Did] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.clock = StoryClock(START)
        self.post = Post(self.clock)
        self.rig = Rig(self.engine, self.clock, self.post)
        self.units = Units(self.engine)
        self.sitting = Sitting(self.units, START, updates=100_000)
        runner = Runner(
            self.units,
            self.rig._write,  # type: ignore[arg-type]
            self.clock,
            CountedIds(),
            activity=self.rig.activity,
            inbox_wake=Wake(),
            outbox_wake=self.rig.wake,
        )
        self.tick = Tick(self.units, runner)
        self.spoken = itertools.count(50_000)

    async def go_to(self, instant: datetime) -> None:
        """Let time go by, stopping at whatever is due on the way."""
        while True:
            await self.rig.idle()
            found = (await self.tick.next_due(), self.clock.next_waking())
            due = [when for when in found if when is not None and when <= instant]
            self.clock.move_to(max(min(due), self.clock.now()) if due else instant)
            await self.tick.run()
            await self.rig.idle()
            if not due:
                return

    async def play(self, acts: Sequence[Act], tail: timedelta) -> None:
        """Take every act, and let what follows follow."""
        try:
            for act in acts:
                await self.go_to(self.clock.now() + timedelta(minutes=act.after_min))
                self.take(act)
                self.rig.wake.set()
                await self.rig.idle()
            await self.go_to(self.clock.now() + tail)
        finally:
            await self.rig.stop()

    def take(self, act: Act) -> None:
        self.sitting.now = self.clock.now()
        person = self.sitting.someone(act.who)
        buttons = self.buttons(act.who)
        if act.taps and buttons:
            button = buttons[act.which % len(buttons)]
            what, usecase, command = button.label, talk.tapped, talk.Tapped(decode(button.data or ""))
        else:
            what, usecase, command = self.words(act)
        self.done.append(Did(self.clock.now(), act.who, what))
        with suppress(DomainError):
            person.does(usecase, command, message_id=next(self.spoken))

    def words(self, act: Act) -> tuple[str, Any, Any]:
        if act.who in COACHES:
            commands = (("/roster", roster.roster, roster.Roster()),)
            said = [(text, talk.heard, talk.Heard(text)) for text in SAID_BY_COACH]
        else:
            commands = (
                ("/today", today.today, today.Today()),
                ("a photo", media.media_sent, forwarding.MediaSent("photo", "file1", "")),
            )
            said = [(text, talk.heard, talk.Heard(text)) for text in WORDS]
        choices = [*said, *commands]
        return choices[act.which % len(choices)]

    def buttons(self, who: int) -> list[Button]:
        """The buttons of the last messages that came to somebody, as they stand now, the newest message first."""
        shown: dict[int, Arrival] = {}
        for each in self.post.arrived:
            if each.chat_id == who:
                shown.pop(each.message_id, None)
                shown[each.message_id] = each
        newest = [each.row.body for each in reversed(shown.values()) if each.row.body is not None][:4]
        rows = [row for message in newest for row in message.rows]
        return [button for row in rows for button in row if button.data is not None]

    def came(self, *people: int) -> Iterator[Arrival]:
        """New messages that came to some people, oldest first."""
        return (each for each in self.post.arrived if each.chat_id in people and each.op in ("send", "move"))

    def local(self, each: Arrival) -> datetime:
        return each.at.astimezone(ZoneInfo(ZONES[each.chat_id]))


def set_up(engine: Engine) -> None:
    """Everybody joins and gets a block; then each is at home where she lives."""
    units = Units(engine)
    settle_down(units, CREWS)
    for coach in COACHES:
        with units.read(None) as house:
            account = house.accounts.find(coach)
        assert account is not None
        with units.open(account.coach_id) as unit:
            for client in unit.clients.roster():
                mine = unit.accounts.of_client(client.id)
                assert mine is not None
                zone, hour = HOMES[mine.user_id]
                unit.clients.change(client.id, zone=zone, hour=hour)
                planned_anew(client.id, unit, START)
