"""`/summary NAME`: a page for a practitioner. The client is asked first, and may take her yes back at any time.

The page is drawn before the transaction, by what stood a moment before it; whether she agrees is asked in it again.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import physio_summary as say
from bot.render.clinician_limits import BY, limit_line
from bot.render.loads import load_words
from bot.render.pain import place_words
from bot.render.physio_summary_page import summary_page
from bot.render.setting_up import Buttons
from bot.store.body import BodyReport
from bot.store.hand_ons import HandOn
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit, Units
from bot.usecases.block_files import only_for_coaches
from bot.usecases.effects import after_quiet
from bot.usecases.leaving import answer
from bot.usecases.named_first import named_first, which
from bot.usecases.progress_seen import seen
from core.loads.asked import amount
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


@dataclass(frozen=True, slots=True)
class SummaryAsked:
    """`/summary`, with what stands after it.

    Attributes:
        text: A name.
        made: The summary, and its page as PDF, where she agrees to it; None before.
    """

    text: str = ""
    made: tuple[say.Summary, bytes] | None = None


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
    if asked is not None and asked.stands:
        if command.made is None:  # She said yes a moment ago, after the page was to be drawn.
            return [_said(person, client, say.coach_hears(client.name, "given"))]
        return _given(asked, command.made, client, person, unit, now)
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
    row = unit.hand_ons.ask(client.id, now)
    unit.prompts.close_kind(KIND, client.id, now)
    prompt = unit.prompts.open(
        KIND,
        account.user_id,
        account.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        facts={"row": row},
    )
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


def _given(
    asked: HandOn,
    made: tuple[say.Summary, bytes],
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
) -> list[Effect]:
    summary, page = made
    unit.hand_ons.change(asked.id, handed_at=now)
    name = f"summary-{summary.today.isoformat()}.pdf"
    picture_id = unit.oversight.add_picture(name, page, now, client_id=client.id)
    file = Message(say.caption(client.name), silent=True, media_kind="document", picture_id=picture_id)
    update_id = person.arrival.update_id if person.arrival else 0
    effects: list[Effect] = [
        _said(person, client, say.text(summary)),
        Send(person.chat_id, file, key=f"{KIND}:{update_id}:page", client_id=client.id),
    ]
    account = unit.accounts.of_client(client.id)
    if account is not None:
        told = say.made_for(_coach(unit))
        effects.append(Send(account.chat_id, told, key=f"{KIND}:{update_id}:told", client_id=client.id))
    return effects


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Keep a client's yes or no, or take a yes back; her coach is told."""
    asked = unit.hand_ons.newest(prompt.subject or 0)
    if person.client_id is None or asked is None or person.client_id != asked.client_id:
        return []
    match tap.action:
        case Action.CONFIRM if asked.is_open:
            unit.hand_ons.change(asked.id, given_at=now)
            return [_shown(prompt, unit), *_coach_hears("given", asked, unit, now)]
        case Action.CANCEL if asked.is_open:
            unit.hand_ons.change(asked.id, refused_at=now)
            return [_shown(prompt, unit), *_coach_hears("refused", asked, unit, now)]
        case Action.DROP if asked.stands:
            unit.hand_ons.change(asked.id, withdrawn_at=now)
            return [_shown(prompt, unit), *_coach_hears("withdrawn", asked, unit, now)]
        case _:
            return refreshed(prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show what she has said, after a tap on a button that is no longer good."""
    if person.client_id is None or prompt.subject != person.client_id:
        return []
    return [_shown(prompt, unit)]


def typed(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take a client's words for a button of the question; None for other words, and where nothing is asked."""
    words = " ".join(text.casefold().replace("’", "'").strip(" .!").split())
    yes = f"yes, {_coach(unit).casefold()} may hand it on"
    action = Action.CONFIRM if words == yes else WORDS.get(words)
    asked, prompt = unit.hand_ons.newest(client.id), unit.prompts.newest(KIND, client.id)
    if action is None or asked is None or prompt is None or not (asked.is_open or asked.stands):
        return None
    tap = Tap(prompt.id, prompt.revision, action)
    found = tapped(tap, prompt, person, unit, now)
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in found]


def prepared(units: Units, user_id: int, command: SummaryAsked, now: datetime) -> SummaryAsked:
    """Return the command with its page, where the client agrees; for a thread of its own, since it draws."""
    with units.read(None) as house:
        account = house.accounts.find(user_id)
        if account is None or account.role != "coach":
            return command
        unit = house.of(account.coach_id)
        client, _ = named_first(command.text, unit)
        asked = unit.hand_ons.newest(client.id) if client is not None else None
        if client is None or asked is None or not asked.stands:
            return command
        summary = summary_of(client, unit, local_date(now, client.zone or "UTC"))
    return replace(command, made=(summary, summary_page(summary)))


def summary_of(client: Client, unit: Unit, today: date) -> say.Summary:
    """Gather what a practitioner is told of twelve weeks."""
    found = seen(client, unit, today)
    catalogue = unit.exercises.catalogue()
    limits = unit.clinician_limits.standing(client.id, today)
    reports = unit.body.since(client.id, found.first)
    return say.Summary(
        client=client.name,
        coach=_coach(unit),
        first=found.first,
        today=today,
        sites=found.sites,
        hurts=tuple(_hurt(each, unit) for each in reversed(reports) if each.exercise and each.score != 0),
        limits=tuple(
            limit_line(each, catalogue).replace("until you take it out", "no end named") for each in limits
        ),
        kept=found.kept,
        policy=unit.rules.policy(client.id),
    )


def _hurt(report: BodyReport, unit: Unit) -> say.Hurt:
    exercise = unit.exercises.get(report.exercise or "")
    pain = report.as_pain()
    done = unit.sets.standing([report.item_id]) if report.item_id is not None else []
    loads = [(amount(each.load, exercise), each.load) for each in done if each.load is not None]
    masses = [(mass, load) for mass, load in loads if mass is not None]
    heaviest = max(masses, key=lambda each: each[0].kg)[1] if masses else None
    return say.Hurt(
        exercise=exercise.name,
        place=place_words(pain.site, report.side),
        score=report.score,
        on=report.local_on,
        load=load_words(heaviest, exercise.basis),
    )


def _coach_hears(what: str, asked: HandOn, unit: Unit, now: datetime) -> list[Effect]:
    chat_id = unit.accounts.coach_chat(unit.tenant)
    if chat_id is None:
        return []
    client = unit.clients.get(asked.client_id)
    due_at = after_quiet(now, unit.coaches.get(unit.tenant).zone, unit.rules.policy())
    message = say.coach_hears(client.name, what)
    return [Send(chat_id, message, key=f"{KIND}:{asked.id}:{what}", due_at=due_at, client_id=client.id)]


def _shown(prompt: Prompt, unit: Unit) -> EditCard:
    asked = unit.hand_ons.newest(prompt.subject or 0)
    revised = unit.prompts.revise(prompt.id)
    buttons, coach = Buttons(revised.id, revised.revision), _coach(unit)
    if asked is not None and asked.is_open:
        message = say.ask(coach, _to(unit.clients.get(asked.client_id), unit), buttons)
    elif asked is not None and asked.stands:
        message = say.agreed(coach, buttons)
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
