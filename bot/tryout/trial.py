"""The program that is tried out: its opening, what is done in it one after the other, and its clock."""

import asyncio
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

from bot.assembly.stage import staged
from bot.assembly.story import SETTLE, Act, PersonCast, Stage
from bot.clock import RandomIds
from bot.localchat.phone import Phone
from bot.render import tried_out as say
from bot.tryout.acting import Acting
from bot.tryout.opening import Opening
from bot.tryout.places import HOUR, places

GATHERED = timedelta(seconds=90)
"""What waits to be gathered with what comes after it is let go out, when it is due within this."""

SEEN_BEFORE = timedelta(hours=8)
"""What arrived longer ago than this when the page opens counts as read."""

STOPS = 60
"""Most stops on the way to the next thing that anybody hears of."""

SHORTLY = timedelta(seconds=1)


class CannotBeDone(Exception):
    """What was asked for cannot be done, with the words for it."""

    def __init__(self, words: str, status: int = 400) -> None:
        super().__init__(words)
        self.words = words
        self.status = status


@dataclass
class _Asked:
    """Something that waits in line.

    Attributes:
        who: Who does it.
        act: What they do.
        done: Ends when it was done, before it is answered.
    """

    who: str
    act: Callable[[Phone], object]
    done: "asyncio.Future[None]"


