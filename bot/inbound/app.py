"""The platform library's application, with our handlers and without its updater."""

from typing import Any

from telegram import Update
from telegram.ext import (
    Application,
    CallbackQueryHandler,
    ChatMemberHandler,
    CommandHandler,
    MessageHandler,
    TypeHandler,
    filters,
)
from telegram.request import HTTPXRequest

from bot.inbound import coach_commands as coach
from bot.inbound import coach_papers as papers
from bot.inbound import coach_says as saying
from bot.inbound import coach_steers as steering
from bot.inbound import handlers as on
from bot.inbound.fetching import FetchingBot

READ_TIMEOUT_S = 65.0
"""The platform may sit on a send for 60 s while it waits out a limit itself; giving up sooner makes doubt."""

MEDIA = (
    filters.PHOTO
    | filters.VOICE
    | filters.VIDEO
    | filters.VIDEO_NOTE
    | filters.AUDIO
    | filters.ANIMATION
    | filters.Sticker.ALL
)
"""What is passed on as it came. A moving picture comes as a file too, so that this is asked for first."""

SHORT_REPLIES = ("log", "pain", "sore", "skip", "undo")


COMMANDS = (
    ("start", on.on_start),
    ("stop", on.on_stop),
    ("help", on.on_help),
    ("invite", coach.on_invite),
    ("assign", coach.on_assign),
    ("today", on.on_today),
    ("week", on.on_week),
    ("plan", on.on_plan),
    ("checkin", on.on_check_in),
    ("other", on.on_other_training),
    ("goals", on.on_goals),
    ("settings", on.on_settings),
    ("progress", on.on_progress),
    ("records", on.on_records),
    ("kit", on.on_kit),
    ("ill", on.on_ill),
    ("away", on.on_away),
    ("back", on.on_back),
    ("mydata", on.on_mydata),
    ("forget", on.on_forget),
    ("roster", coach.on_roster),
    ("second", coach.on_second),
    ("client", coach.on_client),
    ("preview", coach.on_preview),
    ("invites", coach.on_invites),
    ("template", coach.on_template),
    ("exercises", coach.on_exercises),
    ("cue", coach.on_cue),
    ("cues", coach.on_cues),
    ("block", coach.on_block),
    ("change", coach.on_change),
    ("lastloads", coach.on_last_loads),
    ("prep", coach.on_prep),
    ("clip", coach.on_clip),
    ("limits", coach.on_limits),
    ("limit", coach.on_limit),
    ("refer", coach.on_refer),
    ("referrals", coach.on_referrals),
    ("summary", coach.on_summary),
    ("remind", coach.on_remind),
    ("contract", coach.on_contract),
    ("goal", coach.on_goal),
    ("blocks", papers.on_blocks),
    ("season", papers.on_season),
    ("holiday", papers.on_holiday),
    ("event", papers.on_event),
    ("report", papers.on_report),
    ("logfile", papers.on_log_file),
    ("why", papers.on_why),
    ("rules", coach.on_rules),
    ("tell", saying.on_tell),
    ("video", saying.on_video),
    ("phrase", saying.on_phrase),
    ("note", saying.on_note),
    ("office", saying.on_office),
    ("absent", saying.on_absent),
    ("order", steering.on_order),
    ("orders", steering.on_orders),
    ("raises", steering.on_raises),
    ("pause", steering.on_pause),
    ("resume", steering.on_resume),
    ("end", steering.on_end),
)
"""Each command with what it does."""


def make_bot(token: str, api_url: str) -> FetchingBot:
    """Build the platform's client for any Bot API server."""
    root = api_url.rstrip("/")
    return FetchingBot(
        token,
        base_url=f"{root}/bot",
        base_file_url=f"{root}/file/bot",
        request=HTTPXRequest(connection_pool_size=32, read_timeout=READ_TIMEOUT_S, pool_timeout=10.0),
        get_updates_request=HTTPXRequest(
            connection_pool_size=2, read_timeout=READ_TIMEOUT_S, pool_timeout=10.0
        ),
    )


def make_application(bot: FetchingBot) -> "Application[Any, Any, Any, Any, Any, Any]":
    """Build the application: it only routes; fetching, order and sending are ours."""
    application = Application.builder().bot(bot).updater(None).job_queue(None).build()
    message = filters.UpdateType.MESSAGE
    edited = filters.UpdateType.EDITED_MESSAGE
    short = filters.Regex(rf"^/({'|'.join(SHORT_REPLIES)})(@\w+)?(\s|$)")
    for command, callback in COMMANDS:
        application.add_handler(CommandHandler(command, callback, filters=message))
    application.add_handler(CallbackQueryHandler(on.on_tap))
    application.add_handler(
        MessageHandler((message | edited) & filters.TEXT & (~filters.COMMAND | short), on.on_text)
    )
    application.add_handler(MessageHandler(message & filters.COMMAND, on.on_help))
    application.add_handler(MessageHandler(message & MEDIA, on.on_media))
    application.add_handler(MessageHandler(message & filters.CONTACT, on.on_contact))
    application.add_handler(MessageHandler(message & filters.Document.ALL, on.on_document))
    application.add_handler(MessageHandler(message & filters.LOCATION, on.on_location))
    application.add_handler(ChatMemberHandler(on.on_member, ChatMemberHandler.MY_CHAT_MEMBER))
    application.add_handler(TypeHandler(Update, on.on_other))
    application.add_error_handler(on.on_error)
    return application
