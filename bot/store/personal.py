"""Whose data is in every column, and which of it is about health. Export, erasure and retention go by this list.

A column that is missing here fails the tests: whoever adds one decides.
"""

from dataclasses import dataclass
from enum import Enum

from sqlalchemy import ColumnElement, Table, and_, or_, select

from bot.store import tables
from bot.store.tables import metadata


class Whose(Enum):
    """Whose data it is."""

    CLIENT = "client"
    COACH = "coach"
    OPERATOR = "operator"
    NOBODY = "nobody"


@dataclass(frozen=True, slots=True)
class Personal:
    """What a column holds.

    Attributes:
        whose: Whose data it is; nobody's is what only keeps rows together, and how the work goes on.
        health: It says, or may say, something about somebody's health.
    """

    whose: Whose
    health: bool = False


_CLIENT = Personal(Whose.CLIENT)
_HEALTH = Personal(Whose.CLIENT, health=True)
_COACH = Personal(Whose.COACH)
_OPERATOR = Personal(Whose.OPERATOR)
_NOBODY = Personal(Whose.NOBODY)


def _columns(**kinds: str) -> dict[str, Personal]:
    return {name: _KINDS[kind] for kind, names in kinds.items() for name in names.split()}


_KINDS = {
    "client": _CLIENT,
    "health": _HEALTH,
    "coach": _COACH,
    "operator": _OPERATOR,
    "nobody": _NOBODY,
}

COLUMNS: dict[str, dict[str, Personal]] = {
    "account": _columns(client="user_id chat_id client_id reachable unreachable_at", nobody="coach_id role"),
    "alert": _columns(
        health="key level grown facts",
        client="client_id at told_at",
        coach="seen_at closed_at due_at reminded",
        nobody="id coach_id",
    ),
    "assignment": _columns(
        client="client_id starts_on laid_until ended_at created_at",
        health="changes",
        nobody="id coach_id version_id",
    ),
    "assignment_version": _columns(
        client="client_id assignment_id from_on at voided_at", nobody="id coach_id version_id"
    ),
    "away": _columns(
        client="client_id from_on until_on training place zone zone_before at ended_on voided_at",
        nobody="id coach_id",
    ),
    "block": _columns(coach="name created_at", nobody="id coach_id"),
    "block_version": _columns(coach="spec sha256 created_at", nobody="id coach_id block_id no"),
    "body_report": _columns(
        health="exercise kind site side score when_felt sudden spreading painkiller weak fever rule "
        "local_on at released_at",
        client="client_id session_id item_id message_id answers_to voided_at voided_by",
        nobody="id coach_id",
    ),
    "card": _columns(client="client_id key chat_id message_id", nobody="id coach_id wanted shown"),
    "chat": _columns(client="chat_id last_sent_at stranger_answered_at", nobody="paused_until"),
    "client": _columns(
        client="name unit zone hour days minutes experience kit_kind usually_alone safety_arms age_band joined_at "
        "stopped_at heard_at paused_until created_at state weekly_line",
        health="limits_said bodyweight bodyweight_on frozen_at frozen_for join_step",
        nobody="id coach_id",
    ),
    "clip": _columns(coach="drill link at voided_at", nobody="id coach_id"),
    "clinician_limit": _columns(client="client_id at ended_at", health="spec", nobody="id coach_id"),
    "coach": _columns(
        coach="name zone country digest_weekday digest_at created_at last_seen_at missed_style in_line_since "
        "plan_weekday check_in_weekday check_in_questions office_days office_from office_to "
        "second_name second_user_id second_chat_id second_code second_until",
        nobody="id",
    ),
    "coach_absence": _columns(coach="from_on until_on cover at ended_on voided_at", nobody="id coach_id"),
    "coach_order": _columns(
        client="client_id exercise kind from_on until_on at voided_at", health="facts", nobody="id coach_id"
    ),
    "consent": _columns(client="client_id version given_at withdrawn_at ended_at", nobody="id coach_id"),
    "contract": _columns(
        client="client_id",
        coach="since_on until_on sessions due_at at told_at ended_at",
        nobody="id coach_id",
    ),
    "cue": _columns(client="client_id", health="exercise site side text at voided_at", nobody="id coach_id"),
    "daily_prep": _columns(client="client_id due_at at ended_at", health="spec", nobody="id coach_id"),
    "decision": _columns(
        client="client_id item_id exercise made_for made_at",
        health="inputs output",
        nobody="id coach_id rules_version superseded_by",
    ),
    "due_question": _columns(
        client="client_id kind local_on due_at at sent_at answered_at dropped_at",
        health="facts answers",
        nobody="id coach_id subject",
    ),
    "erased": _columns(coach="at sessions sets", nobody="id coach_id"),
    "exercise": _columns(coach="key spec created_at", nobody="id coach_id"),
    "forwarded": _columns(
        client="client_id outbox_key message_id from_message_id item_id at answered_at",
        health="kind",
        coach="chat_id",
        nobody="id coach_id",
    ),
    "goal": _columns(client="client_id by_on at outcome ended_at", health="text", nobody="id coach_id"),
    "hand_on": _columns(
        client="client_id at given_at refused_at withdrawn_at handed_at", nobody="id coach_id"
    ),
    "health_answer": _columns(
        client="client_id at voided_at", health="question yes said_on released_on", nobody="id coach_id"
    ),
    "illness": _columns(
        client="client_id at voided_at",
        health="kind since free_on released_on easy_on",
        nobody="id coach_id",
    ),
    "inbox": _columns(
        client="chat_id user_id kind received_at",
        health="urgency payload",
        operator="attempts not_before state reference done_at",
        nobody="update_id",
    ),
    "invite": _columns(
        client="name client_id",
        health="prefill",
        coach="kind created_at expires_at used_at revoked_at code_hash",
        nobody="id coach_id",
    ),
    "item": _columns(
        client="exercise prescription given left_last state",
        health="cause",
        nobody="id coach_id session_id position decision_id",
    ),
    "kit": _columns(client="client_id place spec usual", nobody="id coach_id"),
    "last_load": _columns(
        client="client_id exercise load_kind load unit basis reps local_on at voided_at", nobody="id coach_id"
    ),
    "logged_set": _columns(
        client="load_kind load unit basis reps seconds metres rir rpe by_tap message_id at voided_at voided_by",
        nobody="id coach_id item_id set_no side entry",
    ),
    "other_training": _columns(
        client="client_id kind local_on minutes effort message_id at voided_at", nobody="id coach_id"
    ),
    "outbox": _columns(
        client="client_id chat_id message_id due_at sent_at",
        health="key body",
        operator="op lane rank not_after unasked state attempts doubts claimed_by claimed_at cause created_at",
        nobody="id coach_id card_id",
    ),
    "phrase": _columns(coach="name text at voided_at", nobody="id coach_id"),
    "picture": _columns(health="bytes name file_id", client="client_id at", nobody="id coach_id"),
    "prompt": _columns(
        client="user_id chat_id client_id opened_at closed_at",
        health="kind facts",
        nobody="id coach_id subject card_key revision expects_text",
    ),
    "record": _columns(
        client="client_id exercise kind set_id facts at told_at retracted_at", nobody="id coach_id"
    ),
    "referral": _columns(
        client="client_id at told_at closed_at",
        health="clinician why seen_on outcome review_on",
        nobody="id coach_id",
    ),
    "reminder": _columns(client="client_id due_at at told_at done_at", health="text", nobody="id coach_id"),
    "rule": _columns(
        client="client_id exercise key at voided_at", health="value", coach="by_user_id", nobody="id coach_id"
    ),
    "season_entry": _columns(
        client="client_id kind name from_on until_on at voided_at", nobody="id coach_id"
    ),
    "session": _columns(
        client="client_id assignment_id local_on due_at place late effort sent_at started_at closed_at date_chosen "
        "moved_to",
        health="state left_reason",
        nobody="id coach_id week_no day_key attempt cursor_item_id revision",
    ),
    "told": _columns(client="client_id what at", nobody="id coach_id"),
    "video_ask": _columns(
        client="client_id exercise set_no side at answered_at voided_at", nobody="id coach_id"
    ),
    "week_change": _columns(client="client_id assignment_id week_no spec at voided_at", nobody="id coach_id"),
    "week_note": _columns(
        coach="week_no text media_kind file_id at voided_at", nobody="id coach_id block_id"
    ),
}
"""By table and column. Where a row may be a coach's or a client's, the client's counts."""


