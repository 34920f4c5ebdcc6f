"""A coach's commands of talking in, use-cases out. No rule and no wording lives here."""

from telegram import Update

from bot.inbound.doors import Context, run
from bot.usecases import block_voice, coach_away, office_hours, phrases, telling_many, video_asked


def _after(update: Update) -> str:
    """Return what stands after a command, with its lines as they were typed."""
    message = update.effective_message
    words = ((message.text if message is not None else "") or "").split(maxsplit=1)
    return words[1] if len(words) > 1 else ""


async def on_tell(update: Update, context: Context) -> None:
    """`/tell WHOM: WORDS`."""
    await run(update, context, telling_many.tell_said, telling_many.TellSaid(_after(update)))


async def on_video(update: Update, context: Context) -> None:
    """`/video NAME EXERCISE set N from WHERE`."""
    await run(update, context, video_asked.video_said, video_asked.VideoSaid(_after(update)))


async def on_phrase(update: Update, context: Context) -> None:
    """`/phrase`, or `/phrase NAME: WORDS`."""
    await run(update, context, phrases.phrase_said, phrases.PhraseSaid(_after(update)))


async def on_note(update: Update, context: Context) -> None:
    """`/note BLOCK week N`."""
    await run(update, context, block_voice.note_said, block_voice.NoteSaid(_after(update)))


async def on_office(update: Update, context: Context) -> None:
    """`/office HOURS DAYS`."""
    await run(update, context, office_hours.office_said, office_hours.OfficeSaid(_after(update)))


async def on_absent(update: Update, context: Context) -> None:
    """`/absent DATES, cover NAME`."""
    await run(update, context, coach_away.absent_said, coach_away.AbsentSaid(_after(update)))
