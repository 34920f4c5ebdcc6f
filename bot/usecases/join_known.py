"""What a coach says beforehand of whom she invites: `/invite Ada: kg, 7:00, mon tue thu, Lisbon, home, both, 60 min`.

It is only confirmed when that person joins. Consent, age and health are never among it.
"""

from collections.abc import Mapping
from datetime import datetime, time
from typing import Any

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.join_answers import Stays, Taken, typed
from bot.usecases.join_steps import KNOWABLE
from core.checkin.when import weekdays
from core.errors import InviteUnread
from core.loads.kit import Kit
from core.units import Unit as MassUnit

IN_INVITE = "known"
"""Where an invitation keeps it."""

Known = dict[str, Any]


def known_read(text: str, now: datetime) -> Known:
    """Read what stands after the name, a thing between two commas, each by what it looks like.

    Raises:
        InviteUnread: A thing is none that can be said beforehand, or is said twice; nothing of it is kept.
    """
    known: Known = {}
    for part in (each.strip() for each in text.split(",")):
        if not part:
            continue
        step, value = _one_read(part, now)
        if step == "days":
            value = sorted({*known.get("days", []), *value})
        elif step in known:
            raise InviteUnread(written=part)
        known[step] = value
    return known


def _one_read(part: str, now: datetime) -> tuple[str, Any]:
    said = " ".join(part.casefold().split())
    days = weekdays(said)
    if days is not None:
        return "days", list(days)
    # Plain numbers are an hour; a length has its unit with it.
    order: tuple[str, ...] = ("unit", "place", "kit", "experience", "hour", "minutes", "zone")
    if said.endswith(("min", "minutes", "mins")):
        order = ("minutes",)
    for step in order:
        read = typed(step, part, {}, now)
        if isinstance(read, Taken):
            value = read.said if step in ("place", "zone") else next(iter(read.values.values()))
            return step, f"{value:%H:%M}" if isinstance(value, time) else value
        if isinstance(read, Stays) and read.facts.get("zones"):
            break
    raise InviteUnread(written=part)


def known_of(client: Client, unit: Unit) -> Known:
    """Return what was said beforehand of a client who is joining, by question."""
    came_by = unit.invites.of_client(client.id)
    found = came_by[-1].prefill.get(IN_INVITE, {}) if came_by else {}
    return {step: found[step] for step in KNOWABLE if step in found}


def taken_over(client_id: int, known: Mapping[str, Any], unit: Unit) -> None:
    """Set what was said beforehand; it is shown before anything is done with it."""
    columns = {"hour": "hour", "kit": "kit_kind"}
    values = {columns.get(step, step): known[step] for step in KNOWABLE if step in known and step != "place"}
    if "hour" in values:
        values["hour"] = time.fromisoformat(values["hour"])
    if values:
        unit.clients.change(client_id, **values)
    if "place" in known:
        keep_place(unit.clients.get(client_id), known["place"], unit)


def said_now(client: Client, known: Mapping[str, Any], unit: Unit) -> Known:
    """Return how it stands now, with what she has changed of it."""
    usual = unit.kits.usual(client.id)
    found = {
        "unit": client.unit,
        "zone": client.zone,
        "hour": None if client.hour is None else f"{client.hour:%H:%M}",
        "days": client.days,
        "minutes": client.minutes,
        "place": None if usual is None else usual.place,
        "kit": client.kit_kind,
        "experience": client.experience,
    }
    return {step: found[step] for step in known}


def keep_place(client: Client, place: str, unit: Unit) -> None:
    """Make a place the usual one; what there is at it is asked for next."""
    there = unit.kits.at(client.id, place)
    unit.kits.set_usual(client.id, there or Kit(place=place, unit=MassUnit(client.unit or "kg")))
