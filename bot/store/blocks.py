"""Blocks, their versions, who runs which, and kit."""

import hashlib
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, bindparam, func, insert, select, union_all, update

from bot.store.read_once import read_once
from bot.store.rows import Rows, given, not_by, one, rows_of
from bot.store.tables import assignment, block, block_version, client, kit
from core.loads.equipment import Kit
from core.programme.block import Block


@dataclass(frozen=True, slots=True)
class Assignment:
    """A client on a version of a block."""

    id: int
    client_id: int
    version_id: int
    starts_on: date
    laid_until: date | None


MOST_READ = 64
"""How many blocks a process keeps as they were read. A block is the coach's; nothing of a client is in it."""
_READ: dict[str, Block] = {}
"""By their digest, so that the same content, of whatever version, is the same block."""

_RUNNING = rows_of(Assignment, assignment).where(
    given(assignment.c.coach_id), given(assignment.c.client_id), assignment.c.ended_at.is_(None)
)
_ASSIGNMENT = rows_of(Assignment, assignment).where(given(assignment.c.coach_id), given(assignment.c.id))
_DIGEST = select(block_version.c.sha256).where(given(block_version.c.id), given(block_version.c.coach_id))
_SPEC = select(block_version.c.spec).where(given(block_version.c.id), given(block_version.c.coach_id))
_KITS = (
    select(kit.c.usual, kit.c.spec)
    .where(not_by(kit.c.coach_id) == bindparam("coach_id"), given(kit.c.client_id))
    .order_by(kit.c.place)
)


class Blocks(Rows):
    """Blocks of one coach. A version never changes once it is kept, so each is read once in a transaction."""

    def __init__(self, connection: Connection, coach_id: int) -> None:
        super().__init__(connection, coach_id)
        self._known: dict[int, Block] = {}

    def keep(self, value: Block, now: datetime) -> tuple[int, int]:
        """Keep a block; the same content again is the same version.

        Returns:
            The version's row and its number.
        """
        text = value.model_dump_json()
        digest = hashlib.sha256(text.encode()).hexdigest()
        found = self.connection.execute(
            select(block.c.id).where(block.c.coach_id == self.coach_id, block.c.name == value.name)
        ).scalar()
        if found is None:
            found = self.connection.execute(
                insert(block)
                .values(coach_id=self.coach_id, name=value.name, created_at=now)
                .returning(block.c.id)
            ).scalar_one()
        newest = self.connection.execute(
            select(block_version.c.id, block_version.c.no, block_version.c.sha256)
            .where(block_version.c.block_id == found)
            .order_by(block_version.c.no.desc())
            .limit(1)
        ).first()
        if newest is not None and newest.sha256 == digest:
            return newest.id, newest.no
        number = 1 if newest is None else newest.no + 1
        made = self.connection.execute(
            insert(block_version)
            .values(
                coach_id=self.coach_id,
                block_id=found,
                no=number,
                spec=value.model_dump(mode="json"),
                sha256=digest,
                created_at=now,
            )
            .returning(block_version.c.id)
        )
        return int(made.scalar_one()), number

    def version(self, version_id: int) -> Block:
        """Return what a version says."""
        if version_id in self._known:
            return self._known[version_id]
        asked = {"id": version_id, "coach_id": self.coach_id}
        digest = self.connection.execute(_DIGEST, asked).scalar_one()
        found = _READ.get(digest)
        if found is None:
            found = Block.model_validate(self.connection.execute(_SPEC, asked).scalar_one())
            _READ[digest] = found
            if len(_READ) > MOST_READ:
                _READ.pop(next(iter(_READ)), None)
        self._known[version_id] = found
        return found

    def newest(self) -> list[tuple[int, str, int]]:
        """Return (version row, name, number) of the newest version of each block, by name."""
        top = (
            select(block_version.c.block_id, func.max(block_version.c.no).label("no"))
            .where(block_version.c.coach_id == self.coach_id)
            .group_by(block_version.c.block_id)
            .subquery()
        )
        query = (
            select(block_version.c.id, block.c.name, block_version.c.no)
            .join(block, block.c.id == block_version.c.block_id)
            .join(top, (top.c.block_id == block_version.c.block_id) & (top.c.no == block_version.c.no))
            .where(block_version.c.coach_id == self.coach_id)
            .order_by(block.c.name)
        )
        return [(row.id, row.name, row.no) for row in self.connection.execute(query)]

    def assign(self, client_id: int, version_id: int, starts_on: date, now: datetime) -> int:
        """Put a client on a version; what she ran before ends."""
        self.end(client_id, now)
        made = self.connection.execute(
            insert(assignment)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                version_id=version_id,
                starts_on=starts_on,
                created_at=now,
            )
            .returning(assignment.c.id)
        )
        return int(made.scalar_one())

    def end(self, client_id: int, now: datetime) -> None:
        """End what a client runs."""
        self.connection.execute(
            update(assignment)
            .where(
                assignment.c.coach_id == self.coach_id,
                assignment.c.client_id == client_id,
                assignment.c.ended_at.is_(None),
            )
            .values(ended_at=now)
        )

    @read_once
    def running(self, client_id: int) -> Assignment | None:
        """Return what a client runs now."""
        asked = {"coach_id": self.coach_id, "client_id": client_id}
        return one(Assignment, self.connection.execute(_RUNNING, asked).first())

    def running_all(self) -> dict[int, Assignment]:
        """Return what each client runs now."""
        query = rows_of(Assignment, assignment).where(
            assignment.c.coach_id == self.coach_id, assignment.c.ended_at.is_(None)
        )
        return {row.client_id: Assignment(*row) for row in self.connection.execute(query)}

    @read_once
    def assignment(self, assignment_id: int) -> Assignment:
        """Return one assignment, ended or not.

        Raises:
            LookupError: It is not of this coach.
        """
        asked = {"coach_id": self.coach_id, "id": assignment_id}
        found = one(Assignment, self.connection.execute(_ASSIGNMENT, asked).first())
        if found is None:
            raise LookupError(f"no assignment {assignment_id} here")
        return found

    def laid(self, assignment_id: int, until: date) -> None:
        """Note how far ahead sessions are laid out."""
        self.connection.execute(
            update(assignment).where(assignment.c.id == assignment_id).values(laid_until=until)
        )


