"""Two coaches side by side: no command and no button of one shows, changes or sends anything of the other's.

Every command that there is goes through its own handler, typed by Orla and by her client, with the names of what is
Marit's. Every kind of prompt of Marit's people is tapped with forged data; and every kind that Orla's people are asked
is tapped, once it is open, with every action and the number that the newest row of each of Marit's tables has.

Triggers note each write to a row of Marit's, so that nobody has to read them all again after each step.
"""

import html
import re
from collections.abc import Iterator, Sequence
from types import SimpleNamespace
from typing import Any

import pytest
from databases import SqliteFiles
from dialogs.next_door import ELSEWHERE, MARITS, OPENINGS
from dialogs.talks import Talk
from set_up_once import with_raw
from sqlalchemy import Connection, insert, select, text, update
from telegram import Update

from bot.inbound.app import COMMANDS
from bot.inbound.doors import Doors
from bot.messages import Action, Arrival, EditCard, Effect, Send, Tap, Tell
from bot.render.command_names import COMMAND_NAMES
from bot.render.errors import apology
from bot.store.engine import make_engine
from bot.store.outbox_row import COLUMNS, message_of, row_of
from bot.store.tables import block, block_version, client, metadata, outbox, prompt
from bot.store.units import Unit, Units
from bot.usecases import talk
from bot.usecases.runner import who
from core.errors import DomainError

MARIT, ADA, ORLA, BEN = 100, 1, 900, 901
HERS = "Zanzibar"
"""Every name and every word of Marit's and her client's begins so; Orla's people type less of it."""
PART, BLOCK = "Zanzi", "Quarry strength"
"""What is typed of it; and the name of Marit's block, which is typed whole where a block is asked for."""

ANYTHING = ("", PART, f"{PART}: {PART}", f"{PART}, hip thrust: low", f"{PART} hip thrust 90")
"""What every command is tried with."""
LINES: dict[str, tuple[str, ...]] = {
    "start": (),
    "stop": (),
    "help": (),
    "invite": (f"again {PART}", f"{PART}: kg, 7:00"),
    "assign": (f"{PART}, Harbour strength, 2026-05-04", f"Ben, {BLOCK}, 2026-05-04"),
    "today": (),
    "week": (),
    "plan": (),
    "checkin": (f"{PART}: off", f"off {PART}"),
    "other": ("run 30 min",),
    "goals": (f"{PART} squat",),
    "settings": ("hour 6:30",),
    "progress": (f"{PART}, bench press",),
    "records": (f"{PART}, hip thrust",),
    "kit": (f"{PART}: dumbbells 2-30 by 2",),
    "ill": ("head cold",),
    "away": ("3-10 May", f"{PART} 3-10 May"),
    "back": (),
    "mydata": (),
    "forget": (f"{PART}",),
    "roster": (),
    "client": (f"{PART}",),
    "preview": (),
    "invites": (),
    "template": (),
    "exercises": (f"remove {PART}",),
    "cue": (f"{PART}, hip thrust: chest low",),
    "cues": (f"remove {PART}, hip thrust", "remove hip thrust"),
    "block": (BLOCK, f"{BLOCK} as csv"),
    "change": (f"{PART}, 2",),
    "lastloads": (),
    "prep": (f"{PART}: hips", f"{PART}: stop"),
    "clip": ("ankle rock stop",),
    "limits": (f"{PART}: no overhead",),
    "goal": (f"{PART} squat 100 kg",),
    "second": (PART,),
    "limit": (f"{PART}: deadlift at most 60 kg, doctor, review 10 May",),
    "refer": (f"{PART} physiotherapist: left knee since March",),
    "referrals": (),
    "summary": (PART,),
    "remind": (f"{PART} 3 weeks: ask about the hip",),
    "contract": (f"{PART} 12 sessions",),
    "blocks": (BLOCK,),
    "season": (PART,),
    "holiday": (f"{PART} 3-10 May",),
    "event": (f"{PART}: 10k row 14 June",),
    "report": (PART,),
    "logfile": (PART,),
    "why": (f"{PART}, hip thrust",),
    "rules": (f"for {PART}: pain drop 30%",),
    "order": (f"{PART}: hip thrust 90 from next week", f"{PART}: rest Friday"),
    "orders": (PART,),
    "raises": (PART,),
    "pause": (f"{PART} until 3 May",),
    "resume": (PART,),
    "end": (PART,),
    "tell": (f"{PART}: hello", f"block {BLOCK}: hello", "all: hello", "quiet: hello", "in pain: hello"),
    "video": (f"{PART} hip thrust set 3 from the side",),
    "phrase": ("knee", "remove knee"),
    "note": (f"{BLOCK} week 1", f"{BLOCK} week 1: hello"),
    "office": ("9-18 mon-fri", "off"),
    "absent": ("3-10 May, cover Jo", "over"),
}
"""By command, the lines that would reach over; one that takes no words has none. A command without a row here fails."""