def client_tables() -> list[Table]:
    """Return the tables that hold a client's data, in an order in which rows can be deleted.

    Her account is last but one: her chat and her updates are found through it.
    """
    last = [tables.account, tables.client]
    return [
        table
        for table in reversed(metadata.sorted_tables)
        if table not in last and any(each.whose is Whose.CLIENT for each in COLUMNS[table.name].values())
    ] + last


def rows_of_client(table: Table, coach_id: int, client_id: int) -> ColumnElement[bool] | None:
    """Return the condition that picks a client's rows; None where nothing in a row tells whose it is."""
    hers = _hers(table, coach_id, client_id)
    if hers is None or "coach_id" not in table.c:
        return hers
    tenant = table.c.coach_id == coach_id
    if table.c.coach_id.nullable:
        # A message without a tenant answered her before she was anybody's client.
        tenant = or_(tenant, table.c.coach_id.is_(None))
    return and_(tenant, hers)


def _hers(table: Table, coach_id: int, client_id: int) -> ColumnElement[bool] | None:
    account, session, item = tables.account, tables.session, tables.item
    chats = select(account.c.chat_id).where(account.c.coach_id == coach_id, account.c.client_id == client_id)
    sessions = select(session.c.id).where(session.c.client_id == client_id)
    if table is tables.client:
        return table.c.id == client_id
    if table is item:
        return table.c.session_id.in_(sessions)
    if table is tables.logged_set:
        return table.c.item_id.in_(select(item.c.id).where(item.c.session_id.in_(sessions)))
    if table in {tables.inbox, tables.chat}:
        return table.c.chat_id.in_(chats)
    if table in {tables.outbox, tables.prompt, tables.card}:
        return or_(table.c.client_id == client_id, table.c.chat_id.in_(chats))
    return table.c.client_id == client_id if "client_id" in table.c else None
