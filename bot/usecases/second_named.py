"""`/second`: a coach names who is told when she does not see what cannot wait."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.messages import Effect, Person
from bot.render import second as say
from bot.store.units import Unit
from bot.usecases.block_files import only_for_coaches
from bot.usecases.second import answer, bound_chat

LINK_LASTS = timedelta(days=7)
LONGEST_NAME = 80
OFF = frozenset({"off", "nobody", "none"})


@dataclass(frozen=True, slots=True)
class SecondAsked:
    """`/second`, `/second NAME`, `/second off`.

    Attributes:
        text: What stands after it.
        code: Unguessable, made for this.
        bot_name: The bot's name on the platform.
    """

    text: str = ""
    code: str = ""
    bot_name: str = ""


def second_asked(command: SecondAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show who it is, make a link for somebody, or end it."""
    if person.role != "coach":
        return only_for_coaches(person)
    name = " ".join(command.text.split())
    standing = unit.seconds.of(unit.tenant)
    if name.casefold() in OFF:
        unit.seconds.end(unit.tenant)
        return [answer(person, say.ended(standing.name) if standing else say.nobody())]
    if not name:
        if standing is None:
            return [answer(person, say.nobody())]
        bound = bound_chat(standing, unit) is not None
        return [answer(person, say.standing(standing.name, bound=bound, until=standing.until))]
    if len(name) > LONGEST_NAME:
        return [answer(person, say.too_long(LONGEST_NAME))]
    until = now + LINK_LASTS
    unit.seconds.name(unit.tenant, name, command.code, until)
    coach = unit.coaches.get(unit.tenant).name
    return [
        answer(person, say.link_made(name, until)),
        answer(person, say.link(name, coach, command.bot_name, command.code), "link"),
    ]
