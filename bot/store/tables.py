"""Every table. Rows of one coach carry `coach_id`; the four that cannot are named in `HOUSE`.

Facts are append-only: a correction voids a row and adds another. Personal columns are listed in `bot.store.personal`.
"""

from sqlalchemy import (
    Boolean,
    CheckConstraint,
    Column,
    Date,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    SmallInteger,
    String,
    Table,
    Text,
    Time,
    UniqueConstraint,
    text,
)

from bot.store.types import ExactDecimal, Id, Json, UtcDateTime

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)

HOUSE = frozenset({"account", "chat", "inbox", "outbox"})
"""Tables that are read before the tenant is known, or by the sender for all tenants."""


def _id() -> Column[int]:
    return Column("id", Id, primary_key=True, autoincrement=True)


def _coach() -> Column[int]:
    return Column("coach_id", Id, ForeignKey("coach.id"), nullable=False, index=True)


def _ref(name: str, target: str, *, nullable: bool = False, index: bool = True) -> Column[int]:
    return Column(name, Id, ForeignKey(f"{target}.id"), nullable=nullable, index=index)


coach = Table(
    "coach",
    metadata,
    _id(),
    Column("name", String(80), nullable=False),
    Column("zone", String(64), nullable=False),
    Column("country", String(2)),
    Column("digest_weekday", SmallInteger, nullable=False, server_default="6"),
    Column("digest_at", Time, nullable=False, server_default="18:00:00"),
    Column("created_at", UtcDateTime, nullable=False),
    Column("last_seen_at", UtcDateTime),
    Column("missed_style", String(12), nullable=False, server_default="calendar"),
    Column("in_line_since", UtcDateTime),
    Column("plan_weekday", SmallInteger, nullable=False, server_default="6"),
    Column("check_in_weekday", SmallInteger, nullable=False, server_default="6"),
    Column("check_in_questions", Json),
    Column("office_days", Json),
    Column("office_from", Time),
    Column("office_to", Time),
    Column("second_name", String(80)),
    Column("second_user_id", Id),
    Column("second_chat_id", Id),
    Column("second_code", String(64)),
    Column("second_until", UtcDateTime),
)

account = Table(
    "account",
    metadata,
    Column("user_id", Id, primary_key=True, autoincrement=False),
    Column("chat_id", Id, nullable=False, index=True),
    Column("coach_id", Id, ForeignKey("coach.id"), nullable=False, index=True),
    Column("role", String(8), nullable=False),
    Column("client_id", Id, ForeignKey("client.id"), index=True),
    Column("reachable", Boolean, nullable=False, server_default=text("true")),
    Column("unreachable_at", UtcDateTime),
    CheckConstraint("role IN ('coach', 'client')", name="role"),
)

chat = Table(
    "chat",
    metadata,
    Column("chat_id", Id, primary_key=True, autoincrement=False),
    Column("paused_until", UtcDateTime),
    Column("last_sent_at", UtcDateTime),
    Column("stranger_answered_at", UtcDateTime),
)

invite = Table(
    "invite",
    metadata,
    _id(),
    _coach(),
    Column("code_hash", String(64), nullable=False, unique=True),
    Column("kind", String(8), nullable=False),
    Column("name", String(80)),
    Column("prefill", Json, nullable=False),
    Column("client_id", Id),
    Column("created_at", UtcDateTime, nullable=False),
    Column("expires_at", UtcDateTime, nullable=False),
    Column("used_at", UtcDateTime),
    Column("revoked_at", UtcDateTime),
    CheckConstraint("kind IN ('coach', 'client')", name="kind"),
)

client = Table(
    "client",
    metadata,
    _id(),
    _coach(),
    Column("name", String(80), nullable=False),
    Column("state", String(12), nullable=False),
    Column("join_step", String(20)),
    Column("age_band", String(8)),
    Column("unit", String(2)),
    Column("zone", String(64)),
    Column("hour", Time),
    Column("days", Json),
    Column("minutes", SmallInteger),
    Column("experience", String(12)),
    Column("kit_kind", String(12)),
    Column("usually_alone", Boolean),
    Column("safety_arms", Boolean),
    Column("bodyweight", ExactDecimal),
    Column("bodyweight_on", Date),
    Column("frozen_at", UtcDateTime),
    Column("frozen_for", String(40)),
    Column("joined_at", UtcDateTime),
    Column("stopped_at", UtcDateTime),
    Column("heard_at", UtcDateTime),
    Column("paused_until", Date),
    Column("created_at", UtcDateTime, nullable=False),
    Column("limits_said", String(400)),
    Column("weekly_line", String(8), nullable=False, server_default="short"),
    CheckConstraint("state IN ('joining', 'active', 'paused', 'stopped')", name="state"),
)
Index(
    "ix_client_paused",
    client.c.paused_until,
    sqlite_where=client.c.paused_until.is_not(None),
    postgresql_where=client.c.paused_until.is_not(None),
)

