"""A coach takes up again what was held: a plan, or what pain has locked. In two taps, and only she."""

from datetime import datetime

from bot.messages import Action, Button, EditCard, Effect, Person, Send, Tap, encode
from bot.render import releasing as say
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import health_known
from bot.usecases.alert_buttons import WAITING
from bot.usecases.effects import after_quiet

PLAN = "plan"
PAIN = "pain"
HEALTH = "health"
"""What is over, as a client says of a pregnancy or of her blood pressure, and binds loads until then."""
SLIPPED = "slip"
"""A birth that a client said by a slip; it holds nothing by itself, so that a plan on hold stays so."""


def release_button(client_id: int, what: str, unit: Unit, now: datetime) -> tuple[tuple[Button, ...], ...]:
    """Return the coach's button that releases `what` is held; empty while she has no account here."""
    coach = unit.accounts.coach(unit.tenant)
    if coach is None:
        return ()
    before = unit.prompts.of("release", client_id)
    if before is not None and before.facts["what"] == what and before.user_id == coach.user_id:
        return _button(before, what)
    prompt = unit.prompts.open(
        "release",
        coach.user_id,
        coach.chat_id,
        now,
        client_id=client_id,
        subject=client_id,
        facts={"what": what},
    )
    return _button(prompt, what)


def _button(prompt: Prompt, what: str) -> tuple[tuple[Button, ...], ...]:
    return ((Button(say.LABELS[what], encode(Tap(prompt.id, prompt.revision, Action.RELEASE))),),)


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask once more, then release."""
    client = unit.clients.get(prompt.subject or 0)
    what = str(prompt.facts["what"])
    key = _key(prompt)
    if tap.action is Action.RELEASE:
        return [_ask(prompt, unit)]
    if tap.action is not Action.CONFIRM:
        unit.prompts.revise(prompt.id)
        return [EditCard(key, prompt.chat_id, say.stays(client.name, what))]
    unit.prompts.close(prompt.id, now)
    unit.prompts.revise(prompt.id)
    if what == PLAN:
        unit.clients.change(client.id, frozen_at=None, frozen_for=None)
        unit.body.release(client.id, now, "stop_sign")
        health_known.plan_released(client, unit, now)
        unit.alerts.close_of(client.id, now, but=WAITING)
    elif what == HEALTH:
        health_known.raises_released(client, unit, now)
        unit.alerts.close_of(client.id, now, prefix="over:")
    elif what == SLIPPED:
        health_known.birth_taken_back(client, unit, now)
        unit.alerts.close_of(client.id, now, prefix="slip:")
    else:
        unit.body.release(client.id, now, "pain")
        unit.alerts.close_of(client.id, now, prefix="pain:")
    held = what != PLAN and client.frozen_at is not None
    effects: list[Effect] = [EditCard(key, prompt.chat_id, say.released(client.name, what, held=held))]
    account = unit.accounts.of_client(client.id)
    if account is not None and client.state == "active" and not held:
        told = say.released_client(what)
        due_at = after_quiet(now, client.zone or "UTC", unit.rules.policy(client.id))
        key = f"released:{prompt.id}"
        effects.append(Send(account.chat_id, told, key=key, due_at=due_at, unasked=True))
    return effects


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask anew after a button that was old; say of what is released that it is."""
    if prompt.closed_at is None:
        return [_ask(prompt, unit)]
    client = unit.clients.get(prompt.subject or 0)
    return [EditCard(_key(prompt), prompt.chat_id, say.released_before(client.name), moved=True)]


def _ask(prompt: Prompt, unit: Unit) -> EditCard:
    asked = unit.prompts.revise(prompt.id)
    client = unit.clients.get(prompt.subject or 0)
    question = say.ask_release(asked, client.name, str(prompt.facts["what"]))
    return EditCard(_key(prompt), prompt.chat_id, question, moved=True)


def _key(prompt: Prompt) -> str:
    return f"release:{prompt.id}"
