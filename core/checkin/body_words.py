"""Pain and soreness said in a line: site, side and score, wherever they stand in it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import islice, product

from core.checkin.reading import BodyRead
from core.checkin.sites import JOINT_SITES, SiteWord, is_soreness
from core.checkin.tokens import Token, first_number
from core.checkin.words import Mark
from core.programme.exercises import Side, Site

_SAYING = frozenset({Mark.PAIN, Mark.SORE, Mark.PAINLESS})
_PLACING = frozenset({Mark.SITE, Mark.LEFT, Mark.RIGHT, Mark.BOTH})
_PASSED = frozenset({Mark.FILLER, Mark.BODY_FILLER, Mark.AT, Mark.SECOND, Mark.RPE})
_SIDES: dict[Mark, tuple[Side | None, ...]] = {
    Mark.LEFT: (Side.LEFT,),
    Mark.RIGHT: (Side.RIGHT,),
    Mark.BOTH: (Side.LEFT, Side.RIGHT),
}


@dataclass(frozen=True, slots=True)
class Saying:
    """One place that hurts or is sore, as said.

    Attributes:
        kind: Pain or soreness, as the word says.
        place: The word for the site; None when there was none.
        sides: Each side that was said; `(None,)` for none.
        score: 0-10; None when none was given or it was out of range.
    """

    kind: Mark
    place: SiteWord | None
    sides: tuple[Side | None, ...] = (None,)
    score: int | None = None


@dataclass(frozen=True, slots=True)
class BodyPart:
    """What a line says of the body.

    Attributes:
        sayings: In order.
        rest: The other tokens; a stop stands where something was taken out.
    """

    sayings: tuple[Saying, ...]
    rest: tuple[Token, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """One sensible meaning of all sayings."""

    pain: tuple[BodyRead, ...]
    soreness: tuple[BodyRead, ...]


def body_part(tokens: Sequence[Token]) -> BodyPart:
    """Take what is said of the body out of a line. Linear: each token is looked at a bounded number of times."""
    sayings: list[Saying] = []
    rest: list[Token] = []
    at = 0
    while at < len(tokens):
        if tokens[at].mark not in _SAYING:
            rest.append(tokens[at])
            at += 1
            continue
        kind = tokens[at].mark
        lead = _taken_back(rest)
        end = _end(tokens, at + 1, scored=kind is not Mark.PAINLESS)
        if kind is not Mark.PAINLESS and not any(token.mark is Mark.NOT for token in lead):
            found = _sayings(kind, [*lead, *tokens[at + 1 : end]])
            # "Pain 0" of no place is no report.
            sayings += [one for one in found if one.place is not None or one.score != 0]
        rest.append(Token(Mark.STOP, "."))
        at = end
    return BodyPart(tuple(sayings), tuple(rest))


def _taken_back(rest: list[Token]) -> list[Token]:
    """Take from the end of `rest` what leads up to "hurts": `my left knee`. A lone filler stays."""
    start = len(rest)
    while start and _leads(rest[start - 1]) and len(rest) - start < 12:
        start -= 1
    while start < len(rest) and rest[start].mark not in (*_PLACING, Mark.NOT, Mark.BODY_FILLER):
        start += 1
    lead = rest[start:]
    del rest[start:]
    return lead


def _leads(token: Token) -> bool:
    return token.mark in _PLACING or token.mark in _PASSED or token.mark in (Mark.NOT, Mark.SPLIT)


def _end(tokens: Sequence[Token], at: int, *, scored: bool) -> int:
    """Return where the saying that goes on at `at` ends: after its last site, side or score.

    "No pain" has no score: numbers after it are sets.
    """
    end = at
    while at < len(tokens):
        token = tokens[at]
        if token.mark is Mark.NUMBER and not scored:
            return end
        if token.mark is Mark.NUMBER:
            at = _score_end(tokens, at)
            if not _goes_on(tokens, at):
                return at + _is_last_side(tokens, at)
            end = at
        elif token.mark in _PLACING or token.mark in _SAYING - {Mark.PAINLESS}:
            at += 1
            end = at
        elif token.mark in _PASSED or token.mark is Mark.SPLIT or token.text == ":":
            at += 1
            end = at if token.mark is not Mark.SPLIT else end
        else:
            return end
    return end


def _score_end(tokens: Sequence[Token], at: int) -> int:
    """Return the place after a score: `4`, `4/10`, `4 out of 10`, `3-4`."""
    if is_range(tokens, at):
        return _score_end(tokens, at + 2)
    marks = [token.mark for token in tokens[at + 1 : at + 3]]
    if marks == [Mark.SLASH, Mark.NUMBER]:
        return at + 3
    is_out_of = at + 1 < len(tokens) and tokens[at + 1].text in ("out of 10", "out of ten")
    return at + 2 if is_out_of else at + 1


def is_range(tokens: Sequence[Token], at: int) -> bool:
    """Return whether a score is told as a range, `3-4` or `3 or 4`; the higher end counts."""
    ahead = tokens[at + 1 : at + 3]
    linked = len(ahead) == 2 and (ahead[0].mark is Mark.MINUS or ahead[0].text in ("or", "to"))
    if not linked or not tokens[at].mark is ahead[1].mark is Mark.NUMBER:
        return False
    return first_number(tokens[at]) < first_number(ahead[1]) <= 10


def _is_last_side(tokens: Sequence[Token], at: int) -> bool:
    """Return whether the saying ends with a side: `groin 3 left`."""
    return at < len(tokens) and tokens[at].mark in _SIDES and at + 1 == len(tokens)


def _goes_on(tokens: Sequence[Token], at: int) -> bool:
    """Return whether another site follows a score: `left knee 4, right knee 3`."""
    for token in tokens[at : at + 4]:
        if token.mark is Mark.SITE:
            return True
        if token.mark not in (Mark.LEFT, Mark.RIGHT, Mark.BOTH, Mark.SPLIT):
            return False
    return False


def _sayings(kind: Mark, tokens: Sequence[Token]) -> list[Saying]:
    """Return one saying for each site; a score or a side said later belongs to the sites before it."""
    found: list[Saying] = []
    sides: tuple[Side | None, ...] | None = None
    open_from = 0
    number: int | None = None
    ahead: int | None = None
    for token in _without_ten(tokens):
        if token.mark in _SIDES:
            side = _SIDES[token.mark]
            if found and number is None and found[-1].sides == (None,) and sides is None:
                found[-1] = replace(found[-1], sides=side)
            else:
                sides = side
        elif token.mark is Mark.SITE:
            found.append(Saying(kind, token.place, sides or (None,), ahead))
            sides, number, ahead = None, None, None
        elif token.mark in _SAYING:
            kind = token.mark
        elif token.mark is Mark.NUMBER and not found:
            # "pain 4 left knee"
            ahead = _score(token)
        elif token.mark is Mark.NUMBER:
            number = _score(token)
            found[open_from:] = [replace(one, score=number) for one in found[open_from:]]
            open_from = len(found)
    if found and sides and found[-1].sides == (None,):
        found[-1] = replace(found[-1], sides=sides)
    return found or [Saying(kind, None, sides or (None,), ahead)]


def _without_ten(tokens: Sequence[Token]) -> Iterable[Token]:
    """Return tokens without the ten of `4/10` and the lower end of `3-4`; of `4/5` neither, which has no ten."""
    for place, token in enumerate(tokens):
        if token.mark is Mark.NUMBER and (is_range(tokens, place) or _is_of_another(tokens, place)):
            continue
        if not (token.mark is Mark.NUMBER and place and tokens[place - 1].mark is Mark.SLASH):
            yield token


def _is_of_another(tokens: Sequence[Token], at: int) -> bool:
    """Return whether a number is told out of another one than ten: `4/5`."""
    ahead = tokens[at + 1 : at + 3]
    shared = [token.mark for token in ahead] == [Mark.SLASH, Mark.NUMBER]
    return shared and first_number(ahead[1]) != 10


def _score(token: Token) -> int | None:
    return score_of(first_number(token))


def told(sayings: Sequence[Saying], near: Sequence[Site] = (), limit: int = 6) -> tuple[Told, ...]:
    """Return each sensible meaning: one where every site is clear, several where a word could be two sites.

    Args:
        sayings: As read.
        near: Sites to offer where none was said: those that the exercise loads.
        limit: Most meanings.
    """
    unsaid = tuple(SiteWord((site,), site not in JOINT_SITES) for site in near)
    choices = [_places(one, unsaid) for one in sayings]
    return tuple(_told(sayings, places) for places in islice(product(*choices), limit))


def _places(one: Saying, unsaid: tuple[SiteWord, ...]) -> tuple[SiteWord | None, ...]:
    if one.place is None:
        return unsaid or (None,)
    return tuple(SiteWord((site,), is_soreness(one.place, site)) for site in one.place.sites)


def _told(sayings: Sequence[Saying], places: Sequence[SiteWord | None]) -> Told:
    pain: list[BodyRead] = []
    soreness: list[BodyRead] = []
    for one, place in zip(sayings, places, strict=True):
        kept = soreness if one.kind is Mark.SORE and place is not None and place.muscle else pain
        site = place.sites[0] if place else None
        kept.extend(BodyRead(site=site, side=side, score=one.score) for side in one.sides)
    return Told(tuple(pain), tuple(soreness))


def score_of(value: Decimal) -> int | None:
    """Return a whole score from 0 to 10; None when it is none."""
    return int(value) if value == int(value) and 0 <= value <= 10 else None