SAID = (f"{PART}: hip thrust 90", f"{PART}", "undo order", "yes", f"{PART}: hello")
"""What is typed without a command."""
NUMBER = 7777
"""The number of the newest row in each of Marit's tables."""
TENANT = [table for table in metadata.sorted_tables if "coach_id" in table.c]


# ruff: noqa: S608  (names of our own tables)
def renumbered(raw: Any, marit: int) -> None:
    """Give the newest row of each of Marit's tables one number, wherever it is referred to."""
    raw.execute("PRAGMA foreign_keys=OFF")
    for table in TENANT:
        if "id" not in table.c:
            continue
        newest = raw.execute(f"SELECT max(id) FROM {table.name} WHERE coach_id = ?", (marit,)).fetchone()[0]
        if newest is None:
            continue
        raw.execute(f"UPDATE {table.name} SET id = ? WHERE id = ?", (NUMBER, newest))
        for child in metadata.sorted_tables:
            for key in child.foreign_keys:
                if key.column is table.c.id:
                    name = key.parent.name
                    raw.execute(f"UPDATE {child.name} SET {name} = ? WHERE {name} = ?", (NUMBER, newest))
    assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
    raw.execute("PRAGMA foreign_keys=ON")


def noted(raw: Any, marit: int) -> None:
    """Have every write to a row of Marit's be noted, in the same transaction."""
    raw.execute("CREATE TABLE touched (name TEXT)")
    for table in TENANT:
        for what, rows in (("INSERT", ("NEW",)), ("UPDATE", ("OLD", "NEW")), ("DELETE", ("OLD",))):
            hers = " OR ".join(f"{row}.coach_id = {marit}" for row in rows)
            raw.execute(
                f"CREATE TRIGGER {table.name}_{what} AFTER {what} ON {table.name} WHEN {hers}"
                f" BEGIN INSERT INTO touched VALUES ('{what} {table.name}'); END"
            )


SILENT = frozenset({"blocks", "progress", "referrals", "report", "why"})
"""Kinds whose buttons bring only what was drawn before, or take a number of their own rows alone."""


