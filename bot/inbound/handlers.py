"""Chat updates in, use-cases out. No rule and no wording lives here."""

import asyncio
from dataclasses import dataclass, replace
from typing import Any

from telegram import Message, Update
from telegram.error import BadRequest, NetworkError, RetryAfter
from telegram.ext import ContextTypes

from bot.clock import Ids
from bot.files.kinds import MOST_BYTES
from bot.files.template import template
from bot.inbound.worker import Worker
from bot.messages import Arrival, decode
from bot.usecases import (
    answering,
    block_copies,
    coach_settings,
    forwarding,
    helping,
    invitations,
    join,
    own_settings,
    previewing,
    roster,
    setting_up,
    talk,
    today,
    week,
)
from bot.usecases.runner import OutOfReach, Runner

Context = ContextTypes.DEFAULT_TYPE


@dataclass
class Doors:
    """What handlers need; kept in the application's `bot_data`."""

    runner: Runner
    ids: Ids
    worker: Worker | None = None


def doors(context: Context) -> Doors:
    """Return what handlers need."""
    found: Doors = context.bot_data["doors"]
    return found


def arrival_of(update: Update) -> Arrival | None:
    """Return where an update came from; None when nobody can be answered."""
    user, chat = update.effective_user, update.effective_chat
    if user is None:
        return None
    query = update.callback_query
    message = query.message if query else update.effective_message
    reply = message.reply_to_message if isinstance(message, Message) and query is None else None
    return Arrival(
        update_id=update.update_id,
        user_id=user.id,
        chat_id=chat.id if chat else user.id,
        message_id=message.message_id if message else None,
        reply_to=reply.message_id if reply else None,
    )


async def _run(update: Update, context: Context, usecase: Any, command: Any, prepare: Any = None) -> None:
    arrival = arrival_of(update)
    if arrival is not None:
        await doors(context).runner.run(usecase, command, arrival, prepare)


async def on_start(update: Update, context: Context) -> None:
    """`/start`, with a code or without."""
    code = context.args[0] if context.args else None
    await _run(update, context, join.start, join.Start(invite_code=code))


async def on_stop(update: Update, context: Context) -> None:
    """`/stop`."""
    await _run(update, context, join.stop, join.Stop())


async def on_help(update: Update, context: Context) -> None:
    """`/help`, and any command that there is not."""
    await _run(update, context, helping.help_asked, helping.Help())


async def on_today(update: Update, context: Context) -> None:
    """`/today`."""
    await _run(update, context, today.today, today.Today())


async def on_week(update: Update, context: Context) -> None:
    """`/week`."""
    await _run(update, context, week.week, week.Week())


async def on_settings(update: Update, context: Context) -> None:
    """`/settings`."""
    await _run(update, context, coach_settings.settings, own_settings.Settings())


async def on_invite(update: Update, context: Context) -> None:
    """`/invite NAME`."""
    name = " ".join(context.args or ()).strip() or None
    code = doors(context).ids.word(20)
    command = setting_up.Invite(name=name, code=code, bot_name=context.bot.username)
    await _run(update, context, setting_up.invite, command)


async def on_assign(update: Update, context: Context) -> None:
    """`/assign`, alone or in one line."""
    await _run(update, context, setting_up.assign, setting_up.Assign(text=" ".join(context.args or ())))


async def on_roster(update: Update, context: Context) -> None:
    """`/roster`."""
    await _run(update, context, roster.roster, roster.Roster())


async def on_client(update: Update, context: Context) -> None:
    """`/client NAME`."""
    command = roster.ClientAsked(text=" ".join(context.args or ()))
    await _run(update, context, roster.client_asked, command)


async def on_preview(update: Update, context: Context) -> None:
    """`/preview`."""
    await _run(update, context, previewing.preview, previewing.Preview())


async def on_invites(update: Update, context: Context) -> None:
    """`/invites`."""
    await _run(update, context, invitations.invites, invitations.Invites())


async def on_template(update: Update, context: Context) -> None:
    """`/template`."""

    async def made(command: block_copies.FormAsked) -> block_copies.FormAsked:
        return (
            replace(command, content=await asyncio.to_thread(template))
            if await _from_coach(update, context)
            else command
        )

    await _run(update, context, block_copies.form_asked, block_copies.FormAsked(), made)


async def on_block(update: Update, context: Context) -> None:
    """`/block NAME`."""
    command = block_copies.BlockAsked(text=" ".join(context.args or ()))
    await _run(update, context, block_copies.block_asked, command)


async def on_text(update: Update, context: Context) -> None:
    """Plain words, and the commands that are a short reply."""
    message = update.effective_message
    if message is not None and message.text is not None:
        edited = update.edited_message is not None
        await _run(update, context, talk.heard, talk.Heard(message.text, edited=edited))


async def on_tap(update: Update, context: Context) -> None:
    """A button."""
    query = update.callback_query
    if query is not None:
        await _run(update, context, talk.tapped, talk.Tapped(decode(query.data or "")))


async def on_document(update: Update, context: Context) -> None:
    """A file: a coach's block, or something for the coach."""
    document = update.effective_message.document if update.effective_message else None
    if document is None:
        return

    async def fetched(command: setting_up.FileSent) -> setting_up.FileSent:
        if not command.wanted or command.size > MOST_BYTES or not await _from_coach(update, context):
            return command
        content = await _downloaded(context, command.file_id)
        return await asyncio.to_thread(setting_up.opened, command, content)

    command = setting_up.FileSent(
        file_id=document.file_id,
        name=document.file_name or "file",
        size=document.file_size or 0,
        caption=(update.effective_message.caption or "") if update.effective_message else "",
    )
    await _run(update, context, setting_up.file_sent, command, fetched)


async def _from_coach(update: Update, context: Context) -> bool:
    user = update.effective_user
    return user is not None and await doors(context).runner.is_coach(user.id)


async def _downloaded(context: Context, file_id: str) -> bytes:
    try:
        file = await context.bot.get_file(file_id)
        return bytes(await file.download_as_bytearray())
    except BadRequest:
        raise
    except (NetworkError, RetryAfter) as error:
        raise OutOfReach from error


async def on_media(update: Update, context: Context) -> None:
    """A photo, a voice message, a video: for the coach."""
    message = update.effective_message
    if message is None:
        return
    sent: tuple[str, str] | None = None
    if message.photo:
        sent = ("photo", message.photo[-1].file_id)
    elif message.voice:
        sent = ("voice", message.voice.file_id)
    elif message.video:
        sent = ("video", message.video.file_id)
    if sent is not None:
        command = forwarding.MediaSent(kind=sent[0], file_id=sent[1], caption=message.caption or "")
        await _run(update, context, answering.media_sent, command)


async def on_member(update: Update, context: Context) -> None:
    """The bot was blocked, or unblocked."""
    change = update.my_chat_member
    if change is not None:
        reachable = change.new_chat_member.status == "member"
        await _run(update, context, forwarding.reached, forwarding.Reached(reachable=reachable))


async def on_other(update: Update, context: Context) -> None:
    """Anything else: a sticker, a contact, new words under a photo that was sent before."""
    edited = update.edited_message
    command = helping.CannotUse() if edited is None else helping.CannotUse(edited=True, text=_words(edited))
    await _run(update, context, helping.cannot_use, command)


def _words(message: Message) -> str:
    return message.text or message.caption or ""


async def on_error(update: object, context: Context) -> None:
    """A handler raised past the runner: the worker counts it."""
    worker = doors(context).worker
    if worker is not None and isinstance(update, Update) and context.error is not None:
        worker.stumbled[update.update_id] = context.error
