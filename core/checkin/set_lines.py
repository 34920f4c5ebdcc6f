"""A line of sets before it is read: what counts the sets, names a limb or runs together is put right.

`3 sets: 8 8 7` has three sets, not three of eight and more; `left leg 10 9, right leg 10 10` is about sides.
"""

from collections.abc import Sequence

from core.checkin.tokens import Token, first_number
from core.checkin.words import Mark

_LIMBS = frozenset({"leg", "arm", "hand", "foot"})
_SIDES = frozenset({Mark.LEFT, Mark.RIGHT})
_IN_ROW = frozenset({Mark.FILLER, Mark.STOP, Mark.SPLIT, Mark.SLASH})
_RPE = {Mark.RPE: Token(Mark.RPE, "rpe"), Mark.AT: Token(Mark.RPE, "rpe"), Mark.RIR: Token(Mark.RIR, "rir")}
_SCALES = frozenset(_RPE)
_PAIR = [Mark.NUMBER, Mark.TIMES, Mark.NUMBER, Mark.KG]
_BETWEEN = frozenset({Mark.FILLER, Mark.STOP, Mark.SPLIT})


def is_no_row(tokens: Sequence[Token]) -> bool:
    """Return whether two numbers are joined so that they are no two sets: `1 of 3`, `7+1`."""
    for last, here, after in zip(tokens, tokens[1:], tokens[2:], strict=False):
        is_of = here.mark is Mark.FILLER and here.text == "of"
        is_sum = here.mark is Mark.PLUS and here.text == "+" and not here.spaced and not after.spaced
        if last.mark is after.mark is Mark.NUMBER and (is_of or is_sum):
            return True
    return False


def without_limbs(tokens: Sequence[Token]) -> Sequence[Token]:
    """Return tokens without the leg of `left leg 10 9, right leg 10 10`, where both sides are told."""
    if not {token.mark for token in tokens} >= _SIDES:
        return tokens
    pairs = zip((None, *tokens), tokens, strict=False)
    return [
        one for last, one in pairs if not (one.text in _LIMBS and last is not None and last.mark in _SIDES)
    ]


def without_set_count(tokens: Sequence[Token]) -> Sequence[Token] | None:
    """Return tokens without `3 sets` before three numbers; None where as many numbers do not follow."""
    for at, token in enumerate(tokens[1:], start=1):
        if token.mark is not Mark.SETS or tokens[at - 1].mark is not Mark.NUMBER:
            continue
        row = at + 1
        while row < len(tokens) and tokens[row].mark in _BETWEEN and tokens[row].text != "of":
            row += 1
        end = row
        while end < len(tokens) and tokens[end].mark is Mark.NUMBER:
            end += 1
        if end - row > 1:
            is_row = tokens[at - 1].text == str(end - row) or tokens[at - 1].value == end - row
            return [*tokens[: at - 1], *tokens[row:]] if is_row else None
    return tokens


def without_pair(tokens: Sequence[Token]) -> Sequence[Token]:
    """Return tokens without the two of `2 x 16 kg 10 10` and `16 kg x 2, 10 10`: a pair of what is kept a hand."""
    marks = [token.mark for token in tokens]
    pair = _PAIR if marks[:4] in (_PAIR, [*_PAIR[:3], Mark.LB]) else None
    if pair and _is_two(tokens[0]) and Mark.NUMBER in marks[4:]:
        return tokens[2:]
    after = 1 + (marks[1:2] in ([Mark.KG], [Mark.LB]))
    rest = [mark for mark in marks[after + 2 :] if mark not in _BETWEEN and mark is not Mark.SPLIT]
    is_pair = marks[after : after + 2] == [Mark.TIMES, Mark.NUMBER] and _is_two(tokens[after + 1])
    if marks[:1] == [Mark.NUMBER] and is_pair and rest[:2] == [Mark.NUMBER, Mark.NUMBER]:
        return [*tokens[:after], *tokens[after + 2 :]]
    return tokens


def _is_two(token: Token) -> bool:
    return token.text in ("2", "two")


def with_effort_each(tokens: Sequence[Token], sets: int | None) -> Sequence[Token] | None:
    """Return `8 8 7 rpe 8 8 9` with each number of effort after its set; None where sets and efforts differ in number.

    Only a row at the end is meant; what stands close to its set, `8@8 8@9`, says it already.
    """
    scales = [at for at, token in enumerate(tokens) if token.mark in _SCALES]
    if len(scales) != 1 or (tokens[scales[0]].mark is Mark.AT and not tokens[scales[0]].spaced):
        return tokens
    at = scales[0]
    start = next((place for place in range(at, 0, -1) if not _is_in_row(tokens[place - 1])), 0)
    efforts, counts, head = _row(tokens[at + 1 :]), _row(tokens[start:at]) or [], tokens[:start]
    if efforts is None or len(efforts) < 2 or not counts:
        return tokens
    if tokens[at].mark is Mark.AT and not all(4 < first_number(one) <= 10 for one in efforts):
        return tokens
    more = len(counts) - len(efforts)
    if more not in ((0,) if head else (0, 1)) or (len(efforts) == 2 and sets != 2):
        return None if more > 0 or head else tokens
    paired = [
        each
        for one, said in zip(counts[more:], efforts, strict=True)
        for each in (one, _RPE[tokens[at].mark], said)
    ]
    return [*head, *counts[:more], *paired]


def without_at(tokens: Sequence[Token], sets: int | None) -> Sequence[Token] | None:
    """Return `80 at 8 8 7` as load and reps; None where `80 @8 8 7` may say an RPE first."""
    load = 2 if [token.mark for token in tokens[1:2]] in ([Mark.KG], [Mark.LB]) else 1
    marks = [token.mark for token in tokens]
    if marks[:1] != [Mark.NUMBER] or marks[load : load + 1] != [Mark.AT]:
        return tokens
    row = _row(tokens[load + 1 :])
    if row is None or len(row) < 2 or (sets is not None and len(row) == sets + 1):
        return tokens
    return [*tokens[:load], *row] if len(row) == sets else None


def _row(tokens: Sequence[Token]) -> list[Token] | None:
    """Return the numbers of a row, each by itself; None where there is anything else in it."""
    found: list[Token] = []
    for token in tokens:
        if token.mark is Mark.NUMBER and token.text.count(",") > 1:
            found += (Token(Mark.NUMBER, part) for part in token.text.split(","))
        elif token.mark is Mark.NUMBER:
            found.append(token)
        elif token.mark not in _IN_ROW:
            return None
    return found


def _is_in_row(token: Token) -> bool:
    return token.mark is Mark.NUMBER or token.mark in _IN_ROW


def run_together(tokens: Sequence[Token], sets: int | None) -> Sequence[Token] | None:
    """Return tokens with the reps of `80 887` apart, a digit for each planned set; None where no number is like it."""
    runs = [
        at
        for at, token in enumerate(tokens)
        if token.mark is Mark.NUMBER and token.text.isdigit() and len(token.text) == sets and sets > 2
    ]
    if len(runs) != 1 or "0" in tokens[runs[0]].text or sum(one.mark is Mark.NUMBER for one in tokens) > 2:
        return None
    at = runs[0]
    return [*tokens[:at], *(Token(Mark.NUMBER, digit) for digit in tokens[at].text), *tokens[at + 1 :]]
