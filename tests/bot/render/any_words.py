"""Values of any type that a render function asks for, with the same word wherever a value holds words."""

import types
from collections.abc import Collection, Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import fields, is_dataclass
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from enum import Enum
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel, ValidationError

from core.loads.limits import Limit, LimitKind
from core.programme.prescription import Dose, Span
from core.units import Mass, Unit

PLAIN = "word"
SIMPLE: dict[Any, Any] = {
    int: 3,
    float: 3.0,
    bool: True,
    bytes: b"x",
    Decimal: Decimal(3),
    date: date(2026, 4, 7),
    datetime: datetime(2026, 4, 7, 7, tzinfo=UTC),
    time: time(7),
    timedelta: timedelta(days=2),
    Mass: Mass(Decimal(60), Unit.KG),
    type(None): None,
    Limit: Limit(row_id=1, kind=LimitKind.FORBIDDEN, since=date(2026, 4, 7)),
    Dose: Dose(sets=3, reps=Span(low=8, high=8)),
}
NAMED = {"zone": "Europe/Lisbon", "screen": "overview", "state": "open", "order": "B1", "tempo": "3110"}
"""Texts that are one of a few words of ours, by the name of what holds them."""
WRITTEN = {
    "AlertView": "html note",
    "ItemView": "video",
    "Raise": "percent",
    "SessionView": "note closing",
    "Summary": "fitted",
    "View": "title lead note",
}
"""Fields that hold HTML which was written, and its words escaped, before."""
DEEPEST = 12


class Unmakeable(Exception):
    """No value of a type can be made by rule."""


class Anything(dict[Any, Any]):
    """A mapping that has every key."""

    def __init__(self, kind: Any, word: str, depth: int) -> None:
        super().__init__({word: made(kind, word, depth)})

    def __missing__(self, key: Any) -> Any:
        return next(iter(self.values()))


class Prompt:
    """What a button needs of its prompt."""

    id, revision = 7, 1


def made(kind: Any, word: str, depth: int = 0) -> Any:
    """Make a value of a type, with `word` for every text in it.

    Raises:
        Unmakeable: There is no rule for it.
    """
    if depth > DEEPEST:
        raise Unmakeable(kind)
    if kind is str or kind is Any or kind is object:
        return word
    if kind in SIMPLE:
        return SIMPLE[kind]
    origin, inner = get_origin(kind), get_args(kind)
    if origin is not None:
        return _composed(origin, inner, word, depth + 1)
    if getattr(kind, "_is_protocol", False) and {"id", "revision"} <= set(dir(kind)):
        return Prompt()
    if not isinstance(kind, type):
        raise Unmakeable(kind)
    if issubclass(kind, Enum):
        return next(iter(kind))
    if issubclass(kind, BaseModel):
        return _model(kind, word, depth + 1)
    if is_dataclass(kind):
        hints = get_type_hints(kind)
        written = WRITTEN.get(kind.__name__, "").split()
        return kind(
            **{
                each.name: named(
                    each.name, hints[each.name], PLAIN if each.name in written else word, depth + 1
                )
                for each in fields(kind)
                if each.init
            }
        )
    raise Unmakeable(kind)


def named(name: str, kind: Any, word: str, depth: int = 0) -> Any:
    """Make a value of a name and a type."""
    found = made(kind, word, depth)
    return NAMED[name] if name in NAMED and isinstance(found, str) else found


def _composed(origin: Any, inner: tuple[Any, ...], word: str, depth: int) -> Any:
    if origin is Literal:
        return inner[0]
    if origin in (Union, types.UnionType):
        return made(next(each for each in inner if each is not type(None)), word, depth)
    if origin is tuple:
        kinds = inner[:1] if inner[1:] == (...,) else inner
        return tuple(made(each, word, depth) for each in kinds)
    if issubclass(origin, Mapping):
        return (
            Anything(inner[1], word, depth)
            if inner[0] is str
            else {made(inner[0], word, depth): made(inner[1], word, depth)}
        )
    if issubclass(origin, AbstractSet):
        return frozenset({made(inner[0], word, depth)})
    if origin in (list, Sequence, Collection, Iterable):
        return [made(inner[0], word, depth)]
    raise Unmakeable(origin)


def _model(kind: type[BaseModel], word: str, depth: int) -> BaseModel:
    """Make a value that checks itself: what it refuses is left out, or is a plain word where it is needed."""
    given: dict[str, Any] = {}
    for name, each in kind.model_fields.items():
        try:
            given[name] = named(name, each.annotation, word, depth)
        except Unmakeable:
            if each.is_required():
                raise
    for _ in range(4):
        try:
            return kind(**given)
        except ValidationError as error:
            wrong = {str(each["loc"][0]) for each in error.errors() if each["loc"]} & set(given)
            for name in wrong or {each for each in given if not kind.model_fields[each].is_required()}:
                if kind.model_fields[name].is_required():
                    given[name] = made(kind.model_fields[name].annotation, PLAIN, depth)
                else:
                    del given[name]
    raise Unmakeable(kind)
