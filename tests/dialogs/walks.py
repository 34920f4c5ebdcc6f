"""Walks over a talk: people who tap, type, send and wait at random, the same way each time for the same seed."""

import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from random import Random
from typing import Any

from dialogs import walk_pools as pools
from dialogs.due_work import due_work
from dialogs.sent_files import KINDS
from dialogs.talks import COMMANDS, LISBON, STRANGER, Talk
from dialogs.walk_checks import frozen_chats, words_of, wrong_in, wrong_in_store
from setting_out import Someone
from sqlalchemy import select

from bot.messages import EditCard, Effect, Message, Person, Send, decode
from bot.outbound.policy import Done
from bot.outbound.settlement import settle
from bot.render.errors import apology
from bot.store.outbox_row import COLUMNS, row_of
from bot.store.tables import outbox
from bot.store.units import Units
from bot.usecases import forwarding, helping, layout, media, talk
from bot.usecases.effects import apply
from core.errors import DomainError

SHORT_REPLY = re.compile(r"^/(log|pain|sore|skip|undo)(\s|$)")
MESSAGES = 500_000
THEIRS = (
    words_of((1, 100), "Adalind", "Marit", "marmot", "walnut"),
    words_of((901, 900), "Bencivenni", "Orla", "quokka", "pumice"),
    words_of((STRANGER,), "gecko"),
)
"""Names of each side, and the words that nobody but its people types."""
WORD = {1: "marmot", 100: "walnut", 901: "quokka", 900: "pumice", STRANGER: "gecko"}
NAMES = {1: "Adalind", 901: "Bencivenni"}
"""Names that stand in no example of ours."""
COACHES = {100: "Adalind", 900: "Bencivenni"}
"""Whom each coach's words are about."""


class Wrong(AssertionError):
    """Something that must hold did not."""


