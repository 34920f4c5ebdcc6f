"""People who talk with the use-cases of joining and setting up: what they type and tap, and what they then see."""

import html
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from typing import Any

from sqlalchemy import select

from bot.messages import Arrival, Cancel, EditCard, Effect, Message, Send, Tell, decode, encode
from bot.outbound.policy import Done
from bot.outbound.settlement import settle
from bot.store.outbox import SENDS, message_of
from bot.store.outbox_row import COLUMNS, row_of
from bot.store.tables import outbox
from bot.store.units import Unit, Units
from bot.usecases import join, setting_up, silence, talk
from bot.usecases.effects import apply
from bot.usecases.runner import who
from core.programme.block import Block, Day, Line
from core.programme.prescription import Dose, Load, Prescription, Span

NOW = datetime(2026, 4, 6, 16, 40, tzinfo=UTC)
"""A Monday; 17:40 in Lisbon."""

MESSAGES = 500_000
"""Numbers of messages that the program sent begin here."""

ALL_WEEKS = frozenset({1, 2, 3, 4})


def prescription(exercise: str, order: str = "A", load: Load | None = None) -> Prescription:
    dose = Dose(sets=3, reps=Span(low=8, high=8), load=load)
    return Prescription(order=order, exercise=exercise, dose=dose)


def block_of(name: str = "Harbour strength", days: Sequence[str] = ("Lower", "Upper")) -> Block:
    """A block with a barbell squat and a dumbbell hinge each day."""
    asked = (
        prescription("back-squat", "A", Load.of(60)),
        prescription("romanian-deadlift-dumbbell", "B", Load.of(16)),
    )
    lines = tuple(Line(weeks=ALL_WEEKS, prescription=each) for each in asked)
    return Block(name=name, weeks=4, days=tuple(Day(key=day.lower(), name=day, lines=lines) for day in days))


def plain_text(message: Message) -> str:
    return html.unescape(re.sub(r"<[^>]+>", "", message.html))


def labels(message: Message) -> list[str]:
    return [button.label for row in message.rows for button in row]


@dataclass
class House:
    """Everybody, over one database."""

    units: Units
    now: datetime = NOW
    updates: int = 0
    tells: list[Tell] = field(default_factory=list)
    sends: list[Send] = field(default_factory=list)
    cancelled: list[int] = field(default_factory=list)
    people: dict[int, "Someone"] = field(default_factory=dict)
    read_until: int = 0
    alerts: list[Message] = field(default_factory=list)

    def show(self, effects: Sequence[Effect], user_id: int) -> None:
        """Show everybody what comes to them; a coach reads the alerts that were queued for her."""
        for effect in effects:
            self.someone(getattr(effect, "chat_id", user_id)).shown(effect)
        with self.units.read(None) as unit:
            rows = unit.connection.execute(
                select(outbox.c.id, outbox.c.chat_id, outbox.c.key, outbox.c.body)
                .where(outbox.c.id > self.read_until)
                .order_by(outbox.c.id)
            ).all()
        self.alerts = []
        for row in rows:
            self.read_until = row.id
            if "alert:" in row.key:
                message = message_of(row.body)
                self.alerts.append(message)
                self.someone(row.chat_id).screen[row.key.partition(":")[2]] = message

    def was_told(self, effect: Tell) -> bool:
        """Whether the coach was sent this matter in the last step."""
        return self.alert_of(effect) is not None

    def alert_of(self, effect: Tell) -> Message | None:
        """What the coach was sent of this matter in the last step, with her buttons."""
        return next((each for each in self.alerts if each.html == effect.message.html), None)

    def delivered(self) -> None:
        """All that is queued arrives: each message as a message of its own."""
        with self.units.open(None) as house:
            rows = house.connection.execute(select(*COLUMNS).where(outbox.c.state == "queued")).all()
            for row in map(row_of, rows):
                claimed = house.outbox.claim(row.id, "test", self.now)
                if claimed is not None:
                    settle(Done(MESSAGES + row.id), claimed, house, self.now)

    def message_with(self, user_id: int, text: str) -> int:
        """The message in somebody's chat that says a text, the newest."""
        self.delivered()
        with self.units.read(None) as house:
            rows = house.connection.execute(
                select(outbox.c.message_id, outbox.c.body)
                .where(outbox.c.chat_id == user_id, outbox.c.state == "sent", outbox.c.op.in_(SENDS))
                .order_by(outbox.c.id.desc())
            ).all()
        return next(row.message_id for row in rows if text in plain_text(message_of(row.body)))

    def coach(self, name: str, user_id: int, zone: str = "Europe/Lisbon") -> "Someone":
        """A coach whose account is bound."""
        with self.units.open(None) as house:
            coach_id = house.coaches.add(name, zone, self.now)
            code = f"coachcode{user_id}"
            house.of(coach_id).invites.add(code, "coach", None, self.now + timedelta(days=14), self.now)
        coach = self.someone(user_id)
        coach.start(code)
        coach.coach_id = coach_id
        return coach

    def someone(self, user_id: int) -> "Someone":
        return self.people.setdefault(user_id, Someone(self, user_id))

    def invited(self, coach: "Someone", name: str, user_id: int) -> "Someone":
        """Somebody who has opened the link that her coach made for her."""
        code = f"code{user_id}x{self.updates}"
        coach.does(setting_up.invite, setting_up.Invite(name, code, "plimsoll_story_bot"))
        client = self.someone(user_id)
        client.start(code)
        return client

    def reading(self, coach: "Someone", look: Callable[[Unit], Any]) -> Any:
        with self.units.open(coach.coach_id) as unit:
            return look(unit)

    def client_of(self, coach: "Someone", client: "Someone") -> Any:
        def look(unit: Unit) -> Any:
            account = unit.accounts.find(client.user_id)
            assert account is not None
            return unit.clients.get(account.client_id)

        return self.reading(coach, look)


