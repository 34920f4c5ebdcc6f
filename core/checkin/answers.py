"""A bare number, read by the question that it answers."""

from collections.abc import Sequence
from decimal import Decimal

from core.checkin.body_words import is_range, score_of
from core.checkin.choice import load_read
from core.checkin.plausibility import HEAVIEST_KG, known, likely_loads
from core.checkin.reading import AskWhy, BodyRead, Context, Effort, Reading, SetRead
from core.checkin.set_atoms import Num, Role
from core.checkin.tokens import Token, first_number
from core.checkin.words import Mark
from core.units import Mass, Unit

BODYWEIGHTS_KG = (Decimal(30), Decimal(250))
"""Bodyweights that need no question. [kg] Our proposal."""
_UNITS = {Mark.KG: Unit.KG, Mark.LB: Unit.LB}
_NONE = frozenset({"none", "nothing", "zero", "0"})
_LEFT = ({Mark.PLUS}, {Mark.RIR}, {Mark.RESERVE}, {Mark.LEFT}, {Mark.REPS}, {Mark.PLUS, Mark.LEFT})


def answer(tokens: Sequence[Token], context: Context) -> Reading | None:
    """Return what a bare number says to the open question; None when the reply is no such answer."""
    said = [token for token in tokens if token.mark not in (Mark.STOP, Mark.FILLER, Mark.BODY_FILLER)]
    if not said or context.open_question is None:
        return None
    if context.open_question == "reps left":
        return _reps_left(said)
    if context.open_question == "pain score" and len(said) == 1 and said[0].text in _NONE:
        return Reading(understood=True, pain=(BodyRead(site=None, score=0),))
    if context.open_question == "pain score" and is_range(said, 0):
        said = said[2:]
    if said[0].mark is not Mark.NUMBER or _is_row(said[0]):
        return None
    value = first_number(said[0])
    rest = [token.mark for token in said[1:]]
    if context.open_question == "pain score":
        return _score(value, said[1:])
    if len(rest) > 1 or (rest and rest[0] not in _UNITS):
        return None
    unit = _UNITS[rest[0]] if rest else None
    if context.open_question == "load":
        return _load(value, unit, context)
    if context.open_question == "bodyweight":
        return _bodyweight(value, unit, context)
    return None


def _is_row(token: Token) -> bool:
    """Return whether a token holds several numbers: `8,8,8`."""
    return len(token.text.replace(".", ",").split(",")) > 2


def _reps_left(said: Sequence[Token]) -> Reading | None:
    if is_range(said, 0):
        ends = [_reps_left((token, *said[3:])) for token in (said[0], said[2])]
        sure = tuple(one for one in ends if one is not None)
        return Reading(understood=True, ask=sure, ask_why=AskWhy.TWO_READINGS) if len(sure) == 2 else None
    first, rest = said[0], {token.mark for token in said[1:]}
    if first.text in _NONE and not rest:
        return Reading(understood=True, effort=Effort(rir=0))
    if first.mark is not Mark.NUMBER or _is_row(first) or (rest and rest not in _LEFT):
        return None
    left = score_of(first_number(first))
    return Reading(understood=True, effort=Effort(rir=left)) if left is not None else None


def _score(value: Decimal, rest: Sequence[Token]) -> Reading | None:
    score = score_of(value)
    of_ten = [token.mark for token in rest] == [Mark.SLASH, Mark.NUMBER] and first_number(rest[1]) == 10
    if score is None or (rest and not of_ten):
        return None
    return Reading(understood=True, pain=(BodyRead(site=None, score=score),))


def _loaded(value: Decimal, unit: Unit | None, context: Context) -> Reading:
    load, written = load_read(Num(value, Role.LOAD, unit), context)
    return Reading(understood=True, sets=(SetRead(load=load, unit=written, reps=None),))


def _load(value: Decimal, unit: Unit | None, context: Context) -> Reading | None:
    facts = known(context)
    typed = _loaded(value, unit, context)
    if facts.fits(facts.kg(value, unit)):
        return typed
    likely = tuple(_loaded(*guess, context) for guess in likely_loads(value, unit, facts))
    offered = (*likely, typed) if facts.kg(value, unit) <= HEAVIEST_KG else likely
    return Reading(understood=True, ask=offered, ask_why=AskWhy.FAR_OFF) if offered else None


def _bodyweight(value: Decimal, unit: Unit | None, context: Context) -> Reading | None:
    typed = unit or context.unit
    units = (typed,) if unit else (typed, Unit.LB if typed is Unit.KG else Unit.KG)
    low, high = BODYWEIGHTS_KG
    fitting = [each for each in units if low <= Mass(value, each).kg <= high]
    if not fitting:
        return None
    if fitting[0] is typed:
        return _loaded(value, typed, context)
    return Reading(understood=True, ask=(_loaded(value, fitting[0], context),), ask_why=AskWhy.UNIT)