@dataclass
class Trial:
    """Everything that the page shows, and what can be done with it. Used in one event loop.

    Attributes:
        opening: What there is when the page opens.
        changed: Called when anything that is shown may have changed.
        hers: Keys of the people who are spoken for by whoever tries the program out.
        seen: The newest message that was read, by person.
        moving: Whether time goes by.
        doing: What is going on while it does, in words.
        coming: When each place of the clock is; empty before the clock stands still for the first time.
    """

    opening: Opening
    changed: Callable[[], None] = lambda: None
    hers: set[str] = field(default_factory=set)
    seen: dict[str, int] = field(default_factory=dict)
    moving: bool = True
    doing: str = say.OPENING
    coming: Mapping[str, datetime | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.stage: Stage | None = None
        self._line: asyncio.Queue[_Asked | str] = asyncio.Queue()
        self._travelling = True
        self._is_open = False
        self._progress: Callable[[], float | None] = lambda: 0.0

    @property
    def people(self) -> tuple[PersonCast, ...]:
        """Everybody, the coach first."""
        return (*self.opening.people.coaches, *self.opening.people.clients)

    @property
    def now(self) -> datetime:
        """The story's instant."""
        return self.opening.people.starts if self.stage is None else self.stage.clock.now()

    @property
    def progress(self) -> float | None:
        """How much of the way is gone, 0 to 1; None where that is not known."""
        return self._progress() if self.moving else None

    def person(self, key: str) -> PersonCast:
        """Return somebody.

        Raises:
            CannotBeDone: There is nobody of that name.
        """
        found = next((each for each in self.people if each.key == key), None)
        if found is None:
            raise CannotBeDone(say.NO_PERSON, 404)
        return found

    def phone(self, key: str) -> Phone | None:
        """Return somebody's phone; None before there is a stage.

        Raises:
            CannotBeDone: There is nobody of that name.
        """
        self.person(key)
        return None if self.stage is None else self.stage.phone(key)

    async def do(self, key: str, act: Callable[[Phone], object]) -> None:
        """Have somebody do something, after all that was asked for before; they are spoken for from then on.

        While the clock moves on they are at once; the opening is played with them all the same.

        Raises:
            CannotBeDone: It does not fit what is on their screen.
        """
        self.person(key)
        if self._is_open:
            self.hers.add(key)
        asked = _Asked(key, act, asyncio.get_running_loop().create_future())
        self._line.put_nowait(asked)
        self.changed()
        await asked.done

    def move_to(self, place: str) -> None:
        """Have the clock moved.

        Raises:
            CannotBeDone: It moves already, there is no such place, or nothing like that is coming.
        """
        if place not in say.PLACES:
            raise CannotBeDone(say.NO_PLACE)
        if self._travelling:
            raise CannotBeDone(say.MOVING, 409)
        if self.coming.get(place) is None:
            raise CannotBeDone(say.NOTHING_THERE)
        self._travelling = self.moving = True
        self.doing = say.going_to(place)
        self._line.put_nowait(place)
        self.changed()

    def see(self, key: str, message_id: int) -> None:
        """Note that somebody's messages are read up to one.

        Raises:
            CannotBeDone: There is nobody of that name.
        """
        self.person(key)
        self.seen[key] = max(self.seen.get(key, 0), message_id)
        self.changed()

    async def run(self, folder: Path, database_url: str) -> None:
        """Play the opening, and then do what is asked for, until cancelled.

        Args:
            folder: Of the scenario's files.
            database_url: An empty database.

        Raises:
            Exception: Whatever ended a part of the program.
        """
        # Other pages could call the chat service too: they do not know its token.
        token = f"4100:{RandomIds().word(32)}"
        async with staged(folder, self.opening.people, database_url, kept=False, token=token) as stage:
            self.stage = stage
            stage.network.on_shown = self.changed
            for each in self.people:
                stage.phone(each.key)
            working = asyncio.ensure_future(self._work(stage))
            try:
                await asyncio.wait({working, stage.house.failed}, return_when=asyncio.FIRST_COMPLETED)
                (working if working.done() else stage.house.failed).result()
            finally:
                stage.network.on_shown = lambda: None
                working.cancel()
                await asyncio.wait({working})

    async def _work(self, stage: Stage) -> None:
        acting = Acting(stage, self.opening.script, self.hers)
        whole = max(1, acting.before(self.opening.opens))
        self._progress = lambda: min(1.0, acting.done / whole)
        opens = self.opening.opens
        if self.opening.prepared is not None:
            self._progress, self.doing = (lambda: None), say.SETTING_OUT
            opens = await self.opening.prepared(stage)
        await acting.go_to(max(opens, self.now), self._told)
        self._open_read()
        self._is_open = True
        while True:
            if self._line.empty():
                await self._rest(stage)
            asked = await self._line.get()
            if isinstance(asked, str):
                await self._travel(stage, acting, asked)
            else:
                await self._answered(stage, asked)

    async def _rest(self, stage: Stage) -> None:
        self.coming = await places(stage)
        if self._line.empty():
            self.moving, self.doing, self._travelling = False, "", False
            self.changed()

    def _open_read(self) -> None:
        """Count what is older than this morning as read."""
        for each in self.people:
            phone = self.phone(each.key)
            old = (
                [one.message_id for one in phone.screen if one.at <= self.now - SEEN_BEFORE] if phone else []
            )
            self.seen[each.key] = max(self.seen.get(each.key, 0), *old, 0)

    async def _answered(self, stage: Stage, asked: _Asked) -> None:
        """Have somebody do something, and let go by what the answer needs."""
        self.hers.add(asked.who)
        try:
            asked.act(stage.phone(asked.who))
        except CannotBeDone as cannot:
            _settle(asked.done, cannot)
            return
        except RuntimeError:
            _settle(asked.done, CannotBeDone(say.BLOCKED))
            return
        except (LookupError, ValueError) as error:
            _settle(asked.done, CannotBeDone(say.TOO_LONG if isinstance(error, ValueError) else say.NOT_OWN))
            return
        _settle(asked.done, None)
        self.moving, self._progress = True, lambda: None
        if not self._travelling:
            self.doing = say.SETTLING
        self.changed()
        await self._settled(stage)

    async def _settled(self, stage: Stage) -> None:
        """Let half a minute go by, and a little more where something was gathered."""
        await stage.go_to(stage.clock.now() + SETTLE)
        until = stage.clock.now() + GATHERED
        planned = await stage.house.tick.next_due(), stage.clock.next_waking()
        near = [each for each in planned if each is not None and each <= until]
        if near:
            await stage.go_to(max(*near, stage.clock.now()))

    async def _travel(self, stage: Stage, acting: Acting, place: str) -> None:
        """Move the clock to a place, and let the answers there go out."""
        self.moving, self._travelling, self.doing = True, True, say.going_to(place)
        begun = self.now
        aim = self.coming.get(place) or begun + HOUR
        self._progress = lambda: min(1.0, (self.now - begun) / max(aim - begun, timedelta(seconds=1)))
        if place == "due":
            await self._next_heard(stage, acting)
        else:
            await acting.go_to(max(aim, begun), self._told)
        await stage.go_to(stage.clock.now() + SETTLE)
        self._travelling = False

    async def _next_heard(self, stage: Stage, acting: Acting) -> None:
        """Move to what is due next; where nobody hears of it, to what is due after it."""
        for _ in range(STOPS):
            due = (await places(stage))["due"]
            if due is None:
                return
            await acting.go_to(max(due - SHORTLY, self.now), self._told)
            said = len(stage.network.record)
            if self.now >= due:  # somebody took their time on the way
                return
            await acting.go_to(due, self._told)
            if len(stage.network.record) > said:
                return

    def _told(self, act: Act) -> None:
        person = self.person(act.who)
        self.doing = say.acting(person.name, self.now, self.opening.people.coaches[0].zone)
        self.changed()


def _settle(done: "asyncio.Future[None]", cannot: CannotBeDone | None) -> None:
    """End a wait, if anybody still waits."""
    if done.done():
        return
    if cannot is None:
        done.set_result(None)
    else:
        done.set_exception(cannot)
