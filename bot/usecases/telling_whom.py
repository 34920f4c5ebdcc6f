"""Whom a message to several is for: by name, by a word for many, or by the block that they run."""

from collections.abc import Callable, Sequence
from datetime import date, datetime, timedelta

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.finding_clients import clients_meant, is_clear
from core.local_time import local_date
from core.programme.folding import folded

WEEK = timedelta(days=7)
"""Silence so long is quiet, and pain so recent counts. Our proposal."""
BLOCK = "block "


def whom_meant(whom: str, unit: Unit, now: datetime) -> list[Client] | str:
    """Return who is meant, by name; or what of it is not clear."""
    there = [each for each in unit.clients.roster() if each.state in ("active", "paused")]
    said = whom.casefold()
    if said.startswith(BLOCK):
        return _on_block(whom[len(BLOCK) :], there, unit, now)
    chosen = _FILTERS.get(said)
    if chosen is not None:
        return [each for each in there if chosen(each, unit, now)]
    found: dict[int, Client] = {}
    for name in (part.strip() for part in whom.split(",")):
        meant = clients_meant(name, unit)
        if not is_clear(name, meant):
            return name or whom
        found[meant[0].id] = meant[0]
    return sorted(found.values(), key=lambda each: each.name)


def _on_block(name: str, there: Sequence[Client], unit: Unit, now: datetime) -> list[Client] | str:
    known = {folded(block) for _, block, _ in unit.blocks.newest()}
    if folded(name) not in known:
        return name
    running = unit.blocks.running_all()
    return [
        each
        for each in there
        if each.id in running
        and folded(unit.versions.block_for(running[each.id], _today(each, now)).name) == folded(name)
    ]


def _today(client: Client, now: datetime) -> date:
    return local_date(now, client.zone or "UTC")


def _is_quiet(client: Client, unit: Unit, now: datetime) -> bool:
    since = client.heard_at or client.joined_at
    return client.state == "active" and since is not None and now - since >= WEEK


def _has_pain(client: Client, unit: Unit, now: datetime) -> bool:
    return any(each.score != 0 for each in unit.body.since(client.id, _today(client, now) - WEEK))


def _is_anybody(client: Client, unit: Unit, now: datetime) -> bool:
    return True


def _is_paused(client: Client, unit: Unit, now: datetime) -> bool:
    return client.state == "paused"


_FILTERS: dict[str, Callable[[Client, Unit, datetime], bool]] = {
    "all": _is_anybody,
    "everybody": _is_anybody,
    "paused": _is_paused,
    "quiet": _is_quiet,
    "in pain": _has_pain,
}
