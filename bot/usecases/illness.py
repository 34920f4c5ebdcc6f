"""Being ill, in three classes: a head cold, ill all over, a clinician first. Never a diagnosis, never a clearance."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from bot.messages import Action, EditCard, Effect, Person, Send, Tap
from bot.render import illness as say
from bot.store.due_questions import DueQuestion
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import absence, stop_signs
from bot.usecases.forwarding import words_passed_on
from bot.usecases.illness_card import (
    ASK_COLD,
    ASK_KIND,
    ASK_WELL,
    KIND,
    NOTED,
    as_sent,
    buttons,
    closed,
    message_of,
    opened,
    shown,
)
from bot.usecases.illness_taken import (
    asked_well,
    cold_over,
    day_left_out,
    easy,
    free,
    kind_taken,
    slipped,
    still,
)
from bot.usecases.reply_context import screen_of
from bot.usecases.today import client_of
from core.checkin.stop_signs import scan
from core.loads.health import IllnessKind
from core.loads.illness_words import ill_said, since_said, well_said
from core.local_time import local_date

ONE_DAY = timedelta(days=1)
KINDS = {1: IllnessKind.COLD, 2: IllnessKind.GENERAL, 3: IllnessKind.CLINICIAN}
_NO = ("not ill", "i am not ill", "i'm not ill", "never mind", "that was a slip", "slip")
_STILL = ("still ill", "still", "no", "still sick", "not yet", "ill", "sick")
_COLD_WORDS = {"easy day": Action.EASE, "easy": Action.EASE, "leave today out": Action.DROP}
_LEAVE = ("leave it out", "leave out", "leave it")
_NAMED = {
    **dict.fromkeys(("cold", "head cold", "head cold, no fever"), IllnessKind.COLD),
    **dict.fromkeys(("chest", "stomach", "aches", "fever, chest, stomach or aches"), IllnessKind.GENERAL),
    **dict.fromkeys(("hospital", "concussion", "hospital, operation, concussion"), IllnessKind.CLINICIAN),
    "chest trouble that stays": IllnessKind.CLINICIAN,
}


@dataclass(frozen=True, slots=True)
class IllSaid:
    """`/ill`, with what stands after it."""

    text: str = ""


def said(command: IllSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask what it is like, or take what is said after the command. A stop sign in it comes first."""
    sign = scan(command.text) if person.role == "client" else None
    if sign is not None:
        return stop_signs.found(sign, command.text, person, unit, now)
    client, answered = client_of(person, unit, now)
    if client is None:
        return answered
    found = _typed_anew(command.text, client, person, unit, now) if command.text.strip() else None
    return begin(client, person, unit, now) if found is None else found