class Walk:
    """Marit's side and Orla's, and what came of a step since one last looked."""

    def __init__(self, units: Units) -> None:
        self.talk, self.units = Talk(units), units
        self.house = self.talk.house
        self.clock = SimpleNamespace(now=lambda: self.house.now)
        self.refused: list[str] = []
        self.seen = 0
        self.update = 50_000
        self.marit, self.orla = (self.house.someone(each).coach_id or 0 for each in (MARIT, ORLA))
        self._name_what_is_hers()

    def _name_what_is_hers(self) -> None:
        for step in MARITS:
            self.talk.take(step)
        with self.units.open(None) as unit:
            hers = client.c.coach_id == self.marit
            unit.connection.execute(update(client).where(hers).values(name=f"{HERS} Quist"))
            unit.connection.execute(update(block).where(block.c.coach_id == self.marit).values(name=BLOCK))
            found = select(block_version.c.id, block_version.c.spec).where(
                block_version.c.coach_id == self.marit
            )
            for row in unit.connection.execute(found).all():
                renamed = {**row.spec, "name": BLOCK}
                mine = block_version.c.id == row.id
                unit.connection.execute(update(block_version).where(mine).values(spec=renamed))
        with_raw(self.units.engine, lambda raw: renumbered(raw, self.marit))
        with_raw(self.units.engine, lambda raw: noted(raw, self.marit))

    async def run(self, usecase: Any, command: Any, arrival: Arrival, prepare: Any = None) -> None:
        """Stand in for the runner: prepare, one transaction, and a mistake in words."""
        if prepare is not None:
            command = await prepare(command)
        try:
            self.house.someone(arrival.user_id).does(usecase, command, message_id=arrival.message_id)
        except DomainError as error:
            self.refused.append(apology(error).html)

    async def for_coach(self, user_id: int, look: Any) -> Any:
        with self.units.read(None) as unit:
            found = unit.accounts.find(user_id)
            if found is None or found.role != "coach":
                return None
            return look(unit.of(found.coach_id), self.house.now)

    async def catalogue_of(self, user_id: int) -> Any:
        return await self.for_coach(user_id, lambda unit, _: unit.exercises.catalogue())

    async def types(self, user_id: int, text: str) -> None:
        """Type a command, through the handler that it has."""
        self.update += 1
        command, *args = text.split()
        person = {"id": user_id, "is_bot": False, "first_name": "Somebody"}
        message = {
            "message_id": self.update,
            "date": int(self.house.now.timestamp()),
            "chat": {"id": user_id, "type": "private"},
            "from": person,
            "text": text,
        }
        came = Update.de_json({"update_id": self.update, "message": message}, None)
        ids: Any = SimpleNamespace(word=lambda size: f"walkcode{self.update}"[:size])
        runner: Any = self
        context: Any = SimpleNamespace(
            args=args,
            bot_data={"doors": Doors(runner=runner, ids=ids)},
            bot=SimpleNamespace(username="plimsoll"),
        )
        await dict(COMMANDS)[command.removeprefix("/")](came, context)

    def brought(self) -> tuple[set[int], str]:
        """To whom something was queued since one last looked, and all of its words, of refusals too."""
        with self.units.read(None) as unit:
            query = select(*COLUMNS).where(outbox.c.id > self.seen).order_by(outbox.c.id)
            rows = [row_of(each) for each in unit.connection.execute(query)]
        self.seen = max((each.id for each in rows), default=self.seen)
        words = [text_of(each.body) for each in rows if each.body is not None] + self.refused
        self.refused = []
        return {each.chat_id for each in rows}, "\n".join(words)

    def touched(self) -> list[str]:
        """What was written to rows of Marit's since one last looked."""
        with self.units.open(None) as unit:
            found = touched_in(unit.connection)
            unit.connection.execute(text("DELETE FROM touched"))
        return found


def touched_in(connection: Connection) -> list[str]:
    return list(connection.scalars(text("SELECT name FROM touched")))


def text_of(message: Any) -> str:
    found = message if hasattr(message, "html") else message_of(message)
    labels = [button.label for row in found.rows for button in row]
    return html.unescape(re.sub(r"<[^>]+>", "", found.html)) + " " + " ".join(labels)


@pytest.fixture(scope="module")
def walk(sqlite_files: SqliteFiles, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Walk]:
    """One house for all: what Orla's people do in it is theirs, and what is Marit's must stay as it was."""
    engine = make_engine(sqlite_files.copy(tmp_path_factory.mktemp("walk") / "two.db"))
    found = Walk(Units(engine))
    found.brought()
    yield found
    engine.dispose()


def test_every_command_has_its_row_in_the_table() -> None:
    assert set(LINES) == {name for name, _ in COMMANDS}


def lines_of(name: str, user_id: int) -> Sequence[str]:
    """What somebody types after a command; where it is not for her, one line is enough."""
    known = COMMAND_NAMES.get(name)
    is_hers = known is None or (known.coach if user_id == ORLA else known.client) is not None
    lines = (*ANYTHING, *LINES[name]) if LINES[name] else ANYTHING[:2]
    return lines if is_hers else lines[-1:]


def assert_nothing_of_hers(walk: Walk, line: str) -> None:
    chats, words = walk.brought()
    assert not chats & {MARIT, ADA}, line
    assert HERS not in words, (line, words)
    assert BLOCK in line or BLOCK not in words, (line, words)
    assert walk.touched() == [], line


# Who has stopped is told nothing at all, so that this comes last.
@pytest.mark.parametrize("name", sorted((name for name, _ in COMMANDS), key="stop".__eq__))
async def test_a_command_with_the_names_of_another_coachs_reaches_nothing(walk: Walk, name: str) -> None:
    walk.brought()
    walk.touched()
    for user_id in (ORLA, BEN):
        for line in lines_of(name, user_id):
            await walk.types(user_id, f"/{name} {line}".strip())
            assert_nothing_of_hers(walk, line)


