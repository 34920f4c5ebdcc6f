"""What a coach can do about an alert, under the alert itself."""

from datetime import date, datetime

from bot.messages import Level, Message, Rows
from bot.render import alert_answers as say
from bot.render import alerts
from bot.store.alerts import Alert
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.loads_on_hold import on_hold
from core.programme.exercises import Site

PAIN = "pain:"
STOP = "stop:"
MISSES = "misses:"
TALK = "talk:"
ILL = "ill:"
LIFTS = ("line:", "left:")
BLOCK = "block:"
WAITING = ("video:", "checkin:", BLOCK)
"""How keys of matters begin: only pain has something to be eased or paused."""
WITH = "with"
"""Where the prompt of an alert keeps the rows of other matters that its message tells."""


def alert_card(alert: Alert) -> str:
    """Return the key of the card that an alert is, each time that it is told."""
    again = f".{alert.reminded}" if alert.reminded else ""
    return f"alert:{alert.id}:{alert.grown}:{alert.level}{again}"


def alert_of(card_key: str) -> int | None:
    """Return the alert that a card tells of; None for any other card."""
    parts = card_key.split(":")
    return int(parts[1]) if parts[0] == "alert" and len(parts) == 4 else None


def has_buttons(alert: Alert) -> bool:
    """Return whether a coach can answer an alert with buttons, and so can say that she has seen it."""
    answered = (PAIN, STOP, MISSES, TALK, ILL, *LIFTS, *WAITING)
    return alert.level == Level.NOW or alert.key.startswith(answered)


def with_buttons(message: Message, alert: Alert, unit: Unit, now: datetime) -> Message:
    """Return an alert with the coach's buttons; as it is where none belong under it."""
    coach = unit.accounts.coach(unit.tenant)
    if coach is None or not has_buttons(alert):
        return message
    unit.prompts.close_kind("alert", alert.id, now)
    own = [[[each.label, each.data] for each in row] for row in message.rows]
    prompt = unit.prompts.open(
        "alert",
        coach.user_id,
        coach.chat_id,
        now,
        client_id=alert.client_id,
        subject=alert.id,
        card_key=alert_card(alert),
        facts={"html": message.html, "rows": own, "on_hold": _holds_a_load(alert, unit, now)},
    )
    return alert_message(prompt, alert, unit)


def alert_message(prompt: Prompt, alert: Alert, unit: Unit, note: str | None = None) -> Message:
    """Return an alert as it stands now: what was told, what the coach has done about it, what she can do."""
    kept = [unit.orders.get(each) for each in prompt.facts.get("orders", ())]
    view = say.AlertView(
        html=html_of(prompt, alert, unit),
        own=told_rows(prompt),
        name=unit.clients.get(alert.client_id).name,
        seen=alert.seen_at is not None,
        is_pain=alert.key.startswith(PAIN),
        orders=tuple(each.value for each in kept if each is not None and each.voided_at is None),
        screen=str(prompt.facts.get("screen", "")),
        site=site_of(alert),
        offered=tuple(prompt.facts.get("offered", ())),
        loads=tuple(prompt.facts.get("loads", ())),
        on_hold=bool(prompt.facts.get("on_hold")),
        note=note,
        catalogue=unit.exercises.catalogue(),
        several=tells_of_several(prompt),
    )
    return say.alert(view, say.Buttons(prompt.id, prompt.revision))


def tells_of_several(prompt: Prompt) -> bool:
    """Return whether an alert's message tells of other clients too."""
    return bool(prompt.facts.get(WITH))


def told_together(prompt: Prompt, alert: Alert, unit: Unit) -> list[Alert]:
    """Return every matter that a message tells, its own first; who was erased is not among them."""
    return [alert, *unit.alerts.some(prompt.facts.get(WITH, ()))]


def html_of(prompt: Prompt, alert: Alert, unit: Unit) -> str:
    """Return what an alert tells. Of several clients it is made anew each time: no row keeps another one's name."""
    if not tells_of_several(prompt):
        return str(prompt.facts["html"])
    ending = [
        (unit.clients.get(each.client_id).name, each.facts["block"], date.fromisoformat(each.facts["ends"]))
        for each in told_together(prompt, alert, unit)
        if each.facts is not None
    ]
    return alerts.blocks_end(ending).html


def _holds_a_load(alert: Alert, unit: Unit, now: datetime) -> bool:
    """Return whether a load would be looked for at a place, and is not while it hurts."""
    site = site_of(alert)
    return site is not None and bool(on_hold(unit.clients.get(alert.client_id), Site(site), unit, now))


def site_of(alert: Alert) -> str | None:
    """Return the site that a matter of pain is about."""
    parts = alert.key.split(":")
    return parts[2] if alert.key.startswith(PAIN) and len(parts) == 4 else None


def told_rows(prompt: Prompt) -> Rows:
    """Return the buttons that an alert was told with, beside those of every alert."""
    return tuple(
        tuple(say.Button(label, data) for label, data in row) for row in prompt.facts.get("rows", ())
    )
