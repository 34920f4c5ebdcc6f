"""The second person whom a coach names: told of what cannot wait and stayed unseen. She can say that she has seen it.

She is neither coach nor client here: whatever else she writes or taps is answered as to a stranger.
"""

from datetime import datetime

from bot.messages import Action, EditCard, Effect, Lane, Message, Person, Send, Tap, encode
from bot.render import alerts as alert_words
from bot.render import second as say
from bot.store.alerts import Alert
from bot.store.prompts import Prompt
from bot.store.seconds import Second
from bot.store.units import Unit

KIND = "second"
ROLE = "second"


def bound(code: str | None, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Bind a stranger who opens the link, once; nothing for any other code, and for coaches and clients."""
    if code is None or person.role != "stranger":
        return []
    found = unit.seconds.bind(code, person.user_id, person.chat_id, now)
    if found is None:
        return []
    effects: list[Effect] = [answer(person, say.welcome(unit.coaches.get(found.coach_id).name))]
    chat_id = unit.accounts.coach_chat(found.coach_id)
    if chat_id is not None:
        update_id = person.arrival.update_id if person.arrival else 0
        effects.append(Send(chat_id, say.is_bound(found.name), key=f"second:{update_id}:coach"))
    return effects


def bound_chat(second: Second, unit: Unit) -> int | None:
    """Return where the second person is told; None while she is not bound, or has become coach or client here."""
    if second.user_id is None or unit.accounts.find(second.user_id) is not None:
        return None
    return second.chat_id


def told(alert: Alert, unit: Unit, now: datetime) -> list[Effect]:
    """Tell the second person of a matter that stayed unseen: whose, and of what kind; nothing where there is none."""
    second = unit.seconds.of(unit.tenant)
    chat_id = bound_chat(second, unit) if second is not None else None
    if second is None or second.user_id is None or chat_id is None:
        return []
    key = f"second:{alert.id}:{alert.grown}:{alert.level}"
    prompt = unit.prompts.open(
        KIND, second.user_id, chat_id, now, client_id=alert.client_id, subject=alert.id, card_key=key
    )
    return [Send(chat_id, _message(prompt, alert, unit), key=key, card=key, lane=Lane.SAFETY)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take it that she has seen it: it is not told again, and the coach reads who has."""
    second = unit.seconds.of(unit.tenant)
    if second is None or second.user_id != person.user_id or tap.action is not Action.SEEN:
        return []
    alert = unit.alerts.get(prompt.subject or 0)
    unit.prompts.close(prompt.id, now)
    shown = alert_words.second_saw(_message(prompt, alert, unit).html)
    effects: list[Effect] = [EditCard(prompt.card_key or "", prompt.chat_id, shown)]
    chat_id = unit.accounts.coach_chat(unit.tenant)
    if alert.seen_at is None and chat_id is not None:
        unit.alerts.seen(alert.id, now)
        name = unit.clients.get(alert.client_id).name
        words = alert_words.seen_by_second(second.name, name, now, unit.coaches.get(unit.tenant).zone)
        effects.append(Send(chat_id, words, key=f"second:{prompt.id}:seen"))
    return effects


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Nothing to show again: the message says what it said."""
    return []


def _message(prompt: Prompt, alert: Alert, unit: Unit) -> Message:
    coach, name = unit.coaches.get(unit.tenant).name, unit.clients.get(alert.client_id).name
    button = alert_words.seen_button(encode(Tap(prompt.id, prompt.revision, Action.SEEN)))
    return alert_words.for_second(coach, name, alert.key, button)


def answer(person: Person, message: Message, what: str = "said") -> Send:
    """Answer somebody who named, or is, a second person."""
    update_id = person.arrival.update_id if person.arrival else 0
    return Send(person.chat_id, message, key=f"second:{update_id}:{what}")
