"""Versions from a date, weeks and exercises changed for one client, a coach's cues, daily prep, and last loads."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

Id = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
Json = sa.JSON().with_variant(postgresql.JSONB(), "postgresql")
Instant = sa.DateTime(timezone=True)
Exact = sa.String(40).with_variant(sa.Numeric(), "postgresql")

REFERENCES = {
    "cue": ("coach", "client"),
    "clip": ("coach",),
    "daily_prep": ("coach", "client"),
    "last_load": ("coach", "client"),
    "assignment_version": ("coach", "client", "assignment", "block_version"),
    "week_change": ("coach", "client", "assignment"),
    "erased": ("coach",),
}
NAMES = {"block_version": "version_id"}


def upgrade() -> None:
    """Add what is new."""
    _table(
        "cue",
        sa.Column("exercise", sa.String(length=60), nullable=True),
        sa.Column("site", sa.String(length=20), nullable=True),
        sa.Column("side", sa.String(length=1), nullable=True),
        sa.Column("text", sa.String(length=200), nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("voided_at", Instant, nullable=True),
        for_all=True,
    )
    _table(
        "clip",
        sa.Column("drill", sa.String(length=60), nullable=False),
        sa.Column("link", sa.String(length=500), nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("voided_at", Instant, nullable=True),
    )
    _table(
        "daily_prep",
        sa.Column("spec", Json, nullable=False),
        sa.Column("due_at", Instant, nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("ended_at", Instant, nullable=True),
    )
    _table(
        "last_load",
        sa.Column("exercise", sa.String(length=60), nullable=False),
        sa.Column("load_kind", sa.String(length=12), nullable=False),
        sa.Column("load", Exact, nullable=True),
        sa.Column("unit", sa.String(length=2), nullable=True),
        sa.Column("basis", sa.String(length=12), nullable=False),
        sa.Column("reps", sa.Integer(), nullable=False),
        sa.Column("local_on", sa.Date(), nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("voided_at", Instant, nullable=True),
    )
    _table(
        "assignment_version",
        sa.Column("from_on", sa.Date(), nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("voided_at", Instant, nullable=True),
    )
    _table(
        "week_change",
        sa.Column("week_no", sa.SmallInteger(), nullable=False),
        sa.Column("spec", Json, nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("voided_at", Instant, nullable=True),
    )
    op.add_column("assignment", sa.Column("changes", Json, nullable=True))
    _table(
        "erased",
        sa.Column("at", Instant, nullable=False),
        sa.Column("sessions", sa.Integer(), nullable=False),
        sa.Column("sets", sa.Integer(), nullable=False),
    )
    op.create_index(op.f("ix_daily_prep_due"), "daily_prep", ["ended_at", "due_at"])
    op.create_index(op.f("ix_last_load_of"), "last_load", ["client_id", "exercise"])
    _only_one("uq_daily_prep_one_running", "daily_prep", ["client_id"], "ended_at IS NULL")
    _only_one("uq_week_change_standing", "week_change", ["assignment_id", "week_no"], "voided_at IS NULL")


def downgrade() -> None:
    """Take it back: what it kept is lost."""
    op.drop_column("assignment", "changes")
    for name in reversed(REFERENCES):
        op.drop_table(name)


def _table(name: str, *columns: sa.Column[object], for_all: bool = False) -> None:
    """Make a table of a coach with references to what it belongs to; `for_all` when it may be nobody's alone."""
    references = [(NAMES.get(each, f"{each}_id"), each) for each in REFERENCES[name]]
    op.create_table(
        name,
        sa.Column("id", Id, autoincrement=True, nullable=False),
        *(sa.Column(column, Id, nullable=for_all and table == "client") for column, table in references),
        *columns,
        *(
            sa.ForeignKeyConstraint([column], [f"{table}.id"], name=op.f(f"fk_{name}_{column}_{table}"))
            for column, table in references
        ),
        sa.PrimaryKeyConstraint("id", name=op.f(f"pk_{name}")),
    )
    for column, _ in references:
        op.create_index(op.f(f"ix_{name}_{column}"), name, [column], unique=False)


def _only_one(name: str, table: str, columns: list[str], where: str) -> None:
    op.create_index(
        op.f(name), table, columns, unique=True, sqlite_where=sa.text(where), postgresql_where=sa.text(where)
    )
