"""Chat updates in, use-cases out. No rule and no wording lives here."""

import asyncio
import re
from dataclasses import replace
from typing import Any

from telegram import Message, Update
from telegram.error import BadRequest, NetworkError, RetryAfter

from bot.files.kinds import MOST_BYTES
from bot.inbound.doors import Context, catalogue_for, doors, policy_for, run
from bot.inbound.shared_place import zone_at
from bot.messages import decode
from bot.usecases import (
    away,
    check_in,
    coach_settings,
    drawn_taps,
    forwarding,
    goals,
    helping,
    illness,
    join,
    join_place,
    kit,
    media,
    other_training,
    own_data,
    own_settings,
    physio_summary,
    plan_week,
    progress,
    records_list,
    setting_up,
    talk,
    telling_many,
    today,
    week,
)
from bot.usecases.runner import OutOfReach

FILES = ("photo", "voice", "video", "video_note", "audio", "animation", "sticker")
"""What is passed on as it came; a file that may be a block is not among them."""


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


async def on_plan(update: Update, context: Context) -> None:
    """`/plan`."""
    await run(update, context, plan_week.plan_asked, plan_week.PlanAsked())


async def on_check_in(update: Update, context: Context) -> None:
    """`/checkin`; a coach's with words after it."""
    await run(update, context, check_in.check_in, check_in.CheckIn(text=" ".join(context.args or ())))


async def on_other_training(update: Update, context: Context) -> None:
    """`/other`, alone or with what was done."""
    command = other_training.OtherSaid(text=" ".join(context.args or ()))
    await run(update, context, other_training.other_said, command)


async def on_goals(update: Update, context: Context) -> None:
    """`/goals`, alone or with a goal."""
    await run(update, context, goals.goals_asked, goals.GoalsAsked(text=" ".join(context.args or ())))


async def on_settings(update: Update, context: Context) -> None:
    """`/settings`."""
    command = own_settings.Settings(text=" ".join(context.args or ()))
    await run(update, context, coach_settings.settings, command)


async def on_kit(update: Update, context: Context) -> None:
    """`/kit`, with lines after it."""
    message = update.effective_message
    words = ((message.text if message is not None else "") or "").split(maxsplit=1)
    await run(update, context, kit.kit_said, kit.KitSaid(text=words[1] if len(words) > 1 else ""))


async def on_ill(update: Update, context: Context) -> None:
    """`/ill`, with words after it."""
    await run(update, context, illness.said, illness.IllSaid(text=" ".join(context.args or ())))


async def on_progress(update: Update, context: Context) -> None:
    """`/progress`, of a lift, or of a coach's client."""
    user = update.effective_user
    runner = doors(context).runner

    async def drawn(command: progress.ProgressAsked) -> progress.ProgressAsked:
        user_id = user.id if user is not None else 0
        return await asyncio.to_thread(progress.prepared, runner.units, user_id, command, runner.clock.now())

    command = progress.ProgressAsked(text=" ".join(context.args or ()))
    await run(update, context, progress.progress_asked, command, drawn)


async def on_records(update: Update, context: Context) -> None:
    """`/records`, of an exercise, or of a coach's client."""
    command = records_list.RecordsAsked(text=" ".join(context.args or ()))
    await run(update, context, records_list.records_asked, command)


async def on_away(update: Update, context: Context) -> None:
    """`/away`, with dates after it."""
    await run(update, context, away.away, away.AwaySet(text=" ".join(context.args or ())))


async def on_back(update: Update, context: Context) -> None:
    """`/back`."""
    await run(update, context, away.back, away.Back())


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
        edited, runner = update.edited_message is not None, doors(context).runner
        user_id = update.effective_user.id if update.effective_user is not None else 0

        async def drawn(command: talk.Heard) -> talk.Heard:
            if not physio_summary.may_agree(command.text):
                return command
            now = runner.clock.now()
            made = await asyncio.to_thread(physio_summary.made_for_yes, runner.units, user_id, now)
            return replace(command, summary=made)

        await run(update, context, talk.heard, talk.Heard(message.text, edited=edited), drawn)


