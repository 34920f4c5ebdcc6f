"""Sets into the training log."""

from datetime import datetime

from bot.store.units import Unit
from bot.usecases.places import usual_place
from core.checkin.training_log import Item, NewSet
from core.programme.exercises import Exercise
from core.programme.prescription import Dose, Load, LoadKind
from core.programme.together import letter_of


def as_written(item: Item, exercise: Exercise) -> list[NewSet]:
    """Return the sets that "done as written" says were done; empty where it does not say all of them.

    Of descending sets those at the load are kept: how the steps down went nobody has said.
    """
    given = item.given
    if not given.told_by_tap:
        return []
    return [
        _set(item, exercise, number, side, by_tap=True)
        for number in range(1, given.sets + 1)
        for side in sides(exercise, given)
    ]


def last_less(item: Item, exercise: Exercise, fewer: int) -> list[NewSet]:
    """Return the sets as written, the last `fewer` reps short."""
    sets = as_written(item, exercise)
    return [
        each
        if each.set_no < item.given.sets or each.reps is None
        else NewSet(
            each.set_no, each.side, each.load, each.basis, max(each.reps - fewer, 0), None, by_tap=False
        )
        for each in sets
    ]


def sides(exercise: Exercise, dose: Dose) -> tuple[str, ...]:
    """Return the sides that a set is kept for."""
    return ("L", "R") if dose.each_side or exercise.each_side else ("",)


def _set(item: Item, exercise: Exercise, number: int, side: str, *, by_tap: bool) -> NewSet:
    given = item.given
    return NewSet(
        set_no=number,
        side=side,
        load=counted_load(given),
        basis=exercise.basis.value,
        reps=given.reps.low if given.reps else None,
        seconds=given.seconds.low if given.seconds else None,
        by_tap=by_tap,
        metres=given.metres.low if given.metres else None,
    )


def counted_load(given: Dose) -> Load | None:
    """Return the load that a set is kept with: none for a band, which counts for nothing."""
    return None if given.load is not None and given.load.kind is LoadKind.BAND else given.load


def log_sets(
    item: Item, sets: list[NewSet], entry: int, message_id: int | None, unit: Unit, now: datetime
) -> None:
    """Keep sets of an exercise and call it done, and with the first of them where it was.

    Sets that stood before are taken back first.
    """
    session = unit.sessions.get(item.session_id)
    if session.place is None:
        unit.sessions.change(session.id, place=usual_place(session.client_id, unit))
    before = unit.sets.standing([item.id])
    if before:
        unit.sets.void([each.id for each in before], "replaced", now)
    unit.sets.add(item.id, sets, entry, message_id, now)
    unit.sessions.change_item(item.id, state="done")


def settle_cursor(session_id: int, unit: Unit) -> str:
    """Put the cursor on the next open exercise and return the screen to show: item, feel or closed.

    The exercise at the cursor keeps it while it is open. After it comes what goes in turn with it, then what stands
    after it, then what was passed over. After the last one the session asks how it felt; with nothing done it closes.
    """
    session = unit.sessions.get(session_id)
    items = unit.sessions.items(session_id)
    still_open = [each for each in items if each.state == "open"]
    if still_open:
        here = next((each for each in items if each.id == session.cursor_item_id), None)
        if here is None or here.state != "open":
            following = _after(here, still_open)
            unit.sessions.change(session_id, cursor_item_id=following.id, state="started")
        return "item"
    if any(each.state == "done" for each in items):
        unit.sessions.change(session_id, cursor_item_id=None, state="asking")
        return "feel"
    return "closed"


def _after(here: Item | None, still_open: list[Item]) -> Item:
    """Return the exercise that comes after one."""
    if here is None:
        return still_open[0]
    in_turn = [each for each in still_open if letter_of(each.prescription) == letter_of(here.prescription)]
    later = [each for each in still_open if each.position > here.position]
    behind = [each for each in in_turn if each.position > here.position]
    return (behind or in_turn or later or still_open)[0]
