"""Which version of a block a client runs from when, and the weeks of it that are changed for her alone.

Facts are added: what is taken back stays with the instant at which that was done. So a session that was sent is always
seen with what stood when it was sent, whatever came or went since.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, TypeVar

from sqlalchemy import Connection, Select, insert, select, update

from bot.store.blocks import Assignment, Blocks
from bot.store.presence import holds_nothing
from bot.store.rows import Rows, given, rows_of
from bot.store.tables import assignment, assignment_version, block_version, week_change
from core.checkin.training_log import Session
from core.programme.block import Block
from core.programme.versions import ChangedWeek, Course, Later


@dataclass(frozen=True, slots=True)
class KeptVersion:
    """A version that came after the one a client began with."""

    id: int
    client_id: int
    assignment_id: int
    version_id: int
    from_on: date
    at: datetime
    voided_at: datetime | None


@dataclass(frozen=True, slots=True)
class KeptWeek:
    """A week that is changed for one client."""

    id: int
    client_id: int
    assignment_id: int
    week_no: int
    spec: dict[str, Any]
    at: datetime
    voided_at: datetime | None

    @property
    def value(self) -> ChangedWeek:
        """The week as it is for her."""
        return ChangedWeek.model_validate(self.spec)


Kept = TypeVar("Kept", KeptVersion, KeptWeek)


_VERSIONS = (
    rows_of(KeptVersion, assignment_version)
    .where(given(assignment_version.c.coach_id), given(assignment_version.c.assignment_id))
    .order_by(assignment_version.c.id)
)
_WEEKS = (
    rows_of(KeptWeek, week_change)
    .where(given(week_change.c.coach_id), given(week_change.c.assignment_id))
    .order_by(week_change.c.id)
)


class Versions(Rows):
    """Versions and changed weeks of what one coach's clients run. Read once for an assignment in a transaction."""

    def __init__(self, connection: Connection, coach_id: int, blocks: Blocks) -> None:
        super().__init__(connection, coach_id)
        self._blocks = blocks
        self._known: dict[int, Assignment] = {}
        self._versions: dict[int, list[KeptVersion]] = {}
        self._weeks: dict[int, list[KeptWeek]] = {}

    def course(self, running: Assignment, at: datetime | None = None) -> Course:
        """Return a block as a client runs it.

        Args:
            running: What she runs, or ran.
            at: What stood at this instant; None for what stands now.
        """
        if self._is_plain(running):
            self._versions.setdefault(running.id, [])
            self._weeks.setdefault(running.id, [])
        self._look_up(running.id)
        later = [each for each in self._versions[running.id] if _stood(each, at)]
        return Course(
            starts_on=running.starts_on,
            first=self._blocks.version(running.version_id),
            later=tuple(
                Later(block=self._blocks.version(each.version_id), from_on=each.from_on) for each in later
            ),
            weeks=tuple(each.value for each in self._weeks[running.id] if _stood(each, at)),
        )

    def block_for(self, running: Assignment, on: date) -> Block:
        """Return the block as it is for a client on a date."""
        return self.course(running).block_on(on)

    def block_of(self, session: Session) -> Block:
        """Return the block whose day a session is: of one that was sent what stood when it was sent."""
        if session.assignment_id not in self._known:
            self._known[session.assignment_id] = self._blocks.assignment(session.assignment_id)
        course = self.course(self._known[session.assignment_id], session.sent_at)
        return course.block_for(session.week_no, session.day_key, session.local_on)

    def day_name(self, session: Session) -> str:
        """Return what the coach calls the day of a session."""
        day = self.block_of(session).day(session.day_key)
        return day.name if day is not None else session.day_key

    def read_all(self) -> None:
        """Read what stands for everybody at once, so that no client is asked about alone."""
        query = rows_of(Assignment, assignment).where(assignment.c.coach_id == self.coach_id)
        self._known = {row.id: Assignment(*row) for row in self.connection.execute(query)}
        self._fill(self._known, _of(KeptVersion, self.coach_id), _of(KeptWeek, self.coach_id), {})

    def standing(self, assignment_id: int) -> list[KeptVersion]:
        """Return the versions that stand for an assignment, in the order in which they were decided."""
        self._look_up(assignment_id)
        return [each for each in self._versions[assignment_id] if each.voided_at is None]

    def newest(self, running: Assignment) -> int:
        """Return the version that was decided last for what a client runs."""
        standing = self.standing(running.id)
        return standing[-1].version_id if standing else running.version_id

    def runners(self, version_id: int) -> list[Assignment]:
        """Return what is run now of the block that a version is of, by client, whichever version of it."""
        of = select(block_version.c.block_id).where(
            block_version.c.id == version_id, block_version.c.coach_id == self.coach_id
        )
        query = (
            rows_of(Assignment, assignment)
            .join(block_version, block_version.c.id == assignment.c.version_id)
            .where(
                assignment.c.coach_id == self.coach_id,
                assignment.c.ended_at.is_(None),
                block_version.c.block_id == of.scalar_subquery(),
            )
            .order_by(assignment.c.client_id)
        )
        return [Assignment(*row) for row in self.connection.execute(query)]

    def number(self, version_id: int) -> int:
        """Return the number of a version, from 1."""
        query = select(block_version.c.no).where(
            block_version.c.id == version_id, block_version.c.coach_id == self.coach_id
        )
        return int(self.connection.execute(query).scalar_one())

    def apply(self, running: Assignment, version_id: int, from_on: date, now: datetime) -> int:
        """Have a version hold for what a client runs, from a date on; return the row."""
        made = self.connection.execute(
            insert(assignment_version)
            .values(
                coach_id=self.coach_id,
                client_id=running.client_id,
                assignment_id=running.id,
                version_id=version_id,
                from_on=from_on,
                at=now,
            )
            .returning(assignment_version.c.id)
        )
        self._versions.pop(running.id, None)
        return int(made.scalar_one())

    def get(self, row_id: int) -> KeptVersion | None:
        """Return one row; None when it is not of this coach."""
        query = _of(KeptVersion, self.coach_id).where(assignment_version.c.id == row_id)
        row = self.connection.execute(query).first()
        return None if row is None else KeptVersion(*row)

    def take_back(self, kept: KeptVersion, now: datetime) -> None:
        """Have a version no longer hold."""
        self.connection.execute(
            update(assignment_version)
            .where(assignment_version.c.id == kept.id, assignment_version.c.coach_id == self.coach_id)
            .values(voided_at=now)
        )
        self._versions.pop(kept.assignment_id, None)

    def weeks(self, assignment_id: int) -> list[KeptWeek]:
        """Return the changed weeks that stand for an assignment, by week."""
        self._look_up(assignment_id)
        found = (each for each in self._weeks[assignment_id] if each.voided_at is None)
        return sorted(found, key=lambda each: each.week_no)

    def week(self, row_id: int) -> KeptWeek | None:
        """Return one changed week; None when it is not of this coach."""
        query = _of(KeptWeek, self.coach_id).where(week_change.c.id == row_id)
        row = self.connection.execute(query).first()
        return None if row is None else KeptWeek(*row)

    def change_week(self, running: Assignment, changed: ChangedWeek, now: datetime) -> int:
        """Change a week for one client, in place of an earlier change of it; return the row."""
        self.unchange_week(running.id, changed.week, now)
        made = self.connection.execute(
            insert(week_change)
            .values(
                coach_id=self.coach_id,
                client_id=running.client_id,
                assignment_id=running.id,
                week_no=changed.week,
                spec=changed.model_dump(mode="json"),
                at=now,
            )
            .returning(week_change.c.id)
        )
        self._weeks.pop(running.id, None)
        return int(made.scalar_one())

    def unchange_week(self, assignment_id: int, week: int, now: datetime) -> None:
        """Have a week no longer be changed."""
        self.connection.execute(
            update(week_change)
            .where(
                week_change.c.coach_id == self.coach_id,
                week_change.c.assignment_id == assignment_id,
                week_change.c.week_no == week,
                week_change.c.voided_at.is_(None),
            )
            .values(voided_at=now)
        )
        self._weeks.pop(assignment_id, None)

    def _is_plain(self, running: Assignment) -> bool:
        """Return whether nothing was ever changed for a client in what she runs, as far as is known."""
        return all(
            holds_nothing(self, table, running.client_id) for table in (assignment_version, week_change)
        )

    def _look_up(self, assignment_id: int) -> None:
        if assignment_id not in self._versions or assignment_id not in self._weeks:
            asked = {"coach_id": self.coach_id, "assignment_id": assignment_id}
            self._fill([assignment_id], _VERSIONS, _WEEKS, asked)

    def _fill(
        self, ids: Iterable[int], versions: Select[Any], weeks: Select[Any], asked: dict[str, int]
    ) -> None:
        kept = [KeptVersion(*row) for row in self.connection.execute(versions, asked)]
        changed = [KeptWeek(*row) for row in self.connection.execute(weeks, asked)]
        self._versions |= _by_assignment(ids, kept)
        self._weeks |= _by_assignment(ids, changed)


def _of(kind: type[Any], coach_id: int) -> Select[Any]:
    table = assignment_version if kind is KeptVersion else week_change
    return rows_of(kind, table).where(table.c.coach_id == coach_id).order_by(table.c.id)


def _by_assignment(ids: Iterable[int], rows: Iterable[Kept]) -> dict[int, list[Kept]]:
    found: dict[int, list[Kept]] = defaultdict(list, {each: [] for each in ids})
    for row in rows:
        found[row.assignment_id].append(row)
    return dict(found)


def _stood(kept: KeptVersion | KeptWeek, at: datetime | None) -> bool:
    """Return whether something stood at an instant, or with None stands now."""
    if at is None:
        return kept.voided_at is None
    return kept.at < at and (kept.voided_at is None or kept.voided_at >= at)