async def on_tap(update: Update, context: Context) -> None:
    """A button."""
    query = update.callback_query
    if query is None:
        return
    tap = decode(query.data or "")
    user_id, units = query.from_user.id, doors(context).runner.units

    async def drawn(command: talk.Tapped) -> talk.Tapped:
        if command.tap is None or not drawn_taps.may_draw(command.tap):
            return command
        now = doors(context).runner.clock.now()
        made = await asyncio.to_thread(drawn_taps.drawn_for, units, user_id, command.tap, now)
        return replace(command, drawn=made)

    await run(update, context, talk.tapped, talk.Tapped(tap), drawn)


async def on_document(update: Update, context: Context) -> None:
    """A file: a coach's block, or something for the coach."""
    message = update.effective_message
    document = message.document if message is not None else None
    if message is None or document is None:
        return

    async def fetched(command: setting_up.FileSent) -> setting_up.FileSent:
        is_read = command.wanted and command.size <= MOST_BYTES
        if not is_read or telling_many.is_under(command.caption):
            return command
        catalogue = await catalogue_for(update, context)
        if catalogue is None:
            return command
        policy = await policy_for(update, context)
        content = await _downloaded(context, command.file_id)
        return await asyncio.to_thread(setting_up.opened, command, content, catalogue, policy)

    command = setting_up.FileSent(
        file_id=document.file_id,
        name=document.file_name or "file",
        size=document.file_size or 0,
        caption=message.caption or "",
        album=_album(message),
    )
    await run(update, context, media.document_sent, command, fetched)


async def _downloaded(context: Context, file_id: str) -> bytes:
    try:
        file = await context.bot.get_file(file_id)
        return bytes(await file.download_as_bytearray())
    except BadRequest:
        raise
    except (NetworkError, RetryAfter) as error:
        raise OutOfReach from error


async def on_media(update: Update, context: Context) -> None:
    """A photo, a voice message, a video and the like: for the coach, or for a client."""
    message = update.effective_message
    if message is None:
        return
    for kind in FILES:
        found: Any = getattr(message, kind)
        if found:
            file_id = found[-1].file_id if kind == "photo" else found.file_id
            command = forwarding.MediaSent(kind, file_id, message.caption or "", album=_album(message))
            await run(update, context, media.media_sent, command)
            return


async def on_contact(update: Update, context: Context) -> None:
    """Somebody's name and number."""
    contact = update.effective_message.contact if update.effective_message else None
    if contact is not None:
        names = (contact.first_name, contact.last_name, contact.phone_number)
        command = forwarding.MediaSent("contact", "", " ".join(each for each in names if each))
        await run(update, context, media.media_sent, command)


def _album(message: Message) -> str | None:
    """Return the platform's name for what was sent together, as letters and digits alone."""
    return re.sub(r"[^0-9A-Za-z]", "", message.media_group_id or "")[:32] or None


async def on_location(update: Update, context: Context) -> None:
    """A place that somebody shares: only its clock goes on from here."""
    message = update.effective_message
    if message is None or message.location is None:
        return
    latitude, longitude = message.location.latitude, message.location.longitude

    async def found(command: join_place.PlaceShared) -> join_place.PlaceShared:
        return replace(command, zone=await asyncio.to_thread(zone_at, latitude, longitude))

    await run(update, context, join_place.place_shared, join_place.PlaceShared(), found)


async def on_member(update: Update, context: Context) -> None:
    """The bot was blocked, or unblocked."""
    change = update.my_chat_member
    if change is not None:
        reachable = change.new_chat_member.status == "member"
        await run(update, context, forwarding.reached, forwarding.Reached(reachable=reachable))


async def on_other(update: Update, context: Context) -> None:
    """Anything else: a poll, a dice, a file or its caption that was changed after it was sent."""
    edited = update.edited_message
    if edited is None:
        await run(update, context, helping.cannot_use, helping.CannotUse())
    elif edited.caption or any(getattr(edited, kind) for kind in (*FILES, "document")):
        await run(update, context, media.caption_edited, media.CaptionEdited(edited.caption or ""))
    else:
        text = edited.text or ""
        await run(update, context, helping.cannot_use, helping.CannotUse(edited=True, text=text))


async def on_error(update: object, context: Context) -> None:
    """A handler raised past the runner: the worker counts it."""
    worker = doors(context).worker
    if worker is not None and isinstance(update, Update) and context.error is not None:
        worker.stumbled[update.update_id] = context.error
