"""Seasons: `/season` of all or of one, `/holiday` and `/event` put into them, and taken out again.

An event is there to plan by; on the days of a holiday no card comes. The picture is drawn before the transaction.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import holiday as holiday_words
from bot.render import season as say
from bot.render.season_chart import season_pictures
from bot.render.whose import which
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.seasons import SeasonEntry
from bot.store.units import Unit, Units
from bot.usecases import holiday
from bot.usecases.block_files import only_for_coaches
from bot.usecases.finding_clients import clients_meant, is_clear
from bot.usecases.leaving import answer
from bot.usecases.season_spans import BACK, season_seen, span_of
from core.checkin.season_words import EntryRead, event_read, holiday_read
from core.local_time import local_date
from core.oversight.season import Clash, SpanKind, clashes
from core.programme.folding import folded

KIND = "season"
ALL = ("all", "everybody", "everyone")
_REMOVE = re.compile(r"(?:remove|take out|delete)\s+(\d{1,3})", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class SeasonAsked:
    """`/season`, with what stands after it: a name, or `remove 2`.

    Attributes:
        text: As typed.
        drawn: Pictures as PNG, by what they show.
    """

    text: str = ""
    drawn: tuple[tuple[str, bytes], ...] = ()


@dataclass(frozen=True, slots=True)
class EntrySaid:
    """`/holiday` or `/event`, with what stands after it."""

    kind: SpanKind
    text: str


def season_asked(command: SeasonAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the season of all, or of one client, with its picture; or take an entry out."""
    if person.role != "coach":
        return only_for_coaches(person)
    removed = _REMOVE.fullmatch(" ".join(command.text.split()))
    if removed is not None:
        return _removed(int(removed[1]), person, unit, now)
    client = _meant(command.text, unit)
    if command.text.strip() and client is None:
        names = [each.name for each in clients_meant(command.text, unit)]
        return [answer(person, KIND, which(KIND, command.text, names))]
    return shown(client, person, unit, now, command.drawn)


def shown(
    client: Client | None, person: Person, unit: Unit, now: datetime, drawn: Sequence[tuple[str, bytes]]
) -> list[Effect]:
    """Show the season of one client or of all, then its pictures."""
    seen = season_seen(client, unit, _today(unit, now))
    pages = say.season_of_all(seen) if client is None else say.season_of_one(seen)
    update_id = person.arrival.update_id if person.arrival else 0
    whose = client.id if client is not None else None
    effects: list[Effect] = [
        Send(person.chat_id, page, key=f"{KIND}:{update_id}:{number}") for number, page in enumerate(pages)
    ]
    for number, (name, content) in enumerate(drawn):
        picture_id = unit.oversight.add_picture(f"{name}.png", content, now, client_id=whose)
        message = Message(say.CAPTION, silent=True, media_kind="photo", picture_id=picture_id)
        effects.append(Send(person.chat_id, message, key=f"{KIND}:{update_id}:picture:{number}"))
    return effects


def prepared(units: Units, user_id: int, command: SeasonAsked, now: datetime) -> SeasonAsked:
    """Return the command with its pictures; for a thread of its own, since it reads and draws."""
    with units.read(None) as house:
        account = house.accounts.find(user_id)
        if account is None or account.role != "coach":
            return command
        unit = house.of(account.coach_id)
        client = _meant(command.text, unit)
        if command.text.strip() and client is None:
            return command
        seen = season_seen(client, unit, _today(unit, now))
    return replace(command, drawn=tuple((KIND, each) for each in season_pictures(seen)))


