"""Any exercise of a session, by a typed line: racks are taken, and people go where there is room."""

import re
from dataclasses import replace
from datetime import datetime

from bot.messages import EditCard, Effect, Person
from bot.render import jumping as say
from bot.store.units import Unit
from bot.usecases.session_view import show
from core.checkin.training_log import Item, Session
from core.programme.catalogue import named

_TO = re.compile(
    r"(?:go|jump|skip ahead|switch|move) (?:to|on to) (?:the )?(?P<what>.+)|(?:next is|now) (?:the )?(?P<now>.+)"
)
_NUMBER = re.compile(r"(?:exercise|number|no\.?) ?(?P<number>\d{1,2})")
_ORDER = re.compile(r"[a-z]\d{1,2}\+?")


def typed(text: str, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Go to an exercise that is named after `go to`, or by `B2` or `exercise 3` alone; None for other words."""
    if session.state == "asking":
        return None
    words = " ".join(text.casefold().strip(" .!").split())
    to = _TO.fullmatch(words)
    what = (to["what"] or to["now"]) if to is not None else words
    if to is None and not (_NUMBER.fullmatch(what) or _ORDER.fullmatch(what)):
        return None
    items = unit.sessions.items(session.id)
    found = _meant(what, items, unit)
    if not found:
        known = _is_place(what) or _is_exercise(what, unit)
        return _below(show(session.id, unit, note=say.not_here(what))) if known else None
    if len(found) > 1:
        return _below(show(session.id, unit, note=say.which([_name(each, unit) for each in found])))
    if found[0].state != "open":
        return _below(show(session.id, unit, note=say.not_open(_name(found[0], unit), found[0].state)))
    if session.state == "sent":
        unit.sessions.change(session.id, state="started", started_at=now)
    unit.sessions.change(session.id, cursor_item_id=found[0].id)
    return _below(show(session.id, unit, screen="item"))


def _is_place(what: str) -> bool:
    return bool(_NUMBER.fullmatch(what) or _ORDER.fullmatch(what) or re.fullmatch(r"[a-z]", what))


def _is_exercise(what: str, unit: Unit) -> bool:
    """Return whether words name an exercise, whole or by words of its name."""
    catalogue = unit.exercises.catalogue()
    return any(_names(what, each.name) for each in catalogue.values())


def _names(what: str, name: str) -> bool:
    """Return whether every longer word begins a word of a name; `rows` begins `row`."""
    words = [word.rstrip("s") for word in what.split() if len(word) > 2]
    parts = re.split(r"[ -]", name.casefold())
    return bool(words) and all(any(part.startswith(word) for part in parts) for word in words)


def _meant(what: str, items: list[Item], unit: Unit) -> list[Item]:
    """Return the exercises that words may mean: by number, by order, by name or by a word of the name."""
    number = _NUMBER.fullmatch(what)
    if number is not None:
        place = int(number["number"])
        return items[place - 1 : place] if place else []
    by_order = [each for each in items if each.prescription.order.casefold() == what]
    if by_order:
        return by_order
    row = named(what, unit.exercises.catalogue())
    by_name = [each for each in items if row is not None and each.exercise == row.key]
    if by_name:
        return by_name
    found = [each for each in items if _names(what, unit.exercises.get(each.exercise).name)]
    still = [each for each in found if each.state == "open"]
    return still or found


def _name(item: Item, unit: Unit) -> tuple[str, str]:
    return item.prescription.order, unit.exercises.get(item.exercise).name


def _below(effects: list[Effect]) -> list[Effect]:
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]
