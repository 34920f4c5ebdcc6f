"""A stop sign: the fixed text first, the plan frozen, the coach told. Only the coach releases."""

from datetime import datetime

from bot.messages import Action, Button, Cancel, Effect, Lane, Level, Person, Send, Tap, Tell, encode
from bot.render import stop_signs as say
from bot.render.emergency import with_number
from bot.render.safety import stop_text
from bot.store.body import NewReport
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.releasing import PLAN, release_button
from bot.usecases.session_view import show
from core.checkin.stop_signs import StopSign
from core.local_time import local_date

OPEN = ("sent", "started", "asking")


def found(sign: StopSign, text: str, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Answer a stop sign. A stranger and someone who has not consented yet get the text too."""
    update_id = person.arrival.update_id if person.arrival else 0
    if person.role != "client" or person.client_id is None:
        words = stop_text(sign.urgency, known=False)
        return [Send(person.chat_id, words, key=f"stop:{update_id}", lane=Lane.SAFETY)]
    client = unit.clients.get(person.client_id)
    unit.clients.change(client.id, frozen_at=client.frozen_at or now, frozen_for=sign.urgency.value)
    zone = client.zone or "UTC"
    report_id = unit.body.add(
        client.id,
        NewReport(
            kind="stop_sign",
            local_on=local_date(now, zone),
            at=now,
            rule=sign.rule,
            message_id=person.arrival.message_id if person.arrival else None,
        ),
    )
    prompt = unit.prompts.open(
        "stopped", person.user_id, person.chat_id, now, client_id=client.id, subject=report_id
    )
    key = f"stop:{report_id}"
    unit.prompts.set_card(prompt.id, key)
    button = Button("That is not what I meant", encode(Tap(prompt.id, prompt.revision, Action.NOT_MEANT)))
    effects: list[Effect] = [
        Cancel(client.id),
        Send(
            person.chat_id,
            stop_text(sign.urgency, ((button,),), zone=client.zone),
            key=f"{key}:text",
            lane=Lane.SAFETY,
            card=key,
        ),
        _tell(client.id, client.name, sign, text, unit, now),
    ]
    for session in unit.sessions.of_client(client.id, OPEN):
        unit.sessions.change(session.id, state="held", closed_at=now, cursor_item_id=None)
        effects += show(session.id, unit, screen="held")
    return effects


def _tell(client_id: int, name: str, sign: StopSign, text: str, unit: Unit, now: datetime) -> Tell:
    grown = len(unit.body.of_kind(client_id, "stop_sign"))
    return Tell(
        client_id,
        key=f"stop:{client_id}",
        grown=grown,
        level=Level.NOW,
        message=say.alert(name, sign.urgency, text, release_button(client_id, PLAN, unit, now)),
    )


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """A client says that it was not meant so: the coach is told, nothing is released."""
    client = unit.clients.get(person.client_id or 0)
    unit.prompts.close(prompt.id, now)
    coach_chat = unit.accounts.coach_chat(unit.tenant)
    effects: list[Effect] = [
        Send(person.chat_id, with_number(say.not_meant_noted(), client.zone), key=f"not-meant:{prompt.id}"),
    ]
    if coach_chat is not None:
        effects.append(
            Send(coach_chat, say.not_meant(client.name), key=f"not-meant:{prompt.id}:coach", lane=Lane.SAFETY)
        )
    return effects


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Nothing to show again: the message says what it said."""
    return []
