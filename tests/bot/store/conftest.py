from collections.abc import Iterator
from contextlib import nullcontext
from pathlib import Path

import pytest
from databases import KINDS


@pytest.fixture(params=KINDS)
def database_url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The same tests on every kind of database."""
    if request.param == "sqlite":
        databases = nullcontext(request.getfixturevalue("sqlite_files").copy(tmp_path / "plimsoll.db"))
    else:
        databases = request.getfixturevalue("postgres").database()
    with databases as url:
        yield url
