"""What a coach chooses when she puts a client on a block: who, which block, from when; and what that comes to."""

from datetime import date, datetime, timedelta

from rapidfuzz import fuzz, process

from bot.store.people import Client
from bot.store.units import Unit
from core.errors import (
    NoBlockYet,
    NobodyToAssign,
    NotJoinedYet,
    StartOutside,
    StartUnreadable,
    UnknownBlock,
    UnknownClient,
)
from core.local_time import instant_of, local_date
from core.programme.folding import folded

JOINED = frozenset({"active", "paused"})
OFFERED = 7
"""Days that are offered to start on."""
FARTHEST = timedelta(days=180)
"""Farthest start that may be typed. Our proposal."""
KNOWN = 8
"""Most names that are told back."""


def joined_clients(unit: Unit) -> list[Client]:
    """Return the clients who can be put on a block: those without one first, then by name.

    Raises:
        NobodyToAssign: There are none.
    """
    found = [client for client in unit.clients.roster() if client.state in JOINED]
    if not found:
        raise NobodyToAssign
    return sorted(found, key=lambda client: unit.blocks.running(client.id) is not None)


def client_named(text: str, unit: Unit) -> Client:
    """Return the client of a name, however it is spelt in case and accents.

    Raises:
        UnknownClient: There is none; the likeliest are told.
        NotJoinedYet: She has not ended joining.
        NobodyToAssign: There are no clients at all.
    """
    everyone = unit.clients.roster()
    found = next((client for client in everyone if folded(client.name) == folded(text)), None)
    if found is None:
        names = [client.name for client in joined_clients(unit)]
        raise UnknownClient(written=text, known=_likeliest(text, names))
    return ready(found)


def ready(client: Client) -> Client:
    """Return the client when she can be put on a block.

    Raises:
        NotJoinedYet: She has not ended joining, or has stopped.
    """
    if client.state not in JOINED:
        raise NotJoinedYet(name=client.name)
    return client


def block_named(text: str, unit: Unit) -> int:
    """Return the newest version of the block of a name.

    Raises:
        UnknownBlock: There is none; the likeliest are told.
        NoBlockYet: The coach has none at all.
    """
    blocks = blocks_of(unit)
    found = next((version for version, name, _ in blocks if folded(name) == folded(text)), None)
    if found is None:
        raise UnknownBlock(written=text, known=_likeliest(text, [name for _, name, _ in blocks]))
    return found


def blocks_of(unit: Unit) -> list[tuple[int, str, int]]:
    """Return (version row, name, number) of every block.

    Raises:
        NoBlockYet: There is none.
    """
    blocks = unit.blocks.newest()
    if not blocks:
        raise NoBlockYet
    return blocks


def _likeliest(text: str, names: list[str]) -> str:
    ranked = process.extract(text, names, scorer=fuzz.WRatio, processor=folded, limit=KNOWN)
    return ", ".join(name for name, _, _ in ranked)


def first_start(client: Client, now: datetime) -> date:
    """Return the first date that a block can start on: today while the client's hour is still to come."""
    if client.zone is None or client.hour is None:
        raise NotJoinedYet(name=client.name)
    today = local_date(now, client.zone)
    return today if instant_of(today, client.hour, client.zone) > now else today + timedelta(days=1)


def starts_offered(client: Client, now: datetime) -> list[date]:
    """Return the next seven days that a block can start on."""
    first = first_start(client, now)
    return [first + timedelta(days=step) for step in range(OFFERED)]


def start_read(text: str, client: Client, now: datetime) -> date:
    """Return a typed start.

    Raises:
        StartUnreadable: It is no date.
        StartOutside: It is too soon, or too far off.
    """
    try:
        on = date.fromisoformat(text.strip())
    except ValueError:
        raise StartUnreadable(written=text, example=first_start(client, now).isoformat()) from None
    return start_checked(on, client, now)


def start_checked(on: date, client: Client, now: datetime) -> date:
    """Return a start that is good.

    Raises:
        StartOutside: It is too soon, or too far off.
    """
    first = first_start(client, now)
    if not first <= on <= first + FARTHEST:
        raise StartOutside(written=on.isoformat(), first=first, last=first + FARTHEST)
    return on
