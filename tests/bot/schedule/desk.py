"""A tick over a database, with a clock that is moved: what falls due, and what went out for it."""

from datetime import datetime
from typing import Any

from bot.clock import Activity, CountedIds, StoryClock, Wake
from bot.schedule.tick import Tick
from bot.store.units import Units
from bot.usecases.runner import Runner
from bot.usecases.writer import Writer


class Desk:
    """A program's tick; `another` is that of a second one over the same rows."""

    def __init__(self, units: Units, start: datetime) -> None:
        self.units, self.clock, self.write = units, StoryClock(start), Writer()
        self.activity = Activity()
        self.tick = self.another()

    def another(self) -> Tick:
        runner = Runner(
            self.units,
            self.write,
            self.clock,
            CountedIds(),
            activity=self.activity,
            inbox_wake=Wake(),
            outbox_wake=Wake(),
        )
        return Tick(self.units, runner)

    def rows(self, query: Any) -> list[tuple[Any, ...]]:
        with self.units.engine.connect() as connection:
            return [tuple(row) for row in connection.execute(query)]

    def do(self, statement: Any) -> None:
        with self.units.engine.begin() as connection:
            connection.execute(statement)
