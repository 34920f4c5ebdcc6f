"""What is known of a client's kit, by place; and whether that is more than its kind."""

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.decisions import kit_of
from bot.usecases.places import is_usual
from core.checkin.training_log import Session
from core.loads.equipment import Kit, default_kit

KINDS = ("bar", "dumbbells", "both", "bodyweight")


def kits_of(client: Client, unit: Unit) -> tuple[Kit, ...]:
    """Return a client's kit of every place, the usual place first."""
    return kit_of(client, unit), *unit.kits.elsewhere(client.id)


def kit_today(session: Session, client: Client, unit: Unit) -> Kit:
    """Return the kit of where a session is done: of the usual place, of another one, or what was said for today."""
    usual = kit_of(client, unit)
    if is_usual(session.place, usual.place):
        return usual
    prompt = unit.prompts.newest("session", session.id)
    said = prompt.facts.get("kit") if prompt is not None else None
    if said is not None:
        return Kit.model_validate(said)
    return unit.kits.at(client.id, session.place or "") or usual


def is_kind_alone(kit: Kit) -> bool:
    """Return whether a kit is what is usual for its kind: nobody has said what there really is."""
    company = {
        "place": kit.place,
        "safety_arms": kit.safety_arms,
        "usually_alone": kit.usually_alone,
    }
    return any(kit == default_kit(kind, kit.unit).model_copy(update=company) for kind in KINDS)
