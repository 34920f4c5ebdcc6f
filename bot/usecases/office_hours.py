"""When a coach usually answers: set in one line, and told to who writes outside of it, once a day and quietly."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from bot.messages import Effect, Person, Send
from bot.render import office_hours as say
from bot.store.people import Client, Coach
from bot.store.units import Unit
from bot.usecases import coach_away
from bot.usecases.leaving import answer
from bot.usecases.only_coaches import only_for_coaches
from core.checkin.when import clock_time, weekdays
from core.checkin.zones import city_of

OFF = frozenset({"off", "none", "stop", "no"})
EVERY_DAY = (0, 1, 2, 3, 4, 5, 6)
_HOURS = re.compile(
    r"^\s*(?P<from>\S+?)\s*(?:-|–|to)\s*(?P<to>\d\S*(?:\s*[ap]\.?m\.?)?)\s*,?\s*(?P<days>.*)$"
)


@dataclass(frozen=True, slots=True)
class OfficeSaid:
    """`/office`, with what stands after it: nothing, `off`, or `9-18 mon-fri`."""

    text: str = ""


def office_said(command: OfficeSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Set, show or take away the hours in which a coach usually answers."""
    if person.role != "coach":
        return only_for_coaches(person)
    coach = unit.coaches.get(unit.tenant)
    said = command.text.casefold().strip(" .!")
    if not said:
        hours = _hours(coach)
        return [answer(person, "office", say.shown(hours) if hours else say.none())]
    if said in OFF:
        unit.coaches.change(coach.id, office_days=None, office_from=None, office_to=None)
        return [answer(person, "office", say.taken_away())]
    found = _HOURS.match(said)
    begins = clock_time(found["from"]) if found is not None else None
    ends = clock_time(found["to"].strip()) if found is not None else None
    days = (weekdays(found["days"]) if found["days"].strip() else EVERY_DAY) if found is not None else None
    if begins is None or ends is None or days is None or begins >= ends:
        return [answer(person, "office", say.how_to())]
    unit.coaches.change(coach.id, office_days=list(days), office_from=begins, office_to=ends)
    hours = say.hours_words(days, begins, ends)
    return [answer(person, "office", say.kept(hours, coach.name, city_of(coach.zone)))]


def told(client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Tell a client who writes when her coach is away or outside her hours: once, without a sound.

    It is said beside what goes on to the coach, and keeps nothing back.
    """
    away = coach_away.told_to_who_writes(client, person, unit, now)
    if away:
        return away
    coach = unit.coaches.get(unit.tenant)
    local = now.astimezone(ZoneInfo(coach.zone))
    if coach.office_days is None or coach.office_from is None or coach.office_to is None:
        return []
    if local.weekday() in coach.office_days and coach.office_from <= local.time() < coach.office_to:
        return []
    today = now.astimezone(ZoneInfo(client.zone or coach.zone)).date()
    what = f"office:{today.isoformat()}"
    if not unit.talking.tell_once(client.id, what, now):
        return []
    other = now.astimezone(ZoneInfo(client.zone or coach.zone)).utcoffset() != local.utcoffset()
    message = say.outside(coach.name, _hours(coach), city_of(coach.zone) if other else "")
    return [Send(person.chat_id, message, key=f"{what}:{client.id}", client_id=client.id)]


def _hours(coach: Coach) -> str:
    if coach.office_days is None or coach.office_from is None or coach.office_to is None:
        return ""
    return say.hours_words(coach.office_days, coach.office_from, coach.office_to)
