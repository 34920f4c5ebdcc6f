"""What a play of the story leaves behind."""

from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import create_engine, select

from bot.assembly.stage import staged
from bot.assembly.story import People, play_script, read_people, read_script
from bot.localchat.records import Recorded
from bot.store.outbox import SENDS
from bot.store.tables import outbox

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "demo_scenario"


@dataclass(frozen=True)
class Played:
    """What a play by a process of its own left behind, and what it calls the folder where that lies."""

    said: bytes
    printed: str
    folder: Path
    called: Path


@dataclass(frozen=True)
class Story:
    """What was said, and what the program kept of what it sent, by chat and message; commands by whom they are for."""

    people: People
    said: bytes
    records: tuple[Recorded, ...]
    unasked: dict[tuple[int, int], bool]
    lanes: dict[tuple[int, int], str]
    commands: dict[str, set[str]]

    def of(self, chat: int) -> list[Recorded]:
        return [each for each in self.records if each.chat_id == chat]


async def play(url: str) -> Story:
    people, script = read_people(FOLDER), read_script(FOLDER)
    async with staged(FOLDER, people, url) as stage:
        await play_script(stage, script, lambda _done, _whole, _at: None)
        shown = {
            scope: {str(each["command"]) for each in found}
            for (scope, _), found in stage.network.commands.items()
        }
        said, records = stage.network.jsonl().encode(), tuple(stage.network.record)
    engine = create_engine(url)
    with engine.connect() as connection:
        columns = (outbox.c.chat_id, outbox.c.message_id, outbox.c.unasked, outbox.c.lane)
        rows = connection.execute(select(*columns).where(outbox.c.op.in_(SENDS))).all()
    engine.dispose()
    unasked = {(row.chat_id, row.message_id): row.unasked for row in rows}
    lanes = {(row.chat_id, row.message_id): row.lane for row in rows}
    return Story(people, said, records, unasked, lanes, shown)
