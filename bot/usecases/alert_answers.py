"""A coach answers an alert with its buttons: seen, a word to the client, something eased or paused, the log."""

from collections.abc import Callable
from datetime import datetime
from typing import Any

from bot.messages import Action, EditCard, Effect, Person, Tap
from bot.render.alert_answers import ALL, OLD, SHARES, grown_since
from bot.render.leaving import not_shown
from bot.render.ordering import mass_words
from bot.store.alerts import Alert
from bot.store.body import BodyReport
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import answering, client_log, ordering, orders_said
from bot.usecases.alert_buttons import PAIN, alert_card, alert_message, html_of, site_of, told_together
from bot.usecases.loads_on_hold import offered_loads, on_hold
from core.checkin.order_words import Ordered, OrderSaid
from core.checkin.pain import loads_site
from core.loads.looking_back import PAIN_BEARS
from core.local_time import local_date
from core.programme.exercises import Basis, Site

NOT_ANY_MORE = "This was settled before. This is how things stand."
UNDER_WAY = "A session has been begun with it, so it stays."
MOST_OFFERED = 12


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Do what a coach chose under an alert, and show the alert as it then stands."""
    if person.role != "coach":
        return []
    alert = unit.alerts.get(prompt.subject or 0)
    unit.alerts.put_off(alert.id, None)  # Whoever taps under it has seen it: it need not be told again.
    act = _ACTS.get(tap.action)
    if act is None or (tap.action in _OF_PAIN and not alert.key.startswith(PAIN)):
        return refreshed(prompt, person, unit, now)
    return act(tap.argument, prompt, alert, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show an alert as it stands after a tap on an old button."""
    if person.role != "coach":
        return []
    alert = unit.alerts.get(prompt.subject or 0)
    client = unit.clients.get(alert.client_id)
    if prompt.closed_at is not None and client.state == "stopped":
        return [EditCard(_key(prompt, alert), prompt.chat_id, not_shown(client.name))]
    if prompt.closed_at is not None:
        return [EditCard(_key(prompt, alert), prompt.chat_id, grown_since(html_of(prompt, alert, unit)))]
    return [_shown(prompt, alert, unit, OLD)]


