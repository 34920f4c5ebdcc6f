"""What a coach keeps: referrals, limits, reminders, contracts, seasons, phrases, notes, absences; what stays unseen."""

from typing import Any

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

Id = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
Json = sa.JSON().with_variant(postgresql.JSONB(), "postgresql")
Instant = sa.DateTime(timezone=True)

TABLES = (
    "referral",
    "clinician_limit",
    "reminder",
    "contract",
    "hand_on",
    "season_entry",
    "phrase",
    "week_note",
    "coach_absence",
    "video_ask",
    "told",
)


def upgrade() -> None:
    """Add what is new."""
    _care()
    _season_entry()
    _talking()
    for name, columns in _columns().items():
        for column in columns:
            op.add_column(name, column)
    op.create_index(op.f("ix_alert_due"), "alert", ["closed_at", "due_at"])
    op.create_index(op.f("ix_prompt_user_id"), "prompt", ["user_id"])
    op.create_index(op.f("ix_prompt_about"), "prompt", ["kind", "subject"])


def _care() -> None:
    """Make what is kept of referrals, limits, reminders, contracts and what a client lets be handed on."""
    _table(
        "referral",
        sa.Column("clinician", sa.String(length=16), nullable=False),
        sa.Column("why", sa.String(length=300), nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("told_at", Instant, nullable=True),
        sa.Column("seen_on", sa.Date(), nullable=True),
        sa.Column("outcome", sa.String(length=500), nullable=True),
        sa.Column("review_on", sa.Date(), nullable=True),
        sa.Column("closed_at", Instant, nullable=True),
    )
    _table(
        "clinician_limit",
        sa.Column("spec", Json, nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("ended_at", Instant, nullable=True),
    )
    _table(
        "reminder",
        sa.Column("text", sa.String(length=300), nullable=False),
        sa.Column("due_at", Instant, nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("told_at", Instant, nullable=True),
        sa.Column("done_at", Instant, nullable=True),
        of_nobody=True,
    )
    op.create_index(op.f("ix_reminder_due"), "reminder", ["told_at", "done_at", "due_at"])
    _table(
        "contract",
        sa.Column("since_on", sa.Date(), nullable=False),
        sa.Column("until_on", sa.Date(), nullable=True),
        sa.Column("sessions", sa.SmallInteger(), nullable=True),
        sa.Column("due_at", Instant, nullable=True),
        sa.Column("at", Instant, nullable=False),
        sa.Column("told_at", Instant, nullable=True),
        sa.Column("ended_at", Instant, nullable=True),
    )
    op.create_index(op.f("ix_contract_due"), "contract", ["told_at", "ended_at", "due_at"])
    _table(
        "hand_on",
        sa.Column("at", Instant, nullable=False),
        sa.Column("given_at", Instant, nullable=True),
        sa.Column("refused_at", Instant, nullable=True),
        sa.Column("withdrawn_at", Instant, nullable=True),
        sa.Column("handed_at", Instant, nullable=True),
    )


def _season_entry() -> None:
    """Make the table of a season's holidays and events, some of which are everybody's."""
    name = "season_entry"
    op.create_table(
        name,
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=True),
        sa.Column("kind", sa.String(length=8), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("from_on", sa.Date(), nullable=False),
        sa.Column("until_on", sa.Date(), nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("voided_at", Instant, nullable=True),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f(f"fk_{name}_coach_id_coach")),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f(f"fk_{name}_client_id_client")),
        sa.PrimaryKeyConstraint("id", name=op.f(f"pk_{name}")),
    )
    for each in ("coach", "client"):
        op.create_index(op.f(f"ix_{name}_{each}_id"), name, [f"{each}_id"], unique=False)


def _talking() -> None:
    """Make what a coach says to several: phrases, notes on a week, her absence, videos she asks for."""
    at = ("at", Instant, False), ("voided_at", Instant, True)
    _of_coach("phrase", ("name", sa.String(20), False), ("text", sa.String(1000), False), *at)
    words = ("week_no", sa.SmallInteger(), False), ("text", sa.String(1000), False)
    file = ("media_kind", sa.String(12), True), ("file_id", sa.String(200), True)
    _of_coach("week_note", ("block_id", Id, False), *words, *file, *at, refers_to=("coach", "block"))
    days = ("from_on", sa.Date(), False), ("until_on", sa.Date(), False), ("ended_on", sa.Date(), True)
    _of_coach("coach_absence", *days, ("cover", sa.String(60), True), *at)
    _table(
        "video_ask",
        sa.Column("exercise", sa.String(length=60), nullable=False),
        sa.Column("set_no", sa.SmallInteger(), nullable=True),
        sa.Column("side", sa.String(length=60), nullable=True),
        sa.Column("at", Instant, nullable=False),
        sa.Column("answered_at", Instant, nullable=True),
        sa.Column("voided_at", Instant, nullable=True),
    )
    _table(
        "told",
        sa.Column("what", sa.String(length=40), nullable=False),
        sa.Column("at", Instant, nullable=False),
        unique=("client_id", "what"),
    )


def _of_coach(
    name: str, *columns: tuple[str, sa.types.TypeEngine[Any], bool], refers_to: tuple[str, ...] = ("coach",)
) -> None:
    """Make a table of what is a coach's own; of each column its name, its kind and whether it may be empty."""
    op.create_table(
        name,
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        *(sa.Column(each, kind, nullable=empty) for each, kind, empty in columns),
        *(
            sa.ForeignKeyConstraint([f"{each}_id"], [f"{each}.id"], name=op.f(f"fk_{name}_{each}_id_{each}"))
            for each in refers_to
        ),
        sa.PrimaryKeyConstraint("id", name=op.f(f"pk_{name}")),
    )
    for each in refers_to:
        op.create_index(op.f(f"ix_{name}_{each}_id"), name, [f"{each}_id"], unique=False)


def downgrade() -> None:
    """Take it back: what it kept is lost."""
    op.drop_index(op.f("ix_prompt_about"), "prompt")
    op.drop_index(op.f("ix_prompt_user_id"), "prompt")
    op.drop_index(op.f("ix_alert_due"), "alert")
    for name, columns in _columns().items():
        for column in columns:
            op.drop_column(name, column.name)
    for name in reversed(TABLES):
        op.drop_table(name)


def _columns() -> dict[str, tuple[sa.Column[object], ...]]:
    """Return the columns that are new in tables that there are."""
    return {
        "coach": (
            sa.Column("office_days", Json, nullable=True),
            sa.Column("office_from", sa.Time(), nullable=True),
            sa.Column("office_to", sa.Time(), nullable=True),
            sa.Column("second_name", sa.String(length=80), nullable=True),
            sa.Column("second_user_id", Id, nullable=True),
            sa.Column("second_chat_id", Id, nullable=True),
            sa.Column("second_code", sa.String(length=64), nullable=True),
            sa.Column("second_until", Instant, nullable=True),
        ),
        "alert": (
            sa.Column("facts", Json, nullable=True),
            sa.Column("due_at", Instant, nullable=True),
            sa.Column("reminded", sa.SmallInteger(), nullable=False, server_default="0"),
        ),
        "consent": (sa.Column("ended_at", Instant, nullable=True),),
    }


def _table(
    name: str, *columns: sa.Column[object], unique: tuple[str, ...] = (), of_nobody: bool = False
) -> None:
    """Make a table of what belongs to a client of a coach; `of_nobody` where it may be of no client."""
    owners = ("coach", "client")
    once = (sa.UniqueConstraint(*unique, name=op.f(f"uq_{name}_{'_'.join(unique)}")),) if unique else ()
    op.create_table(
        name,
        sa.Column("id", Id, autoincrement=True, nullable=False),
        *(sa.Column(f"{each}_id", Id, nullable=of_nobody and each == "client") for each in owners),
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
