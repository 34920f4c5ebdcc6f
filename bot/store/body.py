"""Reports about the body: pain, soreness, stop signs."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Select, bindparam, insert, or_, select, update

from bot.store.read_once import read_once
from bot.store.rows import Rows, given, not_by, one, rows_of
from bot.store.tables import body_report
from core.checkin.pain import Felt, PainReport
from core.programme.exercises import Side, Site

AFTER_BIRTH = "after birth"
"""Rule of a report of heaviness, leaking, doming or bleeding in the year after a birth."""


@dataclass(frozen=True, slots=True)
class BodyReport:
    """One report as kept."""

    id: int
    client_id: int
    session_id: int | None
    item_id: int | None
    exercise: str | None
    kind: str
    site: str | None
    side: str | None
    score: int | None
    when_felt: str | None
    sudden: bool
    spreading: bool
    painkiller: bool
    rule: str | None
    local_on: date
    at: datetime
    released_at: datetime | None
    weak: bool
    fever: bool
    answers_to: int | None
    message_id: int | None

    def as_pain(self) -> PainReport:
        """Return the value that rules compute with."""
        return PainReport(
            row_id=self.id,
            site=Site(self.site or ""),
            side=Side(self.side) if self.side else None,
            score=self.score,
            felt=Felt(self.when_felt) if self.when_felt else Felt.DURING,
            on=self.local_on,
            at=self.at,
            exercise=self.exercise,
            sudden=self.sudden,
            spreading=self.spreading,
            painkiller=self.painkiller,
            released_at=self.released_at,
            weak=self.weak,
            fever=self.fever,
            after_birth=self.rule == AFTER_BIRTH,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class NewReport:
    """One report to be kept."""

    kind: str
    local_on: date
    at: datetime
    session_id: int | None = None
    item_id: int | None = None
    exercise: str | None = None
    site: str | None = None
    side: str | None = None
    score: int | None = None
    when_felt: str | None = None
    sudden: bool = False
    spreading: bool = False
    painkiller: bool = False
    weak: bool = False
    fever: bool = False
    answers_to: int | None = None
    rule: str | None = None
    message_id: int | None = None


_SINCE = (
    rows_of(BodyReport, body_report)
    .where(
        not_by(body_report.c.coach_id) == bindparam("coach_id"),
        given(body_report.c.client_id),
        given(body_report.c.kind),
        body_report.c.local_on >= bindparam("first"),
        body_report.c.voided_at.is_(None),
    )
    .order_by(body_report.c.at, body_report.c.id)
)


class Body(Rows):
    """Body reports of one coach's clients: added and voided, never changed."""

    def add(self, client_id: int, report: NewReport) -> int:
        """Keep a report."""
        values = {name: getattr(report, name) for name in NewReport.__dataclass_fields__}
        made = self.connection.execute(
            insert(body_report)
            .values(coach_id=self.coach_id, client_id=client_id, **values)
            .returning(body_report.c.id)
        )
        return int(made.scalar_one())

    def get(self, report_id: int) -> BodyReport:
        """Return one report.

        Raises:
            LookupError: It is not of this coach.
        """
        query = rows_of(BodyReport, body_report).where(
            body_report.c.id == report_id, body_report.c.coach_id == self.coach_id
        )
        found = one(BodyReport, self.connection.execute(query).first())
        if found is None:
            raise LookupError(f"no report {report_id} here")
        return found

    def stands(self, report_id: int) -> bool:
        """Return whether a report was not taken back."""
        query = select(body_report.c.id).where(
            body_report.c.id == report_id,
            body_report.c.coach_id == self.coach_id,
            body_report.c.voided_at.is_(None),
        )
        return self.connection.execute(query).first() is not None

    @read_once
    def since(self, client_id: int, first: date, kind: str = "pain") -> list[BodyReport]:
        """Return standing reports of a kind from a local date on, oldest first."""
        asked = {"coach_id": self.coach_id, "client_id": client_id, "kind": kind, "first": first}
        return [BodyReport(*row) for row in self.connection.execute(_SINCE, asked)]

    @read_once
    def bearing(self, client_id: int, first: date) -> list[BodyReport]:
        """Return pain that decisions must see, oldest first: from a date on, and what may still lock, however old."""
        mine = (body_report.c.client_id == client_id, not_by(body_report.c.coach_id) == self.coach_id)
        return [BodyReport(*row) for row in self.connection.execute(_bearing(first).where(*mine))]

    def bearing_all(self, first: date) -> dict[int, list[BodyReport]]:
        """Return pain that decisions must see of everybody, by client, as `bearing` does for one."""
        found: dict[int, list[BodyReport]] = {}
        everybody = _bearing(first).where(body_report.c.coach_id == self.coach_id)
        for row in self.connection.execute(everybody):
            found.setdefault(row.client_id, []).append(BodyReport(*row))
        return found

    def of_kind(self, client_id: int, kind: str) -> list[int]:
        """Return standing reports of a kind that nobody has released."""
        query = select(body_report.c.id).where(
            not_by(body_report.c.coach_id) == self.coach_id,
            body_report.c.client_id == client_id,
            body_report.c.kind == kind,
            body_report.c.voided_at.is_(None),
            body_report.c.released_at.is_(None),
        )
        return list(self.connection.execute(query).scalars())

    def void(self, report_id: int, by: str, now: datetime) -> None:
        """Take a report back; the row stays."""
        self.connection.execute(
            update(body_report)
            .where(body_report.c.id == report_id, body_report.c.coach_id == self.coach_id)
            .values(voided_at=now, voided_by=by)
        )

    def release(self, client_id: int, now: datetime, kind: str) -> list[int]:
        """Release what a client's reports of a kind hold locked; only for a coach's word."""
        done = self.connection.execute(
            update(body_report)
            .where(
                not_by(body_report.c.coach_id) == self.coach_id,
                body_report.c.client_id == client_id,
                body_report.c.kind == kind,
                body_report.c.released_at.is_(None),
                body_report.c.voided_at.is_(None),
            )
            .values(released_at=now)
            .returning(body_report.c.id)
        )
        return list(done.scalars())

    def is_correction(self, report: BodyReport) -> bool:
        """Return whether a report takes the place of one that the same message had made before it was edited."""
        query = select(body_report.c.id).where(
            not_by(body_report.c.coach_id) == self.coach_id,
            body_report.c.client_id == report.client_id,
            body_report.c.message_id == report.message_id,
            body_report.c.voided_by == "edited",
        )
        return report.message_id is not None and self.connection.execute(query.limit(1)).first() is not None

    def from_message(self, client_id: int, message_id: int) -> list[int]:
        """Return standing reports that a message of the client made."""
        query = select(body_report.c.id).where(
            not_by(body_report.c.coach_id) == self.coach_id,
            body_report.c.client_id == client_id,
            body_report.c.message_id == message_id,
            body_report.c.voided_at.is_(None),
        )
        return list(self.connection.execute(query).scalars())


def _bearing(first: date) -> Select[Any]:
    table = body_report.c
    flags = (table.sudden, table.spreading, table.weak, table.fever)
    dulled = table.painkiller.is_(True) & (table.score.is_(None) | (table.score >= 4))
    locking = table.released_at.is_(None) & or_(
        table.score >= 7, table.rule == AFTER_BIRTH, dulled, *(flag.is_(True) for flag in flags)
    )
    return (
        rows_of(BodyReport, body_report)
        .where(
            table.kind == "pain",
            table.voided_at.is_(None),
            (table.local_on >= first) | locking,
        )
        .order_by(table.at, table.id)
    )
