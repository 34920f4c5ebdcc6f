"""Statements are put into words once a process, and not once for each of the thousands of databases of the tests.

SQLAlchemy keeps the words of a statement by the engine and by its dialect. Those of one kind of database are alike, so
that each new engine on SQLite is given the dialect and the words of the first.
"""

from typing import Any

from sqlalchemy import Engine, create_engine
from sqlalchemy.util import LRUCache

MOST = 5_000
"""Statements that are kept; the whole program has about 1,500."""


class SharedWords:
    """Makes engines; those on SQLite share what was once put into words."""

    def __init__(self) -> None:
        first = create_engine("sqlite://")
        first.connect().close()  # what a dialect knows of its library it learns at its first connection
        first.dispose()
        self._dialect = first.dialect
        self._words: Any = LRUCache(MOST)

    def create_engine(self, *args: Any, **kwargs: Any) -> Engine:
        """Stand in for SQLAlchemy's function of this name."""
        engine = create_engine(*args, **kwargs)
        if engine.dialect.name == "sqlite":
            engine.dialect = engine.pool._dialect = self._dialect
            engine._compiled_cache = self._words
        return engine
