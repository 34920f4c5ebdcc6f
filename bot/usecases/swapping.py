"""Swap: another exercise in place of the one at hand, chosen by the client for today, and the written one back."""

from dataclasses import replace
from datetime import datetime
from itertools import islice

from bot.messages import EditCard, Effect, Person, Tap
from bot.render import swapping as say
from bot.render.sessions_said import OLD_BUTTON
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.decisions import decide, dose_for, given_dose, inputs_for
from bot.usecases.kit_known import kit_today
from bot.usecases.merging import moment_of
from bot.usecases.personalise import placing
from bot.usecases.session_view import prompt_of, show
from core.checkin.training_log import Item, Session
from core.loads.decision import Kind, next_decision
from core.loads.equipment import is_likely_there
from core.programme.catalogue import named
from core.programme.siblings import siblings
from core.programme.sisters import broken

MOST = 6
"""Most exercises offered at once. Our proposal: as many as a thumb finds between two sets."""


def asked(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show what can be done instead: the coach's own equals, then the catalogue's, then others of the same pattern."""
    item = _open_item(tap.argument or session.cursor_item_id, session, unit)
    if item is None:
        return show(session.id, unit, note=OLD_BUTTON)
    client = unit.clients.get(session.client_id)
    written = item.prescription.exercise
    back = item.exercise != written and _may_go_back(item, session, client, unit)
    facts = {"item": item.id, "keys": choices(item, session, client, unit), "back": back}
    prompt = prompt_of(session.id, unit)
    unit.prompts.note(prompt.id, {**prompt.facts, "swap": facts})
    unit.sessions.change(session.id, cursor_item_id=item.id)
    return show(session.id, unit, screen="swap")


def choices(item: Item, session: Session, client: Client, unit: Unit) -> list[str]:
    """Return the exercises that can be done instead of one, best first; none that today's session has already.

    What nothing here can load, and what pain or the coach has locked, is not among them.
    """
    own = unit.exercises.get(item.prescription.exercise)
    there = {each.exercise for each in unit.sessions.items(session.id)} | {own.key}
    kit = kit_today(session, client, unit)
    alike = sorted(
        (*own.equals, *(each.key for each in siblings(own, unit.exercises.catalogue()))),
        key=lambda key: not is_likely_there(unit.exercises.get(key), kit),
    )
    fitting = (
        key
        for key in dict.fromkeys((*item.prescription.instead, *alike))
        if key in unit.exercises.catalogue()
        and key not in there
        and unit.exercises.get(key).timed == own.timed
        and _can_be_done(key, item, session, client, unit)
    )
    return list(islice(fitting, MOST))


def taken(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Put the chosen exercise in place of the other; 0 is the written one. Its load follows from its own log."""
    facts = prompt_of(session.id, unit).facts.get("swap", {})
    item = _open_item(facts.get("item"), session, unit)
    if item is None or tap.argument > len(facts["keys"]):
        return show(session.id, unit, note=OLD_BUTTON)
    key = facts["keys"][tap.argument - 1] if tap.argument else item.prescription.exercise
    client = unit.clients.get(session.client_id)
    barred = not tap.argument and not _may_go_back(item, session, client, unit)
    if barred or not _can_be_done(key, item, session, client, unit):
        return show(session.id, unit, screen="item", note=say.cannot(unit.exercises.get(key)))
    dose = dose_for(unit.exercises.get(key), item.prescription)
    decision_id, decision = decide(
        client,
        key,
        dose,
        moment_of(session, unit),
        "card",
        unit,
        now,
        card_is_out=True,
        kit=kit_today(session, client, unit),
    )
    unit.decisions.for_item(decision_id, item.id)
    unit.sessions.change_item(
        item.id, exercise=key, given=given_dose(dose, decision), decision_id=decision_id
    )
    _keep_choice(item, session, unit, chosen=bool(tap.argument))
    return show(
        session.id, unit, screen="item", note=say.swapped(unit.exercises.get(key), back=not tap.argument)
    )


def typed(text: str, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take the name of an exercise that is offered, typed; None for other words."""
    prompt = unit.prompts.newest("session", session.id)
    if prompt is None or prompt.facts.get("screen") != "swap":
        return None
    facts = prompt.facts["swap"]
    offered = (
        [unit.exercises.get(unit.sessions.item(facts["item"]).prescription.exercise).key]
        if facts["back"]
        else [""]
    )
    row = named(text, unit.exercises.catalogue())
    if row is None or row.key not in (*offered, *facts["keys"]):
        return None
    tap = Tap(0, 0, say.TAKE, [*offered, *facts["keys"]].index(row.key))
    effects = taken(tap, session, person, unit, now)
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]


def _open_item(item_id: int | None, session: Session, unit: Unit) -> Item | None:
    items = unit.sessions.items(session.id)
    return next((each for each in items if each.id == item_id and each.state == "open"), None)


def _may_go_back(item: Item, session: Session, client: Client, unit: Unit) -> bool:
    """Return whether the written exercise can be taken up again: not where it is not for her, or her coach chose."""
    kit = kit_today(session, client, unit)
    how = placing(client, session.assignment_id, session.local_on, unit, kit)
    written = item.prescription.exercise
    return how.why(item.prescription, unit) is None and _can_be_done(written, item, session, client, unit)


def _can_be_done(key: str, item: Item, session: Session, client: Client, unit: Unit) -> bool:
    if broken(unit.exercises.get(key), unit.restrictions.of(client.id)):
        return False
    dose = dose_for(unit.exercises.get(key), item.prescription)
    inputs = inputs_for(
        client, key, dose, moment_of(session, unit), kit_today(session, client, unit), unit, card_is_out=True
    )
    return next_decision(inputs).kind not in (Kind.PAUSE, Kind.SWAP)


def _keep_choice(item: Item, session: Session, unit: Unit, *, chosen: bool) -> None:
    """Keep why the exercise is another than the written one: she chose it, the kit did not."""
    prompt = prompt_of(session.id, unit)
    others = [each for each in prompt.facts.get("chosen", []) if each != item.id]
    unit.prompts.note(prompt.id, {**prompt.facts, "chosen": [*others, item.id] if chosen else others})
