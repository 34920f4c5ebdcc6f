"""Blocks that are made to fit somebody: how tests put clients on them and look at what is sent."""

from datetime import UTC, date, datetime

from setting_out import House, Someone, prescription

from bot.store.placements import Placed
from bot.store.units import Unit
from bot.usecases import restrictions, sending, setting_up
from core.checkin.training_log import Item, Session
from core.programme.block import Block, Day, Line
from core.programme.prescription import Dose, Prescription, Span
from core.programme.rows import BlockFile

WEEKS = frozenset({1, 2})
HOLD = Dose(sets=3, seconds=Span(low=30, high=30))


def slipway(*asked: Prescription, second: tuple[Prescription, ...] = ()) -> Block:
    days = (asked, second) if second else (asked,)
    return Block(
        name="Slipway",
        weeks=2,
        days=tuple(
            Day(
                key=f"d{no}",
                name=f"Day {no}",
                lines=tuple(Line(weeks=WEEKS, prescription=one) for one in lines),
            )
            for no, lines in enumerate(days, 1)
        ),
    )


SQUAT = prescription("back-squat", "A")
PLANK = Prescription(order="B", exercise="plank", dose=HOLD)
PUSH = prescription("push-up", "C")
PULL = prescription("pull-up", "C")


def joined(
    house: House, coach: Someone, name: str, user_id: int, kit: str = "dumbbells", months: str = "longer"
) -> Someone:
    client = house.invited(coach, name, user_id)
    for answer in (
        "go on",
        "agree",
        "34",
        "neither",
        "none",
        "nothing",
        "kg",
        "lisbon",
        "7:00",
        "mon thu",
        "60",
        "home",
        kit,
        "alone",
        months,
    ):
        client.type(answer)
    assert client.sees.startswith("That is all. You have joined.")
    return client


def takes(coach: Someone, block: Block) -> None:
    coach.does(setting_up.block_read, setting_up.BlockRead("block.xlsx", BlockFile(block=block)))


def limited(coach: Someone, text: str) -> str:
    coach.does(restrictions.limits, restrictions.LimitsSaid(text))
    return coach.sees


def changed(coach: Someone) -> list[str]:
    """The lines that tell what changes."""
    _, _, told = coach.sees.partition("Changed for Ada:\n")
    return told.split("\n")[:-1] if told else []


def kept(house: House, coach: Someone, client: Someone) -> dict[str, Placed] | None:
    client_id = house.client_of(coach, client).id
    return house.reading(coach, lambda unit: unit.placements.of(unit.blocks.running(client_id).id))


def given(items: list[Item]) -> list[str]:
    return [each.exercise for each in items]


def sends(house: House, coach: Someone, client: Someone, on: date = date(2026, 4, 13)) -> list[Item]:
    """The exercises of the session that goes out on a day."""
    client_id = house.client_of(coach, client).id
    house.now = datetime(on.year, on.month, on.day, 6, tzinfo=UTC)

    def of_day(each: Session) -> bool:
        return each.local_on == on

    with house.units.open(coach.coach_id) as unit:
        (session,) = filter(of_day, unit.sessions.of_client(client_id, ("planned",)))
    effects = client.does(sending.send_session, sending.SendSession(session.id))
    assert effects
    return house.reading(coach, lambda unit: unit.sessions.items(session.id))


def house_client(unit: Unit) -> int:
    return next(each.id for each in unit.clients.roster())
