"""A client's progress, gathered from the log."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import date, timedelta

from bot.render.pain import place_words
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.decisions import exposures
from core.loads.dated_estimates import believed
from core.loads.estimate_history import dated_estimate
from core.loads.trend import trend
from core.oversight.progress import LiftSeen, Progress, SiteFelt, on_way_back, weeks_kept
from core.oversight.records import LoggedLift
from core.programme.exercises import Basis, Exercise

LOOK_BACK = timedelta(days=83)
"""How far back sessions and body reports are shown: twelve weeks. Our proposal."""
MOST_SESSIONS = 40
"""Sessions of a lift that are looked at. Our proposal."""


def seen(client: Client, unit: Unit, today: date) -> Progress:
    """Gather sessions kept and body reports of twelve weeks, and the main lifts of the log."""
    first = today - LOOK_BACK
    first -= timedelta(days=first.weekday())
    past = unit.oversight.past(client.id, first).get(client.id, ())
    began = unit.oversight.began(client.id).get(client.id)
    logged = unit.records.lifts(client.id)
    main = [each for each in lifts_of(logged, unit) if each.main_lift]
    lifts = [lift_seen(each, client, unit, logged[each.key]) for each in main]
    since = max(first, began) if began is not None else first
    return Progress(
        first=since,
        today=today,
        lifts=tuple(sorted((each for each in lifts if each.points), key=lambda each: -len(each.points))),
        weeks=weeks_kept(past, since, today),
        sites=_sites(client, unit, since),
        policy=unit.rules.policy(client.id),
    )


def lifts_of(logged: Iterable[str], unit: Unit) -> list[Exercise]:
    """Return the exercises of a log that the catalogue knows, by name."""
    catalogue = unit.exercises.catalogue()
    return sorted((catalogue[key] for key in logged if key in catalogue), key=lambda each: each.name)


def lift_seen(exercise: Exercise, client: Client, unit: Unit, logged: Iterable[LoggedLift]) -> LiftSeen:
    """Return a lift over time: an estimate for each session that gives one, with its trend where there is one."""
    history = exposures(client.id, exercise.key, unit, limit=MOST_SESSIONS)
    back = on_way_back(history)
    stack = exercise.basis is Basis.STACK
    places = {one.session_id: one.place for one in logged if stack}
    made = [
        dated_estimate(each, exercise, kit=places.get(each.session_id, ""), comeback=each.session_id in back)
        for each in history
        if each.session_id > 0
    ]
    points = believed(each for each in made if each is not None)
    return LiftSeen(exercise=exercise, points=points, trend=trend(points, unit.rules.policy(client.id)))


def _sites(client: Client, unit: Unit, first: date) -> tuple[SiteFelt, ...]:
    felt: dict[str, list[tuple[date, int | None]]] = defaultdict(list)
    for each in unit.body.since(client.id, first):
        report = each.as_pain()
        felt[place_words(report.site, each.side)].append((report.on, report.score))
    found = [
        SiteFelt(place=place, felt=tuple(sorted(said, key=lambda one: one[0])))
        for place, said in felt.items()
    ]
    return tuple(sorted(found, key=lambda each: (-len(each.felt), each.place)))
