"""What there is when the page opens: who, what happens by itself, and when the clock stands still."""

import re
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from pathlib import Path
from typing import Literal

from bot.assembly.story import Act, People, PersonCast, Script, Stage, read_people, read_script
from core.local_time import instant_of

STRANGER = "stranger"
STRANGERS_PHONE = 5901

COACH = "marit"
CLIENTS = ("ingrid", "tom", "maya", "nuno", "lars")
"""Who of the story is there. Each that joins takes more than half a second, and a screen holds no dozen people."""

OPENS_ON, OPENS_AT = date(2026, 4, 15), time(7, 5)
"""Wednesday of the first week, on the coach's clock: Tom's card is out, and so is Maya's; two days are logged."""

Prepared = Callable[[Stage], Awaitable[datetime]]
"""Makes a stage ready by messages, and returns when its clock is to stand still."""


@dataclass(frozen=True, slots=True)
class Opening:
    """What there is when the page opens.

    Attributes:
        people: The cast, the coach first, the stranger last.
        script: What they do by themselves.
        opens: The script is played up to here before the clock stands still.
        prepared: Makes ready what no script does; None where there is nothing.
    """

    people: People
    script: Script
    opens: datetime
    prepared: Prepared | None = None

    def role(self, person: PersonCast) -> Literal["coach", "client", "stranger"]:
        """Return what somebody is."""
        if person.key == STRANGER:
            return "stranger"
        return "coach" if person in self.people.coaches else "client"


def stranger(zone: str) -> PersonCast:
    """Return somebody whom nobody has invited."""
    return PersonCast(key=STRANGER, name="Kim Sayer", zone=zone, phone=STRANGERS_PHONE)


def story_opening(folder: Path) -> Opening:
    """Return the opening of the lifeboat crew's story.

    Args:
        folder: Where the people and the script of the scenario are.
    """
    whole = read_people(folder)
    there = {COACH, *CLIENTS}
    absent = [each for each in (*whole.coaches, *whole.clients) if each.key not in there]
    zone = whole.named(COACH).zone
    people = People(
        starts=whole.starts,
        coaches=(whole.named(COACH),),
        clients=(*(whole.named(key) for key in CLIENTS), stranger(zone)),
    )
    script = read_script(folder)
    acts = [fitting for act in script.all_acts() if (fitting := _without(act, absent)) is not None]
    return Opening(
        people,
        Script(acts=tuple(acts), ends_on=script.ends_on),
        instant_of(OPENS_ON, OPENS_AT, zone),
    )


def _without(act: Act, absent: Sequence[PersonCast]) -> Act | None:
    """Return what is left of an act when some people are not there; None where it does not hold together."""
    if act.who in {each.key for each in absent}:
        return None
    steps = tuple(step for step in act.steps if not names_any(step.say or "", absent))
    if len(steps) == len(act.steps):
        return act
    stands_alone = all(step.say is not None and step.answers is None for step in act.steps)
    return act.model_copy(update={"steps": steps}) if steps and stands_alone else None


def names_any(text: str, people: Sequence[PersonCast]) -> bool:
    """Return whether a text names any of some people."""
    return any(re.search(rf"\b{re.escape(each.name)}\b", text) for each in people)
