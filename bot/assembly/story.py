"""Plays a script through the real program: apply an act, wait until nothing moves, go on to what comes next."""

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Literal
from zoneinfo import ZoneInfo

import yaml
from pydantic import BaseModel, ConfigDict, Field

from bot.assembly.house import House
from bot.clock import Ids, StoryClock
from bot.localchat.faults import Fault, Kind
from bot.localchat.network import Network
from bot.localchat.phone import Phone
from bot.usecases.coaches import add_coach
from core.local_time import instant_of

SETTLE = timedelta(seconds=30)
"""How far the clock goes by itself after an act, for messages that wait for their turn in a chat."""

DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


class Part(BaseModel):
    """Base of what a script is made of."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class PersonCast(Part):
    """Somebody in the story."""

    key: str
    name: str
    zone: str
    phone: int
    coach: str | None = None


class People(Part):
    """The cast."""

    starts: datetime
    coaches: tuple[PersonCast, ...]
    clients: tuple[PersonCast, ...]

    def named(self, key: str) -> PersonCast:
        """Return one of the cast."""
        return next(each for each in (*self.coaches, *self.clients) if each.key == key)


class Step(Part):
    """One thing that somebody does: one of `tap`, `say`, `edit`, `file`, `send`, `share`, `block` and what they use.

    Or what befalls them: `lost`.

    Attributes:
        tap: Label of a button, or how it begins.
        of: Words of the message on the screen whose button is tapped; the newest that has it without them.
        say: What is typed.
        answers: Words of the message on the screen that what is typed is a reply to.
        edit: What the words typed last become, or those that `before` says.
        before: What was typed that is edited, word for word.
        file: Path in the scenario's folder.
        send: What is no text: "photo", "voice", "video" or "document".
        caption: What stands under it, or under the first of several.
        name: What its sender calls a file.
        size_kb: How large it is. [kB]
        times: How often it is sent, one after the other.
        share: Where somebody is: degrees north, degrees east.
        block: True to block the bot, False to take it back.
        lost: How many of the bot's next messages to them arrive without the bot hearing of it.
        use_code: True to send the code that binds a coach.
        use_invite_of: Key of the coach whose invitation is used.
    """

    tap: str | None = None
    of: str | None = None
    say: str | None = None
    answers: str | None = None
    edit: str | None = None
    before: str | None = None
    file: str | None = None
    send: Literal["photo", "voice", "video", "document"] | None = None
    caption: str = ""
    name: str = "file.pdf"
    size_kb: int = Field(default=1, ge=1)
    times: int = Field(default=1, ge=1)
    share: tuple[float, float] | None = None
    block: bool | None = None
    lost: int | None = Field(default=None, ge=1)
    use_code: bool | None = None
    use_invite_of: str | None = None


class Act(Part):
    """Steps that somebody takes at a wall-clock time of their own."""

    day: date
    at: time
    who: str
    steps: tuple[Step, ...]


class Habit(Part):
    """The same steps on every one of some days."""

    who: str
    days: tuple[str, ...]
    at: time
    first: date
    last: date
    except_on: tuple[date, ...] = ()
    steps: tuple[Step, ...]


class Script(Part):
    """What happens."""

    acts: tuple[Act, ...]
    habits: tuple[Habit, ...] = ()
    ends_on: date
    ends_at: time = Field(default=time(21))

    def all_acts(self) -> list[Act]:
        """Return every act, habits written out."""
        found = list(self.acts)
        for habit in self.habits:
            day = habit.first
            while day <= habit.last:
                if DAYS[day.weekday()] in habit.days and day not in habit.except_on:
                    found.append(Act(day=day, at=habit.at, who=habit.who, steps=habit.steps))
                day += timedelta(days=1)
        return found


LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""The same in C where it is there: a tenth of the time."""


def read_people(folder: Path, name: str = "people.yaml") -> People:
    """Read the cast of a scenario."""
    return People.model_validate(yaml.load((folder / name).read_text("utf-8"), LOADER))  # noqa: S506  (a safe loader)


def read_script(folder: Path, name: str = "script.yaml") -> Script:
    """Read what happens in a scenario."""
    return Script.model_validate(yaml.load((folder / name).read_text("utf-8"), LOADER))  # noqa: S506  (a safe loader)


