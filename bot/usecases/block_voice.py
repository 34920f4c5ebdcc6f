"""`/note`: a coach's voice message or words on a week of a block, with the first card of that week, once to each."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, time, timedelta

from bot.messages import Action, EditCard, Effect, Person, Send, Tap
from bot.render import block_voice as say
from bot.store.people import Account, Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.store.week_notes import WeekNote
from bot.usecases.leaving import answer
from bot.usecases.only_coaches import only_for_coaches
from core.checkin.training_log import Session
from core.local_time import instant_of
from core.programme.folding import folded

KIND = "week note"
LONGEST = 1000
"""Most letters of a note. Our proposal: it stands on a card."""
LONGEST_ON_CARD = 600
"""Most letters beside a file. Our proposal."""
_WEEK = re.compile(r"^(?P<block>.+?)[,\s]+week\s+(?P<week>\d{1,2})\s*$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class NoteSaid:
    """`/note`, with what stands after it: `Harbour strength week 3`, words behind a colon where they come at once."""

    text: str = ""


@dataclass(frozen=True, slots=True)
class About:
    """What a note is about: a block and a week of it."""

    block_id: int
    name: str
    weeks: int
    week: int


def note_said(command: NoteSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask for a note on a week of a block, or keep the words that come at once."""
    if person.role != "coach":
        return only_for_coaches(person)
    head, _, words = command.text.partition(":")
    found = _WEEK.match(" ".join(head.split()))
    if found is None:
        return [answer(person, "note", say.how_to())]
    blocks = {name: version for version, name, _ in unit.blocks.newest()}
    name = next((each for each in blocks if folded(each) == folded(found["block"])), None)
    if name is None:
        return [answer(person, "note", say.which_block(found["block"], list(blocks)))]
    weeks, week = unit.blocks.version(blocks[name]).weeks, int(found["week"])
    if not 1 <= week <= weeks:
        return [answer(person, "note", say.no_such_week(name, weeks))]
    about = About(unit.talking.week_notes.block_of(blocks[name]) or 0, name, weeks, week)
    facts = {"block": about.block_id, "name": name, "weeks": weeks, "week": week}
    text = words.strip()
    prompt = unit.prompts.open(KIND, person.user_id, person.chat_id, now, facts=facts, expects_text=not text)
    unit.prompts.set_card(prompt.id, _key(prompt))
    if text:
        effects = _kept(about, text, None, None, prompt, unit, now)
        return [_as_new(each, prompt) for each in effects]
    standing = unit.talking.week_notes.standing(about.block_id, week)
    before = _short(standing) if standing is not None else None
    question = say.ask(name, week, weeks, before, _buttons(prompt))
    return [Send(person.chat_id, question, key=f"{_key(prompt)}:ask", card=_key(prompt))]


def _as_new(effect: EditCard, prompt: Prompt) -> Send:
    return Send(effect.chat_id, effect.message, key=f"{_key(prompt)}:said", card=_key(prompt))


def _short(note: WeekNote) -> str:
    return note.text[:100] or f"a {note.media_kind}"


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take the words of a note; what a tap would say is taken so too."""
    if prompt.subject is not None:
        return None
    said = text.casefold().strip(" .!")
    if said in ("not now", "take it away"):
        action = Action.CANCEL if said == "not now" else Action.LEAVE_OUT
        return tapped(Tap(prompt.id, prompt.revision, action), prompt, person, unit, now)
    return list(_kept(_about(prompt), text.strip(), None, None, prompt, unit, now, moved=True))


def sent(kind: str, file_id: str, text: str, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the voice message or picture of a note; nothing where none is asked for."""
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is None or prompt.kind != KIND or prompt.subject is not None:
        return []
    if kind not in say.KEPT_KINDS:
        return [answer(person, "note", say.wrong_kind())]
    return list(_kept(_about(prompt), text.strip(), kind, file_id, prompt, unit, now, moved=True))


def _about(prompt: Prompt) -> About:
    facts = prompt.facts
    return About(int(facts["block"]), str(facts["name"]), int(facts["weeks"]), int(facts["week"]))


