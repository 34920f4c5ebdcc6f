"""Two coaches side by side: no command and no button of one shows, changes or sends anything of the other's.

Every command that there is goes through its own handler, typed by Orla and by her client, with the names of what is
Marit's. Every kind of prompt of Marit's people is tapped with forged data; and every prompt of Orla's people that is
open is tapped with numbers of Marit's rows.
"""

import html
import re
from collections.abc import Iterator
from types import SimpleNamespace
from typing import Any

import pytest
from databases import SqliteFiles
from dialogs.talks import Talk
from sqlalchemy import event, insert, select, update
from telegram import Update

from bot.inbound.app import COMMANDS
from bot.inbound.doors import Doors
from bot.messages import Action, Arrival, EditCard, Effect, Send, Tap, Tell
from bot.render.errors import apology
from bot.store.engine import make_engine
from bot.store.outbox_row import COLUMNS, message_of, row_of
from bot.store.tables import block, block_version, client, metadata, outbox, prompt
from bot.store.units import Units
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
"""By command, the lines that would reach over. A command without a row here fails."""

OPENING: dict[int, tuple[str, ...]] = {
    ORLA: (
        "/roster",
        "/client Ben",
        "/invites",
        "/assign",
        "/preview",
        "/checkin",
        "/settings",
        "/cue hip thrust: low",
        "/cues",
        "/limits Ben: no overhead",
        "/kit Ben",
        "/prep Ben: hips",
        "/change Ben, 2",
        "/tell all: hello",
        "/video Ben",
        "/absent 3-10 May",
        "/note Harbour strength week 1",
    ),
    BEN: ("/today", "/plan", "/settings", "/goals squat", "/away 3-10 May", "/ill", "/other run", "/forget"),
}
"""What Orla and her client ask, so that prompts of theirs are open."""
RISKY = (Action.PICK, Action.TOGGLE, Action.TAKE_UP, Action.CANCEL, Action.EASE, Action.DONE, Action.JUMP)
"""What takes a number with it, and is tried with a number of each table."""
TRIED = ("client", "session", "item", "alert", "cue", "phrase")
"""Tables of Marit's whose newest number is tried."""


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
        for step in (
            "Marit: /cue Ada, hip thrust: Zanzibar cue",
            "Marit: /phrase knee: Zanzibar phrase",
            "Marit: /goal Ada Zanzibar goal",
            "Marit: /note Harbour strength week 1: Zanzibar note",
            "Marit: /video Ada hip thrust from the Zanzibar side",
            "Marit: /absent 3-10 May, cover Zanzibar Jo",
            "tick 2026-04-07 07:00",
            "Ada: Zanzibar words",
            "Ada: pain left knee 5",
        ):
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

    def rows_of(self, coach_id: int) -> dict[str, list[Any]]:
        with self.units.read(None) as unit:
            return rows_in(unit.connection, coach_id)


def rows_in(connection: Any, coach_id: int) -> dict[str, list[Any]]:
    """All that is one coach's, by table."""
    return {
        table.name: connection.execute(
            select(table).where(table.c.coach_id == coach_id).order_by(*table.primary_key)
        ).all()
        for table in metadata.sorted_tables
        if "coach_id" in table.c
    }


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


@pytest.mark.parametrize("name", [name for name, _ in COMMANDS])
async def test_a_command_with_the_names_of_another_coachs_reaches_nothing(walk: Walk, name: str) -> None:
    before = walk.rows_of(walk.marit)

    for user_id in (ORLA, BEN):
        for line in (*ANYTHING, *LINES.get(name, ())):
            await walk.types(user_id, f"/{name} {line}".strip())
            chats, words = walk.brought()

            assert not chats & {MARIT, ADA}, line
            assert HERS not in words, (line, words)
            assert BLOCK in line or BLOCK not in words, (line, words)
    assert walk.rows_of(walk.marit) == before


