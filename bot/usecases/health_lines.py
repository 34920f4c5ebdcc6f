"""What a client has said of her limits and her health, as lines for her coach."""

from bot.render.health_said import said_lines
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.health_known import BIRTH, OVER, PREGNANT, PRESSURE, SCREEN, SLIP, is_yes


def health_lines(client: Client, unit: Unit) -> tuple[str, ...]:
    """Return what a client has said that bears on her training, newest as it stands; plain text."""
    known = unit.health_answers.standing(client.id)
    birth = known.get(BIRTH)
    return said_lines(
        minutes=client.minutes,
        limits=client.limits_said,
        pregnant=is_yes(known, PREGNANT),
        pregnant_over=OVER[PREGNANT] in known and known[OVER[PREGNANT]].released_on is None,
        birth=birth is not None and birth.yes,
        birth_on=birth.said_on if birth is not None else None,
        screen=is_yes(known, SCREEN),
        untreated=is_yes(known, PRESSURE),
        birth_slip=is_yes(known, SLIP),
    )