consent = Table(
    "consent",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("version", String(12), nullable=False),
    Column("given_at", UtcDateTime, nullable=False),
    Column("withdrawn_at", UtcDateTime),
    Column("ended_at", UtcDateTime),
)

exercise = Table(
    "exercise",
    metadata,
    _id(),
    _coach(),
    Column("key", String(60), nullable=False),
    Column("spec", Json, nullable=False),
    Column("created_at", UtcDateTime, nullable=False),
    UniqueConstraint("coach_id", "key"),
)

block = Table(
    "block",
    metadata,
    _id(),
    _coach(),
    Column("name", String(120), nullable=False),
    Column("created_at", UtcDateTime, nullable=False),
    UniqueConstraint("coach_id", "name"),
)

block_version = Table(
    "block_version",
    metadata,
    _id(),
    _coach(),
    _ref("block_id", "block"),
    Column("no", Integer, nullable=False),
    Column("spec", Json, nullable=False),
    Column("sha256", String(64), nullable=False),
    Column("created_at", UtcDateTime, nullable=False),
    UniqueConstraint("block_id", "no"),
)

assignment = Table(
    "assignment",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    _ref("version_id", "block_version"),
    Column("starts_on", Date, nullable=False),
    Column("laid_until", Date),
    Column("ended_at", UtcDateTime),
    Column("created_at", UtcDateTime, nullable=False),
    Column("changes", Json),
)
Index(
    "uq_assignment_one_active",
    assignment.c.client_id,
    unique=True,
    sqlite_where=assignment.c.ended_at.is_(None),
    postgresql_where=assignment.c.ended_at.is_(None),
)
Index("ix_assignment_laid", assignment.c.ended_at, assignment.c.laid_until)

