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
class Kept:
    """A house as it once was: its database, and what everybody had seen."""

    file: Path
    house: House


_KEPT: dict[Hashable, Kept] = {}
_FOLDER: list[Path] = []


def set_up_once(house: House, key: Hashable, set_up: Callable[[], None]) -> None:
    """Set a house up, or have it be as one that was set up the same way before. PostgreSQL is always set up anew."""
    if house.units.engine.dialect.name != "sqlite":
        set_up()
        return
    kept = _KEPT.get(key)
    if kept is None:
        set_up()
        _KEPT[key] = keep(house)
        return
    bring_back(house, kept)


def keep(house: House) -> Kept:
    """Keep a house on SQLite as it is now."""
    if not _FOLDER:
        _FOLDER.append(Path(mkdtemp(prefix="plimsoll-set-up-")))
    file = _FOLDER[0] / f"{len(list(_FOLDER[0].iterdir()))}.db"
    target = open_file(file)
    with_raw(house.units.engine, lambda raw: raw.backup(target))
    target.close()
    return Kept(file, deepcopy(house, {id(house.units): None}))


def bring_back(house: House, kept: Kept) -> None:
    """Have a house on SQLite be as another one was; whoever is in it stays the same, as she was there."""
    source = open_file(kept.file)
    with_raw(house.units.engine, source.backup)
    source.close()
    again = deepcopy(kept.house)
    again.units, here = house.units, house.people
    for name, value in vars(again).items():
        setattr(house, name, value)
    for user_id, person in again.people.items():
        vars(here.setdefault(user_id, person)).update(vars(person), house=house)
    house.people = {user_id: here[user_id] for user_id in again.people}


def with_raw(engine: Engine, act: Callable[[Connection], Any]) -> None:
    """Do something with the driver's own connection."""
    pooled = engine.raw_connection()
    act(pooled.driver_connection)  # type: ignore[arg-type]
    pooled.close()
