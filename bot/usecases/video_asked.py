"""`/video`: a coach asks for a video; her client finds it on the card, and what comes back says that it was asked."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import video_asked as say
from bot.render.session_views import ItemView
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.store.video_asks import VideoAsk
from bot.usecases.finding_clients import clients_meant, is_clear
from bot.usecases.leaving import answer
from bot.usecases.only_coaches import only_for_coaches
from core.checkin.training_log import Item
from core.programme.catalogue import named, suggestions

KIND = "video ask"
FILMS = frozenset({"video", "video_note", "animation"})
LONGEST_SIDE = 60
"""Most letters of from where. Our proposal."""
MOST_SETS = 20
MOST_PICKS = 8
_SET = re.compile(r"[,\s]+set\s+(\d{1,2})\b", re.IGNORECASE)
_FROM = re.compile(r"[,\s]+(from\s+\S.*)$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class VideoSaid:
    """`/video`, with what stands after it: `Ada hip thrust set 3 from the side`."""

    text: str = ""


def video_said(command: VideoSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask for a video on the next card with the exercise, and read it back."""
    if person.role != "coach":
        return only_for_coaches(person)
    text = " ".join(command.text.split())
    if not text:
        return [answer(person, "video", say.how_to())]
    side = _FROM.search(text)
    text = _FROM.sub("", text)
    number = _SET.search(text)
    words = [word.strip(",") for word in _SET.sub("", text).split()]
    client, rest = _client(words, unit)
    if client is None:
        return [answer(person, "video", say.whom(command.text))]
    if not rest:
        return begin(client, person, unit, now)
    exercise = named(rest, unit.exercises.catalogue())
    set_no = int(number[1]) if number is not None else None
    if exercise is None or (set_no is not None and not 1 <= set_no <= MOST_SETS):
        near = suggestions(rest, catalogue=unit.exercises.catalogue())
        return [answer(person, "video", say.which_exercise(client.name, rest, [each.name for each in near]))]
    wanted = side[1][:LONGEST_SIDE] if side is not None else None
    prompt, message = _asked(client, exercise.key, set_no, wanted, person, unit, now)
    return [Send(person.chat_id, message, key=f"{_key(prompt)}:said", card=_key(prompt))]


def _client(words: Sequence[str], unit: Unit) -> tuple[Client | None, str]:
    """Return whom the first words mean, as many of them as mean somebody, and the others."""
    for count in range(len(words), 0, -1):
        name = " ".join(words[:count])
        found = clients_meant(name, unit)
        if is_clear(name, found):
            return found[0], " ".join(words[count:])
    return None, ""


