"""For whom a rule is, as a coach types it: a client, an exercise, both, or all; and a stored value as it is meant."""

from typing import Any

from pydantic import TypeAdapter, ValidationError

from bot.render.cues import Unclear
from bot.render.rule_values import Scope
from bot.store.cues import About
from bot.store.units import Unit
from bot.usecases.finding_clients import clients_meant, is_clear
from core.oversight.rule import Rule, Setting
from core.policy import Policy
from core.programme.catalogue import named, suggestions

__all__ = ["Unclear", "scope_in", "setting_in", "view_of"]


def scope_in(text: str | None, unit: Unit) -> About | Unclear:
    """Return for which client and exercise a rule is; neither for all. What cannot be told is not guessed."""
    client_id: int | None = None
    exercise: str | None = None
    for part in (" ".join(each.split()) for each in (text or "").split(",")):
        if not part:
            continue
        clients = clients_meant(part, unit)
        mine = clients[0].id if is_clear(part, clients) else None
        found = named(part, unit.exercises.catalogue())
        if (mine is None) is (found is None) or (mine and client_id) or (found and exercise):
            near = suggestions(part, catalogue=unit.exercises.catalogue())
            return Unclear(part, tuple(one.name for one in near), is_several=mine is not None)
        client_id = client_id if mine is None else mine
        exercise = exercise if found is None else found.key
    return About(client_id=client_id, exercise=exercise)


def view_of(client_id: int | None, exercise: str | None, unit: Unit) -> Scope:
    """Return the names of a scope."""
    return Scope(
        unit.clients.get(client_id).name if client_id is not None else None,
        unit.exercises.get(exercise).name if exercise is not None else None,
    )


def setting_in(rule: Rule, value: Any) -> Setting:
    """Return a stored value as it is meant; None where it is none that is understood."""
    try:
        kind: Any = Policy.model_fields[rule.field].annotation
        found: Setting = TypeAdapter(kind).validate_python(value)
    except ValidationError:
        return None
    return found
