"""The first schema: every table of the first release."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

Id = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
Json = sa.JSON().with_variant(postgresql.JSONB(), "postgresql")
Instant = sa.DateTime(timezone=True)
Exact = sa.String(40).with_variant(sa.Numeric(), "postgresql")


def upgrade() -> None:
    """Create every table, parents first."""
    _chat()
    _coach()
    _inbox()
    _block()
    _client()
    _exercise()
    _invite()
    _outbox()
    _picture()
    _account()
    _alert()
    _block_version()
    _body_report()
    _card()
    _coach_order()
    _consent()
    _decision()
    _forwarded()
    _kit()
    _prompt()
    _rule()
    _assignment()
    _session()
    _item()
    _logged_set()


def downgrade() -> None:
    """Drop every table, children first."""
    op.drop_table("logged_set")
    op.drop_table("item")
    op.drop_table("session")
    op.drop_table("assignment")
    op.drop_table("rule")
    op.drop_table("prompt")
    op.drop_table("kit")
    op.drop_table("forwarded")
    op.drop_table("decision")
    op.drop_table("consent")
    op.drop_table("coach_order")
    op.drop_table("card")
    op.drop_table("body_report")
    op.drop_table("block_version")
    op.drop_table("alert")
    op.drop_table("account")
    op.drop_table("picture")
    op.drop_table("outbox")
    op.drop_table("invite")
    op.drop_table("exercise")
    op.drop_table("client")
    op.drop_table("block")
    op.drop_table("inbox")
    op.drop_table("coach")
    op.drop_table("chat")


def _chat() -> None:
    op.create_table(
        "chat",
        sa.Column("chat_id", Id, autoincrement=False, nullable=False),
        sa.Column("paused_until", Instant, nullable=True),
        sa.Column("last_sent_at", Instant, nullable=True),
        sa.Column("stranger_answered_at", Instant, nullable=True),
        sa.PrimaryKeyConstraint("chat_id", name=op.f("pk_chat")),
    )


def _coach() -> None:
    op.create_table(
        "coach",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("zone", sa.String(length=64), nullable=False),
        sa.Column("country", sa.String(length=2), nullable=True),
        sa.Column("digest_weekday", sa.SmallInteger(), server_default="6", nullable=False),
        sa.Column("digest_at", sa.Time(), server_default="18:00:00", nullable=False),
        sa.Column("created_at", Instant, nullable=False),
        sa.Column("last_seen_at", Instant, nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coach")),
    )


def _inbox() -> None:
    op.create_table(
        "inbox",
        sa.Column("update_id", Id, autoincrement=False, nullable=False),
        sa.Column("chat_id", Id, nullable=True),
        sa.Column("user_id", Id, nullable=True),
        sa.Column("kind", sa.String(length=16), nullable=False),
        sa.Column("urgency", sa.SmallInteger(), server_default="0", nullable=False),
        sa.Column("state", sa.String(length=12), nullable=False),
        sa.Column("attempts", sa.SmallInteger(), server_default="0", nullable=False),
        sa.Column("not_before", Instant, nullable=True),
        sa.Column("payload", sa.Text(), nullable=True),
        sa.Column("reference", sa.String(length=12), nullable=True),
        sa.Column("received_at", Instant, nullable=False),
        sa.Column("done_at", Instant, nullable=True),
        sa.CheckConstraint("state IN ('new', 'done', 'failed', 'quarantined')", name=op.f("ck_inbox_state")),
        sa.PrimaryKeyConstraint("update_id", name=op.f("pk_inbox")),
    )
    op.create_index("ix_inbox_head", "inbox", ["state", sa.text("urgency DESC"), "update_id"], unique=False)
    op.create_index("ix_inbox_open", "inbox", ["state", "chat_id", "update_id"], unique=False)


def _block() -> None:
    op.create_table(
        "block",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.Column("created_at", Instant, nullable=False),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_block_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_block")),
        sa.UniqueConstraint("coach_id", "name", name=op.f("uq_block_coach_id_name")),
    )
    op.create_index(op.f("ix_block_coach_id"), "block", ["coach_id"], unique=False)


def _client() -> None:
    op.create_table(
        "client",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("state", sa.String(length=12), nullable=False),
        sa.Column("join_step", sa.String(length=20), nullable=True),
        sa.Column("age_band", sa.String(length=8), nullable=True),
        sa.Column("unit", sa.String(length=2), nullable=True),
        sa.Column("zone", sa.String(length=64), nullable=True),
        sa.Column("hour", sa.Time(), nullable=True),
        sa.Column("days", Json, nullable=True),
        sa.Column("minutes", sa.SmallInteger(), nullable=True),
        sa.Column("experience", sa.String(length=12), nullable=True),
        sa.Column("kit_kind", sa.String(length=12), nullable=True),
        sa.Column("usually_alone", sa.Boolean(), nullable=True),
        sa.Column("safety_arms", sa.Boolean(), nullable=True),
        sa.Column("bodyweight", Exact, nullable=True),
        sa.Column("bodyweight_on", sa.Date(), nullable=True),
        sa.Column("frozen_at", Instant, nullable=True),
        sa.Column("frozen_for", sa.String(length=40), nullable=True),
        sa.Column("joined_at", Instant, nullable=True),
        sa.Column("stopped_at", Instant, nullable=True),
        sa.Column("heard_at", Instant, nullable=True),
        sa.Column("paused_until", sa.Date(), nullable=True),
        sa.Column("created_at", Instant, nullable=False),
        sa.CheckConstraint(
            "state IN ('joining', 'active', 'paused', 'stopped')", name=op.f("ck_client_state")
        ),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_client_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_client")),
    )
    op.create_index(op.f("ix_client_coach_id"), "client", ["coach_id"], unique=False)


def _exercise() -> None:
    op.create_table(
        "exercise",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("key", sa.String(length=60), nullable=False),
        sa.Column("spec", Json, nullable=False),
        sa.Column("created_at", Instant, nullable=False),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_exercise_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_exercise")),
        sa.UniqueConstraint("coach_id", "key", name=op.f("uq_exercise_coach_id_key")),
    )
    op.create_index(op.f("ix_exercise_coach_id"), "exercise", ["coach_id"], unique=False)


def _invite() -> None:
    op.create_table(
        "invite",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("code_hash", sa.String(length=64), nullable=False),
        sa.Column("kind", sa.String(length=8), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=True),
        sa.Column("prefill", Json, nullable=False),
        sa.Column("client_id", Id, nullable=True),
        sa.Column("created_at", Instant, nullable=False),
        sa.Column("expires_at", Instant, nullable=False),
        sa.Column("used_at", Instant, nullable=True),
        sa.Column("revoked_at", Instant, nullable=True),
        sa.CheckConstraint("kind IN ('coach', 'client')", name=op.f("ck_invite_kind")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_invite_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_invite")),
        sa.UniqueConstraint("code_hash", name=op.f("uq_invite_code_hash")),
    )
    op.create_index(op.f("ix_invite_coach_id"), "invite", ["coach_id"], unique=False)


def _outbox() -> None:
    op.create_table(
        "outbox",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=True),
        sa.Column("client_id", Id, nullable=True),
        sa.Column("chat_id", Id, nullable=False),
        sa.Column("key", sa.String(length=120), nullable=False),
        sa.Column("op", sa.String(length=8), nullable=False),
        sa.Column("card_id", Id, nullable=True),
        sa.Column("message_id", Id, nullable=True),
        sa.Column("lane", sa.String(length=8), nullable=False),
        sa.Column("rank", sa.SmallInteger(), nullable=False),
        sa.Column("body", Json, nullable=True),
        sa.Column("due_at", Instant, nullable=False),
        sa.Column("not_after", Instant, nullable=True),
        sa.Column("state", sa.String(length=12), nullable=False),
        sa.Column("attempts", sa.SmallInteger(), server_default="0", nullable=False),
        sa.Column("doubts", sa.SmallInteger(), server_default="0", nullable=False),
        sa.Column("claimed_by", sa.String(length=40), nullable=True),
        sa.Column("claimed_at", Instant, nullable=True),
        sa.Column("sent_at", Instant, nullable=True),
        sa.Column("cause", sa.String(length=200), nullable=True),
        sa.Column("created_at", Instant, nullable=False),
        sa.CheckConstraint("op IN ('send', 'edit', 'move', 'strip')", name=op.f("ck_outbox_op")),
        sa.CheckConstraint(
            "state IN ('queued', 'sending', 'sent', 'cancelled', 'expired', 'dead', 'doubtful')",
            name=op.f("ck_outbox_state"),
        ),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_outbox_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_outbox")),
        sa.UniqueConstraint("key", name=op.f("uq_outbox_key")),
    )
    op.create_index(op.f("ix_outbox_card_id"), "outbox", ["card_id"], unique=False)
    op.create_index("ix_outbox_chat", "outbox", ["chat_id", "state", "id"], unique=False)
    op.create_index(op.f("ix_outbox_client_id"), "outbox", ["client_id"], unique=False)
    op.create_index(op.f("ix_outbox_coach_id"), "outbox", ["coach_id"], unique=False)
    op.create_index("ix_outbox_open", "outbox", ["state", "due_at"], unique=False)


def _picture() -> None:
    op.create_table(
        "picture",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=True),
        sa.Column("bytes", sa.LargeBinary(), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("file_id", sa.String(length=200), nullable=True),
        sa.Column("at", Instant, nullable=False),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_picture_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_picture")),
    )
    op.create_index(op.f("ix_picture_coach_id"), "picture", ["coach_id"], unique=False)
    op.create_index(op.f("ix_picture_client_id"), "picture", ["client_id"], unique=False)


def _account() -> None:
    op.create_table(
        "account",
        sa.Column("user_id", Id, autoincrement=False, nullable=False),
        sa.Column("chat_id", Id, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("role", sa.String(length=8), nullable=False),
        sa.Column("client_id", Id, nullable=True),
        sa.Column("reachable", sa.Boolean(), server_default=sa.text("true"), nullable=False),
        sa.Column("unreachable_at", Instant, nullable=True),
        sa.CheckConstraint("role IN ('coach', 'client')", name=op.f("ck_account_role")),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_account_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_account_coach_id_coach")),
        sa.PrimaryKeyConstraint("user_id", name=op.f("pk_account")),
    )
    op.create_index(op.f("ix_account_chat_id"), "account", ["chat_id"], unique=False)
    op.create_index(op.f("ix_account_client_id"), "account", ["client_id"], unique=False)
    op.create_index(op.f("ix_account_coach_id"), "account", ["coach_id"], unique=False)


def _alert() -> None:
    op.create_table(
        "alert",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=False),
        sa.Column("key", sa.String(length=120), nullable=False),
        sa.Column("level", sa.SmallInteger(), nullable=False),
        sa.Column("grown", sa.Integer(), nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("told_at", Instant, nullable=True),
        sa.Column("seen_at", Instant, nullable=True),
        sa.Column("closed_at", Instant, nullable=True),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_alert_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_alert_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_alert")),
    )
    op.create_index(op.f("ix_alert_client_id"), "alert", ["client_id"], unique=False)
    op.create_index(op.f("ix_alert_coach_id"), "alert", ["coach_id"], unique=False)
    op.create_index(
        "uq_alert_open",
        "alert",
        ["coach_id", "key"],
        unique=True,
        sqlite_where=sa.text("closed_at IS NULL"),
        postgresql_where=sa.text("closed_at IS NULL"),
    )


def _block_version() -> None:
    op.create_table(
        "block_version",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("block_id", Id, nullable=False),
        sa.Column("no", sa.Integer(), nullable=False),
        sa.Column("spec", Json, nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("created_at", Instant, nullable=False),
        sa.ForeignKeyConstraint(["block_id"], ["block.id"], name=op.f("fk_block_version_block_id_block")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_block_version_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_block_version")),
        sa.UniqueConstraint("block_id", "no", name=op.f("uq_block_version_block_id_no")),
    )
    op.create_index(op.f("ix_block_version_block_id"), "block_version", ["block_id"], unique=False)
    op.create_index(op.f("ix_block_version_coach_id"), "block_version", ["coach_id"], unique=False)


def _body_report() -> None:
    op.create_table(
        "body_report",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=False),
        sa.Column("session_id", Id, nullable=True),
        sa.Column("item_id", Id, nullable=True),
        sa.Column("exercise", sa.String(length=60), nullable=True),
        sa.Column("kind", sa.String(length=12), nullable=False),
        sa.Column("site", sa.String(length=20), nullable=True),
        sa.Column("side", sa.String(length=1), nullable=True),
        sa.Column("score", sa.SmallInteger(), nullable=True),
        sa.Column("when_felt", sa.String(length=14), nullable=True),
        sa.Column("sudden", sa.Boolean(), server_default=sa.text("false"), nullable=False),
        sa.Column("spreading", sa.Boolean(), server_default=sa.text("false"), nullable=False),
        sa.Column("painkiller", sa.Boolean(), server_default=sa.text("false"), nullable=False),
        sa.Column("rule", sa.String(length=40), nullable=True),
        sa.Column("local_on", sa.Date(), nullable=False),
        sa.Column("message_id", Id, nullable=True),
        sa.Column("at", Instant, nullable=False),
        sa.Column("released_at", Instant, nullable=True),
        sa.Column("voided_at", Instant, nullable=True),
        sa.Column("voided_by", sa.String(length=12), nullable=True),
        sa.CheckConstraint("kind IN ('pain', 'soreness', 'stop_sign')", name=op.f("ck_body_report_kind")),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_body_report_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_body_report_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_body_report")),
    )
    op.create_index(op.f("ix_body_report_client_id"), "body_report", ["client_id"], unique=False)
    op.create_index(op.f("ix_body_report_coach_id"), "body_report", ["coach_id"], unique=False)
    op.create_index(op.f("ix_body_report_session_id"), "body_report", ["session_id"], unique=False)


def _card() -> None:
    op.create_table(
        "card",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=True),
        sa.Column("key", sa.String(length=80), nullable=False),
        sa.Column("chat_id", Id, nullable=False),
        sa.Column("message_id", Id, nullable=True),
        sa.Column("wanted", sa.Integer(), server_default="0", nullable=False),
        sa.Column("shown", sa.Integer(), server_default="0", nullable=False),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_card_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_card_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_card")),
        sa.UniqueConstraint("coach_id", "key", name=op.f("uq_card_coach_id_key")),
    )
    op.create_index(op.f("ix_card_client_id"), "card", ["client_id"], unique=False)
    op.create_index(op.f("ix_card_coach_id"), "card", ["coach_id"], unique=False)
    op.create_index("ix_card_message", "card", ["chat_id", "message_id"], unique=False)


def _coach_order() -> None:
    op.create_table(
        "coach_order",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=False),
        sa.Column("exercise", sa.String(length=60), nullable=True),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("facts", Json, nullable=False),
        sa.Column("from_on", sa.Date(), nullable=True),
        sa.Column("until_on", sa.Date(), nullable=True),
        sa.Column("at", Instant, nullable=False),
        sa.Column("voided_at", Instant, nullable=True),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_coach_order_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_coach_order_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coach_order")),
    )
    op.create_index(op.f("ix_coach_order_client_id"), "coach_order", ["client_id"], unique=False)
    op.create_index(op.f("ix_coach_order_coach_id"), "coach_order", ["coach_id"], unique=False)


def _consent() -> None:
    op.create_table(
        "consent",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=False),
        sa.Column("version", sa.String(length=12), nullable=False),
        sa.Column("given_at", Instant, nullable=False),
        sa.Column("withdrawn_at", Instant, nullable=True),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_consent_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_consent_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_consent")),
    )
    op.create_index(op.f("ix_consent_client_id"), "consent", ["client_id"], unique=False)
    op.create_index(op.f("ix_consent_coach_id"), "consent", ["coach_id"], unique=False)


def _decision() -> None:
    op.create_table(
        "decision",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=False),
        sa.Column("item_id", Id, nullable=True),
        sa.Column("exercise", sa.String(length=60), nullable=False),
        sa.Column("made_for", sa.String(length=12), nullable=False),
        sa.Column("inputs", sa.Text(), nullable=False),
        sa.Column("output", sa.Text(), nullable=False),
        sa.Column("rules_version", sa.String(length=20), nullable=False),
        sa.Column("made_at", Instant, nullable=False),
        sa.Column("superseded_by", Id, nullable=True),
        sa.CheckConstraint(
            "made_for IN ('closing', 'card', 'correction')", name=op.f("ck_decision_made_for")
        ),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_decision_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_decision_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_decision")),
    )
    op.create_index(op.f("ix_decision_client_id"), "decision", ["client_id"], unique=False)
    op.create_index(op.f("ix_decision_coach_id"), "decision", ["coach_id"], unique=False)
    op.create_index(op.f("ix_decision_item_id"), "decision", ["item_id"], unique=False)
    op.create_index("ix_decision_latest", "decision", ["client_id", "exercise", "id"], unique=False)


def _forwarded() -> None:
    op.create_table(
        "forwarded",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=False),
        sa.Column("outbox_key", sa.String(length=120), nullable=False),
        sa.Column("chat_id", Id, nullable=False),
        sa.Column("message_id", Id, nullable=True),
        sa.Column("from_message_id", Id, nullable=True),
        sa.Column("item_id", Id, nullable=True),
        sa.Column("kind", sa.String(length=12), nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("answered_at", Instant, nullable=True),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_forwarded_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_forwarded_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_forwarded")),
        sa.UniqueConstraint("coach_id", "outbox_key", name=op.f("uq_forwarded_coach_id_outbox_key")),
    )
    op.create_index(op.f("ix_forwarded_client_id"), "forwarded", ["client_id"], unique=False)
    op.create_index(op.f("ix_forwarded_coach_id"), "forwarded", ["coach_id"], unique=False)
    op.create_index("ix_forwarded_message", "forwarded", ["chat_id", "message_id"], unique=False)


def _kit() -> None:
    op.create_table(
        "kit",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=False),
        sa.Column("place", sa.String(length=40), nullable=False),
        sa.Column("spec", Json, nullable=False),
        sa.Column("usual", sa.Boolean(), server_default=sa.text("true"), nullable=False),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_kit_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_kit_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_kit")),
        sa.UniqueConstraint("client_id", "place", name=op.f("uq_kit_client_id_place")),
    )
    op.create_index(op.f("ix_kit_client_id"), "kit", ["client_id"], unique=False)
    op.create_index(op.f("ix_kit_coach_id"), "kit", ["coach_id"], unique=False)


def _prompt() -> None:
    op.create_table(
        "prompt",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("user_id", Id, nullable=False),
        sa.Column("chat_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=True),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("subject", Id, nullable=True),
        sa.Column("card_key", sa.String(length=80), nullable=True),
        sa.Column("facts", Json, nullable=False),
        sa.Column("revision", sa.Integer(), server_default="0", nullable=False),
        sa.Column("expects_text", sa.Boolean(), server_default=sa.text("false"), nullable=False),
        sa.Column("opened_at", Instant, nullable=False),
        sa.Column("closed_at", Instant, nullable=True),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_prompt_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_prompt_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_prompt")),
    )
    op.create_index(op.f("ix_prompt_client_id"), "prompt", ["client_id"], unique=False)
    op.create_index(op.f("ix_prompt_coach_id"), "prompt", ["coach_id"], unique=False)
    op.create_index(
        "uq_prompt_expects_text",
        "prompt",
        ["user_id"],
        unique=True,
        sqlite_where=sa.text("expects_text = 1 AND closed_at IS NULL"),
        postgresql_where=sa.text("expects_text AND closed_at IS NULL"),
    )


def _rule() -> None:
    op.create_table(
        "rule",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=True),
        sa.Column("exercise", sa.String(length=60), nullable=True),
        sa.Column("key", sa.String(length=60), nullable=False),
        sa.Column("value", Json, nullable=False),
        sa.Column("by_user_id", Id, nullable=False),
        sa.Column("at", Instant, nullable=False),
        sa.Column("voided_at", Instant, nullable=True),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_rule_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_rule_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_rule")),
    )
    op.create_index(op.f("ix_rule_client_id"), "rule", ["client_id"], unique=False)
    op.create_index(op.f("ix_rule_coach_id"), "rule", ["coach_id"], unique=False)


def _assignment() -> None:
    op.create_table(
        "assignment",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=False),
        sa.Column("version_id", Id, nullable=False),
        sa.Column("starts_on", sa.Date(), nullable=False),
        sa.Column("laid_until", sa.Date(), nullable=True),
        sa.Column("ended_at", Instant, nullable=True),
        sa.Column("created_at", Instant, nullable=False),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_assignment_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_assignment_coach_id_coach")),
        sa.ForeignKeyConstraint(
            ["version_id"], ["block_version.id"], name=op.f("fk_assignment_version_id_block_version")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_assignment")),
    )
    op.create_index(op.f("ix_assignment_client_id"), "assignment", ["client_id"], unique=False)
    op.create_index(op.f("ix_assignment_coach_id"), "assignment", ["coach_id"], unique=False)
    op.create_index(op.f("ix_assignment_version_id"), "assignment", ["version_id"], unique=False)
    op.create_index(
        "uq_assignment_one_active",
        "assignment",
        ["client_id"],
        unique=True,
        sqlite_where=sa.text("ended_at IS NULL"),
        postgresql_where=sa.text("ended_at IS NULL"),
    )


def _session() -> None:
    op.create_table(
        "session",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("client_id", Id, nullable=False),
        sa.Column("assignment_id", Id, nullable=False),
        sa.Column("week_no", sa.SmallInteger(), nullable=False),
        sa.Column("day_key", sa.String(length=60), nullable=False),
        sa.Column("local_on", sa.Date(), nullable=False),
        sa.Column("due_at", Instant, nullable=False),
        sa.Column("state", sa.String(length=12), nullable=False),
        sa.Column("place", sa.String(length=40), nullable=True),
        sa.Column("late", sa.Boolean(), server_default=sa.text("false"), nullable=False),
        sa.Column("cursor_item_id", Id, nullable=True),
        sa.Column("revision", sa.Integer(), server_default="0", nullable=False),
        sa.Column("effort", sa.SmallInteger(), nullable=True),
        sa.Column("left_reason", sa.String(length=20), nullable=True),
        sa.Column("sent_at", Instant, nullable=True),
        sa.Column("started_at", Instant, nullable=True),
        sa.Column("closed_at", Instant, nullable=True),
        sa.CheckConstraint(
            "state IN ('planned', 'sent', 'started', 'asking', 'done', 'partial', "
            "'left_out', 'missed', 'unsent', 'held')",
            name=op.f("ck_session_state"),
        ),
        sa.ForeignKeyConstraint(
            ["assignment_id"], ["assignment.id"], name=op.f("fk_session_assignment_id_assignment")
        ),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_session_client_id_client")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_session_coach_id_coach")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_session")),
        sa.UniqueConstraint(
            "assignment_id", "week_no", "day_key", name=op.f("uq_session_assignment_id_week_no_day_key")
        ),
    )
    op.create_index(op.f("ix_session_assignment_id"), "session", ["assignment_id"], unique=False)
    op.create_index(op.f("ix_session_client_id"), "session", ["client_id"], unique=False)
    op.create_index(op.f("ix_session_coach_id"), "session", ["coach_id"], unique=False)
    op.create_index("ix_session_due", "session", ["state", "due_at"], unique=False)


def _item() -> None:
    op.create_table(
        "item",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("session_id", Id, nullable=False),
        sa.Column("position", sa.SmallInteger(), nullable=False),
        sa.Column("exercise", sa.String(length=60), nullable=False),
        sa.Column("prescription", Json, nullable=False),
        sa.Column("given", Json, nullable=False),
        sa.Column("left_last", sa.SmallInteger(), nullable=True),
        sa.Column("decision_id", Id, nullable=True),
        sa.Column("state", sa.String(length=8), server_default="open", nullable=False),
        sa.Column("cause", sa.String(length=12), nullable=True),
        sa.CheckConstraint("state IN ('open', 'done', 'skipped')", name=op.f("ck_item_state")),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_item_coach_id_coach")),
        sa.ForeignKeyConstraint(["session_id"], ["session.id"], name=op.f("fk_item_session_id_session")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_item")),
        sa.UniqueConstraint("session_id", "position", name=op.f("uq_item_session_id_position")),
    )
    op.create_index(op.f("ix_item_coach_id"), "item", ["coach_id"], unique=False)
    op.create_index(op.f("ix_item_session_id"), "item", ["session_id"], unique=False)


def _logged_set() -> None:
    op.create_table(
        "logged_set",
        sa.Column("id", Id, autoincrement=True, nullable=False),
        sa.Column("coach_id", Id, nullable=False),
        sa.Column("item_id", Id, nullable=False),
        sa.Column("set_no", sa.SmallInteger(), nullable=False),
        sa.Column("side", sa.String(length=1), server_default="", nullable=False),
        sa.Column("load_kind", sa.String(length=12), nullable=True),
        sa.Column("load", Exact, nullable=True),
        sa.Column("unit", sa.String(length=2), nullable=True),
        sa.Column("basis", sa.String(length=12), nullable=False),
        sa.Column("reps", sa.Integer(), nullable=True),
        sa.Column("seconds", sa.Integer(), nullable=True),
        sa.Column("rir", sa.SmallInteger(), nullable=True),
        sa.Column("rpe", Exact, nullable=True),
        sa.Column("by_tap", sa.Boolean(), server_default=sa.text("false"), nullable=False),
        sa.Column("entry", sa.Integer(), nullable=False),
        sa.Column("message_id", Id, nullable=True),
        sa.Column("at", Instant, nullable=False),
        sa.Column("voided_at", Instant, nullable=True),
        sa.Column("voided_by", sa.String(length=12), nullable=True),
        sa.ForeignKeyConstraint(["coach_id"], ["coach.id"], name=op.f("fk_logged_set_coach_id_coach")),
        sa.ForeignKeyConstraint(["item_id"], ["item.id"], name=op.f("fk_logged_set_item_id_item")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_logged_set")),
    )
    op.create_index(op.f("ix_logged_set_coach_id"), "logged_set", ["coach_id"], unique=False)
    op.create_index(op.f("ix_logged_set_item_id"), "logged_set", ["item_id"], unique=False)
    op.create_index(
        "uq_logged_set_standing",
        "logged_set",
        ["item_id", "set_no", "side"],
        unique=True,
        sqlite_where=sa.text("voided_at IS NULL"),
        postgresql_where=sa.text("voided_at IS NULL"),
    )