def test_what_is_marits_is_seen_by_herself(walk: Walk) -> None:
    walk.talk.take(f"Marit: /client {PART}")

    assert walk.brought()[0] == {MARIT}
    assert HERS in walk.house.someone(MARIT).sees


def forged(walk: Walk, user_id: int, tap: Tap, before: dict[str, list[Any]]) -> tuple[list[Effect], bool]:
    """What a tap would bring, and whether it would change a row of Marit's; nothing of it is kept."""
    units, now = walk.units, walk.house.now
    wrote: list[str] = []

    def notes(_: Any, __: Any, statement: str, *___: Any) -> None:
        if not statement.lstrip().upper().startswith(("SELECT", "PRAGMA")):
            wrote.append(statement)

    event.listen(units.engine, "before_cursor_execute", notes)
    connection = units.engine.connect()
    transaction = connection.begin()
    try:
        unit: Any = type_of_unit(units)(connection, None)
        command = talk.Tapped(tap)
        person = who(unit, Arrival(90_000, user_id, user_id), command, now)
        mine = unit.of(person.coach_id)
        try:
            effects = list(talk.tapped(command, person, mine, now))
        except (DomainError, LookupError):
            effects = []
        changed = bool(wrote) and rows_in(connection, walk.marit) != before
    finally:
        transaction.rollback()
        connection.close()
        event.remove(units.engine, "before_cursor_execute", notes)
    return effects, changed


def type_of_unit(units: Units) -> Any:
    with units.read(None) as unit:
        return type(unit)


def leaks(effects: list[Effect]) -> Iterator[str]:
    for effect in effects:
        if isinstance(effect, Send | EditCard) and effect.chat_id in (MARIT, ADA):
            yield f"sent to {effect.chat_id}"
        if isinstance(effect, Send | EditCard | Tell):
            words = text_of(effect.message)
            if HERS in words or BLOCK in words:
                yield words


@pytest.mark.parametrize("kind", sorted(talk.KINDS))
def test_a_prompt_of_another_coachs_people_takes_no_tap(walk: Walk, kind: str) -> None:
    with walk.units.open(None) as unit:
        made = [
            unit.connection.execute(
                insert(prompt)
                .values(
                    coach_id=walk.marit,
                    user_id=owner,
                    chat_id=owner,
                    client_id=None,
                    kind=kind,
                    subject=1,
                    facts={},
                    opened_at=walk.house.now,
                )
                .returning(prompt.c.id)
            ).scalar_one()
            for owner in (MARIT, ADA)
        ]

    before = walk.rows_of(walk.marit)
    for user_id in (ORLA, BEN):
        for prompt_id in made:
            for action in (Action.PICK, Action.CONFIRM, Action.CANCEL, Action.UNDO, Action.RELEASE):
                tap = Tap(prompt_id, 0, action, 1)

                assert forged(walk, user_id, tap, before) == ([], False), tap


@pytest.mark.parametrize("user_id", [ORLA, BEN])
async def test_ones_own_buttons_with_numbers_of_anothers_rows_reach_nothing(walk: Walk, user_id: int) -> None:
    for line in OPENING[user_id]:
        await walk.types(user_id, line)
    assert not walk.brought()[0] & {MARIT, ADA}
    rows = walk.rows_of(walk.marit)
    numbers = sorted({rows[name][-1].id for name in TRIED if rows[name]})
    with walk.units.read(None) as unit:
        query = select(prompt.c.id, prompt.c.revision, prompt.c.kind).where(
            prompt.c.user_id == user_id, prompt.c.closed_at.is_(None)
        )
        own = unit.connection.execute(query).all()
    assert len({each.kind for each in own}) >= len(OPENING[user_id]) // 2

    before = walk.rows_of(walk.marit)
    for each in own:
        for action in Action:
            for number in numbers if action in RISKY else numbers[-1:]:
                tap = Tap(each.id, each.revision, action, number)
                effects, changed = forged(walk, user_id, tap, before)

                assert not changed, (each.kind, tap)
                assert list(leaks(effects)) == [], (each.kind, tap)
