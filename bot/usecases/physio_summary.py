"""`/summary NAME`: a page for a practitioner. The client is asked first; with her yes the coach gets it at once.

A yes is for one summary: the next one is asked for anew. She may take it back at any time. The page is drawn before the
transaction, by what stood a moment before it; whether she agrees is asked in it again.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import physio_summary as say
from bot.render.clinicians import BY
from bot.render.physio_summary_page import summary_page
from bot.render.setting_up import Buttons
from bot.store.hand_ons import HandOn
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit, Units
from bot.usecases.block_files import only_for_coaches
from bot.usecases.effects import after_quiet
from bot.usecases.leaving import answer
from bot.usecases.named_first import named_first, which
from bot.usecases.physio_summary_seen import summary_of
from core.local_time import local_date

KIND = "summary"
ASKED_AGAIN = timedelta(days=7)
"""Days after a question without a yes before a client is asked again. Our proposal."""
WORDS = {
    **dict.fromkeys(("hand it on", "yes, hand it on", "yes hand it on"), Action.CONFIRM),
    **dict.fromkeys(("do not hand it on", "don't hand it on", "no, do not hand it on"), Action.CANCEL),
    "take back my yes": Action.DROP,
}
"""What a client may type for a button."""


Made = tuple[say.Summary, bytes]
"""A summary, and its page as PDF."""


@dataclass(frozen=True, slots=True)
class SummaryAsked:
    """`/summary`, with what stands after it.

    Attributes:
        text: A name.
        made: The summary, where the client has said yes to one and it was not handed out; None before.
    """

    text: str = ""
    made: Made | None = None


def summary_asked(command: SummaryAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Give the summary where the client agrees; else ask her."""
    if person.role != "coach":
        return only_for_coaches(person)
    if not command.text.strip():
        return [answer(person, KIND, say.how_to())]
    client, _ = named_first(command.text, unit)
    if client is None:
        return [which(KIND, command.text, person, unit)]
    asked = unit.hand_ons.newest(client.id)
    if asked is not None and asked.is_good:
        if command.made is None:  # She said yes a moment ago, after the page was to be drawn.
            return [_said(person, client, say.coach_hears(client.name, "given"))]
        return _handed(asked, command.made, person.chat_id, now, unit, now)
    zone = unit.coaches.get(unit.tenant).zone
    if asked is not None and asked.is_open and now - asked.at < ASKED_AGAIN:
        return [_said(person, client, say.asked_already(client.name, local_date(asked.at, zone)))]
    if asked is not None and asked.refused_at is not None and now - asked.refused_at < ASKED_AGAIN:
        return [_said(person, client, say.said_no(client.name, local_date(asked.refused_at, zone)))]
    return _asked(client, person, unit, now)