cue = Table(
    "cue",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client", nullable=True),
    Column("exercise", String(60)),
    Column("site", String(20)),
    Column("side", String(1)),
    Column("text", String(200), nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)

clip = Table(
    "clip",
    metadata,
    _id(),
    _coach(),
    Column("drill", String(60), nullable=False),
    Column("link", String(500), nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)

daily_prep = Table(
    "daily_prep",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("spec", Json, nullable=False),
    Column("due_at", UtcDateTime, nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("ended_at", UtcDateTime),
)
Index(
    "uq_daily_prep_one_running",
    daily_prep.c.client_id,
    unique=True,
    sqlite_where=daily_prep.c.ended_at.is_(None),
    postgresql_where=daily_prep.c.ended_at.is_(None),
)
Index("ix_daily_prep_due", daily_prep.c.ended_at, daily_prep.c.due_at)

last_load = Table(
    "last_load",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("exercise", String(60), nullable=False),
    Column("load_kind", String(12), nullable=False),
    Column("load", ExactDecimal),
    Column("unit", String(2)),
    Column("basis", String(12), nullable=False),
    Column("reps", Integer, nullable=False),
    Column("local_on", Date, nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)
Index("ix_last_load_of", last_load.c.client_id, last_load.c.exercise)

assignment_version = Table(
    "assignment_version",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    _ref("assignment_id", "assignment"),
    _ref("version_id", "block_version"),
    Column("from_on", Date, nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)

week_change = Table(
    "week_change",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    _ref("assignment_id", "assignment"),
    Column("week_no", SmallInteger, nullable=False),
    Column("spec", Json, nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)
Index(
    "uq_week_change_standing",
    week_change.c.assignment_id,
    week_change.c.week_no,
    unique=True,
    sqlite_where=week_change.c.voided_at.is_(None),
    postgresql_where=week_change.c.voided_at.is_(None),
)

kit = Table(
    "kit",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("place", String(40), nullable=False),
    Column("spec", Json, nullable=False),
    Column("usual", Boolean, nullable=False, server_default=text("true")),
    UniqueConstraint("client_id", "place"),
)

session = Table(
    "session",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    _ref("assignment_id", "assignment"),
    Column("week_no", SmallInteger, nullable=False),
    Column("day_key", String(60), nullable=False),
    Column("attempt", SmallInteger, nullable=False, server_default="1"),
    Column("local_on", Date, nullable=False),
    Column("due_at", UtcDateTime, nullable=False),
    Column("date_chosen", Boolean, nullable=False, server_default=text("false")),
    Column("moved_to", Id, index=True),
    Column("state", String(12), nullable=False),
    Column("place", String(40)),
    Column("late", Boolean, nullable=False, server_default=text("false")),
    Column("cursor_item_id", Id),
    Column("revision", Integer, nullable=False, server_default="0"),
    Column("effort", SmallInteger),
    Column("left_reason", String(20)),
    Column("sent_at", UtcDateTime),
    Column("started_at", UtcDateTime),
    Column("closed_at", UtcDateTime),
    UniqueConstraint("assignment_id", "week_no", "day_key", "attempt"),
    CheckConstraint(
        "state IN ('planned', 'sent', 'started', 'asking', 'done', 'partial', 'left_out', 'missed', 'unsent', "
        "'held', 'moved')",
        name="state",
    ),
)
Index("ix_session_due", session.c.state, session.c.due_at)
Index("ix_session_sent", session.c.coach_id, session.c.sent_at)

item = Table(
    "item",
    metadata,
    _id(),
    _coach(),
    _ref("session_id", "session"),
    Column("position", SmallInteger, nullable=False),
    Column("exercise", String(60), nullable=False),
    Column("prescription", Json, nullable=False),
    Column("given", Json, nullable=False),
    Column("left_last", SmallInteger),
    Column("decision_id", Id),
    Column("state", String(8), nullable=False, server_default="open"),
    Column("cause", String(12)),
    UniqueConstraint("session_id", "position"),
    CheckConstraint("state IN ('open', 'done', 'skipped')", name="state"),
)

logged_set = Table(
    "logged_set",
    metadata,
    _id(),
    _coach(),
    _ref("item_id", "item"),
    Column("set_no", SmallInteger, nullable=False),
    Column("side", String(1), nullable=False, server_default=""),
    Column("load_kind", String(12)),
    Column("load", ExactDecimal),
    Column("unit", String(2)),
    Column("basis", String(12), nullable=False),
    Column("reps", Integer),
    Column("seconds", Integer),
    Column("metres", Integer),
    Column("rir", SmallInteger),
    Column("rpe", ExactDecimal),
    Column("by_tap", Boolean, nullable=False, server_default=text("false")),
    Column("entry", Integer, nullable=False),
    Column("message_id", Id),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
    Column("voided_by", String(12)),
)
Index(
    "uq_logged_set_standing",
    logged_set.c.item_id,
    logged_set.c.set_no,
    logged_set.c.side,
    unique=True,
    sqlite_where=logged_set.c.voided_at.is_(None),
    postgresql_where=logged_set.c.voided_at.is_(None),
)

body_report = Table(
    "body_report",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("session_id", Id, index=True),
    Column("item_id", Id),
    Column("exercise", String(60)),
    Column("kind", String(12), nullable=False),
    Column("site", String(20)),
    Column("side", String(1)),
    Column("score", SmallInteger),
    Column("when_felt", String(14)),
    Column("sudden", Boolean, nullable=False, server_default=text("false")),
    Column("spreading", Boolean, nullable=False, server_default=text("false")),
    Column("painkiller", Boolean, nullable=False, server_default=text("false")),
    Column("weak", Boolean, nullable=False, server_default=text("false")),
    Column("fever", Boolean, nullable=False, server_default=text("false")),
    Column("answers_to", Id, index=True),
    Column("rule", String(40)),
    Column("local_on", Date, nullable=False),
    Column("message_id", Id),
    Column("at", UtcDateTime, nullable=False),
    Column("released_at", UtcDateTime),
    Column("voided_at", UtcDateTime),
    Column("voided_by", String(12)),
    CheckConstraint("kind IN ('pain', 'soreness', 'stop_sign')", name="kind"),
)

decision = Table(
    "decision",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("item_id", Id, index=True),
    Column("exercise", String(60), nullable=False),
    Column("made_for", String(12), nullable=False),
    Column("inputs", Text, nullable=False),
    Column("output", Text, nullable=False),
    Column("rules_version", String(20), nullable=False),
    Column("made_at", UtcDateTime, nullable=False),
    Column("superseded_by", Id),
    CheckConstraint("made_for IN ('closing', 'card', 'correction')", name="made_for"),
)
Index("ix_decision_latest", decision.c.client_id, decision.c.exercise, decision.c.id)

alert = Table(
    "alert",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("key", String(120), nullable=False),
    Column("level", SmallInteger, nullable=False),
    Column("grown", Integer, nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("told_at", UtcDateTime),
    Column("seen_at", UtcDateTime),
    Column("closed_at", UtcDateTime),
    Column("facts", Json),
    Column("due_at", UtcDateTime),
    Column("reminded", SmallInteger, nullable=False, server_default="0"),
)
Index("ix_alert_due", alert.c.closed_at, alert.c.due_at)
Index(
    "uq_alert_open",
    alert.c.coach_id,
    alert.c.key,
    unique=True,
    sqlite_where=alert.c.closed_at.is_(None),
    postgresql_where=alert.c.closed_at.is_(None),
)

rule = Table(
    "rule",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client", nullable=True),
    Column("exercise", String(60)),
    Column("key", String(60), nullable=False),
    Column("value", Json, nullable=False),
    Column("by_user_id", Id, nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)

order = Table(
    "coach_order",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("exercise", String(60)),
    Column("kind", String(20), nullable=False),
    Column("facts", Json, nullable=False),
    Column("from_on", Date),
    Column("until_on", Date),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)

card = Table(
    "card",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client", nullable=True),
    Column("key", String(80), nullable=False),
    Column("chat_id", Id, nullable=False),
    Column("message_id", Id),
    Column("wanted", Integer, nullable=False, server_default="0"),
    Column("shown", Integer, nullable=False, server_default="0"),
    UniqueConstraint("coach_id", "key"),
)
Index("ix_card_message", card.c.chat_id, card.c.message_id)

prompt = Table(
    "prompt",
    metadata,
    _id(),
    _coach(),
    Column("user_id", Id, nullable=False),
    Column("chat_id", Id, nullable=False),
    _ref("client_id", "client", nullable=True),
    Column("kind", String(20), nullable=False),
    Column("subject", Id),
    Column("card_key", String(80)),
    Column("facts", Json, nullable=False),
    Column("revision", Integer, nullable=False, server_default="0"),
    Column("expects_text", Boolean, nullable=False, server_default=text("false")),
    Column("opened_at", UtcDateTime, nullable=False),
    Column("closed_at", UtcDateTime),
    Index("ix_prompt_user_id", "user_id"),
    Index("ix_prompt_about", "kind", "subject"),
)
Index(
    "uq_prompt_expects_text",
    prompt.c.user_id,
    unique=True,
    sqlite_where=(prompt.c.expects_text & prompt.c.closed_at.is_(None)),
    postgresql_where=(prompt.c.expects_text & prompt.c.closed_at.is_(None)),
)

forwarded = Table(
    "forwarded",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("outbox_key", String(120), nullable=False),
    Column("chat_id", Id, nullable=False),
    Column("message_id", Id),
    Column("from_message_id", Id),
    Column("item_id", Id),
    Column("kind", String(12), nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("answered_at", UtcDateTime),
    UniqueConstraint("coach_id", "outbox_key"),
)
Index("ix_forwarded_message", forwarded.c.chat_id, forwarded.c.message_id)

picture = Table(
    "picture",
    metadata,
    _id(),
    _coach(),
    Column("client_id", Id, index=True),
    Column("bytes", LargeBinary, nullable=False),
    Column("name", String(80), nullable=False),
    Column("file_id", String(200)),
    Column("at", UtcDateTime, nullable=False),
)

due_question = Table(
    "due_question",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("kind", String(12), nullable=False),
    Column("local_on", Date, nullable=False),
    Column("due_at", UtcDateTime, nullable=False),
    Column("subject", Id),
    Column("facts", Json, nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("sent_at", UtcDateTime),
    Column("answered_at", UtcDateTime),
    Column("answers", Json),
    Column("dropped_at", UtcDateTime),
    UniqueConstraint("client_id", "kind", "local_on"),
)
Index("ix_due_question_due", due_question.c.sent_at, due_question.c.dropped_at, due_question.c.due_at)

health_answer = Table(
    "health_answer",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("question", String(20), nullable=False),
    Column("yes", Boolean, nullable=False),
    Column("said_on", Date),
    Column("at", UtcDateTime, nullable=False),
    Column("released_on", Date),
    Column("voided_at", UtcDateTime),
)
Index(
    "uq_health_answer_standing",
    health_answer.c.client_id,
    health_answer.c.question,
    unique=True,
    sqlite_where=health_answer.c.voided_at.is_(None),
    postgresql_where=health_answer.c.voided_at.is_(None),
)

illness = Table(
    "illness",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("kind", String(24), nullable=False),
    Column("since", Date, nullable=False),
    Column("free_on", Date),
    Column("released_on", Date),
    Column("easy_on", Date),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)

away = Table(
    "away",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("from_on", Date, nullable=False),
    Column("until_on", Date),
    Column("training", Boolean, nullable=False),
    Column("place", String(40)),
    Column("zone", String(64)),
    Column("zone_before", String(64)),
    Column("at", UtcDateTime, nullable=False),
    Column("ended_on", Date),
    Column("voided_at", UtcDateTime),
)

other_training = Table(
    "other_training",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("kind", String(20), nullable=False),
    Column("local_on", Date, nullable=False),
    Column("minutes", SmallInteger),
    Column("effort", SmallInteger),
    Column("message_id", Id),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)

goal = Table(
    "goal",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("text", String(200), nullable=False),
    Column("by_on", Date),
    Column("at", UtcDateTime, nullable=False),
    Column("outcome", String(12)),
    Column("ended_at", UtcDateTime),
)

record = Table(
    "record",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("exercise", String(60), nullable=False),
    Column("kind", String(16), nullable=False),
    Column("set_id", Id, nullable=False, index=True),
    Column("facts", Json, nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("told_at", UtcDateTime),
    Column("retracted_at", UtcDateTime),
    UniqueConstraint("set_id", "kind"),
)
Index("ix_record_of", record.c.client_id, record.c.exercise)

referral = Table(
    "referral",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("clinician", String(16), nullable=False),
    Column("why", String(300), nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("told_at", UtcDateTime),
    Column("seen_on", Date),
    Column("outcome", String(500)),
    Column("review_on", Date),
    Column("closed_at", UtcDateTime),
)

clinician_limit = Table(
    "clinician_limit",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("spec", Json, nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("ended_at", UtcDateTime),
)

reminder = Table(
    "reminder",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client", nullable=True),
    Column("text", String(300), nullable=False),
    Column("due_at", UtcDateTime, nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("told_at", UtcDateTime),
    Column("done_at", UtcDateTime),
)
Index("ix_reminder_due", reminder.c.told_at, reminder.c.done_at, reminder.c.due_at)

contract = Table(
    "contract",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("since_on", Date, nullable=False),
    Column("until_on", Date),
    Column("sessions", SmallInteger),
    Column("due_at", UtcDateTime),
    Column("at", UtcDateTime, nullable=False),
    Column("told_at", UtcDateTime),
    Column("ended_at", UtcDateTime),
)
Index("ix_contract_due", contract.c.told_at, contract.c.ended_at, contract.c.due_at)

hand_on = Table(
    "hand_on",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("at", UtcDateTime, nullable=False),
    Column("given_at", UtcDateTime),
    Column("refused_at", UtcDateTime),
    Column("withdrawn_at", UtcDateTime),
    Column("handed_at", UtcDateTime),
)

season_entry = Table(
    "season_entry",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client", nullable=True),
    Column("kind", String(8), nullable=False),
    Column("name", String(60), nullable=False),
    Column("from_on", Date, nullable=False),
    Column("until_on", Date, nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)

phrase = Table(
    "phrase",
    metadata,
    _id(),
    _coach(),
    Column("name", String(20), nullable=False),
    Column("text", String(1000), nullable=False),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)

week_note = Table(
    "week_note",
    metadata,
    _id(),
    _coach(),
    _ref("block_id", "block"),
    Column("week_no", SmallInteger, nullable=False),
    Column("text", String(1000), nullable=False),
    Column("media_kind", String(12)),
    Column("file_id", String(200)),
    Column("at", UtcDateTime, nullable=False),
    Column("voided_at", UtcDateTime),
)

coach_absence = Table(
    "coach_absence",
    metadata,
    _id(),
    _coach(),
    Column("from_on", Date, nullable=False),
    Column("until_on", Date, nullable=False),
    Column("cover", String(60)),
    Column("at", UtcDateTime, nullable=False),
    Column("ended_on", Date),
    Column("voided_at", UtcDateTime),
)

video_ask = Table(
    "video_ask",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("exercise", String(60), nullable=False),
    Column("set_no", SmallInteger),
    Column("side", String(60)),
    Column("at", UtcDateTime, nullable=False),
    Column("answered_at", UtcDateTime),
    Column("voided_at", UtcDateTime),
)

told = Table(
    "told",
    metadata,
    _id(),
    _coach(),
    _ref("client_id", "client"),
    Column("what", String(40), nullable=False),
    Column("at", UtcDateTime, nullable=False),
    UniqueConstraint("client_id", "what"),
)

erased = Table(
    "erased",
    metadata,
    _id(),
    _coach(),
    Column("at", UtcDateTime, nullable=False),
    Column("sessions", Integer, nullable=False),
    Column("sets", Integer, nullable=False),
)

inbox = Table(
    "inbox",
    metadata,
    Column("update_id", Id, primary_key=True, autoincrement=False),
    Column("chat_id", Id),
    Column("user_id", Id),
    Column("kind", String(16), nullable=False),
    Column("urgency", SmallInteger, nullable=False, server_default="0"),
    Column("state", String(12), nullable=False),
    Column("attempts", SmallInteger, nullable=False, server_default="0"),
    Column("not_before", UtcDateTime),
    Column("payload", Text),
    Column("reference", String(12)),
    Column("received_at", UtcDateTime, nullable=False),
    Column("done_at", UtcDateTime),
    CheckConstraint("state IN ('new', 'done', 'failed', 'quarantined')", name="state"),
)
Index("ix_inbox_head", inbox.c.state, inbox.c.urgency.desc(), inbox.c.update_id)
Index("ix_inbox_open", inbox.c.state, inbox.c.chat_id, inbox.c.update_id)

outbox = Table(
    "outbox",
    metadata,
    _id(),
    Column("coach_id", Id, ForeignKey("coach.id"), index=True),
    Column("client_id", Id, index=True),
    Column("chat_id", Id, nullable=False),
    Column("key", String(120), nullable=False, unique=True),
    Column("op", String(8), nullable=False),
    Column("card_id", Id, index=True),
    Column("message_id", Id),
    Column("lane", String(8), nullable=False),
    Column("rank", SmallInteger, nullable=False),
    Column("body", Json),
    Column("due_at", UtcDateTime, nullable=False),
    Column("not_after", UtcDateTime),
    Column("unasked", Boolean, nullable=False, server_default=text("false")),
    Column("state", String(12), nullable=False),
    Column("attempts", SmallInteger, nullable=False, server_default="0"),
    Column("doubts", SmallInteger, nullable=False, server_default="0"),
    Column("claimed_by", String(40)),
    Column("claimed_at", UtcDateTime),
    Column("sent_at", UtcDateTime),
    Column("cause", String(200)),
    Column("created_at", UtcDateTime, nullable=False),
    CheckConstraint("op IN ('send', 'edit', 'move', 'strip')", name="op"),
    CheckConstraint(
        "state IN ('queued', 'sending', 'sent', 'cancelled', 'expired', 'dead', 'doubtful')", name="state"
    ),
)
Index("ix_outbox_open", outbox.c.state, outbox.c.due_at)
Index("ix_outbox_chat", outbox.c.chat_id, outbox.c.state, outbox.c.id)

for _table in metadata.tables.values():
    if "id" in _table.c:
        # PostgreSQL's sequences never go back; SQLite gives the highest id anew once its row is deleted, and an old
        # button, or the key of something told, would then name somebody else's row.
        _table.dialect_options["sqlite"]["autoincrement"] = True
