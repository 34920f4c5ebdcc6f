"""Whole talks as text: what people do, and every message that comes of it, to whom.

A file holds steps and what they bring. `Ada: text` types, `Ada [Label]` taps, `Ada edits: text` edits what she typed
last and `Ada edits “before”: text` an earlier message, `Cleo opens the link` the last one that was made,
`tick 2026-04-09 07:00` moves the clock (Lisbon's) and does what is due. `Ada keeps [Label] as name` remembers a button
for `Ben taps the old name`. Under a step stand, indented,
the messages it brought: `to Ada:` a new one, `card of Ada:` one that was edited, `moved for Ada:` one that was posted
anew, `alert now to Marit:` what the coach is told, `told before:` what she has heard already. Buttons stand in
brackets, a row a line. In what is typed after `/kit`, ` / ` ends a line. A line `with: unit=lb` on top
changes how Ada joined.

After a change of words, `PYTHONPATH=.:tests python tests/dialogs/talks.py FILE…` writes files anew. Read them as
the person who gets the messages would, before they are kept.
"""

import re
import sys
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from zoneinfo import ZoneInfo

from dialogs.commands import COMMANDS, PREPARED, SECOND_CODE
from dialogs.due_work import due_work
from dialogs.sent_files import KIND, edited_caption, replied_with, sent, sent_album
from set_up_once import set_up_once
from setting_out import House, Someone, plain_text

from bot.files.block_file import read_block
from bot.messages import EditCard, Effect, Level, Message, Person, Send, Tell, decode
from bot.store.engine import make_engine
from bot.store.migrate import upgrade
from bot.store.units import Units
from bot.usecases import (
    drawn_taps,
    forwarding,
    helping,
    join,
    join_place,
    media,
    physio_summary,
    setting_up,
    talk,
)
from bot.usecases.effects import apply
from bot.usecases.layout import lay_out
from core.loads.equipment import default_kit
from core.units import Unit

BLOCKS = Path(__file__).parents[1] / "blocks"
LISBON = ZoneInfo("Europe/Lisbon")

DAYS = "the days"
JOINING = (
    "Go on",
    "I agree",
    "18–39",
    "Neither",
    "None of these",
    "Nothing",
    "kg",
    "Same clock as Lisbon",
    "07:00",
    DAYS,
    "That is all",
    "60 min",
    "Gym",
    "Both",
    "Alone, with safety arms",
    "3 months or longer",
)


