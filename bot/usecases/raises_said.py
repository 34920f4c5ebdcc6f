"""Raises that wait answered by words: `agree Ada`, `hold Ada hip thrust`, `agree 1 and 3`, `undo raise`.

Words agree only to what the newest list has shown; for anything else the list comes first. A hold raises nothing.
"""

from datetime import datetime

from bot.messages import Effect, Person
from bot.render import raises as say
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import raises
from bot.usecases.leaving import answer
from bot.usecases.orders_said import named_first
from core.checkin.order_words import Names, exercises_meant
from core.checkin.raise_words import RaiseSaid, raise_said, undo_said


def heard(
    text: str, person: Person, unit: Unit, now: datetime, *, answers: bool = True
) -> list[Effect] | None:
    """Take a plain line that answers raises; None where it does not, so that it goes on to whom it was meant for.

    `answers` is False where another question that is open has not taken it.
    """
    if person.role != "coach" or (person.arrival is not None and person.arrival.reply_to is not None):
        return None
    open_one = unit.prompts.expecting_text(person.user_id)
    if answers and open_one is not None and open_one.kind != raises.KIND:
        return None
    shown = unit.prompts.newest_of(person.user_id, raises.KIND)
    if undo_said(text):
        return None if shown is None else raises.undone(shown, person, unit, now, moved=True)
    said = raise_said(text)
    if said is None:
        return None
    if said.about:
        return _named(said, shown, person, unit, now)
    if shown is None:
        return None if said.numbers else [*raises.raises_asked(raises.RaisesAsked(), person, unit, now)]
    rows = list(shown.facts.get("rows", ()))
    places = [number - 1 for number in said.numbers] or range(len(rows))
    if any(not 0 <= place < len(rows) for place in places):
        return [answer(person, "raises", say.no_such_number(len(rows)))]
    chosen = {rows[place] for place in places}
    waiting = [each for each in raises.waiting_raises(unit, now) if each.kept.id in chosen]
    return _answered(said, waiting, shown, person, unit, now)


def _named(
    said: RaiseSaid, shown: Prompt | None, person: Person, unit: Unit, now: datetime
) -> list[Effect] | None:
    client, rest = named_first(said.about, unit)
    if client is None:
        return None
    waiting = [each for each in raises.waiting_raises(unit, now) if each.kept.client_id == client.id]
    if rest.strip():
        catalogue = unit.exercises.catalogue()
        hers = {each.kept.exercise: catalogue[each.kept.exercise] for each in waiting}
        meant = exercises_meant(" ".join(rest.casefold().split()), Names(hers, catalogue, {}))
        if len(meant) > 1:
            return [*raises.raises_asked(raises.RaisesAsked(), person, unit, now)]
        waiting = [each for each in waiting if each.kept.exercise in meant]
    if not waiting:
        return [answer(person, "raises", say.none_waits(client.name))]
    return _answered(said, waiting, shown, person, unit, now)


def _answered(
    said: RaiseSaid,
    waiting: list[raises.Waiting],
    shown: Prompt | None,
    person: Person,
    unit: Unit,
    now: datetime,
) -> list[Effect]:
    known = () if shown is None or shown.closed_at is not None else shown.facts.get("rows", ())
    if shown is None or not waiting or (said.agree and any(each.kept.id not in known for each in waiting)):
        return [*raises.raises_asked(raises.RaisesAsked(), person, unit, now)]
    act = raises.agreed if said.agree else raises.held
    return act(waiting, shown, unit, now, moved=True)