@dataclass
class Stage:
    """Where a story is played."""

    house: House
    network: Network
    clock: StoryClock
    ids: Ids
    people: People
    folder: Path
    codes: dict[str, str] = field(default_factory=dict)
    """What binds each coach's account, by key."""

    def __post_init__(self) -> None:
        self._last_typed: dict[str, int] = {}

    def phone(self, key: str) -> Phone:
        """Return somebody's phone."""
        cast = self.people.named(key)
        return self.network.phone(cast.phone, cast.name)

    def add_coaches(self) -> None:
        """Add the coaches as whoever runs the program would."""
        for cast in self.people.coaches:
            code = self.ids.word(16)
            add_coach(cast.name, cast.zone, code, self.house.units, self.clock.now())
            self.codes[cast.key] = code

    async def idle(self) -> None:
        """Wait until nothing moves any more by itself."""
        await self.house.activity.until(lambda: self.network.unfetched == 0 and self.house.quiet())

    async def go_to(self, instant: datetime) -> None:
        """Move the clock on, stopping at everything that is due on the way."""
        while True:
            await self.idle()
            due = [
                when
                for when in (await self.house.tick.next_due(), self.clock.next_waking())
                if when is not None and when <= instant
            ]
            before = self.clock.now()
            coming = max(min(due), before) if due else instant
            self.clock.move_to(coming)
            if due or coming - before > SETTLE:  # between two taps nothing falls due by itself
                await self.house.tick.run()
            await self.idle()
            if not due:
                return

    def instant(self, act: Act) -> datetime:
        """Return when an act begins."""
        return instant_of(act.day, act.at, self.people.named(act.who).zone)

    def in_order(self, script: Script) -> list[Act]:
        """Return every act of a script, the earliest first."""
        return sorted(script.all_acts(), key=lambda act: (self.instant(act), act.who))

    async def play(self, act: Act) -> None:
        """Play one act."""
        await self.go_to(max(self.instant(act), self.clock.now()))
        for step in act.steps:
            self.take(act.who, step)
            await self.go_to(self.clock.now() + SETTLE)

    def take(self, who: str, step: Step) -> None:
        """Have somebody take a step, as the screen stands now.

        Raises:
            LookupError: The step does not fit the screen.
        """
        phone = self.phone(who)
        if step.tap is not None:
            phone.tap(step.tap, self._with(phone, step.of))
        elif step.say is not None:
            self._last_typed[who] = phone.type(step.say, reply_to=self._with(phone, step.answers))
        elif step.edit is not None:
            mine = self._with(phone, step.before, mine=True)
            phone.edit(mine or self._last_typed[who], step.edit)
        elif step.send is not None:
            self._send(phone, step)
        elif step.share is not None:
            phone.share_location(*step.share)
        elif step.block is not None:
            phone.block() if step.block else phone.unblock()
        elif step.lost is not None:
            fault = Fault(Kind.DROP_AFTER, "sendMessage", phone.chat_id, times=step.lost)
            self.network.faults.plan(fault)
        elif step.file is not None:
            path = self.folder / step.file
            phone.send_document(path.name, path.read_bytes())
        elif step.use_code:
            phone.start(self.codes[who])
        elif step.use_invite_of is not None:
            phone.start(self.invitation(step.use_invite_of, self.people.named(who).name))

    def _send(self, phone: Phone, step: Step) -> None:
        """Send a file, or several: in each stands who sent it and when in the chat, so that no two are the same."""
        for number in range(step.times):
            caption = "" if number else step.caption
            content = f"{phone.user_id} {len(phone.screen)} ".encode()
            if step.send == "document":
                phone.send_document(step.name, content.ljust(step.size_kb * 1024, b"."), caption)
            elif step.send == "photo":
                phone.send_photo(content, caption)
            elif step.send == "voice":
                phone.send_voice(content, caption)
            else:
                phone.send_video(content, caption)

    def _with(self, phone: Phone, words: str | None, *, mine: bool = False) -> int | None:
        """Return the newest message with some words, of the bot or of one's own; None where none are asked for."""
        if words is None:
            return None
        found = (each for each in reversed(phone.screen) if each.mine is mine and words in each.text)
        shown = next(found, None)
        if shown is None:
            raise LookupError(f"{phone.name} has no message with {words!r} on the screen")
        return shown.message_id

    def invitation(self, coach: str, name: str) -> str:
        """Return the code of the newest invitation that a coach has given out for a name.

        Raises:
            LookupError: There is none on her screen.
        """
        for shown in reversed(self.phone(coach).screen):
            found = re.search(r"start=(\w+)", shown.text)
            if found and name in shown.text:
                return found.group(1)
        raise LookupError(f"{coach} has no invitation for {name} on the screen")


async def play_script(stage: Stage, script: Script, progress: Callable[[int, int, datetime], None]) -> None:
    """Play a whole script to its end; `progress` is told (done, all, instant) after each act."""
    acts = stage.in_order(script)
    for number, act in enumerate(acts, 1):
        await stage.play(act)
        progress(number, len(acts), stage.clock.now())
    ends = datetime.combine(script.ends_on, script.ends_at, tzinfo=ZoneInfo(stage.people.coaches[0].zone))
    await stage.go_to(max(ends, stage.clock.now()))