def begin(client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask a coach which exercise of the coming session is to be seen."""
    keys = list(dict.fromkeys(_coming(client, unit)))[:MOST_PICKS]
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, client_id=client.id, facts={"picks": keys}
    )
    unit.prompts.set_card(prompt.id, _key(prompt))
    return [Send(person.chat_id, _pick(client, prompt, unit), key=f"{_key(prompt)}:ask", card=_key(prompt))]


def _pick(client: Client, prompt: Prompt, unit: Unit) -> Message:
    picks = [(number, unit.exercises.get(key).name) for number, key in enumerate(prompt.facts["picks"])]
    return say.pick(client.name, picks, _buttons(prompt))


def _coming(client: Client, unit: Unit) -> list[str]:
    planned = unit.sessions.next_planned(client.id)
    day = unit.versions.block_of(planned).day(planned.day_key) if planned is not None else None
    return [each.exercise for each in day.in_week(planned.week_no)] if day is not None and planned else []


def _asked(
    client: Client,
    exercise: str,
    set_no: int | None,
    side: str | None,
    person: Person,
    unit: Unit,
    now: datetime,
    prompt: Prompt | None = None,
) -> tuple[Prompt, Message]:
    ask_id = unit.talking.video_asks.add(client.id, exercise, set_no, side, now)
    if prompt is None:
        prompt = unit.prompts.open(
            KIND, person.user_id, person.chat_id, now, client_id=client.id, subject=ask_id
        )
        unit.prompts.set_card(prompt.id, _key(prompt))
    else:
        prompt = unit.prompts.revise(prompt.id, subject=ask_id)
    wanted = say.what(unit.exercises.get(exercise).name, set_no, side)
    coach = unit.coaches.get(unit.tenant).name
    return prompt, say.asked(client.name, wanted, _next_on(client, exercise, unit), coach, _buttons(prompt))


def _next_on(client: Client, exercise: str, unit: Unit) -> date | None:
    """Return the date of the next planned session that has an exercise."""
    for session in sorted(unit.sessions.of_client(client.id, ("planned",)), key=lambda each: each.local_on):
        day = unit.versions.block_of(session).day(session.day_key)
        if day is not None and any(each.exercise == exercise for each in day.in_week(session.week_no)):
            return session.local_on
    return None


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask for what was picked, or take back what was asked."""
    if person.role != "coach":
        return []
    picks = prompt.facts.get("picks", ())
    if prompt.subject is None and tap.action is Action.CANCEL:
        unit.prompts.close(prompt.id, now)
        return [EditCard(_key(prompt), prompt.chat_id, say.not_asked())]
    if prompt.subject is None and tap.action is Action.PICK and tap.argument < len(picks):
        client = unit.clients.get(prompt.client_id or 0)
        _, message = _asked(client, picks[tap.argument], None, None, person, unit, now, prompt)
        return [EditCard(_key(prompt), prompt.chat_id, message)]
    ask = unit.talking.video_asks.get(prompt.subject or 0)
    if tap.action is not Action.UNDO or ask is None or ask.answered_at or ask.voided_at:
        return refreshed(prompt, person, unit, now)
    unit.talking.video_asks.void(ask.id, now)
    unit.prompts.close(prompt.id, now)
    name = unit.clients.get(ask.client_id).name
    return [EditCard(_key(prompt), prompt.chat_id, say.taken_back(name, wanted_of(ask, unit)))]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Say how it stands, after a tap on an old button."""
    if person.role != "coach":
        return []
    ask = unit.talking.video_asks.get(prompt.subject or 0)
    client = unit.clients.get(prompt.client_id or 0)
    if ask is None:
        again = say.not_asked() if prompt.closed_at is not None else _pick(client, prompt, unit)
        return [EditCard(_key(prompt), prompt.chat_id, again)]
    wanted = wanted_of(ask, unit)
    if ask.answered_at is None and ask.voided_at is None:
        coach = unit.coaches.get(unit.tenant).name
        on = _next_on(client, ask.exercise, unit)
        message = say.asked(client.name, wanted, on, coach, _buttons(prompt))
        return [EditCard(_key(prompt), prompt.chat_id, message)]
    message = say.settled(client.name, wanted, came=ask.answered_at is not None)
    return [EditCard(_key(prompt), prompt.chat_id, message)]


def with_asks(items: tuple[ItemView, ...], client_id: int, unit: Unit) -> tuple[ItemView, ...]:
    """Return the exercises of a card with what their client's coach would like to see of them."""
    asks = unit.talking.video_asks.of_client(client_id)
    if not asks:
        return items
    coach = unit.coaches.get(unit.tenant).name
    return tuple(
        each
        if (ask := asks.get(each.item.exercise)) is None
        else replace(each, video=say.line(coach, wanted_of(ask, unit)))
        for each in items
    )


def came(
    kind: str, client_id: int, items: Sequence[Item], unit: Unit, now: datetime
) -> tuple[int, str] | None:
    """Note that a video came which was asked for; return the row that it shows, and what is said to the coach.

    Args:
        kind: What came.
        client_id: From whom.
        items: The exercise that is open, and the one that was logged last: one of them must be what was asked for.
        unit: Open transaction.
        now: Instant.
    """
    if kind not in FILMS:
        return None
    asks = unit.talking.video_asks.of_client(client_id)
    for item in items:
        ask = asks.get(item.exercise)
        if ask is not None:
            unit.talking.video_asks.answered(ask.id, now)
            return item.id, say.came(wanted_of(ask, unit))
    return None


def waiting_words(unit: Unit) -> str:
    """Return the videos that were asked for and have not come, for the digest; empty where there is none."""
    zone = ZoneInfo(unit.coaches.get(unit.tenant).zone)
    there = {each.id: each.name for each in unit.clients.roster()}
    return say.waiting(
        [
            (there[each.client_id], wanted_of(each, unit), each.at.astimezone(zone).date())
            for each in unit.talking.video_asks.waiting()
            if each.client_id in there
        ]
    )


def wanted_of(ask: VideoAsk, unit: Unit) -> str:
    """Return what is asked for, in words that are escaped."""
    return say.what(unit.exercises.get(ask.exercise).name, ask.set_no, ask.side)


def _buttons(prompt: Prompt) -> say.Buttons:
    return say.Buttons(prompt.id, prompt.revision)


def _key(prompt: Prompt) -> str:
    return f"{KIND}:{prompt.id}"
