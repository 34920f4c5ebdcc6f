from collections.abc import Iterator
from contextlib import nullcontext
from pathlib import Path

import pytest
from databases import KINDS
from sqlalchemy import Engine

from bot.store.engine import make_engine


@pytest.fixture(params=KINDS)
def empty(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Engine]:
    """A database without any table, on every kind of database."""
    if request.param == "sqlite":
        databases = nullcontext(f"sqlite:///{tmp_path / 'a folder with 100%' / 'empty.db'}")
        (tmp_path / "a folder with 100%").mkdir()
    else:
        databases = request.getfixturevalue("postgres").database(migrated=False)
    with databases as url:
        engine = make_engine(url)
        yield engine
        engine.dispose()
