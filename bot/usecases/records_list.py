"""`/records`: the bests that stand, by exercise."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Person
from bot.render import records as say
from bot.store.units import Unit
from bot.usecases.leaving import answer
from bot.usecases.records import TOLD_FIRST, settled
from bot.usecases.whose import whose
from core.local_time import local_date
from core.oversight.records import LoggedLift, Record, newest, records
from core.programme.catalogue import named, suggestions
from core.programme.exercises import Exercise


@dataclass(frozen=True, slots=True)
class RecordsAsked:
    """`/records`, with what stands after it."""

    text: str = ""


def records_asked(command: RecordsAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """List the bests that stand: of the client who asks, or of the one whom her coach names."""
    asked = whose(command.text, "records", person, unit, now)
    client = asked.client
    if client is None:
        return asked.effects
    lifts = unit.records.lifts(client.id)
    catalogue = unit.exercises.catalogue()
    settled(client.id, lifts.keys(), unit, now)
    found = [(catalogue[key], _standing(sets)) for key, sets in lifts.items() if key in catalogue]
    found = sorted(
        (each for each in found if each[1]), key=lambda each: (not each[0].main_lift, each[0].name)
    )
    shown = _meant(asked.rest, found) if asked.rest else found
    name = client.name if person.role == "coach" else None
    if not shown:
        return [answer(person, "records", say.none_yet(name, asked.rest))]
    today = local_date(now, client.zone or "UTC")
    more = [each.name for each, _ in shown[say.MOST_SHOWN :]]
    return [answer(person, "records", say.listed(name, shown[: say.MOST_SHOWN], today, more))]


def _standing(sets: Sequence[LoggedLift]) -> tuple[Record, ...]:
    return tuple(sorted(newest(records(sets)), key=lambda each: TOLD_FIRST.index(each.kind)))


def _meant(text: str, found: Sequence[say.Bests]) -> list[say.Bests]:
    """Return the exercises that a typed name may mean."""
    own: dict[str, Exercise] = {each.key: each for each, _ in found}
    exact = named(text, own)
    meant = {exact.key} if exact is not None else {each.key for each in suggestions(text, 6, own)}
    return [each for each in found if each[0].key in meant]
