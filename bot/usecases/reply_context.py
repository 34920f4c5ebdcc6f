"""What a typed reply is read against: the exercise at the cursor, its log, the open question."""

from decimal import Decimal

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.decisions import exposures
from bot.usecases.read_sets import plan_of
from core.checkin.reading import Context
from core.checkin.training_log import Item, Session
from core.programme.prescription import LoadKind
from core.units import Unit as MassUnit
from core.units import plain


def at_cursor(session: Session | None, unit: Unit) -> Item | None:
    """Return the exercise that sets go to: the one at the cursor, or the first that is open."""
    if session is None:
        return None
    items = unit.sessions.items(session.id)
    here = next((each for each in items if each.id == session.cursor_item_id), None)
    return here or next((each for each in items if each.state == "open"), None)


def screen_of(session: Session | None, unit: Unit) -> str:
    """Return the screen that a session's card is on; empty without a card."""
    prompt = unit.prompts.newest("session", session.id) if session is not None else None
    return str(prompt.facts.get("screen", "")) if prompt is not None else ""


def context_for(client: Client, session: Session | None, item: Item | None, unit: Unit) -> Context:
    """Gather what a reply is read against."""
    home = MassUnit(client.unit or "kg")
    if session is None or item is None:
        asked = session is not None and session.state == "asking" and screen_of(session, unit) == "left"
        return Context(unit=home, open_question="reps left" if asked else None)
    past = exposures(client.id, item.exercise, unit, session.place)
    loads = [
        plain(each.load.mass.to(home).rounded(Decimal("0.01")).value)
        for exposure in reversed(past)
        for each in exposure.sets[:1]
        if each.load is not None and each.load.kind is LoadKind.MASS and each.load.mass is not None
    ]
    reps = [each.reps for exposure in past for each in exposure.sets if each.reps is not None]
    return Context(
        exercise=unit.exercises.get(item.exercise),
        dose=item.given,
        unit=home,
        last_loads=tuple(loads),
        best_reps=max(reps, default=None),
        loads_differ=plan_of(item, unit) is not None,
    )