def begin(
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    session_id: int | None = None,
    since: date | None = None,
    note: str = "",
) -> list[Effect]:
    """Ask which class it is.

    Args:
        client: Who.
        person: The same, as she speaks.
        unit: Open transaction.
        now: Instant.
        session_id: Session that was left out for it.
        since: First day; None for today.
        note: Line above the question.
    """
    prompt = opened(client, person, ASK_KIND, unit, now, session=session_id, since=since)
    key = prompt.card_key or ""
    message = say.ask_kind(buttons(prompt), note)
    return [Send(person.chat_id, message, key=f"{key}:card", card=key, client_id=client.id)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take what was tapped."""
    found = _acted(tap.action, tap.argument, prompt, person, unit, now)
    return refreshed(prompt, person, unit, now) if found is None else found


def _acted(
    action: Action, argument: int, prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect] | None:
    client = unit.clients.get(prompt.subject or 0)
    if client.state not in ("active", "paused") or client.frozen_at is not None:
        return [shown(prompt, say.settled())]
    match prompt.facts["screen"], action:
        case "kind", Action.PICK if argument in KINDS:
            return kind_taken(KINDS[argument], client, prompt, person, unit, now)
        case "kind", Action.CANCEL:
            return closed(prompt, say.not_ill(), unit, now)
        case "cold", Action.EASE:
            return easy(client, prompt, unit, now)
        case "cold", Action.DROP:
            return day_left_out(client, prompt, unit, now)
        case "noted" | "cold", Action.CANCEL | Action.READY:
            ends = slipped if action is Action.CANCEL else asked_well
            return ends(client, prompt, unit, now)
        case "well", Action.PICK if argument < 4:
            return _how_taken(argument, client, prompt, unit, now)
    return None


def _how_taken(argument: int, client: Client, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Take how she is: still ill, free of it since today, since yesterday, or for as long as it is waited for."""
    today = local_date(now, client.zone or "UTC")
    since = (None, today, today - ONE_DAY, today - absence.waits(unit.rules.policy(client.id)))[argument]
    return still(prompt, unit, now) if since is None else free(since, client, prompt, unit, now)


def typed(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take words about being ill or well again, and what answers a question of ours; None for other words."""
    if client.frozen_at is not None:
        return None
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is not None and prompt.kind == KIND and prompt.facts["screen"] != NOTED:
        answered = _answered(text, client, prompt, person, unit, now)
        if answered is not None:
            return [_below(each) for each in answered]
    session = unit.sessions.open_one(client.id)
    if session is not None and screen_of(session, unit) == "not_today":
        return None  # her card asks for a reason, and `ill` is one
    return _typed_anew(text, client, person, unit, now)


def _answered(
    text: str, client: Client, prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect] | None:
    words = " ".join(text.casefold().replace("’", "'").split()).strip(" .!")
    today = local_date(now, client.zone or "UTC")
    screen = prompt.facts["screen"]
    ill = ill_said(text)
    if screen == ASK_WELL:
        since = since_said(words, today)
        if words in _STILL:
            return still(prompt, unit, now)
        return free(since, client, prompt, unit, now) if since is not None else None
    if words in _NO:
        return _acted(Action.CANCEL, 0, prompt, person, unit, now)
    if screen == ASK_COLD:
        action = Action.DROP if words in _LEAVE else _COLD_WORDS.get(words)
        return None if action is None else _acted(action, 0, prompt, person, unit, now)
    named = _NAMED.get(words) or (ill.kind if ill is not None and not ill.more else None)
    return None if named is None else kind_taken(named, client, prompt, person, unit, now)


def _typed_anew(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    today = local_date(now, client.zone or "UTC")
    well = well_said(text, today)
    if well is not None:
        return _well_typed(well.on, client, person, unit, now)
    ill = ill_said(text)
    if ill is None:
        return None
    passed_on = words_passed_on(text, client, person, unit, now, cared_for=True) if ill.more else []
    asked = begin(client, person, unit, now)
    prompt = unit.prompts.of(KIND, client.id)
    if ill.kind is None or prompt is None:
        return [*passed_on, *asked]
    taken = kind_taken(ill.kind, client, prompt, person, unit, now)
    return [*passed_on, *(as_sent(each, prompt) for each in taken)]


def _well_typed(
    on: date | None, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect] | None:
    newest = unit.illnesses.newest(client.id)
    today = local_date(now, client.zone or "UTC")
    open_now = [each for each in unit.illnesses.bearing(client.id, today) if _lasts(each.free_on, today)]
    if newest is None or newest.kind == IllnessKind.CLINICIAN or not open_now:
        return None
    prompt = opened(client, person, ASK_WELL, unit, now, illness=newest.id)
    if all(each.kind == IllnessKind.COLD for each in open_now):
        found = cold_over(client, prompt, unit, now)
    elif on is not None:
        found = free(on, client, prompt, unit, now)
    else:
        found = [shown(prompt, say.ask_well(buttons(prompt), unit.rules.policy(client.id).ill_wait))]
    return [as_sent(each, prompt) for each in found]


def _lasts(free_on: date | None, today: date) -> bool:
    return free_on is None or free_on > today


def ask_how(question: DueQuestion, client: Client, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask how she is, on the morning of a session that is kept back; nothing where it is known by now."""
    account = unit.accounts.of_client(client.id)
    standing = absence.illness_on(client.id, question.local_on, unit)
    if account is None or standing is None or standing.free_on is not None:
        return []
    person = Person(account.user_id, account.chat_id, unit.tenant, "client", client.id)
    key = f"{KIND}:{client.id}:q{question.id}"
    prompt = opened(client, person, ASK_WELL, unit, now, illness=standing.id, key=key)
    unit.prompts.note(prompt.id, {**prompt.facts, "question": question.id})
    message = say.ask_well(buttons(prompt), unit.rules.policy(client.id).ill_wait, silent=False)
    return [Send(account.chat_id, message, key=f"{key}:card", card=key, client_id=client.id, unasked=True)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show how it stands, after a tap on a button that is no longer good."""
    client = unit.clients.get(prompt.subject or 0)
    if prompt.closed_at is not None or client.frozen_at is not None:
        return [shown(prompt, say.settled())]
    return [shown(prompt, message_of(prompt, unit))]


def _below(effect: Effect) -> Effect:
    """Move a card down under what was typed."""
    return replace(effect, moved=True) if isinstance(effect, EditCard) else effect
