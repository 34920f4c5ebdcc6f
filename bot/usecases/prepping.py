"""The prep before a session: which drills, for this day, this client and what is at hand."""

from datetime import timedelta

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.decisions import PAIN_DAYS
from core.checkin.training_log import Item, Session
from core.loads.equipment import Kit, stations_likely_there
from core.programme.catalogue import CATALOGUE
from core.programme.drills import DRILLS
from core.programme.exercises import Implement, Level, Site, Station
from core.programme.prep import PrepStep, prep_for

CALM = timedelta(days=7)
"""Days after a report until its site is history, and no longer something that hurts. Our proposal."""


def prep_of(
    session: Session, items: list[Item], client: Client, kit: Kit, unit: Unit
) -> tuple[PrepStep, ...]:
    """Return the routine before a session whose card is out; empty once it has begun or nothing of it is left.

    A drill that moves what hurts is left out; a site that was trouble and is calm is loosened first.
    """
    patterns = [CATALOGUE[each.exercise].pattern for each in items if each.state == "open"]
    if session.state != "sent" or not patterns:
        return ()
    reports = unit.body.bearing(client.id, session.local_on - PAIN_DAYS)
    hurting = {
        Site(each.site or "")
        for each in reports
        if each.local_on > session.local_on - CALM and each.score != 0
    }
    calm = {Site(each.site or "") for each in reports} - hurting
    drills = {key: each for key, each in DRILLS.items() if not each.sites & hurting}
    level = Level.FIRST_MONTH if client.experience == "new" else Level.TRAINED
    return prep_for(patterns, _at_hand(kit), history=sorted(calm), level=level, drills=drills)


def _at_hand(kit: Kit) -> set[Implement | Station]:
    lifted: set[Implement | Station] = set(stations_likely_there(kit))
    if kit.dumbbells:
        lifted.add(Implement.DUMBBELL)
    if kit.kettlebells:
        lifted.add(Implement.KETTLEBELL)
    if kit.stack_step is not None:
        lifted |= {Implement.STACK, Implement.BAND}
    return lifted