def _kept(
    about: About,
    text: str,
    kind: str | None,
    file_id: str | None,
    prompt: Prompt,
    unit: Unit,
    now: datetime,
    *,
    moved: bool = False,
) -> list[EditCard]:
    most = LONGEST if kind is None else LONGEST_ON_CARD
    if len(text) > most:
        return [EditCard(_key(prompt), prompt.chat_id, say.too_long(len(text), most), moved=moved)]
    notes = unit.talking.week_notes
    before = notes.standing(about.block_id, about.week)
    note_id = notes.keep(about.block_id, about.week, text, now, media_kind=kind, file_id=file_id)
    unit.prompts.expect_no_text(prompt.user_id)
    facts = {**prompt.facts, "before": before.id if before is not None else None}
    revised = unit.prompts.revise(prompt.id, subject=note_id, facts=facts)
    people = _people(about, unit)
    message = say.kept(about.name, about.week, kind, text, people, _buttons(revised))
    return [EditCard(_key(prompt), prompt.chat_id, message, moved=moved)]


def _people(about: About, unit: Unit) -> list[str]:
    """Return who has a session of that week still to come."""
    running = unit.blocks.running_all()
    return [
        client.name
        for client in unit.clients.roster()
        if client.id in running
        and unit.talking.week_notes.block_of(running[client.id].version_id) == about.block_id
        and any(each.week_no == about.week for each in unit.sessions.of_client(client.id, ("planned",)))
    ]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take a note back, or leave things as they are."""
    if person.role != "coach":
        return []
    about, notes = _about(prompt), unit.talking.week_notes
    if prompt.subject is None and tap.action in (Action.CANCEL, Action.LEAVE_OUT):
        unit.prompts.close(prompt.id, now)
        standing = notes.standing(about.block_id, about.week)
        if tap.action is Action.CANCEL or standing is None:
            return [EditCard(_key(prompt), prompt.chat_id, say.not_kept())]
        notes.void(standing.id, now)
        return [EditCard(_key(prompt), prompt.chat_id, say.taken_back(about.name, about.week, again=False))]
    note = notes.get(prompt.subject or 0)
    if tap.action is not Action.UNDO or note is None or note.voided_at is not None:
        return refreshed(prompt, person, unit, now)
    notes.void(note.id, now)
    before = prompt.facts.get("before")
    if before is not None:
        notes.again(int(before))
    unit.prompts.close(prompt.id, now)
    said = say.taken_back(about.name, about.week, again=before is not None)
    return [EditCard(_key(prompt), prompt.chat_id, said)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Say that it is settled, or ask once more, after a tap on an old button."""
    if person.role != "coach":
        return []
    about = _about(prompt)
    if prompt.closed_at is not None or prompt.subject is not None:
        return [EditCard(_key(prompt), prompt.chat_id, say.settled(about.name, about.week))]
    question = say.ask(about.name, about.week, about.weeks, None, _buttons(prompt))
    return [EditCard(_key(prompt), prompt.chat_id, question)]


def with_card(
    session: Session, client: Client, account: Account, unit: Unit, now: datetime
) -> tuple[str | None, list[Effect]]:
    """Return what a card says of its week, and the file that goes right after it: once to each client."""
    running = None if unit.talking.week_notes.are_none() else unit.blocks.running(client.id)
    if running is None:
        return None, []
    note = unit.talking.week_notes.on_card(running.version_id, session.week_no)
    if note is None or not unit.talking.tell_once(client.id, f"week note:{note.id}", now):
        return None, []
    line = say.on_card(unit.coaches.get(unit.tenant).name, note.text, note.media_kind)
    if note.media_kind is None or note.file_id is None:
        return line, []
    midnight = instant_of(session.local_on + timedelta(days=1), time(0), client.zone or "UTC")
    file = Send(
        account.chat_id,
        say.file(note.media_kind, note.file_id),
        key=f"week-note:{note.id}:{client.id}",
        not_after=midnight,
        client_id=client.id,
    )
    return line, [file]


def _buttons(prompt: Prompt) -> say.Buttons:
    return say.Buttons(prompt.id, prompt.revision)


def _key(prompt: Prompt) -> str:
    return f"{KIND}:{prompt.id}"
