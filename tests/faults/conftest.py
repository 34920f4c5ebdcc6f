import shutil
from pathlib import Path

import pytest
from faults.crew import ADA, BEN, go_on, open_house, street, two_crews

from bot.store.engine import make_engine
from bot.store.units import Units


@pytest.fixture(scope="module")
def joined(sqlite_files, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database in which both clients wait for their first session."""
    path = tmp_path_factory.mktemp("joined") / "joined.db"
    engine = make_engine(sqlite_files.copy(path))
    two_crews(Units(engine))
    engine.dispose()
    return path


@pytest.fixture
async def place(joined: Path, tmp_path: Path):
    """A street on which both clients have the card of their first session."""
    shutil.copyfile(joined, tmp_path / "plimsoll.db")
    async with street(f"sqlite:///{tmp_path / 'plimsoll.db'}") as found:
        async with open_house(found) as house:
            await house.tick.run()
            await go_on(found, house)
        assert all("Lower A" in found.phone(each).last.text for each in (ADA, BEN))
        yield found