def test_words_without_a_command_reach_nothing(walk: Walk) -> None:
    with walk.units.read(None) as unit:
        replied_to = unit.connection.scalars(
            select(outbox.c.message_id).where(outbox.c.chat_id == MARIT, outbox.c.message_id.is_not(None))
        ).first()
    walk.brought()
    walk.touched()
    for line in SAID:
        for reply_to in (None, replied_to):
            walk.house.someone(ORLA).does(talk.heard, talk.Heard(line), reply_to=reply_to)
            assert_nothing_of_hers(walk, line)


def test_what_is_marits_is_seen_by_herself(walk: Walk) -> None:
    walk.talk.take(f"Marit: /client {PART}")

    assert walk.brought()[0] == {MARIT}
    assert HERS in walk.house.someone(MARIT).sees


def forged(walk: Walk, user_id: int, taps: Sequence[Tap]) -> Iterator[tuple[Tap, list[Effect], list[str]]]:
    """What each tap would bring, and what it would write to rows of Marit's; nothing of it is kept."""
    now = walk.house.now
    with walk.units.engine.connect() as connection, connection.begin() as transaction:
        unit = Unit(connection, None)
        connection.execute(text("DELETE FROM touched"))
        person = who(unit, Arrival(90_000, user_id, user_id), talk.Tapped(None), now)
        assert person.coach_id == walk.orla
        for tap in taps:
            with connection.begin_nested() as point:
                try:
                    effects = list(talk.tapped(talk.Tapped(tap), person, unit.of(walk.orla), now))
                except (DomainError, LookupError):
                    effects = []
                touched = touched_in(connection)
                point.rollback()
            yield tap, effects, touched
        transaction.rollback()


def leaks(effects: list[Effect]) -> Iterator[str]:
    for effect in effects:
        if isinstance(effect, Send | EditCard) and effect.chat_id in (MARIT, ADA):
            yield f"sent to {effect.chat_id}"
        if isinstance(effect, Send | EditCard | Tell):
            words = text_of(effect.message)
            if HERS in words or BLOCK in words:
                yield words


def test_a_prompt_of_another_coachs_people_takes_no_tap(walk: Walk) -> None:
    common = {"coach_id": walk.marit, "subject": 1, "facts": {}, "opened_at": walk.house.now}
    added = insert(prompt).returning(prompt.c.id)
    with walk.units.open(None) as unit:
        made = [
            unit.connection.scalar(added.values(user_id=owner, chat_id=owner, kind=kind, **common)) or 0
            for kind in sorted(talk.KINDS)
            for owner in (MARIT, ADA)
        ]

    actions = (Action.PICK, Action.CONFIRM, Action.CANCEL, Action.UNDO, Action.RELEASE)
    taps = [Tap(each, 0, action, NUMBER) for each in made for action in actions]
    for user_id in (ORLA, BEN):
        for tap, effects, touched in forged(walk, user_id, taps):
            assert (effects, touched) == ([], []), tap


def test_every_kind_of_button_is_walked() -> None:
    walked = {kind for kind, _ in OPENINGS}
    assert walked | ELSEWHERE == set(talk.KINDS)
    assert not walked & ELSEWHERE


def test_ones_own_buttons_with_numbers_of_anothers_rows_reach_nothing(walk: Walk) -> None:
    answered: set[str] = set()
    for kind, steps in OPENINGS:
        for step in steps:
            walk.talk.take(step) if isinstance(step, str) else step(walk.talk)
        with walk.units.read(None) as unit:
            query = select(prompt.c.id, prompt.c.revision, prompt.c.user_id).where(
                prompt.c.coach_id == walk.orla, prompt.c.kind == kind, prompt.c.closed_at.is_(None)
            )
            own = unit.connection.execute(query.order_by(prompt.c.id.desc())).first()
        assert own is not None, f"nothing of this kind is open: {kind}"

        taps = [Tap(own.id, own.revision, action, NUMBER) for action in Action]
        for tap, effects, touched in forged(walk, own.user_id, taps):
            assert touched == [], (kind, tap)
            assert list(leaks(effects)) == [], (kind, tap)
            answered |= {kind} if effects else set()
    assert answered >= {kind for kind, _ in OPENINGS} - SILENT
