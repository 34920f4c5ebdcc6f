"""Runs a use-case: one transaction, its effects, and the three kinds of failure."""

import asyncio
import logging
from collections.abc import Awaitable, Callable, Mapping, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any, TypeVar, cast

from bot.clock import Activity, Clock, Ids, Wake
from bot.messages import Arrival, Effect, Message, Person, Send
from bot.render.errors import apology, incident
from bot.store.engine import passing
from bot.store.units import Unit, Units
from bot.usecases.effects import apply
from bot.usecases.guesses import Guesses
from bot.usecases.silence import noticed
from bot.usecases.writer import Priority, Writer
from core.errors import DomainError
from core.programme.exercises import Exercise

log = logging.getLogger(__name__)

C = TypeVar("C")


class OutOfReach(Exception):
    """What a command needs (a file) cannot be fetched at the moment; it may be there at the next try."""


UseCase = Callable[[C, Person, Unit, datetime], Sequence[Effect]]

TRIES = 3
PASSING_WAITS_S = (0.05, 0.2, 0.8)
"""Between tries while the store is away, on the machine's own clock: a story that stands still must get over it too."""

LATER = timedelta(seconds=15)


def _nobody_asks(update_id: int) -> None:
    """What is told of an update that waits, where nobody wants to know."""


class Runner:
    """Runs use-cases for updates, and for what falls due."""

    def __init__(
        self,
        units: Units,
        write: Writer,
        clock: Clock,
        ids: Ids,
        *,
        activity: Activity,
        inbox_wake: Wake,
        outbox_wake: Wake,
    ) -> None:
        self.units = units
        self.write = write
        self.clock = clock
        self.ids = ids
        self.activity = activity
        self.inbox_wake = inbox_wake
        self.outbox_wake = outbox_wake
        self.guesses = Guesses()
        self.taken: set[int] = set()
        """Updates that came as far as a use-case; whoever hands updates out sees by it that one went nowhere."""
        self.answered = 0
        """How many updates were settled, in words of an apology too."""
        self.on_wait: Callable[[int], None] = _nobody_asks
        """Told of an update that could not be answered now, before it waits."""

    async def run(
        self,
        usecase: UseCase[C],
        command: C,
        arrival: Arrival,
        prepare: Callable[[C], Awaitable[C]] | None = None,
        *,
        priority: Priority = Priority.REPLY,
    ) -> None:
        """Run `usecase` for an update, once. An update that is settled already does nothing.

        A mistake that a person can mend rolls back and is answered in words; a passing fault rolls back and is
        tried again; anything else rolls back, is logged and counted, and after three tries answered with a reference.
        """
        self.taken.add(arrival.update_id)
        try:
            if prepare is not None:
                command = await prepare(command)
            await self._tried(lambda: self._once(usecase, command, arrival), priority)
            self.answered += 1
        except DomainError as error:
            answer = apology(error)
            await self._tried(lambda: self._answer(answer, arrival), priority)
            self.answered += 1
        except Exception as error:  # noqa: BLE001  (the rim: `broken` logs it)
            if passing(error) or isinstance(error, OutOfReach):
                await self._later(arrival)
            else:
                await self.broken(arrival, usecase.__name__, error)
        self.outbox_wake.set()

    async def catalogue_of(self, user_id: int) -> Mapping[str, Exercise] | None:
        """Return the exercises that a coach may name, asked before a file is fetched for her; None for others."""
        return await self.for_coach(user_id, lambda unit, _: unit.exercises.catalogue())

    async def for_coach(self, user_id: int, look: Callable[[Unit, datetime], C]) -> C | None:
        """Return what is seen in a coach's rows before a command of hers is run; None where no coach asks."""
        now = self.clock.now()

        def looked() -> C | None:
            with self.units.read(None) as house:
                account = house.accounts.find(user_id)
                if account is None or account.role != "coach":
                    return None
                return look(house.of(account.coach_id), now)

        return await self.write(looked, Priority.REPLY)

    async def run_due(self, usecase: UseCase[C], command: C, coach_id: int) -> bool:
        """Run `usecase` for something that fell due, in its own transaction; False when it failed."""
        try:
            await self._tried(lambda: self._due(usecase, command, coach_id), Priority.DUE)
        except Exception:
            log.exception("due_failed", extra={"coach_id": coach_id, "usecase": usecase.__name__})
            return False
        self.outbox_wake.set()
        return True

    def _once(self, usecase: UseCase[C], command: C, arrival: Arrival) -> None:
        now = self.clock.now()
        with self.units.open(None) as house:
            if house.inbox.claim(arrival.update_id) is None:
                return
            command = self._looked_up(command, arrival.user_id, house, now)
            person = who(house, arrival, command, now)
            unit = house.of(person.coach_id) if person.coach_id is not None else house
            effects = [*usecase(command, person, unit, now), *noticed(person, unit, now)]
            apply(effects, unit, now)
            house.inbox.done(arrival.update_id, now)

    def _looked_up(self, command: C, user_id: int, house: Unit, now: datetime) -> C:
        """Count a code that opens nothing; of somebody who has tried too many, forget it unread."""
        code = getattr(command, "invite_code", None)
        if not code:
            return command
        if not self.guesses.may_try(user_id, now):
            return cast("C", replace(cast("Any", command), invite_code=None))
        if house.invite_of(code) is None and not house.seconds.knows(code):
            self.guesses.was_wrong(user_id, now)
        return command

    def _due(self, usecase: UseCase[C], command: C, coach_id: int) -> None:
        now = self.clock.now()
        with self.units.open(coach_id) as unit:
            nobody = Person(user_id=0, chat_id=0, coach_id=coach_id, role="clock")
            apply(usecase(command, nobody, unit, now), unit, now)

    def _answer(self, answer: Message, arrival: Arrival, *, settle: bool = True) -> None:
        now = self.clock.now()
        with self.units.open(None) as house:
            account = house.accounts.find(arrival.user_id)
            coach_id = account.coach_id if account else None
            house.outbox.put(
                coach_id,
                Send(arrival.chat_id, replace(answer, silent=True), key=f"reply:{arrival.update_id}"),
                now,
            )
            if settle:
                house.inbox.done(arrival.update_id, now)

    async def _tried(self, work: Callable[[], None], priority: Priority) -> None:
        for wait_s in PASSING_WAITS_S:
            try:
                return await self.write(work, priority)
            except Exception as error:
                if not passing(error):
                    raise
            await asyncio.sleep(wait_s)
        return await self.write(work, priority)

    async def _later(self, arrival: Arrival) -> None:
        self.on_wait(arrival.update_id)
        until = self.clock.now() + LATER
        log.warning("update_waits", extra={"update_id": arrival.update_id})

        def postpone() -> None:
            with self.units.open(None) as house:
                house.inbox.postpone(arrival.update_id, until)

        try:
            await self.write(postpone, Priority.REPLY)
        except Exception:  # noqa: BLE001  (the store is away: the row is still there, and is taken up again)
            await asyncio.sleep(LATER.total_seconds())
        self.inbox_wake.set()

    async def broken(self, arrival: Arrival, where: str, error: BaseException) -> None:
        """Count a bug: try again shortly, or after three tries give the row up and say so."""
        reference = self.ids.word(8)
        facts = {"usecase": where, "update_id": arrival.update_id, "reference": reference}
        log.error("usecase_failed", extra=facts, exc_info=error)
        self.on_wait(arrival.update_id)

        def count() -> None:
            now = self.clock.now()
            with self.units.open(None) as house:
                if house.inbox.count_attempt(arrival.update_id) >= TRIES:
                    house.inbox.fail(arrival.update_id, reference, now)
                    self._say_broken(house, arrival, reference, now)
                else:
                    house.inbox.postpone(arrival.update_id, now + timedelta(seconds=1))

        await self._tried(count, Priority.REPLY)
        self.inbox_wake.set()

    def _say_broken(self, house: Unit, arrival: Arrival, reference: str, now: datetime) -> None:
        account = house.accounts.find(arrival.user_id)
        house.outbox.put(
            account.coach_id if account else None,
            Send(arrival.chat_id, incident(reference), key=f"broken:{arrival.update_id}"),
            now,
        )


def who(house: Unit, arrival: Arrival, command: object, now: datetime) -> Person:
    """Return who is speaking. A stranger with a good code belongs to the coach who gave it.

    A coach's second person is one only where she taps: whatever she says is a stranger's.
    """
    account = house.accounts.find(arrival.user_id)
    if account is not None:
        return Person(
            arrival.user_id,
            arrival.chat_id,
            account.coach_id,
            account.role,
            account.client_id,
            arrival=arrival,
        )
    second = house.seconds.who(arrival.user_id) if getattr(command, "tap", None) is not None else None
    if second is not None:
        return Person(arrival.user_id, arrival.chat_id, second.coach_id, "second", arrival=arrival)
    code = getattr(command, "invite_code", None)
    invite = house.invite_of(code) if code else None
    if invite is not None and invite.open_at(now):
        return Person(
            arrival.user_id, arrival.chat_id, invite.coach_id, "invited", invite_id=invite.id, arrival=arrival
        )
    return Person(arrival.user_id, arrival.chat_id, arrival=arrival)
