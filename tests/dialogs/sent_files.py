"""Steps of a talk in which somebody sends what is no text."""

from typing import Any

from setting_out import Someone

from bot.messages import Effect
from bot.usecases import forwarding, media

KINDS = {
    "photo": "photo",
    "voice": "voice",
    "video": "video",
    "round video": "video_note",
    "sound": "audio",
    "moving picture": "animation",
    "sticker": "sticker",
    "document": "document",
}
"""How a talk names what is sent, and the platform's word for it."""
KIND = "|".join(KINDS)


def sent(talk_: Any, person: Someone, kind: str, caption: str | None) -> list[Effect]:
    talk_.message += 1
    words = (caption or "").removeprefix(": ")
    command = forwarding.MediaSent(KINDS[kind], f"file{talk_.message}", words)
    talk_.messages[person.user_id].append((words, talk_.message))
    return talk_.does(person, media.media_sent, command, talk_.message)


def sent_album(talk_: Any, person: Someone, count: str, caption: str | None) -> list[Effect]:
    effects: list[Effect] = []
    for number in range(int(count)):
        talk_.message += 1
        words = "" if number else (caption or "").removeprefix(": ")
        talk_.messages[person.user_id].append((words, talk_.message))
        command = forwarding.MediaSent(
            "photo", f"file{talk_.message}", words, album=f"{talk_.message - number}"
        )
        effects += talk_.does(person, media.media_sent, command, talk_.message)
    return effects


def edited_caption(talk_: Any, person: Someone, text: str) -> list[Effect]:
    command = media.CaptionEdited(text)
    return talk_.does(person, media.caption_edited, command, talk_.messages[person.user_id][-1][1])


def replied_with(talk_: Any, person: Someone, before: str, kind: str, caption: str | None) -> list[Effect]:
    talk_.message += 1
    command = forwarding.MediaSent(KINDS[kind], f"file{talk_.message}", (caption or "").removeprefix(": "))
    reply_to = talk_.house.message_with(person.user_id, before)
    return person.does(media.media_sent, command, message_id=talk_.message, reply_to=reply_to)
