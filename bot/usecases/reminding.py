"""`/remind NAME WHEN: WHAT`: a coach's reminder to herself, at her own decent hour, once."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import reminding as say
from bot.render.dates import day_words
from bot.render.setting_up import Buttons
from bot.store.prompts import Prompt
from bot.store.reminders import Reminder
from bot.store.units import Unit
from bot.usecases.block_files import only_for_coaches
from bot.usecases.effects import after_quiet
from bot.usecases.leaving import answer
from bot.usecases.named_first import named_first
from bot.usecases.taps_typed import typed_tap
from core.checkin.reminder_words import REMINDED_AT, reminder_read
from core.local_time import instant_of, local_date
from core.oversight.waiting import Reminder as InDigest

KIND = "reminder"
WORDS = {"done": Action.DONE, "tomorrow": Action.LATER, "next week": Action.LATER, "undo": Action.UNDO}
PUT_OFF = (1, 7)
"""Days that a reminder may be put off by, by button. Our proposal."""


@dataclass(frozen=True, slots=True)
class RemindSaid:
    """`/remind`, with what stands after it."""

    text: str = ""


@dataclass(frozen=True, slots=True)
class Remind:
    """A reminder is due."""

    reminder_id: int


def remind_said(command: RemindSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep a reminder and say it back; alone, list what waits."""
    if person.role != "coach":
        return only_for_coaches(person)
    if not command.text.strip():
        waiting = [
            (_name(each, unit), each.text, local_date(each.due_at, _zone(unit)))
            for each in unit.reminders.open()
        ]
        return [answer(person, KIND, say.listed(waiting))]
    client, rest = named_first(command.text, unit)
    read = reminder_read(rest, local_date(now, _zone(unit)))
    if read.on is None or not read.text:
        return [answer(person, KIND, say.how_to())]
    client_id = client.id if client is not None else None
    row = unit.reminders.add(client_id, read.text, max(_hour(read.on, unit), now), now)
    prompt = _opened(row, client_id, person.user_id, person.chat_id, unit, now)
    name = client.name if client is not None else None
    message = say.kept(name, read.text, read.on, Buttons(prompt.id, prompt.revision))
    key = f"{KIND}:{prompt.id}"
    return [Send(person.chat_id, message, key=f"{key}:card", card=key, client_id=client_id)]


def remind(command: Remind, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Remind the coach, once for each day that it was put on. In her quiet hours it waits for their end."""
    found = unit.reminders.get(command.reminder_id)
    account = unit.accounts.coach(unit.tenant)
    if found is None or found.told_at is not None or found.done_at is not None or account is None:
        return []
    waits = after_quiet(now, _zone(unit), unit.rules.policy())
    if waits > now:
        unit.reminders.put_off(found.id, waits)
        return []
    unit.reminders.told(found.id, now)
    prompt = _opened(found.id, found.client_id, account.user_id, account.chat_id, unit, now)
    message = say.reminder(_name(found, unit), found.text, Buttons(prompt.id, prompt.revision))
    key = f"{KIND}:{prompt.id}"
    return [Send(account.chat_id, message, key=f"{key}:card", card=key, client_id=found.client_id)]


def _opened(row: int, client_id: int | None, user_id: int, chat_id: int, unit: Unit, now: datetime) -> Prompt:
    unit.prompts.close_kind(KIND, row, now)
    prompt = unit.prompts.open(KIND, user_id, chat_id, now, client_id=client_id, subject=row)
    unit.prompts.set_card(prompt.id, f"{KIND}:{prompt.id}")
    unit.prompts.expect_text(prompt)
    return prompt


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Note that it is done, put it off, or take it back before it was due."""
    found = unit.reminders.get(prompt.subject or 0)
    if found is None or person.role != "coach":
        return []
    match tap.action:
        case Action.DONE:
            unit.reminders.done(found.id, now)
            return [_settled(found, prompt, unit, now, say.DONE)]
        case Action.LATER if tap.argument in PUT_OFF:
            on = local_date(now, _zone(unit)) + timedelta(days=tap.argument)
            unit.reminders.put_off(found.id, _hour(on, unit))
            return [_settled(found, prompt, unit, now, say.put_off(on))]
        case Action.UNDO if found.told_at is None:
            unit.reminders.done(found.id, now)
            return [_settled(found, prompt, unit, now, say.UNDONE)]
        case _:
            return refreshed(prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show how a reminder stands, after a tap on a button that is no longer good."""
    found = unit.reminders.get(prompt.subject or 0)
    if found is None or person.role != "coach":
        return []
    if found.done_at is not None:
        return [_card(prompt, say.settled(_name(found, unit), found.text, say.DONE))]
    if found.told_at is None:
        on = local_date(found.due_at, _zone(unit))
        return [_card(prompt, say.settled(_name(found, unit), found.text, say.put_off(on)))]
    revised = unit.prompts.revise(prompt.id)
    return [
        _card(prompt, say.reminder(_name(found, unit), found.text, Buttons(revised.id, revised.revision)))
    ]


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take a button's words; None for other words."""
    tap = typed_tap(text, prompt, WORDS)
    if tap is None:
        return None
    if tap.action is Action.LATER:
        tap = replace(tap, argument=1 if text.strip().casefold().startswith("tomorrow") else 7)
    found = tapped(tap, prompt, person, unit, now)
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in found]


def of_digest(unit: Unit, until: date) -> tuple[InDigest, ...]:
    """Return what is not done and due by a date of the coach's, soonest first; for the digest."""
    found = [(each, local_date(each.due_at, _zone(unit))) for each in unit.reminders.open()]
    return tuple(InDigest(text=each.text, on=on, name=_name(each, unit)) for each, on in found if on <= until)


def lines_of(client_id: int, unit: Unit) -> tuple[str, ...]:
    """Return the coach's reminders about a client, as plain text."""
    return tuple(
        f"Reminder {day_words(local_date(each.due_at, _zone(unit)))}: {each.text}"
        for each in unit.reminders.open()
        if each.client_id == client_id
    )


def _settled(found: Reminder, prompt: Prompt, unit: Unit, now: datetime, what: str) -> EditCard:
    unit.prompts.close(prompt.id, now)
    return _card(prompt, say.settled(_name(found, unit), found.text, what))


def _card(prompt: Prompt, message: Message) -> EditCard:
    key = prompt.card_key or f"{KIND}:{prompt.id}"
    return EditCard(key, prompt.chat_id, message, client_id=prompt.client_id)


def _hour(on: date, unit: Unit) -> datetime:
    return after_quiet(instant_of(on, REMINDED_AT, _zone(unit)), _zone(unit), unit.rules.policy())


def _zone(unit: Unit) -> str:
    return unit.coaches.get(unit.tenant).zone


def _name(found: Reminder, unit: Unit) -> str | None:
    return unit.clients.get(found.client_id).name if found.client_id is not None else None
