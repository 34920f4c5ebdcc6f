"""Chat updates in, use-cases out. No rule and no wording lives here."""

import asyncio

from telegram import Message, Update
from telegram.error import BadRequest, NetworkError, RetryAfter

from bot.files.kinds import MOST_BYTES
from bot.inbound.doors import Context, catalogue_for, doors, run
from bot.messages import decode
from bot.usecases import (
    answering,
    coach_settings,
    forwarding,
    helping,
    join,
    kit,
    own_data,
    own_settings,
    setting_up,
    talk,
    today,
    week,
)
from bot.usecases.runner import OutOfReach


async def on_start(update: Update, context: Context) -> None:
    """`/start`, with a code or without."""
    code = context.args[0] if context.args else None
    await run(update, context, join.start, join.Start(invite_code=code))


async def on_stop(update: Update, context: Context) -> None:
    """`/stop`."""
    await run(update, context, join.stop, join.Stop())


async def on_help(update: Update, context: Context) -> None:
    """`/help`, and any command that there is not."""
    await run(update, context, helping.help_asked, helping.Help())


async def on_today(update: Update, context: Context) -> None:
    """`/today`."""
    await run(update, context, today.today, today.Today())


async def on_week(update: Update, context: Context) -> None:
    """`/week`."""
    await run(update, context, week.week, week.Week())


async def on_settings(update: Update, context: Context) -> None:
    """`/settings`."""
    await run(update, context, coach_settings.settings, own_settings.Settings())


async def on_kit(update: Update, context: Context) -> None:
    """`/kit`, with lines after it."""
    message = update.effective_message
    words = ((message.text if message is not None else "") or "").split(maxsplit=1)
    await run(update, context, kit.kit_said, kit.KitSaid(text=words[1] if len(words) > 1 else ""))


async def on_mydata(update: Update, context: Context) -> None:
    """`/mydata`."""
    await run(update, context, own_data.data_asked, own_data.DataAsked())


async def on_forget(update: Update, context: Context) -> None:
    """`/forget`."""
    await run(update, context, own_data.forget, own_data.Forget(text=" ".join(context.args or ())))


async def on_text(update: Update, context: Context) -> None:
    """Plain words, and the commands that are a short reply."""
    message = update.effective_message
    if message is not None and message.text is not None:
        edited = update.edited_message is not None
        await run(update, context, talk.heard, talk.Heard(message.text, edited=edited))


async def on_tap(update: Update, context: Context) -> None:
    """A button."""
    query = update.callback_query
    if query is not None:
        await run(update, context, talk.tapped, talk.Tapped(decode(query.data or "")))


async def on_document(update: Update, context: Context) -> None:
    """A file: a coach's block, or something for the coach."""
    document = update.effective_message.document if update.effective_message else None
    if document is None:
        return

    async def fetched(command: setting_up.FileSent) -> setting_up.FileSent:
        if not command.wanted or command.size > MOST_BYTES:
            return command
        catalogue = await catalogue_for(update, context)
        if catalogue is None:
            return command
        content = await _downloaded(context, command.file_id)
        return await asyncio.to_thread(setting_up.opened, command, content, catalogue)

    command = setting_up.FileSent(
        file_id=document.file_id,
        name=document.file_name or "file",
        size=document.file_size or 0,
        caption=(update.effective_message.caption or "") if update.effective_message else "",
    )
    await run(update, context, setting_up.file_sent, command, fetched)


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
        await run(update, context, answering.media_sent, command)


async def on_member(update: Update, context: Context) -> None:
    """The bot was blocked, or unblocked."""
    change = update.my_chat_member
    if change is not None:
        reachable = change.new_chat_member.status == "member"
        await run(update, context, forwarding.reached, forwarding.Reached(reachable=reachable))


async def on_other(update: Update, context: Context) -> None:
    """Anything else: a sticker, a contact, new words under a photo that was sent before."""
    edited = update.edited_message
    command = helping.CannotUse() if edited is None else helping.CannotUse(edited=True, text=_words(edited))
    await run(update, context, helping.cannot_use, command)


def _words(message: Message) -> str:
    return message.text or message.caption or ""


async def on_error(update: object, context: Context) -> None:
    """A handler raised past the runner: the worker counts it."""
    worker = doors(context).worker
    if worker is not None and isinstance(update, Update) and context.error is not None:
        worker.stumbled[update.update_id] = context.error