@dataclass
class Someone:
    """A person with a phone: sees cards and messages, newest last."""

    house: House
    user_id: int
    coach_id: int | None = None
    screen: dict[str, Message] = field(default_factory=dict)

    @property
    def last(self) -> Message:
        return list(self.screen.values())[-1]

    @property
    def sees(self) -> str:
        return plain_text(self.last)

    @property
    def buttons(self) -> list[str]:
        return labels(self.last)

    def start(self, code: str | None = None) -> None:
        self.does(join.start, join.Start(code))

    def stop(self) -> None:
        self.does(join.stop, join.Stop())

    def type(self, text: str) -> None:
        self.does(talk.heard, talk.Heard(text))

    def assign(self, text: str = "") -> None:
        self.does(setting_up.assign, setting_up.Assign(text))

    def data(self, label: str) -> str:
        """What a button of the newest message that has it would send."""
        for message in reversed(self.screen.values()):
            for row in message.rows:
                for button in row:
                    if button.label == label and button.data is not None:
                        return button.data
        raise LookupError(f"no button {label}: {self.buttons}")

    def tap(self, label: str) -> None:
        self.tap_data(self.data(label))

    def tap_data(self, data: str) -> None:
        self.does(talk.tapped, talk.Tapped(decode(data)))

    def forged(self, label: str, **changes: Any) -> str:
        tap = decode(self.data(label))
        assert tap is not None
        return encode(replace(tap, **changes))

    def does(
        self,
        usecase: Callable[..., Sequence[Effect]],
        command: object,
        message_id: int | None = None,
        reply_to: int | None = None,
    ) -> list[Effect]:
        """Run a use-case in one transaction, as this person, and show everybody what comes of it."""
        house = self.house
        house.updates += 1
        arrival = Arrival(
            house.updates,
            self.user_id,
            self.user_id,
            message_id=message_id or house.updates,
            reply_to=reply_to,
        )
        with house.units.open(None) as unit:
            person = who(unit, arrival, command, house.now)
            tenant = unit.of(person.coach_id) if person.coach_id is not None else unit
            effects = [
                *usecase(command, person, tenant, house.now),
                *silence.noticed(person, tenant, house.now),
            ]
            apply(effects, tenant, house.now)
        keys = [effect.key for effect in effects if isinstance(effect, Send)]
        assert len(keys) == len(set(keys))
        house.show(effects, self.user_id)
        return effects

    def shown(self, effect: Effect) -> None:
        match effect:
            case Send():
                self.house.sends.append(effect)
                self.screen[effect.card or effect.key] = effect.message
            case EditCard():
                # Shown last, as a person who follows a card looks at it.
                self.screen.pop(effect.card, None)
                self.screen[effect.card] = effect.message
            case Tell():
                self.house.tells.append(effect)
            case Cancel():
                self.house.cancelled.append(effect.client_id)
