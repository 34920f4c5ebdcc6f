"""`/limits NAME: no overhead, no deep knee bend`: what a client must not do, as her coach or a clinician says it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Person
from bot.render import restrictions as say
from bot.store.blocks import Assignment
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import orders_held
from bot.usecases.assigning import client_named
from bot.usecases.block_files import only_for_coaches
from bot.usecases.leaving import answer
from bot.usecases.personalise import fitted, keep
from core.loads.personalise import Change
from core.local_time import local_date
from core.programme.folding import folded
from core.programme.restriction_words import restrictions_in

NONE = frozenset({"none", "no limits", "nothing"})


@dataclass(frozen=True, slots=True)
class LimitsSaid:
    """`/limits`, with what stands after it."""

    text: str = ""


def limits(command: LimitsSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep what a client must not do, all of it anew, and say what changes; with a name alone, say what stands.

    It holds from the next card on. Nothing here ends a limit but the coach.
    """
    if person.role != "coach":
        return only_for_coaches(person)
    name, colon, words = command.text.partition(":")
    if not name.strip():
        return [answer(person, "limits", say.how_to())]
    client = client_named(name.strip(), unit)
    before = unit.restrictions.of(client.id)
    if not colon or not words.strip():
        return [answer(person, "limits", say.standing(client.name, before))]
    found, unread = restrictions_in(words)
    if folded(words) in {folded(each) for each in NONE}:
        found, unread = frozenset(), ()
    if unread:
        return [answer(person, "limits", say.unread(unread))]
    running = unit.blocks.running(client.id)
    earlier = _changes(running, client, unit, now)
    orders_held.end_dates(client, unit, now)
    unit.restrictions.say(client.id, found, person.user_id, now)
    later = _changes(running, client, unit, now)
    if running is not None and unit.placements.of(running.id) is not None:
        keep(running.id, later, unit)
    told = say.kept(
        client.name,
        found,
        before,
        [one for one in later if one not in earlier],
        unit.exercises.catalogue(),
        card_out=bool(found - before) and unit.sessions.open_one(client.id) is not None,
    )
    return [answer(person, "limits", told)]


def _changes(running: Assignment | None, client: Client, unit: Unit, now: datetime) -> tuple[Change, ...]:
    """Return what of the block that she runs is not given as written; nothing where she runs none."""
    if running is None:
        return ()
    today = local_date(now, client.zone or "UTC")
    block = unit.versions.block_for(running, today)
    kept = unit.placements.of(running.id) or {}
    choices = {key: one.instead for key, one in kept.items() if one.chosen}
    return fitted(block, client, choices, today, unit).changes
