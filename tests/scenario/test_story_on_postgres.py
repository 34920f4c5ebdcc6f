"""The story leaves the same messages on PostgreSQL as on SQLite, byte for byte."""

from pathlib import Path

from databases import HAS_POSTGRES, PostgresServer

from bot.assembly.stage import staged
from bot.assembly.story import play_script, read_people, read_script

FOLDER = Path(__file__).parents[2] / "demo_scenario"


async def said_on(url: str) -> str:
    people, script = read_people(FOLDER), read_script(FOLDER)
    async with staged(FOLDER, people, url) as stage:
        await play_script(stage, script, lambda _done, _whole, _at: None)
        return stage.network.jsonl()


if HAS_POSTGRES:

    async def test_the_story_says_the_same_on_both_databases(
        tmp_path: Path, postgres: PostgresServer
    ) -> None:
        with postgres.database() as url:
            on_postgres = await said_on(url)
        on_sqlite = await said_on(f"sqlite:///{tmp_path / 'story.db'}")

        assert len(on_sqlite) > 200_000
        assert on_postgres == on_sqlite
