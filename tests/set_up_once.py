"""People who have been set up once are not set up again: the database as it was then, and what everybody saw."""

from collections.abc import Callable, Hashable
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from sqlite3 import Connection
from sqlite3 import connect as open_file
from tempfile import mkdtemp
from typing import Any

from setting_out import House
from sqlalchemy import Engine


@dataclass(frozen=True)
class _Kept:
    file: Path
    house: House


_KEPT: dict[Hashable, _Kept] = {}
_FOLDER: list[Path] = []


def set_up_once(house: House, key: Hashable, set_up: Callable[[], None]) -> None:
    """Set a house up, or have it be as one that was set up the same way before. PostgreSQL is always set up anew."""
    engine = house.units.engine
    if engine.dialect.name != "sqlite":
        set_up()
        return
    kept = _KEPT.get(key)
    if kept is None:
        set_up()
        _KEPT[key] = _keep(house, engine)
        return
    source = open_file(kept.file)
    with_raw(engine, source.backup)
    source.close()
    again = deepcopy(kept.house)
    again.units = house.units
    for name, value in vars(again).items():
        setattr(house, name, value)
    for person in house.people.values():
        person.house = house


def _keep(house: House, engine: Engine) -> _Kept:
    if not _FOLDER:
        _FOLDER.append(Path(mkdtemp(prefix="plimsoll-set-up-")))
    file = _FOLDER[0] / f"{len(_KEPT)}.db"
    target = open_file(file)
    with_raw(engine, lambda raw: raw.backup(target))
    target.close()
    return _Kept(file, deepcopy(house, {id(house.units): None}))


def with_raw(engine: Engine, act: Callable[[Connection], Any]) -> None:
    """Do something with the driver's own connection."""
    pooled = engine.raw_connection()
    act(pooled.driver_connection)  # type: ignore[arg-type]
    pooled.close()
