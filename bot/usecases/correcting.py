"""A coach corrects what a client logged in her last session: taken back, logged anew, and decided anew."""

from datetime import datetime

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import correcting as say
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import alerting
from bot.usecases.closing import decide_next
from bot.usecases.logging_sets import as_written
from bot.usecases.read_sets import is_without_load, left_after, left_of, new_sets, plan_of
from bot.usecases.records import taken_back
from bot.usecases.reply_context import context_for
from bot.usecases.session_view import prompt_of, show, view_of
from core.checkin.replies import read_reply
from core.checkin.training_log import Item, NewSet, Session

CLOSED = ("done", "partial")
BY_COACH = "coach"


def newest(client: Client, unit: Unit) -> Session | None:
    """Return the last session that was closed with something done."""
    found = unit.sessions.of_client(client.id, CLOSED)
    return found[0] if found else None


def begin(client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask which exercise of the last session is to be corrected."""
    session = newest(client, unit)
    if session is None:
        return []
    prompt = unit.prompts.open(
        "correct", person.user_id, person.chat_id, now, client_id=client.id, subject=session.id
    )
    key = _key(prompt)
    unit.prompts.set_card(prompt.id, key)
    return [Send(person.chat_id, _question(prompt, unit), key=f"{key}:ask", card=key)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take which exercise is meant; then the sets are typed."""
    if person.role != "coach":
        return []
    items = {item.id for item in unit.sessions.items(prompt.subject or 0)}
    if tap.action is Action.CANCEL:
        unit.prompts.close(prompt.id, now)
        return [EditCard(_key(prompt), prompt.chat_id, say.left_alone())]
    if tap.action is Action.PICK and tap.argument in items:
        asked = unit.prompts.revise(prompt.id, facts={**prompt.facts, "item": tap.argument})
        unit.prompts.expect_text(asked)
        return [EditCard(_key(prompt), prompt.chat_id, _question(asked, unit))]
    if tap.action is Action.BACK and "item" in prompt.facts:
        facts = {name: fact for name, fact in prompt.facts.items() if name != "item"}
        asked = unit.prompts.revise(prompt.id, facts=facts, expects_text=False)
        return [EditCard(_key(prompt), prompt.chat_id, _question(asked, unit))]
    return refreshed(prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the question as it stands, after a tap on an old button."""
    if person.role != "coach":
        return []
    if prompt.closed_at is not None:
        return [EditCard(_key(prompt), prompt.chat_id, say.settled())]
    return [EditCard(_key(prompt), prompt.chat_id, _question(prompt, unit))]


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the sets that a client did, as the client would type them; in doubt nothing is changed."""
    item = unit.sessions.item(prompt.facts["item"])
    session = unit.sessions.get(item.session_id)
    client = unit.clients.get(session.client_id)
    if client.state == "stopped":
        unit.prompts.close(prompt.id, now)
        return [EditCard(_key(prompt), prompt.chat_id, say.settled(), moved=True)]
    reading = read_reply(text, context_for(client, session, item, unit))
    left = left_of(reading.effort)
    exercise = unit.exercises.get(item.exercise)
    plan = plan_of(item, unit)
    sets = (
        as_written(item, exercise)
        if reading.as_written
        else new_sets(reading.sets, item, exercise, left, plan, reading.effort.rpe)
    )
    if reading.ask or reading.pain or not sets or is_without_load(sets, item):
        return [
            EditCard(_key(prompt), prompt.chat_id, _question(prompt, unit, say.unclear(text)), moved=True)
        ]
    _log_anew(item, sets, left_after(left, sets), unit, now)
    unit.prompts.close(prompt.id, now)
    unit.prompts.revise(prompt.id)
    return _told(item, session, client, prompt, unit, now)


def _log_anew(item: Item, sets: list[NewSet], left: int | None, unit: Unit, now: datetime) -> None:
    unit.sets.void([each.id for each in unit.sets.standing([item.id])], BY_COACH, now)
    unit.sets.add(item.id, sets, unit.sets.next_entry(item.session_id), None, now)
    unit.sessions.change_item(item.id, state="done", cause=None, left_last=left)
    items = unit.sessions.items(item.session_id)
    state = "done" if all(each.state == "done" for each in items) else "partial"
    unit.sessions.change(item.session_id, state=state)


def _told(
    item: Item, session: Session, client: Client, prompt: Prompt, unit: Unit, now: datetime
) -> list[Effect]:
    """Show what is kept now: to the coach, on the client's old card, and to the client in one silent line."""
    exercise, kept = unit.exercises.get(item.exercise), unit.sets.standing([item.id])
    lines = decide_next(unit.sessions.get(session.id), "correction", unit, now)
    effects: list[Effect] = [
        *show(session.id, unit, screen="closed", closing=lines),
        EditCard(
            _key(prompt),
            prompt.chat_id,
            say.corrected(client.name, exercise, kept, session.local_on),
            moved=True,
        ),
    ]
    account = unit.accounts.of_client(client.id)
    if account is not None:
        coach = unit.coaches.get(unit.tenant).name
        gone = taken_back(client.id, unit, now)
        line = say.told_client(coach, exercise, kept, session.local_on, gone)
        effects.append(Send(account.chat_id, line, key=f"corrected:{prompt.id}", client_id=client.id))
    return [*effects, *alerting.of_session(session.id, unit, now)]


def _question(prompt: Prompt, unit: Unit, note: str | None = None) -> Message:
    session = unit.sessions.get(prompt.subject or 0)
    name = unit.clients.get(session.client_id).name
    view = view_of(session, prompt_of(session.id, unit), unit)
    buttons = say.Buttons(prompt.id, prompt.revision)
    chosen = next((each for each in view.items if each.item.id == prompt.facts.get("item")), None)
    if chosen is not None:
        return say.ask_sets(name, chosen, session.local_on, buttons, note)
    return say.ask_item(name, view.items, session.local_on, buttons)


def _key(prompt: Prompt) -> str:
    return f"correct:{prompt.id}"
