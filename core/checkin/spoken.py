"""Numbers said in several words, put together: `sixty two point five`, `one hundred and forty`, `twelve and a half`."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from core.checkin.tokens import Token, first_number
from core.checkin.words import Mark

_LEFT_OVER = frozenset({Mark.HUNDRED, Mark.POINT, Mark.HALF})
_HALF = Decimal("0.5")


def joined(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return the tokens with numbers of several words as one; what is left of such words is a word like any other.

    Where a shorter number may be meant, `eighty eight` before `seven`, the token says how it comes apart.
    """
    found: list[Token] = []
    at = 0
    while at < len(tokens):
        token, at = _next(tokens, at)
        found.append(replace(token, mark=Mark.WORD) if token.mark in _LEFT_OVER else token)
    return tuple(found)


def _next(tokens: Sequence[Token], at: int) -> tuple[Token, int]:
    """Return the token that begins at a place, and the place after it."""
    token, at = _whole(tokens, at)
    if token.mark is not Mark.NUMBER:
        return token, at
    if _is(tokens, at, Mark.POINT) and (digits := _digits(tokens, at + 1)):
        value = Decimal(f"{int(first_number(token))}.{digits}")
        return replace(token, value=value, apart=None), at + 1 + len(digits)
    if _is(tokens, at, Mark.HALF):
        return replace(token, value=first_number(token) + _HALF, apart=None), at + 1
    return token, at


def _whole(tokens: Sequence[Token], at: int) -> tuple[Token, int]:
    token = tokens[at]
    value = token.value if token.mark is Mark.NUMBER else None
    if token.mark is Mark.HUNDRED:
        return _hundreds(tokens, at + 1, 1, token)
    if _is(tokens, at + 1, Mark.HUNDRED) and (token.text == "a" or (value is not None and 1 <= value <= 9)):
        return _hundreds(tokens, at + 2, int(value or 1), token)
    hyphened = _is(tokens, at + 1, Mark.MINUS) and _is(tokens, at + 2, Mark.NUMBER)
    if value is not None and hyphened and not (tokens[at + 1].spaced or tokens[at + 2].spaced):
        ones = tokens[at + 2].value
        if ones is not None and value >= 20 and not value % 10 and 1 <= ones <= 9:
            return replace(token, value=value + ones), at + 3
    return token, at + 1


def _hundreds(tokens: Sequence[Token], at: int, count: int, first: Token) -> tuple[Token, int]:
    """Read on after "hundred": `and forty two`, `forty`."""
    base = Decimal(100 * count)
    linked = at < len(tokens) and tokens[at].text == "and"
    place = at + linked
    rest = tokens[place].value if _is(tokens, place, Mark.NUMBER) else None
    if rest is None or not 0 < rest < 100:
        return replace(first, mark=Mark.NUMBER, value=base), at
    parts = tokens[place].apart
    apart = (base + parts[0], parts[1]) if parts else None if linked else (base, rest)
    return replace(first, mark=Mark.NUMBER, value=base + rest, apart=apart), place + 1


def _digits(tokens: Sequence[Token], at: int) -> str:
    """Return the digits said after "point": one, or two of a quarter."""
    first, second = (_digit(tokens, place) for place in (at, at + 1))
    return first + second if first in ("2", "7") and second == "5" else first


def _digit(tokens: Sequence[Token], at: int) -> str:
    if not _is(tokens, at, Mark.NUMBER):
        return ""
    value = first_number(tokens[at])
    return str(int(value)) if 0 <= value <= 9 and value == int(value) else ""


def _is(tokens: Sequence[Token], at: int, mark: Mark) -> bool:
    return at < len(tokens) and tokens[at].mark is mark
