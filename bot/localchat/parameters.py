"""Reads the parameters of a call, which come as text in a form or typed in JSON.

The service passes over names that it does not know; here they are refused, so that a slip of the pen is found.
"""

import json
from collections.abc import Callable, Mapping
from enum import Enum, auto
from typing import Any

from bot.localchat.answers import Body, bad_request


class Type(Enum):
    """What a parameter is."""

    NUMBER = auto()
    TEXT = auto()
    FLAG = auto()
    OBJECT = auto()
    LIST = auto()
    CHAT = auto()


Types = dict[str, Type]

FLAGS = {"true": True, "True": True, "1": True, "false": False, "False": False, "0": False}


def read(given: Mapping[str, Any], types: Types) -> Body:
    """Return parameters as the method expects them; None counts as not given.

    Raises:
        Refused: A name that the method does not have, or a value of another type.
    """
    strange = set(given) - set(types)
    if strange:
        raise bad_request(f"unknown parameters {sorted(strange)}")
    return {name: _value(name, value, types[name]) for name, value in given.items() if value is not None}


def required(params: Body, name: str) -> Any:
    """Return a parameter that must be there.

    Raises:
        Refused: It is not.
    """
    if name not in params:
        raise bad_request(f"parameter {name} is required")
    return params[name]


def _value(name: str, value: Any, kind: Type) -> Any:
    try:
        return READERS[kind](value)
    except (KeyError, TypeError, ValueError) as error:
        raise bad_request(f"can't parse parameter {name}") from error


def _number(value: Any) -> int:
    if isinstance(value, bool) or not isinstance(value, int | str):
        raise TypeError(value)
    return int(value)


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    return value


def _flag(value: Any) -> bool:
    return value if isinstance(value, bool) else FLAGS[value]


def _parsed(value: Any, kind: type) -> Any:
    parsed = json.loads(value) if isinstance(value, str) else value
    if not isinstance(parsed, kind):
        raise TypeError(value)
    return parsed


def _chat(value: Any) -> int | str:
    return value if isinstance(value, str) and value.startswith("@") else _number(value)


READERS: dict[Type, Callable[[Any], Any]] = {
    Type.NUMBER: _number,
    Type.TEXT: _text,
    Type.FLAG: _flag,
    Type.OBJECT: lambda value: _parsed(value, dict),
    Type.LIST: lambda value: _parsed(value, list),
    Type.CHAT: _chat,
}
