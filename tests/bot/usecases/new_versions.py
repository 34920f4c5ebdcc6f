"""Blocks that come anew while clients run them; a helper of tests."""

from collections.abc import Callable, Sequence
from typing import Any

from dialogs.talks import BLOCKS, Talk

from bot.files.block_file import read_block
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import setting_up
from bot.usecases.merging import written_for
from core.checkin.training_log import Session
from core.programme.block import Block, Day, Line
from core.programme.prescription import Load
from core.programme.rows import BlockFile


def harbour() -> Block:
    """The block that Ada and Ben run: Lower A, Push, Lower B, Pull, 4 weeks."""
    found = read_block((BLOCKS / "harbour-strength.xlsx").read_bytes(), "harbour-strength.xlsx")
    assert isinstance(found, BlockFile)
    return found.block


def with_load(block: Block, exercise: str, kg: int) -> Block:
    """The block with another load for an exercise."""

    def changed(line: Line) -> Line:
        asked = line.prescription
        if asked.exercise != exercise:
            return line
        dose = asked.dose.model_copy(update={"load": Load.of(kg)})
        return line.model_copy(update={"prescription": asked.model_copy(update={"dose": dose})})

    days = tuple(
        day.model_copy(update={"lines": tuple(changed(each) for each in day.lines)}) for day in block.days
    )
    return block.model_copy(update={"days": days})


def with_days(block: Block, *days: Day, **more: Any) -> Block:
    """The block with other days, and whatever else is another."""
    return block.model_copy(update={"days": days, **more})


def named(day: Day, name: str) -> Day:
    """A day under another name."""
    return day.model_copy(update={"key": name.lower().replace(" ", "-"), "name": name})


def sends(play: Talk, block: Block, coach: str = "Marit") -> str:
    """A coach sends a block; what she then sees."""
    person = play.someone(coach)
    person.does(setting_up.block_read, setting_up.BlockRead("block.xlsx", BlockFile(block=block)))
    return person.sees


def look(play: Talk, what: Callable[[Unit, Client], Any], name: str = "Ada", coach: str = "Marit") -> Any:
    """Look at a client in a transaction of her coach."""
    client = play.house.client_of(play.someone(coach), play.someone(name))
    with play.units.open(play.someone(coach).coach_id) as unit:
        return what(unit, client)


def rows(unit: Unit, client: Client) -> list[Session]:
    """The sessions of what a client runs, by date."""
    running = unit.blocks.running(client.id)
    assert running is not None
    return sorted(unit.moves.of_assignment(running.id), key=lambda each: (each.local_on, each.id))


def plan(play: Talk, name: str = "Ada", coach: str = "Marit") -> list[str]:
    """Each session: day of April, week, day of the block, state."""
    found = look(play, rows, name, coach)
    return [f"{each.local_on:%d} {each.week_no} {each.day_key} {each.state}" for each in found]


def asked(play: Talk, exercise: str) -> dict[str, str]:
    """The load that each session asks for an exercise, by its date; what was sent is asked of its card."""

    def found(unit: Unit, client: Client) -> dict[str, str]:
        return {
            f"{each.local_on:%d} {each.state}": str(line.dose.load)
            for each in rows(unit, client)
            for line in written_for(each, unit).lines
            if line.exercise == exercise
        }

    return dict(look(play, found))


def steps(play: Talk, taken: Sequence[str]) -> None:
    """Take steps."""
    for step in taken:
        play.take(step)
