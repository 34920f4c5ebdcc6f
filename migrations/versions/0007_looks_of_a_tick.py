"""Indexes for what a tick looks for each time: who is laid out too short, whose pause ends, who ever had a card.

Without them each look goes through all running blocks, all clients, or all sessions of a coach.
"""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

PAUSED = sa.text("paused_until IS NOT NULL")


def upgrade() -> None:
    """Add them."""
    op.create_index("ix_assignment_laid", "assignment", ["ended_at", "laid_until"], unique=False)
    op.create_index(
        "ix_client_paused",
        "client",
        ["paused_until"],
        unique=False,
        sqlite_where=PAUSED,
        postgresql_where=PAUSED,
    )
    op.create_index("ix_session_sent", "session", ["coach_id", "sent_at"], unique=False)


def downgrade() -> None:
    """Take them away."""
    op.drop_index("ix_session_sent", table_name="session")
    op.drop_index("ix_client_paused", table_name="client")
    op.drop_index("ix_assignment_laid", table_name="assignment")
