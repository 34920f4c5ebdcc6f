"""What is known of a client's kit, by place; and whether that is more than its kind."""

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.decisions import kit_of
from core.loads.equipment import Kit, default_kit

KINDS = ("bar", "dumbbells", "both", "bodyweight")


def kits_of(client: Client, unit: Unit) -> tuple[Kit, ...]:
    """Return a client's kit of every place, the usual place first."""
    return kit_of(client, unit), *unit.kits.elsewhere(client.id)


def is_kind_alone(kit: Kit) -> bool:
    """Return whether a kit is what is usual for its kind: nobody has said what there really is."""
    company = {
        "place": kit.place,
        "safety_arms": kit.safety_arms,
        "usually_alone": kit.usually_alone,
    }
    return any(kit == default_kit(kind, kit.unit).model_copy(update=company) for kind in KINDS)