def _short(laid: ColumnElement[bool]) -> Select[Any]:
    return (
        select(assignment.c.coach_id, assignment.c.client_id)
        .join(client, client.c.id == assignment.c.client_id)
        .where(assignment.c.ended_at.is_(None), client.c.state == "active", laid)
    )


_SHORT = union_all(
    _short(assignment.c.laid_until.is_(None)), _short(assignment.c.laid_until < bindparam("until"))
)
"""In two parts, each of which is looked up by an index: with an OR all running blocks would be gone through."""


def running_short(connection: Connection, until: date) -> list[tuple[int, int]]:
    """Return (coach, client) of active clients whose sessions are not laid out up to `until`."""
    found = [(row.coach_id, row.client_id) for row in connection.execute(_SHORT, {"until": until})]
    return sorted(found, key=lambda each: each[1])


class Kits(Rows):
    """What clients have to lift, by place."""

    def set_usual(self, client_id: int, value: Kit) -> None:
        """Keep the kit of a place and make that place the usual one."""
        where = (kit.c.coach_id == self.coach_id) & (kit.c.client_id == client_id)
        self.connection.execute(update(kit).where(where).values(usual=False))
        self.keep(client_id, value)
        self.connection.execute(update(kit).where(where, kit.c.place == value.place).values(usual=True))

    def keep(self, client_id: int, value: Kit) -> None:
        """Keep the kit of a place, in the place of what was known there; which place is the usual one stays."""
        spec = value.model_dump(mode="json")
        done = self.connection.execute(
            update(kit)
            .where(kit.c.coach_id == self.coach_id, kit.c.client_id == client_id, kit.c.place == value.place)
            .values(spec=spec)
        )
        if done.rowcount == 0:
            self.connection.execute(
                insert(kit).values(
                    coach_id=self.coach_id, client_id=client_id, place=value.place, spec=spec, usual=False
                )
            )

    @read_once
    def at(self, client_id: int, place: str) -> Kit | None:
        """Return the kit of a place."""
        spec = self.connection.execute(
            select(kit.c.spec).where(
                kit.c.coach_id == self.coach_id, kit.c.client_id == client_id, kit.c.place == place
            )
        ).scalar()
        return None if spec is None else Kit.model_validate(spec)

    @read_once
    def usual(self, client_id: int) -> Kit | None:
        """Return the kit of the usual place."""
        return next((each for usual, each in self._all(client_id) if usual), None)

    @read_once
    def elsewhere(self, client_id: int) -> tuple[Kit, ...]:
        """Return the kit of every other place, by its name."""
        return tuple(each for usual, each in self._all(client_id) if not usual)

    @read_once
    def _all(self, client_id: int) -> tuple[tuple[bool, Kit], ...]:
        """Return the kit of every place, by its name, and whether it is the usual one."""
        found = self.connection.execute(_KITS, {"coach_id": self.coach_id, "client_id": client_id})
        return tuple((row.usual, Kit.model_validate(row.spec)) for row in found)