def _asked(client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    account = unit.accounts.of_client(client.id)
    if account is None or not account.reachable or client.state not in ("active", "paused"):
        return [_said(person, client, say.not_reached(client.name))]
    before = unit.hand_ons.newest(client.id)
    if before is not None and before.is_open:
        unit.prompts.close_kind(KIND, before.id, now)
    row = unit.hand_ons.ask(client.id, now)
    prompt = unit.prompts.open(KIND, account.user_id, account.chat_id, now, client_id=client.id, subject=row)
    key = f"{KIND}:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    message = say.ask(_coach(unit), _to(client, unit), Buttons(prompt.id, prompt.revision))
    due_at = after_quiet(now, client.zone or "UTC", unit.rules.policy(client.id))
    question = Send(
        account.chat_id,
        message,
        key=f"{key}:card",
        card=key,
        due_at=due_at,
        client_id=client.id,
        unasked=True,
    )
    return [question, _said(person, client, say.is_asked(client.name))]


def _handed(
    asked: HandOn, made: Made, chat_id: int, due_at: datetime, unit: Unit, now: datetime
) -> list[Effect]:
    """Give the coach the summary, as text and as a page; the yes is used by it."""
    summary, page = made
    unit.hand_ons.change(asked.id, handed_at=now)
    name = f"summary-{summary.today.isoformat()}.pdf"
    picture_id = unit.oversight.add_picture(name, page, now, client_id=asked.client_id)
    file = Message(say.caption(summary.client), silent=True, media_kind="document", picture_id=picture_id)
    key = f"{_told_of(asked)}given"
    return [
        Send(chat_id, message, key=f"{key}:{what}", due_at=due_at, client_id=asked.client_id)
        for what, message in (("text", say.text(summary)), ("page", file))
    ]


def tapped(
    tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime, made: Made | None = None
) -> list[Effect]:
    """Keep a client's yes or no, or take a yes back; her coach is told, and gets with a yes what was made for it."""
    asked = unit.hand_ons.get(prompt.subject or 0)
    if person.client_id is None or asked is None or person.client_id != asked.client_id:
        return []
    match tap.action:
        case Action.CONFIRM if asked.is_open:
            unit.hand_ons.change(asked.id, given_at=now)
            told = _coach_hears("given" if made is None else "handed", asked, unit, now)
            handed: list[Effect] = []
            if made is not None and told:
                handed = _handed(asked, made, told[0].chat_id, told[0].due_at or now, unit, now)
            return [_shown(prompt, unit), *told, *handed]
        case Action.CANCEL if asked.is_open:
            unit.hand_ons.change(asked.id, refused_at=now)
            return [_shown(prompt, unit), *_coach_hears("refused", asked, unit, now)]
        case Action.DROP if asked.stands:
            for each in unit.hand_ons.standing(asked.client_id):
                unit.hand_ons.change(each.id, withdrawn_at=now)
                unit.outbox.withdraw(unit.tenant, _told_of(each))
            return [_shown(prompt, unit), *_coach_hears("withdrawn", asked, unit, now)]
        case _:
            return refreshed(prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show what she has said, after a tap on a button that is no longer good."""
    if person.client_id is None or prompt.client_id != person.client_id:
        return []
    return [_shown(prompt, unit)]


def typed(
    text: str, client: Client, person: Person, unit: Unit, now: datetime, made: Made | None = None
) -> list[Effect] | None:
    """Take a client's words for a button of the question; None for other words, and where nothing is asked."""
    action = _said_by(text, _coach(unit)) if may_be_said(text) else None
    if action is None:
        return None
    newest, standing = unit.hand_ons.newest(client.id), unit.hand_ons.standing(client.id)
    asked = next(iter(standing), None) if action is Action.DROP else newest
    prompt = unit.prompts.newest(KIND, asked.id) if asked is not None else None
    if asked is None or prompt is None or not (asked.is_open or asked.stands):
        return None
    tap = Tap(prompt.id, prompt.revision, action)
    found = tapped(tap, prompt, person, unit, now, made)
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in found]


def _said_by(text: str, coach: str) -> Action | None:
    words = _plain(text)
    return Action.CONFIRM if words == f"yes, {coach.casefold()} may hand it on" else WORDS.get(words)


def may_be_said(text: str) -> bool:
    """Return whether words may be those of a button of the question, whoever her coach is."""
    return may_agree(text) or _plain(text) in WORDS


def _plain(text: str) -> str:
    return " ".join(text.casefold().replace("’", "'").strip(" .!").split())


def may_agree(text: str) -> bool:
    """Return whether words may be a client's yes, whoever her coach is, so that it is worth looking for a question."""
    words = _plain(text)
    is_button = words.startswith("yes, ") and words.endswith(" may hand it on")
    return is_button or WORDS.get(words) is Action.CONFIRM


def prepared(units: Units, user_id: int, command: SummaryAsked, now: datetime) -> SummaryAsked:
    """Return the command with its page, where the client agrees; for a thread of its own, since it draws."""
    with units.read(None) as house:
        account = house.accounts.find(user_id)
        if account is None or account.role != "coach":
            return command
        unit = house.of(account.coach_id)
        client, _ = named_first(command.text, unit)
        asked = unit.hand_ons.newest(client.id) if client is not None else None
        if client is None or asked is None or not asked.is_good:
            return command
        summary = summary_of(client, unit, local_date(now, client.zone or "UTC"))
    return replace(command, made=(summary, summary_page(summary)))


def made_for_yes(units: Units, user_id: int, now: datetime) -> Made | None:
    """Return what a client's yes would hand on; None where she is asked for none. For a thread of its own: it draws.

    Nobody sees it before the yes is kept.
    """
    with units.read(None) as house:
        account = house.accounts.find(user_id)
        if account is None or account.role != "client" or account.client_id is None:
            return None
        unit = house.of(account.coach_id)
        client, asked = unit.clients.get(account.client_id), unit.hand_ons.newest(account.client_id)
        if asked is None or not asked.is_open or client.state not in ("active", "paused"):
            return None
        summary = summary_of(client, unit, local_date(now, client.zone or "UTC"))
    return summary, summary_page(summary)


def _coach_hears(what: str, asked: HandOn, unit: Unit, now: datetime) -> list[Send]:
    chat_id = unit.accounts.coach_chat(unit.tenant)
    if chat_id is None:
        return []
    client = unit.clients.get(asked.client_id)
    due_at = after_quiet(now, unit.coaches.get(unit.tenant).zone, unit.rules.policy())
    message = say.coach_hears(client.name, what)
    return [Send(chat_id, message, key=f"{_told_of(asked)}{what}", due_at=due_at, client_id=client.id)]


def _told_of(asked: HandOn) -> str:
    """Return how the keys begin of what the coach is told of one asking."""
    return f"{KIND}:said:{asked.id}:"


def _shown(prompt: Prompt, unit: Unit) -> EditCard:
    asked = unit.hand_ons.get(prompt.subject or 0)
    revised = unit.prompts.revise(prompt.id)
    buttons, coach = Buttons(revised.id, revised.revision), _coach(unit)
    if asked is not None and asked.is_open and prompt.closed_at is not None:
        message = say.over()
    elif asked is not None and asked.is_open:
        message = say.ask(coach, _to(unit.clients.get(asked.client_id), unit), buttons)
    elif asked is not None and asked.stands:
        message = say.agreed(coach, buttons, has_it=asked.handed_at is not None)
    else:
        is_withdrawn = asked is not None and asked.withdrawn_at is not None
        message = say.withdrawn(coach) if is_withdrawn else say.refused(coach)
    return EditCard(
        prompt.card_key or f"{KIND}:{prompt.id}", prompt.chat_id, message, client_id=prompt.client_id
    )


def _to(client: Client, unit: Unit) -> str:
    """Return to whom it goes: the practitioner of the newest open referral."""
    sent_on = [each for each in unit.referrals.of_client(client.id) if each.closed_at is None]
    return BY[sent_on[-1].to] if sent_on else "a practitioner"


def _coach(unit: Unit) -> str:
    return unit.coaches.get(unit.tenant).name


def _said(person: Person, client: Client, message: Message) -> Send:
    return replace(answer(person, KIND, message), client_id=client.id)
