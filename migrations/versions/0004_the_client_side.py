"""Health, absences, other training and goals as a client says them; what she is asked on a date; her records."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

Id = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
Json = sa.JSON().with_variant(postgresql.JSONB(), "postgresql")
Instant = sa.DateTime(timezone=True)

TABLES = (
    "due_question",
    "health_answer",
    "illness",
    "away",
    "other_training",
    "goal",
    "record",
)


def upgrade() -> None:
    """Add what is new."""
    _table(
        "due_question",
        sa.Column("kind", sa.String(length=12), nullable=False),
        sa.Column("local_on", sa.Date(), nullable=False),
        sa.Column("due_at", Instant, nullable=False),
        sa.Column("subject", Id, nullable=True),
        sa.Column("facts", Json, nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("sent_at", Instant, nullable=True),
        sa.Column("answered_at", Instant, nullable=True),
        sa.Column("answers", Json, nullable=True),
        sa.Column("dropped_at", Instant, nullable=True),
        unique=("client_id", "kind", "local_on"),
    )
    op.create_index(op.f("ix_due_question_due"), "due_question", ["sent_at", "dropped_at", "due_at"])
    _table(
        "health_answer",
        sa.Column("question", sa.String(length=20), nullable=False),
        sa.Column("yes", sa.Boolean(), nullable=False),
        sa.Column("said_on", sa.Date(), nullable=True),
        sa.Column("at", Instant, nullable=False),
        sa.Column("released_on", sa.Date(), nullable=True),
        sa.Column("voided_at", Instant, nullable=True),
    )
    _only_one("uq_health_answer_standing", "health_answer", ["client_id", "question"], "voided_at IS NULL")
    _table(
        "illness",
        sa.Column("kind", sa.String(length=24), nullable=False),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("free_on", sa.Date(), nullable=True),
        sa.Column("released_on", sa.Date(), nullable=True),
        sa.Column("easy_on", sa.Date(), nullable=True),
        sa.Column("at", Instant, nullable=False),
        sa.Column("voided_at", Instant, nullable=True),
    )
    _table(
        "away",
        sa.Column("from_on", sa.Date(), nullable=False),
        sa.Column("until_on", sa.Date(), nullable=True),
        sa.Column("training", sa.Boolean(), nullable=False),
        sa.Column("place", sa.String(length=40), nullable=True),
        sa.Column("zone", sa.String(length=64), nullable=True),
        sa.Column("zone_before", sa.String(length=64), nullable=True),
        sa.Column("at", Instant, nullable=False),
        sa.Column("ended_on", sa.Date(), nullable=True),
        sa.Column("voided_at", Instant, nullable=True),
    )
    _table(
        "other_training",
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("local_on", sa.Date(), nullable=False),
        sa.Column("minutes", sa.SmallInteger(), nullable=True),
        sa.Column("effort", sa.SmallInteger(), nullable=True),
        sa.Column("message_id", Id, nullable=True),
        sa.Column("at", Instant, nullable=False),
        sa.Column("voided_at", Instant, nullable=True),
    )
    _table(
        "goal",
        sa.Column("text", sa.String(length=200), nullable=False),
        sa.Column("by_on", sa.Date(), nullable=True),
        sa.Column("at", Instant, nullable=False),
        sa.Column("outcome", sa.String(length=12), nullable=True),
        sa.Column("ended_at", Instant, nullable=True),
    )
    _table(
        "record",
        sa.Column("exercise", sa.String(length=60), nullable=False),
        sa.Column("kind", sa.String(length=16), nullable=False),
        sa.Column("set_id", Id, nullable=False),
        sa.Column("facts", Json, nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("told_at", Instant, nullable=True),
        sa.Column("retracted_at", Instant, nullable=True),
        unique=("set_id", "kind"),
    )
    op.create_index(op.f("ix_record_set_id"), "record", ["set_id"])
    op.create_index(op.f("ix_record_of"), "record", ["client_id", "exercise"])
    for name, columns in _columns().items():
        for column in columns:
            op.add_column(name, column)
    op.create_index(op.f("ix_body_report_answers_to"), "body_report", ["answers_to"])


def downgrade() -> None:
    """Take it back: what it kept is lost."""
    op.drop_index(op.f("ix_body_report_answers_to"), "body_report")
    for name, columns in _columns().items():
        for column in columns:
            op.drop_column(name, column.name)
    for name in reversed(TABLES):
        op.drop_table(name)


def _columns() -> dict[str, tuple[sa.Column[object], ...]]:
    """Return the columns that are new in tables that there are."""
    return {
        "coach": (
            sa.Column("plan_weekday", sa.SmallInteger(), nullable=False, server_default="6"),
            sa.Column("check_in_weekday", sa.SmallInteger(), nullable=False, server_default="6"),
            sa.Column("check_in_questions", Json, nullable=True),
        ),
        "client": (
            sa.Column("limits_said", sa.String(length=400), nullable=True),
            sa.Column("weekly_line", sa.String(length=8), nullable=False, server_default="short"),
        ),
        "body_report": (
            sa.Column("weak", sa.Boolean(), nullable=False, server_default=sa.text("false")),
            sa.Column("fever", sa.Boolean(), nullable=False, server_default=sa.text("false")),
            sa.Column("answers_to", Id, nullable=True),
        ),
        "outbox": (sa.Column("unasked", sa.Boolean(), nullable=False, server_default=sa.text("false")),),
    }


def _table(name: str, *columns: sa.Column[object], unique: tuple[str, ...] = ()) -> None:
    """Make a table of what belongs to a client of a coach."""
    owners = ("coach", "client")
    once = (sa.UniqueConstraint(*unique, name=op.f(f"uq_{name}_{'_'.join(unique)}")),) if unique else ()
    op.create_table(
        name,
        sa.Column("id", Id, autoincrement=True, nullable=False),
        *(sa.Column(f"{each}_id", Id, nullable=False) for each in owners),
        *columns,
        *(
            sa.ForeignKeyConstraint([f"{each}_id"], [f"{each}.id"], name=op.f(f"fk_{name}_{each}_id_{each}"))
            for each in owners
        ),
        *once,
        sa.PrimaryKeyConstraint("id", name=op.f(f"pk_{name}")),
    )
    for each in owners:
        op.create_index(op.f(f"ix_{name}_{each}_id"), name, [f"{each}_id"], unique=False)


def _only_one(name: str, table: str, columns: list[str], where: str) -> None:
    op.create_index(
        op.f(name), table, columns, unique=True, sqlite_where=sa.text(where), postgresql_where=sa.text(where)
    )
