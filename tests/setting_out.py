"""People who talk with the use-cases of joining and setting up: what they type and tap, and what they then see."""

import html
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from typing import Any

from bot.messages import Arrival, Cancel, EditCard, Effect, Message, Send, Tell, decode, encode
from bot.store.units import Unit, Units
from bot.usecases import join, setting_up, talk
from bot.usecases.effects import apply
from bot.usecases.runner import who
from core.programme.block import Block, Day, Line
from core.programme.prescription import Dose, Load, Prescription, Span

NOW = datetime(2026, 4, 6, 16, 40, tzinfo=UTC)
"""A Monday; 17:40 in Lisbon."""

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

    def does(self, usecase: Callable[..., Sequence[Effect]], command: object) -> list[Effect]:
        """Run a use-case in one transaction, as this person, and show everybody what comes of it."""
        house = self.house
        house.updates += 1
        arrival = Arrival(house.updates, self.user_id, self.user_id, message_id=house.updates)
        with house.units.open(None) as unit:
            person = who(unit, arrival, command, house.now)
            tenant = unit.of(person.coach_id) if person.coach_id is not None else unit
            effects = list(usecase(command, person, tenant, house.now))
            apply(effects, tenant, house.now)
        keys = [effect.key for effect in effects if isinstance(effect, Send)]
        assert len(keys) == len(set(keys))
        for effect in effects:
            house.someone(getattr(effect, "chat_id", self.user_id))._shown(effect)
        return effects

    def _shown(self, effect: Effect) -> None:
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
