"""The prep before a session: which drills, for this day, this client and what is at hand."""

from collections.abc import Collection, Iterable, Sequence
from datetime import date, timedelta

from bot.store.body import BodyReport
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.decisions import kit_of
from core.checkin.pain import PainReport, flares, is_locking
from core.checkin.training_log import Item, Session
from core.loads.equipment import Kit, stations_likely_there
from core.loads.looking_back import PAIN_BEARS
from core.programme.block import Block
from core.programme.daily_prep import DailyPrep, daily_steps, merged, written_steps
from core.programme.drill import Drill
from core.programme.drills import DRILLS
from core.programme.exercises import Implement, Level, Site, Station
from core.programme.prep import MINUTES, PrepStep, prep_for

CALM = timedelta(days=7)
"""Days after a report until its site is history, and no longer something that hurts. Our proposal."""
LEAST = 3
"""What is left of the day's own prep beside a daily one. [min] Our proposal."""


def prep_of(
    session: Session, items: list[Item], block: Block, client: Client, kit: Kit, unit: Unit
) -> tuple[PrepStep, ...]:
    """Return the routine before a session whose card is out; empty once it has begun or nothing of it is left.

    The client's daily prep comes first, then what the coach wrote for the day, or else what the day loads: there a
    drill that moves what hurts at all is left out, and a site that was trouble and is calm is loosened first. What she
    named herself is left out at 4 and over. Nothing breaks a limit that was given.
    """
    patterns = [unit.exercises.get(each.exercise).pattern for each in items if each.state == "open"]
    if session.state != "sent" or not patterns:
        return ()
    reports = unit.body.bearing(client.id, session.local_on - PAIN_BEARS)
    running = unit.daily_preps.running(client.id)
    allowed = _allowed(client.id, unit, session.local_on)
    sore = too_sore(reports, session.local_on)
    daily: tuple[PrepStep, ...] = ()
    if running is not None:
        daily = daily_steps(running.asked, _at_hand(kit), hurting=sore, level=_level(client), drills=allowed)
    day = block.day(session.day_key)
    if day is not None and day.prep is not None:
        return merged(daily, written_steps(day.prep, hurting=sore, drills=allowed))
    recent = [each for each in reports if each.local_on > session.local_on - CALM and each.score != 0]
    hurting = sore | {Site(each.site or "") for each in recent}
    calm = {Site(each.site or "") for each in reports} - hurting
    known = {step.drill for step in daily}
    drills = {key: each for key, each in allowed.items() if not each.sites & hurting and key not in known}
    minutes = max(LEAST, MINUTES - sum(step.takes_s for step in daily) // 60)
    mine = prep_for(
        patterns, _at_hand(kit), minutes, history=sorted(calm), level=_level(client), drills=drills
    )
    return merged(daily, mine)


def daily_now(asked: DailyPrep, client: Client, unit: Unit, today: date) -> tuple[PrepStep, ...]:
    """Return the drills that a daily prep comes to on a date."""
    reports = unit.body.bearing(client.id, today - PAIN_BEARS)
    return daily_steps(
        asked,
        _at_hand(kit_of(client, unit)),
        hurting=too_sore(reports, today),
        level=_level(client),
        drills=_allowed(client.id, unit, today),
    )


def left_out_now(asked: DailyPrep, client: Client, unit: Unit, today: date) -> list[Site]:
    """Return the sites that hurt too much for drills of a daily prep, of those that it would move."""
    moved = {site for key in asked.drills if key in DRILLS for site in DRILLS[key].sites}
    sore = too_sore(unit.body.bearing(client.id, today - PAIN_BEARS), today)
    return [site for site in Site if site in sore and site in {*asked.sites, *moved}]


def limited(asked: DailyPrep, client: Client, unit: Unit, today: date) -> list[Drill]:
    """Return the drills that a coach named for every day and that break a limit of the client."""
    allowed = _allowed(client.id, unit, today)
    return [DRILLS[key] for key in asked.drills if key in DRILLS and key not in allowed]


def still_good(steps: Iterable[PrepStep], client_id: int, unit: Unit, today: date) -> tuple[PrepStep, ...]:
    """Return the drills of a routine that move nothing which hurts too much now, and break no limit."""
    sore, allowed = (
        too_sore(unit.body.bearing(client_id, today - PAIN_BEARS), today),
        _allowed(client_id, unit, today),
    )
    return tuple(step for step in steps if step.drill in allowed and not DRILLS[step.drill].sites & sore)


def _allowed(client_id: int, unit: Unit, today: date) -> dict[str, Drill]:
    """Return the drills that neither the coach nor a clinician has ruled out, on a date.

    Where a clinician says that nothing may load a place, no drill moves it: the careful reading. Our proposal.
    """
    limits = [each for each in unit.clinician_limits.standing(client_id, today) if each.stands(today)]
    ruled = [each for each in limits if each.forbids]
    if any(each.of_everything for each in ruled):
        return {}
    barred = unit.restrictions.of(client_id) | {each.restriction for each in ruled if each.restriction}
    sites = {each.site for each in ruled if each.site is not None}
    return {
        key: each for key, each in DRILLS.items() if each.breaks.isdisjoint(barred) and not each.sites & sites
    }


def too_sore(reports: Sequence[BodyReport], today: date) -> set[Site]:
    """Return the sites with pain of 4 and over in the last days, or with what only the coach releases.

    As the rules of loads read a report: without a number it counts as 4 and over, a painkiller makes it more.
    """
    return {each.site for each in (report.as_pain() for report in reports) if _matters(each, today)}


def _matters(report: PainReport, today: date) -> bool:
    return is_locking(report) or (report.on > today - CALM and flares(report))


def _level(client: Client) -> Level:
    return Level.FIRST_MONTH if client.experience == "new" else Level.TRAINED


def _at_hand(kit: Kit) -> Collection[Implement | Station]:
    lifted: set[Implement | Station] = set(stations_likely_there(kit))
    if kit.dumbbells:
        lifted.add(Implement.DUMBBELL)
    if kit.kettlebells:
        lifted.add(Implement.KETTLEBELL)
    if kit.stack_step is not None:
        lifted |= {Implement.STACK, Implement.BAND}
    return lifted