@dataclass
class Walk:
    """One walk; `journal` says what was done, so that it can be read."""

    units: Units
    seed: int
    block: str = "Harbour strength"
    people: tuple[int, ...] = (1, 1, 1, 1, 901, 901, 901, 901, 100, 900, STRANGER)
    talk: Talk = field(init=False)
    chance: Random = field(init=False)
    journal: list[str] = field(default_factory=list)
    fresh: list[tuple[int, Message, str | None]] = field(default_factory=list)
    old: dict[int, list[str]] = field(default_factory=lambda: defaultdict(list))
    arrived: dict[int, list[int]] = field(default_factory=lambda: defaultdict(list))

    def __post_init__(self) -> None:
        self.chance = Random(self.seed)  # noqa: S311  (the same walk each time)
        self.talk = Talk(self.units, block=self.block)
        house = self.talk.house
        for client_id, coach_id in ((1, 100), (901, 900)):
            kept = house.client_of(house.someone(coach_id), house.someone(client_id))
            with self.units.open(house.someone(coach_id).coach_id) as unit:
                unit.clients.change(kept.id, name=NAMES[client_id])
        for each in house.people.values():
            each.screen.clear()
        show = house.show

        def shown(effects: Sequence[Effect], user_id: int) -> None:
            show(effects, user_id)
            for effect in effects:
                if isinstance(effect, Send | EditCard):
                    self.fresh.append((effect.chat_id, effect.message, effect.card))
            coach = {1: 100, 901: 900}.get(user_id, user_id)
            for alert in house.alerts:
                self.fresh.append((coach, alert, None))

        house.show = shown  # type: ignore[method-assign]

    def go(self, steps: int) -> None:
        """Take steps; each is followed by every check.

        Raises:
            Wrong: With the journal, where something does not hold or a use-case fails.
        """
        for _ in range(steps):
            self.fresh.clear()
            with self.units.read(None) as house:
                frozen = frozen_chats(house.connection)
            try:
                self.step()
                self._deliver()
            except Exception as error:
                raise Wrong(self._story(f"{type(error).__name__}: {error}")) from error
            self._check(frozen)

    def step(self) -> None:
        if self.chance.random() < 0.12:
            self._time_passes()
            return
        self.talk.house.now += timedelta(minutes=self.chance.choice((0, 1, 1, 2, 5, 20)))
        person = self.talk.house.someone(self.chance.choice(self.people))
        acts = (
            self._taps,
            self._taps_old,
            self._types,
            self._commands,
            self._sends,
            self._edits,
            self._replies,
        )
        act = self.chance.choices(acts, weights=(48, 4, 34, 8, 3, 5, 3))[0]
        try:
            act(person)
        except DomainError as error:
            self.fresh.append((person.user_id, apology(error), None))

    def _note(self, person: Someone, what: str) -> None:
        name = self.talk.names[person.user_id]
        self.journal.append(f"{self.talk.house.now:%m-%d %H:%M} {name} {what}")

    def _taps(self, person: Someone) -> None:
        recent = list(person.screen.values())[-self.chance.choice((1, 1, 2, 4)) :]
        buttons = [each for one in recent for row in one.rows for each in row if each.data is not None]
        if not buttons:
            self._types(person)
            return
        button = self.chance.choice(buttons)
        self._note(person, f"[{button.label}]")
        self._tapped(person, button.data or "")

    def _taps_old(self, person: Someone) -> None:
        if self.old[person.user_id]:
            data = self.chance.choice(self.old[person.user_id])
            self._note(person, f"taps the old {data}")
            self._tapped(person, data)

    def _tapped(self, person: Someone, data: str) -> None:
        tap = decode(data)
        if tap is not None and tap.action == "cg":
            return  # a picture is drawn: slow, and no other than the one of its own tests
        person.does(talk.tapped, talk.Tapped(tap))

    def _types(self, person: Someone) -> None:
        is_coach = person.user_id in COACHES
        pool = pools.coach_words(self.chance) if is_coach else pools.client_words(self.chance)
        text = pool.format(word=WORD[person.user_id], client=COACHES.get(person.user_id, ""))
        self._said(person, text)

    def _said(self, person: Someone, text: str, reply_to: int | None = None) -> None:
        self._note(person, f": {text}" + (f" (to {reply_to})" if reply_to else ""))
        self.talk.message += 1
        self.talk.messages[person.user_id].append((text, self.talk.message))
        usecase: Any = talk.heard
        command: object = talk.Heard(text)
        if text.startswith("/") and not SHORT_REPLY.match(text):
            name, _, rest = text[1:].partition(" ")
            usecase, made = COMMANDS.get(name, (helping.help_asked, lambda _: helping.Help()))
            command = made(rest.strip())
        person.does(usecase, command, message_id=self.talk.message, reply_to=reply_to)

    def _commands(self, person: Someone) -> None:
        is_coach = person.user_id in COACHES
        text = self.chance.choice(pools.COACH_COMMANDS if is_coach else pools.CLIENT_COMMANDS)
        self._said(
            person, text.format(word=WORD[person.user_id], client=COACHES.get(person.user_id, "Adalind"))
        )

    def _sends(self, person: Someone) -> None:
        kind = self.chance.choice(sorted(KINDS))
        caption = self.chance.choice(("", "", f"{WORD[person.user_id]} form check", "80 8 8 8", "knee 3"))
        self._note(person, f"sends a {kind}: {caption}")
        self.talk.message += 1
        self.talk.messages[person.user_id].append((caption, self.talk.message))
        command = forwarding.MediaSent(KINDS[kind], f"file{self.talk.message}", caption)
        person.does(media.media_sent, command, message_id=self.talk.message)

    def _edits(self, person: Someone) -> None:
        said = self.talk.messages[person.user_id]
        if not said:
            return
        message_id = said[-self.chance.randint(1, min(4, len(said)))][1]
        text = pools.client_words(self.chance).format(word=WORD[person.user_id], client="")
        self._note(person, f"edits {message_id}: {text}")
        person.does(talk.heard, talk.Heard(text, edited=True), message_id=message_id)

    def _replies(self, person: Someone) -> None:
        messages = self.arrived[person.user_id]
        if messages:
            is_coach = person.user_id in COACHES
            pool = pools.coach_words(self.chance) if is_coach else pools.client_words(self.chance)
            text = pool.format(word=WORD[person.user_id], client=COACHES.get(person.user_id, ""))
            self._said(person, text, self.chance.choice(messages[-8:]))

    def _time_passes(self) -> None:
        house = self.talk.house
        local = house.now.astimezone(LISBON)
        hour = self.chance.choice((7, 7, 8, 12, 18, 21, 23, 3))
        at = local.replace(hour=hour, minute=self.chance.choice((0, 0, 5)), second=0, microsecond=0)
        days = self.chance.choice((0, 0, 0, 0, 1, 1, 2, 9)) if self.chance.random() < 0.5 else 0
        at += timedelta(days=days)
        if at <= local:
            at += timedelta(days=1)
        house.now = at.astimezone(house.now.tzinfo)
        self.journal.append(f"{house.now:%m-%d %H:%M} tick")
        self._tick()
        before = len(self.fresh)
        self._tick()
        again = [each for each in self.fresh[before:] if each[2] is None or not each[2].startswith("session")]
        if again:
            raise Wrong(self._story(f"the tick did it twice: {again}"))

    def _tick(self) -> None:
        house, nobody = self.talk.house, 0
        now: datetime = house.now
        with self.units.read(None) as unit:
            short = layout.running_short(unit.connection, (now + timedelta(days=7)).date())
        for coach_id, client_id in short:
            with self.units.open(coach_id) as unit:
                layout.laid_out(layout.LayOut(client_id), Person(0, 0, coach_id, "clock"), unit, now)
        for coach_id, usecase, command in due_work(self.units, now):
            with self.units.open(coach_id) as unit:
                found = usecase(command, Person(0, 0, coach_id, "clock"), unit, now)
                apply(found, unit, now)
            nobody = next(each for each in COACHES if house.someone(each).coach_id == coach_id)
            house.show(found, nobody)

    def _deliver(self) -> None:
        """What is due arrives, so that cards have messages to be edited, and replies something to answer."""
        now = self.talk.house.now
        with self.units.open(None) as house:
            query = select(*COLUMNS).where(outbox.c.state == "queued", outbox.c.due_at <= now)
            for queued in map(row_of, house.connection.execute(query).all()):
                row = house.outbox.claim(queued.id, "test", now)
                if row is None:
                    continue
                settle(Done(MESSAGES + row.id), row, house, now)
                if row.op in ("send", "move"):
                    self.arrived[row.chat_id].append(MESSAGES + row.id)

    def _check(self, frozen: frozenset[int]) -> None:
        wrong: list[str] = []
        for chat_id, message, card in self.fresh:
            wrong += [f"to {chat_id}: {each}" for each in wrong_in(message, chat_id, THEIRS)]
            self.old[chat_id] += [each.data for row in message.rows for each in row if each.data is not None]
            if chat_id in frozen and card is not None and card.startswith("session") and message.rows:
                wrong.append(f"a card comes while the plan is on hold: {message.html}")
        with self.units.read(None) as house:
            wrong += wrong_in_store(house.connection)
        if wrong:
            raise Wrong(self._story("\n".join(wrong)))

    def _story(self, what: str) -> str:
        return f"seed {self.seed}, block {self.block}\n" + "\n".join(self.journal[-40:]) + f"\n{what}"