def entry_said(command: EntrySaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Put a holiday or an event into the season of a client or of all, and read it back."""
    if person.role != "coach":
        return only_for_coaches(person)
    word = command.kind.value
    words = " ".join(command.text.split())
    whose, rest = _name_and_rest(words, unit)
    today = _today(unit, now)
    read = (holiday_read if command.kind is SpanKind.HOLIDAY else event_read)(rest, today)
    if read is None or (command.kind is SpanKind.EVENT and not read.name):
        return [answer(person, word, say.unread(word))]
    if whose is None and read.name:
        # A name that nobody has is no holiday of everybody's.
        names = [each.name for each in unit.clients.roster()]
        return [answer(person, word, say.who(word, words, names))]
    client_id = whose.id if isinstance(whose, Client) else None
    return _put(command.kind, client_id, read, person, unit, now)


def _put(
    kind: SpanKind, client_id: int | None, read: EntryRead, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    entry_id = unit.seasons.add(client_id, kind.value, read.name, read.first, read.last, now)
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, client_id=client_id, subject=entry_id
    )
    key = f"{KIND}:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    effects = _followed(entry_id, unit, now)
    message = _read_back(prompt, unit, now)
    return [Send(person.chat_id, message, key=f"{key}:card", card=key), *effects]


def _followed(entry_id: int, unit: Unit, now: datetime) -> list[Effect]:
    """Have what is planned follow a holiday that was put, taken out or put back."""
    entry = unit.seasons.get(entry_id)
    if entry is None or entry.kind != SpanKind.HOLIDAY:
        return []
    return holiday.follow(entry, unit, now)


def _removed(number: int, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take an entry out by its number, and offer to put it back."""
    standing = unit.seasons.standing(_today(unit, now) - BACK)
    if not 1 <= number <= len(standing):
        return [answer(person, KIND, say.no_such_number(len(standing)))]
    entry = standing[number - 1]
    unit.seasons.stands(entry.id, now)
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, client_id=entry.client_id, subject=entry.id
    )
    key = f"{KIND}:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    effects = _followed(entry.id, unit, now)
    return [Send(person.chat_id, _read_back(prompt, unit, now), key=f"{key}:card", card=key), *effects]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take an entry out, or put it back."""
    entry = unit.seasons.get(prompt.subject or 0)
    if person.role != "coach" or entry is None or tap.action is not Action.UNDO:
        return []
    unit.seasons.stands(entry.id, now if entry.voided_at is None else None)
    effects = _followed(entry.id, unit, now)
    return [*refreshed(unit.prompts.revise(prompt.id), person, unit, now), *effects]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show how an entry stands."""
    if person.role != "coach" or unit.seasons.get(prompt.subject or 0) is None:
        return []
    key = prompt.card_key or f"{KIND}:{prompt.id}"
    return [EditCard(key, prompt.chat_id, _read_back(prompt, unit, now))]


def _read_back(prompt: Prompt, unit: Unit, now: datetime) -> Message:
    entry = unit.seasons.get(prompt.subject or 0)
    assert entry is not None  # noqa: S101  (whoever comes here has looked)
    today = _today(unit, now)
    client = unit.clients.get(entry.client_id) if entry.client_id is not None else None
    name = client.name if client is not None else None
    buttons = say.Buttons(prompt.id, prompt.revision)
    if entry.voided_at is not None:
        return say.taken_out(name, span_of(entry, None), today, buttons)
    numbered = [each.id for each in unit.seasons.standing(today - BACK)]
    span = span_of(entry, numbered.index(entry.id) + 1 if entry.id in numbered else None)
    comes_to = ""
    if entry.kind == SpanKind.HOLIDAY and entry.until_on >= today:
        comes_to = holiday_words.comes_to(holiday.comes_to(entry, today, unit), name)
    return say.put(name, span, today, buttons, _cut_into(client, entry, unit, today), comes_to)


def _cut_into(client: Client | None, entry: SeasonEntry, unit: Unit, today: date) -> list[Clash]:
    if client is None or entry.kind != SpanKind.HOLIDAY:
        return []
    seen = season_seen(client, unit, today)
    return [
        each
        for each in clashes(seen.rows[0], seen.everybody)
        if each.off.first == entry.from_on
        and each.off.kind is SpanKind.HOLIDAY
        and each.off.last == entry.until_on
    ]


def _meant(text: str, unit: Unit) -> Client | None:
    found = clients_meant(text, unit)
    return found[0] if is_clear(text, found) else None


def _name_and_rest(words: str, unit: Unit) -> tuple[Client | str | None, str]:
    """Return whom a line is for, and the rest: a client, `all` where it says so, or None where it names nobody."""
    before, colon, after = words.partition(":")
    if colon:
        if folded(before) in ALL:
            return ALL[0], after.strip()
        client = _meant(before, unit)
        return (client, after.strip()) if client is not None else (None, words)
    for name, client in sorted(_names(unit), key=lambda each: -len(each[0])):
        if words.casefold().startswith(f"{name.casefold()} "):
            return client, words[len(name) :].strip()
    first, _, rest = words.partition(" ")
    return (ALL[0], rest.strip()) if folded(first) in ALL else (None, words)


def _names(unit: Unit) -> list[tuple[str, Client]]:
    return [(each.name, each) for each in unit.clients.roster()]


def _today(unit: Unit, now: datetime) -> date:
    return local_date(now, unit.coaches.get(unit.tenant).zone)