def _seen(
    argument: int, prompt: Prompt, alert: Alert, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    for each in told_together(prompt, alert, unit):
        unit.alerts.seen(each.id, now)
    return [_next(prompt, alert, unit, now, screen="")]


def _write(
    argument: int, prompt: Prompt, alert: Alert, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    unit.alerts.seen(alert.id, now)
    client = unit.clients.get(alert.client_id)
    return [_next(prompt, alert, unit, now, screen=""), *answering.begin(client, person, unit, now)]


def _log(
    argument: int, prompt: Prompt, alert: Alert, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    client = unit.clients.get(alert.client_id)
    if client.state == "stopped":
        return [EditCard(_key(prompt, alert), prompt.chat_id, not_shown(client.name))]
    return [_next(prompt, alert, unit, now, screen=""), *client_log.pages(client, person, unit, now)]


def _ease(
    argument: int, prompt: Prompt, alert: Alert, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    return [_next(prompt, alert, unit, now, screen="ease")]


def _back(
    argument: int, prompt: Prompt, alert: Alert, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    return [_next(prompt, alert, unit, now, screen="")]


def _pause(
    argument: int, prompt: Prompt, alert: Alert, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Pause the exercise that it hurt in; where that was not said, ask which."""
    report = _report(alert, unit, now)
    if report is not None and report.exercise is not None:
        return _paused(report.exercise, prompt, alert, unit, now)
    return [_next(prompt, alert, unit, now, screen="pause", offered=_offered(alert, unit, now))]


def _pick(
    argument: int, prompt: Prompt, alert: Alert, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    offered = list(prompt.facts.get("offered", ()))
    if prompt.facts.get("screen") == "pause" and argument < len(offered):
        return _paused(offered[argument], prompt, alert, unit, now)
    if prompt.facts.get("screen") == "load" and argument < len(offered):
        return _loads_of(offered[argument], prompt, alert, unit, now)
    if prompt.facts.get("screen") == "loads" and argument < len(prompt.facts["loads"]):
        return _load_given(argument, prompt, alert, person, unit, now)
    everything, share = divmod(argument, ALL)
    site = site_of(alert)
    if prompt.facts.get("screen") != "ease" or share not in SHARES or site is None:
        return refreshed(prompt, person, unit, now)
    client = unit.clients.get(alert.client_id)
    report = None if everything else _report(alert, unit, now)
    made, shown = ordering.ease(
        client,
        share,
        unit,
        now,
        site=None if everything else Site(site),
        exercise=report.exercise if report is not None else None,
    )
    return [*shown, _next(prompt, alert, unit, now, screen="", orders=[*_orders(prompt), made])]


def _load(
    argument: int, prompt: Prompt, alert: Alert, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Ask for which exercise a load is given; where there is only one, which load."""
    client, site = unit.clients.get(alert.client_id), site_of(alert)
    keys = on_hold(client, Site(site), unit, now) if site is not None else []
    if len(keys) == 1:
        return _loads_of(keys[0], prompt, alert, unit, now)
    if not keys:
        return [_next(prompt, alert, unit, now, screen="", on_hold=False, note=NOT_ANY_MORE)]
    return [_next(prompt, alert, unit, now, screen="load", offered=keys[:MOST_OFFERED])]


def _loads_of(exercise: str, prompt: Prompt, alert: Alert, unit: Unit, now: datetime) -> list[Effect]:
    loads = offered_loads(exercise, unit.clients.get(alert.client_id), unit)
    row = unit.exercises.get(exercise)
    told = [mass_words(each, row) for each in loads]
    return [_next(prompt, alert, unit, now, screen="loads", offered=[exercise], loads=told)]


def _load_given(
    argument: int, prompt: Prompt, alert: Alert, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Read back a load as if it had been typed; it holds by her word alone, and under pain like every order."""
    client, exercise = unit.clients.get(alert.client_id), str(prompt.facts["offered"][0])
    loads = offered_loads(exercise, client, unit)
    if argument >= len(loads):
        return [_next(prompt, alert, unit, now, screen="", note=NOT_ANY_MORE)]
    added = unit.exercises.get(exercise).basis is Basis.BODYWEIGHT
    said = OrderSaid(what=Ordered.LOAD, exercise=exercise, mass=loads[argument], added=added)
    return [_next(prompt, alert, unit, now, screen=""), *orders_said.begun(said, client, person, unit, now)]


def _paused(exercise: str, prompt: Prompt, alert: Alert, unit: Unit, now: datetime) -> list[Effect]:
    client = unit.clients.get(alert.client_id)
    standing = [
        kept.id
        for kept in unit.orders.standing(client.id)
        if kept.kind == "pause" and kept.exercise == exercise
    ]
    if standing:
        known = [*_orders(prompt), *(each for each in standing if each not in _orders(prompt))]
        return [_next(prompt, alert, unit, now, screen="", orders=known)]
    made, shown = ordering.pause(client, exercise, unit, now)
    return [*shown, _next(prompt, alert, unit, now, screen="", orders=[*_orders(prompt), made])]


def _take_up(
    argument: int, prompt: Prompt, alert: Alert, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    client = unit.clients.get(alert.client_id)
    done = argument in _orders(prompt) and ordering.take_up(argument, client, unit, now)
    return [_next(prompt, alert, unit, now, screen="", note=None if done else NOT_ANY_MORE)]


def _not_eased(
    argument: int, prompt: Prompt, alert: Alert, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    client = unit.clients.get(alert.client_id)
    shown = ordering.take_back(argument, client, unit, now) if argument in _orders(prompt) else None
    note = UNDER_WAY if shown is None else None
    return [*(shown or []), _next(prompt, alert, unit, now, screen="", note=note)]


Act = Callable[[int, Prompt, Alert, Person, Unit, datetime], list[Effect]]

_ACTS: dict[Action, Act] = {
    Action.SEEN: _seen,
    Action.WRITE: _write,
    Action.LOG: _log,
    Action.EASE: _ease,
    Action.BACK: _back,
    Action.PAUSE: _pause,
    Action.LOAD: _load,
    Action.PICK: _pick,
    Action.TAKE_UP: _take_up,
    Action.CANCEL: _not_eased,
}
_OF_PAIN = frozenset({Action.EASE, Action.PAUSE, Action.LOAD, Action.PICK, Action.TAKE_UP, Action.CANCEL})


def _report(alert: Alert, unit: Unit, now: datetime) -> BodyReport | None:
    """Return the newest report that a matter of pain rests on."""
    _, _, site, side = alert.key.split(":")
    zone = unit.clients.get(alert.client_id).zone or "UTC"
    found = unit.body.bearing(alert.client_id, local_date(now, zone) - PAIN_BEARS)
    return next((each for each in reversed(found) if (each.site, each.side or "") == (site, side)), None)


def _offered(alert: Alert, unit: Unit, now: datetime) -> list[str]:
    """Return the exercises of the running block that load where it hurts."""
    running, site = unit.blocks.running(alert.client_id), site_of(alert)
    if running is None or site is None:
        return []
    today = local_date(now, unit.clients.get(alert.client_id).zone or "UTC")
    blocks = (each.block for each in unit.versions.course(running).stretches(today))
    written = dict.fromkeys(
        line.prescription.exercise for block in blocks for day in block.days for line in day.lines
    )
    return [key for key in written if loads_site(unit.exercises.get(key), Site(site))][:MOST_OFFERED]


def _orders(prompt: Prompt) -> list[int]:
    return list(prompt.facts.get("orders", ()))


def _next(
    prompt: Prompt, alert: Alert, unit: Unit, now: datetime, *, note: str | None = None, **facts: Any
) -> EditCard:
    revised = unit.prompts.revise(prompt.id, facts={**prompt.facts, **facts})
    return _shown(revised, unit.alerts.get(alert.id), unit, note)


def _shown(prompt: Prompt, alert: Alert, unit: Unit, note: str | None) -> EditCard:
    return EditCard(_key(prompt, alert), prompt.chat_id, alert_message(prompt, alert, unit, note))


def _key(prompt: Prompt, alert: Alert) -> str:
    return prompt.card_key or alert_card(alert)
