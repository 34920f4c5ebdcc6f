"""What a client has said of her health, as the rules of loads take it; and what a coach's release does to it."""

from datetime import date, datetime
from typing import TypedDict

from bot.store.health_answers import HealthAnswer
from bot.store.people import Client
from bot.store.units import Unit
from core.loads.health import Birth
from core.loads.health_line import YEAR
from core.local_time import local_date

PREGNANT = "pregnant"
BIRTH = "birth"
SCREEN = "screen"
PRESSURE = "pressure"
"""Questions as they are kept. Of pressure, yes is high and not treated, or nobody knows whether it is."""
OVER = {PREGNANT: "pregnant over", PRESSURE: "pressure over"}
"""She says that it is over: that waits for her coach, and until then it binds loads as before."""
SLIP = "birth slip"
"""She says that a birth was a slip: it counts until her coach takes it back."""


class LifterHealth(TypedDict):
    """Fields of `core.loads.past.Lifter`."""

    pregnant: bool
    birth: Birth | None
    pressure_untreated: bool


def lifter_health(client: Client, unit: Unit, today: date) -> LifterHealth:
    """Return what a client's answers mean for loads on a date of hers."""
    known = unit.health_answers.standing(client.id)
    return {
        "pregnant": is_yes(known, PREGNANT),
        "birth": _birth(known.get(BIRTH), today),
        "pressure_untreated": is_yes(known, PRESSURE),
    }


def _birth(said: HealthAnswer | None, today: date) -> Birth | None:
    if said is None or not said.yes or (said.said_on is not None and said.said_on + YEAR <= today):
        return None
    return Birth(on=said.said_on, released_on=said.released_on)


def is_yes(known: dict[str, HealthAnswer], question: str) -> bool:
    """Return whether the answer that stands is a yes."""
    return question in known and known[question].yes


def plan_released(client: Client, unit: Unit, now: datetime) -> None:
    """Note that the coach has taken a held plan up: what was said of health stays said."""
    on = local_date(now, client.zone or "UTC")
    unit.health_answers.release(client.id, on, PREGNANT, BIRTH, SCREEN)
    unit.illnesses.release(client.id, on)


def birth_taken_back(client: Client, unit: Unit, now: datetime) -> None:
    """Take a birth that was said by a slip back, on her coach's word."""
    if SLIP in unit.health_answers.standing(client.id):
        unit.health_answers.drop(client.id, SLIP, now)
        unit.health_answers.keep(client.id, BIRTH, now, yes=False)


def raises_released(client: Client, unit: Unit, now: datetime) -> None:
    """End what a client has said is over, on her coach's word."""
    waiting = unit.health_answers.release(client.id, local_date(now, client.zone or "UTC"), *OVER.values())
    for question, over in OVER.items():
        if over in waiting:
            unit.health_answers.keep(client.id, question, now, yes=False)
