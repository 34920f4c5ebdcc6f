"""Invitations: single-use, expiring, kept only as a hash."""

import hashlib
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, insert, select, update

from bot.store.read_once import read_once
from bot.store.rows import Rows, one, rows_of
from bot.store.tables import invite


def code_hash(code: str) -> str:
    """Return what is kept of a code. The code is long and random, so a plain hash cannot be turned back."""
    return hashlib.sha256(code.strip().lower().encode()).hexdigest()


@dataclass(frozen=True, slots=True)
class Invite:
    """An invitation as kept."""

    id: int
    coach_id: int
    kind: str
    name: str | None
    prefill: dict[str, Any]
    expires_at: datetime
    used_at: datetime | None
    revoked_at: datetime | None

    def open_at(self, now: datetime) -> bool:
        """Return whether it can still be used."""
        return self.used_at is None and self.revoked_at is None and now < self.expires_at


def find_invite(connection: Connection, code: str) -> Invite | None:
    """Return the invitation of a code, whoever's it is: it is what tells the tenant."""
    query = rows_of(Invite, invite).where(invite.c.code_hash == code_hash(code))
    return one(Invite, connection.execute(query).first())


class Invites(Rows):
    """Invitations of one coach."""

    def add(self, code: str, kind: str, name: str | None, expires_at: datetime, now: datetime) -> int:
        """Keep an invitation by the hash of its code."""
        done = self.connection.execute(
            insert(invite)
            .values(
                coach_id=self.coach_id,
                code_hash=code_hash(code),
                kind=kind,
                name=name,
                prefill={},
                created_at=now,
                expires_at=expires_at,
            )
            .returning(invite.c.id)
        )
        return int(done.scalar_one())

    def use(self, invite_id: int, now: datetime) -> bool:
        """Use it up; False when somebody was faster."""
        done = self.connection.execute(
            update(invite)
            .where(
                invite.c.id == invite_id,
                invite.c.coach_id == self.coach_id,
                invite.c.used_at.is_(None),
                invite.c.revoked_at.is_(None),
                invite.c.expires_at > now,
            )
            .values(used_at=now)
        )
        return done.rowcount == 1

    def belongs_to(self, invite_id: int, client_id: int) -> None:
        """Say whose invitation it was, so that it can be erased with her."""
        self.connection.execute(
            update(invite)
            .where(invite.c.id == invite_id, invite.c.coach_id == self.coach_id)
            .values(client_id=client_id)
        )

    def open_ones(self, now: datetime) -> list[Invite]:
        """Return invitations that can still be used, oldest first."""
        query = (
            rows_of(Invite, invite)
            .where(
                invite.c.coach_id == self.coach_id,
                invite.c.used_at.is_(None),
                invite.c.revoked_at.is_(None),
                invite.c.expires_at > now,
            )
            .order_by(invite.c.id)
        )
        return [Invite(*row) for row in self.connection.execute(query)]

    def unused(self) -> list[Invite]:
        """Return a client's invitations that nobody has used, whether they still can be or not, oldest first."""
        query = (
            rows_of(Invite, invite)
            .where(invite.c.coach_id == self.coach_id, invite.c.used_at.is_(None), invite.c.kind == "client")
            .order_by(invite.c.id)
        )
        return [Invite(*row) for row in self.connection.execute(query)]

    @read_once
    def of_client(self, client_id: int) -> list[Invite]:
        """Return the invitations by which a client came, oldest first."""
        query = (
            rows_of(Invite, invite)
            .where(invite.c.coach_id == self.coach_id, invite.c.client_id == client_id)
            .order_by(invite.c.id)
        )
        return [Invite(*row) for row in self.connection.execute(query)]

    def note(self, invite_id: int, prefill: dict[str, Any]) -> None:
        """Keep what the coach knows beforehand of somebody who has not joined yet."""
        self.connection.execute(
            update(invite)
            .where(invite.c.id == invite_id, invite.c.coach_id == self.coach_id)
            .values(prefill=prefill)
        )

    def revoke(self, invite_id: int, now: datetime) -> None:
        """Make an invitation useless."""
        self.connection.execute(
            update(invite)
            .where(invite.c.id == invite_id, invite.c.coach_id == self.coach_id)
            .values(revoked_at=now)
        )

    def coach_is_bound(self) -> bool:
        """Return whether the coach has used her own code."""
        query = select(invite.c.id).where(
            invite.c.coach_id == self.coach_id, invite.c.kind == "coach", invite.c.used_at.is_not(None)
        )
        return self.connection.execute(query.limit(1)).first() is not None
