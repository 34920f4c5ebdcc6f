"""Whole talks as text: what people do, and every message that comes of it, to whom.

A file holds steps and what they bring. `Ada: text` types, `Ada [Label]` taps, `Ada edits: text` edits what she typed
last, `tick 2026-04-09 07:00` moves the clock (Lisbon's) and does what is due. Under a step stand, indented, the
messages it brought: `to Ada:` a new one, `card of Ada:` one that was edited, `moved for Ada:` one that was posted
anew, `alert now to Marit:` what the coach is told. Buttons stand in brackets.
"""

import re
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from setting_out import House, Someone, labels, plain_text

from bot.files.from_xlsx import read_block
from bot.messages import Arrival, EditCard, Effect, Level, Message, Person, Send, Tell, decode
from bot.store.sessions import due_anywhere
from bot.store.units import Units
from bot.usecases import setting_up, talk
from bot.usecases.runner import who
from bot.usecases.sending import SendSession, send_session

BLOCKS = Path(__file__).parents[2] / "demo_scenario" / "blocks"
LISBON = ZoneInfo("Europe/Lisbon")

JOINING = (
    "Go on",
    "I agree",
    "18–39",
    "None of these",
    "kg",
    "Same clock as Lisbon",
    "07:00",
    "Mon",
    "Tue",
    "Thu",
    "Fri",
    "That is all",
    "Both",
    "Alone, with safety arms",
    "3 months or longer",
)


@dataclass
class Talk:
    """Marit coaches Ada, who runs a block from Tuesday 7 April 2026; Orla coaches Ben, next door."""

    units: Units
    house: House = field(init=False)
    names: dict[int, str] = field(default_factory=dict)
    typed: dict[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.house = House(self.units)
        self.coach("Orla", 900, "Ben", 901)
        self.coach("Marit", 100, "Ada", 1)

    def coach(self, name: str, user_id: int, client: str, client_id: int) -> None:
        coach = self.house.coach(name, user_id)
        person = self.house.invited(coach, client, client_id)
        for label in JOINING:
            person.tap(label)
        content = (BLOCKS / "harbour-strength.xlsx").read_bytes()
        result = read_block(content, "harbour-strength.xlsx")
        coach.does(setting_up.block_read, setting_up.BlockRead("harbour-strength.xlsx", result))
        coach.assign(f"{client}, Harbour strength, 2026-04-07")
        coach.tap("Start it")
        self.names |= {user_id: name, client_id: client}

    def someone(self, name: str) -> Someone:
        return self.house.someone(next(each for each, known in self.names.items() if known == name))

    def take(self, step: str) -> list[str]:
        """Take one step and return the lines it brought."""
        if found := re.fullmatch(r"tick (.+)", step):
            return self.tick(datetime.fromisoformat(found[1]).replace(tzinfo=LISBON))
        self.house.now += timedelta(minutes=1)
        if found := re.fullmatch(r"(\w+) \[(.+)\]", step):
            person = self.someone(found[1])
            return self.told(person.does(talk.tapped, talk.Tapped(decode(person.data(found[2])))))
        if found := re.fullmatch(r"(\w+) edits: (.+)", step):
            return self.hears(found[1], found[2], edited=True)
        found = re.fullmatch(r"(\w+): (.+)", step)
        if found is None:
            raise ValueError(f"no step: {step}")
        return self.hears(found[1], found[2], edited=False)

    def hears(self, name: str, text: str, *, edited: bool) -> list[str]:
        house, person = self.house, self.someone(name)
        house.updates += 1
        if not edited:
            self.typed[name] = house.updates
        arrival = Arrival(house.updates, person.user_id, person.user_id, message_id=self.typed[name])
        with self.units.open(None) as unit:
            command = talk.Heard(text, edited=edited)
            speaker = who(unit, arrival, command, house.now)
            tenant = unit.of(speaker.coach_id) if speaker.coach_id is not None else unit
            effects = list(talk.heard(command, speaker, tenant, house.now))
        return self.told(effects, shown=True)

    def tick(self, instant: datetime) -> list[str]:
        self.house.now = instant.astimezone(self.house.now.tzinfo)
        with self.units.read(None) as unit:
            due = due_anywhere(unit.connection, self.house.now, 10)
        effects: list[Effect] = []
        for coach_id, session_id in due:
            with self.units.open(coach_id) as unit:
                nobody = Person(0, 0, coach_id, "clock")
                effects += send_session(SendSession(session_id), nobody, unit, self.house.now)
        return self.told(
            [each for each in effects if getattr(each, "chat_id", 1) in (1, 100)], shown=True, all_of=effects
        )

    def told(
        self, effects: list[Effect], *, shown: bool = False, all_of: list[Effect] | None = None
    ) -> list[str]:
        lines: list[str] = []
        for effect in all_of or effects if shown else []:
            self.house.someone(getattr(effect, "chat_id", 0))._shown(effect)
        for effect in effects:
            match effect:
                case Send():
                    lines += block(f"to {self.names[effect.chat_id]}:", effect.message)
                case EditCard():
                    kind = "moved for" if effect.moved else "card of"
                    lines += block(f"{kind} {self.names[effect.chat_id]}:", effect.message)
                case Tell() if effect.level is Level.DIGEST:
                    lines.append(f"    digest: {plain_text(effect.message).splitlines()[0]}")
                case Tell():
                    lines += block(f"alert {effect.level.name.lower()} to Marit:", effect.message)
        return lines


def block(head: str, message: Message) -> list[str]:
    lines = [f"    {head}"]
    lines += [f"        {line}".rstrip() for line in plain_text(message).splitlines()]
    if found := labels(message):
        lines.append("        " + " ".join(f"[{label}]" for label in found))
    return lines


def played(path: Path, units: Units) -> str:
    """Play a talk's steps and return the whole talk as text."""
    talk_ = Talk(units)
    lines: list[str] = []
    for line in path.read_text("utf-8").splitlines():
        if line.startswith(("#", "-")) or (line and not line.startswith(" ")):
            lines.append(line)
            if not line.startswith(("#", "-")):
                lines += talk_.take(line)
                lines.append("")
    return "\n".join(lines).rstrip() + "\n"