@dataclass
class Talk:
    """Marit coaches Ada, who runs a block from Tuesday 7 April 2026; Orla coaches Ben, next door."""

    units: Units
    unit: str = "kg"
    block: str = "Harbour strength"
    kit: str = "Both"
    days: str = "Mon,Tue,Thu,Fri"
    starts: str = "2026-04-07"
    bare: bool = False
    """Whether nobody is there, for who brings a house back from elsewhere."""
    house: House = field(init=False)
    names: dict[int, str] = field(default_factory=dict)
    message: int = 10_000
    links: int = 0
    messages: dict[int, list[tuple[str, int]]] = field(default_factory=lambda: defaultdict(list))
    tapped_last: dict[int, str] = field(default_factory=dict)
    old: dict[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.house = House(self.units)
        self.names = {900: "Orla", 901: "Ben", 100: "Marit", 1: "Ada", STRANGER: "Somebody"} | NEWCOMERS
        key = (self.unit, self.block, self.kit, self.days, self.starts)
        if not self.bare:
            set_up_once(self.house, key, self.set_up)

    def set_up(self) -> None:
        self.coach("Orla", 900, "Ben", 901)
        self.coach("Marit", 100, "Ada", 1)

    def coach(self, name: str, user_id: int, client: str, client_id: int) -> None:
        coach = self.house.coach(name, user_id)
        person = self.house.invited(coach, client, client_id)
        chosen = {"kg": self.unit, "Both": self.kit}
        if self.kit not in ("Both", "Bar and plates"):
            chosen["Gym"] = "Home"
        if self.kit != "Both":
            chosen["Alone, with safety arms"] = "Alone"
        for label in JOINING:
            for each in self.days.split(",") if label == DAYS else (chosen.get(label, label),):
                person.tap(each)
        file = f"{self.block.lower().replace(' ', '-').replace('_', '-')}.xlsx"
        result = read_block((BLOCKS / file).read_bytes(), file)
        coach.does(setting_up.block_read, setting_up.BlockRead(file, result))
        coach.assign(f"{client}, {self.block.replace('_', ' ')}, {self.starts}")
        coach.tap("Start it")

    def someone(self, name: str) -> Someone:
        return self.house.someone(next(each for each, known in self.names.items() if known == name))

    def take(self, step: str) -> list[str]:
        """Take one step and return the lines it brought."""
        if found := re.fullmatch(r"tick (.+)", step):
            return self.tick(datetime.fromisoformat(found[1]).replace(tzinfo=LISBON))
        self.house.now += timedelta(minutes=1)
        for pattern, act in ACTS:
            found = re.fullmatch(pattern, step)
            if found:
                return self.told(act(self, self.someone(found[1]), *found.groups()[1:]))
        raise ValueError(f"no step: {step}")

    def tapped(self, person: Someone, label: str) -> list[Effect]:
        self.tapped_last[person.user_id] = person.data(label)
        return self.tapped_again(person)

    def tapped_again(self, person: Someone) -> list[Effect]:
        tap = decode(self.tapped_last[person.user_id])
        drawn = drawn_taps.drawn_for(self.units, person.user_id, tap, self.house.now)
        return self.does(person, talk.tapped, talk.Tapped(tap, drawn))

    def kept(self, person: Someone, label: str, name: str) -> list[Effect]:
        self.old[name] = person.data(label)
        return []

    def tapped_old(self, person: Someone, name: str) -> list[Effect]:
        return self.does(person, talk.tapped, talk.Tapped(decode(self.old[name])))

    def typed(self, person: Someone, text: str) -> list[Effect]:
        self.message += 1
        self.messages[person.user_id].append((text, self.message))
        made = None
        if physio_summary.may_agree(text):
            made = physio_summary.made_for_yes(self.units, person.user_id, self.house.now)
        return self.does(person, talk.heard, talk.Heard(text, summary=made), self.message)

    def edited(self, person: Someone, text: str) -> list[Effect]:
        message_id = self.messages[person.user_id][-1][1]
        return self.does(person, talk.heard, talk.Heard(text, edited=True), message_id)

    def edited_before(self, person: Someone, before: str, text: str) -> list[Effect]:
        message_id = dict(self.messages[person.user_id])[before]
        return self.does(person, talk.heard, talk.Heard(text, edited=True), message_id)

    def sent_file(self, person: Someone, name: str) -> list[Effect]:
        self.message += 1
        content = (BLOCKS / name).read_bytes()
        command = setting_up.FileSent(f"file{self.message}", name, len(content))
        with self.units.read(None) as house:
            account = house.accounts.find(person.user_id)
            catalogue = house.of(account.coach_id).exercises.catalogue()
        return self.does(
            person, media.document_sent, setting_up.opened(command, content, catalogue), self.message
        )

    def replied(self, person: Someone, before: str, text: str) -> list[Effect]:
        self.message += 1
        reply_to = self.house.message_with(person.user_id, before)
        return person.does(talk.heard, talk.Heard(text), message_id=self.message, reply_to=reply_to)

    def commanded(self, person: Someone, command: str, text: str | None = None) -> list[Effect]:
        usecase, made = COMMANDS[command]
        asked = made((text or "").strip())
        prepare = PREPARED.get(type(asked))
        if prepare is not None:
            asked = prepare(self.units, person.user_id, asked, self.house.now)
        if isinstance(asked, physio_summary.SummaryAsked):
            asked = physio_summary.prepared(self.units, person.user_id, asked, self.house.now)
        return self.does(person, usecase, asked)

    def opens_link(self, person: Someone) -> list[Effect]:
        """Open the link that was made last."""
        return self.does(person, join.start, join.Start(f"talkcode{self.links}"))

    def invites(self, person: Someone, name: str | None) -> list[Effect]:
        self.links += 1
        command = setting_up.Invite((name or "").strip(), f"talkcode{self.links}", "plimsoll_story_bot")
        return self.does(person, setting_up.invite, command)

    def opens_second(self, person: Someone) -> list[Effect]:
        """Open the link that was made for a second person."""
        return self.does(person, join.start, join.Start(SECOND_CODE))

    def shares_place(self, person: Someone, zone: str | None) -> list[Effect]:
        return self.does(person, join_place.place_shared, join_place.PlaceShared(zone))

    def blocked(self, person: Someone, what: str) -> list[Effect]:
        return self.does(person, forwarding.reached, forwarding.Reached(reachable=what == "unblocks"))

    def helped(self, person: Someone) -> list[Effect]:
        return self.does(person, helping.help_asked, helping.Help())

    def poll(self, person: Someone) -> list[Effect]:
        return self.does(person, helping.cannot_use, helping.CannotUse())

    def has(self, person: Someone, kit: str) -> list[Effect]:
        coach = self.coach_of(person)
        client = self.house.client_of(coach, person)
        with self.units.open(coach.coach_id) as unit:
            found = default_kit(kit, Unit(client.unit))
            unit.kits.set_usual(client.id, found)
        return []

    def coach_of(self, person: Someone) -> Someone:
        return self.house.someone(COACHES[person.user_id])

    def does(
        self, person: Someone, usecase: Any, command: object, message_id: int | None = None
    ) -> list[Effect]:
        """Have a person do something; what is told to the coach is what was really queued for her."""
        return person.does(usecase, command, message_id=message_id)

    def tick(self, instant: datetime) -> list[str]:
        self.house.now = instant.astimezone(self.house.now.tzinfo)
        for client_id, coach_id in COACHES.items():
            client = self.house.client_of(self.house.someone(coach_id), self.house.someone(client_id))
            with self.units.open(self.house.someone(coach_id).coach_id) as unit:
                lay_out(client.id, unit, self.house.now)
        lines: list[str] = []
        for coach_id, usecase, command in due_work(self.units, self.house.now):
            with self.units.open(coach_id) as unit:
                found = usecase(command, Person(0, 0, coach_id, "clock"), unit, self.house.now)
                apply(found, unit, self.house.now)
            self.house.show(found, 0)
            if coach_id == self.house.someone(100).coach_id:
                lines += self.told(found)
        return lines

    def told(self, effects: list[Effect]) -> list[str]:
        lines: list[str] = []
        for effect in effects:
            match effect:
                case Send():
                    lines += block(f"to {self.names[effect.chat_id]}:", effect.message)
                case EditCard():
                    kind = "moved for" if effect.moved else "card of"
                    lines += block(f"{kind} {self.names[effect.chat_id]}:", effect.message)
                case Tell() if effect.level is Level.DIGEST:
                    lines.append(f"    digest: {plain_text(effect.message).splitlines()[0]}")
                case Tell() if (told := self.house.alert_of(effect)) is not None:
                    lines += block(f"alert {effect.level.name.lower()} to Marit:", told)
                case Tell():
                    lines.append(f"    told before: {plain_text(effect.message).splitlines()[0]}")
        return lines


ACTS: tuple[tuple[str, Callable[..., list[Effect]]], ...] = (
    (r"(\w+): /invite( .+)?", Talk.invites),
    (r"(\w+): /(start|stop)", Talk.commanded),
    (r"(\w+) opens the link", Talk.opens_link),
    (r"(\w+) opens the link for a second person", Talk.opens_second),
    (r"(\w+): /(second)( .+)?", Talk.commanded),
    (r"(\w+) shares a place(?: in (\S+))?", Talk.shares_place),
    (r"(\w+) \[(.+)\]", Talk.tapped),
    (r"(\w+) taps that again", Talk.tapped_again),
    (r"(\w+) keeps \[(.+)\] as (\w+)", Talk.kept),
    (r"(\w+) taps the old (\w+)", Talk.tapped_old),
    (r"(\w+) edits “(.+)”: (.+)", Talk.edited_before),
    (r"(\w+) edits: (.+)", Talk.edited),
    (r"(\w+) sends an album of (\d) photos(: .+)?", sent_album),
    (rf"(\w+) sends a ({KIND})(: .+)?", sent),
    (r"(\w+) changes what stands under it: (.*)", edited_caption),
    (rf"(\w+) replies to “(.+)” with a ({KIND})(: .+)?", replied_with),
    (r"(\w+) sends the file (\S+)", Talk.sent_file),
    (r"(\w+) (blocks|unblocks) the bot", Talk.blocked),
    (r"(\w+) asks for help", Talk.helped),
    (r"(\w+) sends a poll", Talk.poll),
    (r"(\w+) has (bodyweight|dumbbells|both) at hand", Talk.has),
    (r"(\w+) replies to “(.+)”: (.+)", Talk.replied),
    (r"(\w+): /(roster|client|preview|invites|today|week|settings|prep|clip|change)( .+)?", Talk.commanded),
    (r"(\w+): /(exercises|cues|cue|assign|limits|kit|mydata|forget|ill|away|back)( .+)?", Talk.commanded),
    (r"(\w+): /(records|progress)( .+)?", Talk.commanded),
    (r"(\w+): /(blocks|season|holiday|event|report|logfile|why)( .+)?", Talk.commanded),
    (r"(\w+): /(limit|refer|referrals|summary|remind|contract)( .+)?", Talk.commanded),
    (r"(\w+): /(order|orders|raises|pause|resume|end)( .+)?", Talk.commanded),
    (r"(\w+): /(plan|checkin|other|goals|goal|rules)( .+)?", Talk.commanded),
    (r"(\w+): /(tell|video|phrase|note|office|absent)( .+)?", Talk.commanded),
    (r"(\w+): (.+)", Talk.typed),
)
COACHES = {1: 100, 901: 900}
STRANGER = 555
NEWCOMERS = {7: "Cleo", 8: "Newphone", 9: "Lena"}
"""People without a coach yet, who may open a link."""


def block(head: str, message: Message) -> list[str]:
    lines = [f"    {head}"]
    lines += [f"        {line}".rstrip() for line in plain_text(message).splitlines()]
    if message.media_kind:
        lines.append(f"        <{message.media_kind}>")
    for row in message.rows:
        lines.append("        " + " ".join(f"[{button.label}]" for button in row))
    return lines


def steps_of(text: str) -> list[str]:
    """The steps of a talk and what is said about them, without what they bring."""
    return [line for line in text.splitlines() if line and not line.startswith(" ")]


def played(text: str, units: Units) -> str:
    """Play a talk's steps and return the whole talk as text. `client: lb` on top gives Ada pounds."""
    steps = steps_of(text)
    heads = [step for step in steps if step.startswith("with: ")]
    settings = dict(pair.split("=") for head in heads for pair in head.removeprefix("with: ").split())
    talk_ = Talk(units, **settings)
    lines: list[str] = []
    for step in steps:
        lines.append(step)
        if not step.startswith(("#", "with: ")):
            lines += [*talk_.take(step), ""]
    return "\n".join(lines).rstrip() + "\n"


def rewritten(path: Path, units: Units) -> None:
    """Write a talk anew, with the messages that its steps bring now; to be read before it is kept."""
    path.write_text(played(path.read_text("utf-8"), units), "utf-8")


if __name__ == "__main__":
    for name in sys.argv[1:]:
        with TemporaryDirectory() as folder:
            engine = make_engine(f"sqlite:///{folder}/talk.db")
            upgrade(engine)
            rewritten(Path(name), Units(engine))
            engine.dispose()
