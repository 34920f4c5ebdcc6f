"""What use-cases give back, written to the queue in the same transaction."""

from collections.abc import Sequence
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from bot.messages import Cancel, EditCard, Effect, Lane, Level, Send, Tell
from bot.store.units import Unit
from bot.usecases.alert_buttons import alert_card, with_buttons
from core.oversight.alerts import next_telling
from core.policy import Policy


def apply(effects: Sequence[Effect], unit: Unit, now: datetime) -> None:
    """Write effects: messages to the outbox, cards, alerts. Cancels come first, so that they spare what follows."""
    for effect in effects:
        if isinstance(effect, Cancel):
            unit.outbox.cancel(effect.client_id)
    for effect in effects:
        match effect:
            case Send(card=None):
                unit.outbox.put(unit.coach_id, effect, now)
            case Send():
                unit.cards.start(effect, now)
            case EditCard():
                unit.cards.show(effect, now)
            case Tell():
                _tell(effect, unit, now)
            case Cancel():
                pass


def _tell(effect: Tell, unit: Unit, now: datetime) -> None:
    alert = unit.alerts.grow(
        effect.client_id,
        effect.key,
        int(effect.level),
        effect.grown,
        now,
        facts=effect.facts,
        stands=effect.stands,
    )
    coach_chat = unit.accounts.coach_chat(unit.tenant)
    if alert is None or effect.level is Level.DIGEST or coach_chat is None:
        return
    urgent = effect.level is Level.NOW
    zone = unit.coaches.get(unit.tenant).zone
    unit.cards.start(
        Send(
            coach_chat,
            with_buttons(effect.message, alert, unit, now),
            key=alert_card(alert),
            card=alert_card(alert),
            lane=Lane.SAFETY if urgent else Lane.TALK,
            due_at=None
            if urgent
            else after_quiet(now + timedelta(seconds=effect.waits_s), zone, unit.rules.policy()),
        ),
        now,
    )
    unit.alerts.told(alert.id, now, again_at=next_telling(now, 0) if urgent else None)


def after_quiet(now: datetime, zone: str, policy: Policy) -> datetime:
    """Return `now`, or the end of the quiet hours that `now` lies in on the wall clock of `zone`."""
    local = now.astimezone(ZoneInfo(zone))
    if not is_quiet(local.time(), policy):
        return now
    day = local.date() if local.time() < policy.quiet_to else local.date() + timedelta(days=1)
    return datetime.combine(day, policy.quiet_to, tzinfo=ZoneInfo(zone)).astimezone(now.tzinfo)


def is_quiet(at: time, policy: Policy) -> bool:
    """Return whether a wall-clock time lies in quiet hours."""
    if policy.quiet_from <= policy.quiet_to:
        return policy.quiet_from <= at < policy.quiet_to
    return at >= policy.quiet_from or at < policy.quiet_to
