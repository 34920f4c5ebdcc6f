"""Sessions that come on another day, and the coach's choice of how missed ones go on."""

import sqlalchemy as sa
from alembic import op
from alembic.operations import BatchOperations

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

Id = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
Instant = sa.DateTime(timezone=True)

KEY = ["assignment_id", "week_no", "day_key"]
NEW_KEY = [*KEY, "attempt"]
STATES = "'planned', 'sent', 'started', 'asking', 'done', 'partial', 'left_out', 'missed', 'unsent', 'held'"


def upgrade() -> None:
    """Add what is new."""
    op.add_column(
        "coach", sa.Column("missed_style", sa.String(length=12), server_default="calendar", nullable=False)
    )
    op.add_column("coach", sa.Column("in_line_since", Instant, nullable=True))
    op.add_column("logged_set", sa.Column("metres", sa.Integer(), nullable=True))
    with op.batch_alter_table("session") as table:
        table.add_column(sa.Column("attempt", sa.SmallInteger(), server_default="1", nullable=False))
        table.add_column(
            sa.Column("date_chosen", sa.Boolean(), server_default=sa.text("false"), nullable=False)
        )
        table.add_column(sa.Column("moved_to", Id, nullable=True))
        _replace(table, KEY, NEW_KEY, f"{STATES}, 'moved'")
    op.create_index(op.f("ix_session_moved_to"), "session", ["moved_to"], unique=False)


def downgrade() -> None:
    """Take it back. Of each day the last attempt stays, and what only moved is called left out."""
    _keep_last_attempts()
    op.drop_index(op.f("ix_session_moved_to"), table_name="session")
    with op.batch_alter_table("session") as table:
        _replace(table, NEW_KEY, KEY, STATES)
        table.drop_column("moved_to")
        table.drop_column("date_chosen")
        table.drop_column("attempt")
    op.drop_column("logged_set", "metres")
    op.drop_column("coach", "in_line_since")
    op.drop_column("coach", "missed_style")


def _replace(table: BatchOperations, old: list[str], new: list[str], states: str) -> None:
    """Put another key and other states in place of those that there are."""
    table.drop_constraint(op.f(f"uq_session_{'_'.join(old)}"), type_="unique")
    table.create_unique_constraint(op.f(f"uq_session_{'_'.join(new)}"), new)
    table.drop_constraint(op.f("ck_session_state"), type_="check")
    table.create_check_constraint(op.f("ck_session_state"), sa.text(f"state IN ({states})"))


def _keep_last_attempts() -> None:
    older = (
        "SELECT a.id FROM session a JOIN session b ON a.assignment_id = b.assignment_id "
        "AND a.week_no = b.week_no AND a.day_key = b.day_key AND a.attempt < b.attempt"
    )
    items = f"SELECT id FROM item WHERE session_id IN ({older})"  # noqa: S608 - nobody's words are in it
    op.execute(f"DELETE FROM logged_set WHERE item_id IN ({items})")  # noqa: S608
    op.execute(f"DELETE FROM item WHERE session_id IN ({older})")  # noqa: S608
    op.execute(f"DELETE FROM session WHERE id IN ({older})")  # noqa: S608
    op.execute("UPDATE session SET state = 'left_out' WHERE state = 'moved'")
