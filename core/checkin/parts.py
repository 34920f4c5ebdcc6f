"""A reply with other words in it: what of it can be read, the whole of it as a note for the coach."""

from collections.abc import Sequence

from core.checkin.atom_reading import atoms_of
from core.checkin.body_words import BodyPart, body_part
from core.checkin.lines import FLAGS, LONGEST_LINE, MOST_SAYINGS, read_line, with_body
from core.checkin.reading import AskWhy, Context, Reading
from core.checkin.site_scores import scored_parts
from core.checkin.tokens import Token, folded
from core.checkin.words import Mark

MOST_WORDS = 12
"""Most words after `8 8 8 7` that are still asked about rather than passed on."""
_TAIL = frozenset({Mark.AT, Mark.BODY_FILLER, Mark.FILLER, Mark.SPLIT, Mark.STOP, Mark.CORRECTION})


def parted(tokens: Sequence[Token], context: Context, text: str) -> Reading | None:
    """Return what can be read of a line with other words in it, those as a note; None when nothing can.

    A site with a score is pain also where no word says so; of a muscle it may be soreness, and is asked about.
    """
    name = folded(context.exercise.name) if context.exercise else ""
    either = (scored_parts(tokens, name, kind) for kind in (Mark.PAIN, Mark.SORE))
    meant = [_parted(each, context, text) for each in dict.fromkeys(tuple(one) for one in either)]
    found = [each for each in meant if each is not None]
    if len(found) < 2:
        return found[0] if found else None
    options = [option for each in found for option in (each.ask or (each,))]
    return Reading(understood=True, note=text, ask=tuple(options[:MOST_SAYINGS]), ask_why=AskWhy.TWO_READINGS)


def _parted(tokens: Sequence[Token], context: Context, text: str) -> Reading | None:
    body = body_part(tokens)
    asks = any(token.mark is Mark.QUESTION for token in tokens)
    kept = () if _is_weak(body, asks) else body.sayings[:MOST_SAYINGS]
    body = BodyPart(kept, body.rest)
    if len(tokens) <= LONGEST_LINE and not asks:
        # A number beside pain without a score may be the score.
        least = 3 if any(one.score is None for one in body.sayings) else 2
        line, is_sure = _apart(body.rest, context, least)
        if line is not None and is_sure:
            return with_body(line, body, context, text)
        if line is not None:
            return _asked(with_body(line, body, context, text))
        line = _before_words(body.rest, context)
        if line is not None:
            return _asked(with_body(line, body, context, text))
    return with_body(Reading(understood=True), body, context, text) if body.sayings else None


def _asked(found: Reading) -> Reading:
    """Return a reading as a question."""
    why = found.ask_why or AskWhy.TWO_READINGS
    return Reading(understood=True, ask=found.ask or (found,), ask_why=why)


def _is_weak(body: BodyPart, asks: bool) -> bool:
    """Return whether no site and no number was said, only such a word as "tight", or any word in a question."""
    return all(
        (one.kind is Mark.SORE or asks) and one.place is None and one.score is None for one in body.sayings
    )


def _apart(rest: Sequence[Token], context: Context, least: int) -> tuple[Reading | None, bool]:
    """Return the sets or the flag of a line whose other words are set apart by a sign: `8 8 8 7, felt good`.

    Returns:
        The reading, None where there is none, and whether it is sure: what is left out holds no number, which could
        be a set. A part with several numbers is never left out.
    """
    kept: list[Token] = []
    part: list[Token] = []
    left_out = 0
    for place, token in enumerate((*rest, Token(Mark.STOP, "."))):
        is_dash = token.mark is Mark.MINUS and token.spaced and not _is_number(rest[place + 1 : place + 2])
        if token.mark not in (Mark.STOP, Mark.SPLIT) and not is_dash:
            part.append(token)
            continue
        numbers = sum(token.mark in (Mark.NUMBER, Mark.CLOCK) for token in part)
        if _is_ours(part):
            kept += [*part, Token(Mark.STOP, ".")]
        elif numbers > 1:
            return None, False
        else:
            left_out += numbers
        part = []
    return _worth(kept, context, least), not left_out


def _is_number(tokens: Sequence[Token]) -> bool:
    return bool(tokens) and tokens[0].mark is Mark.NUMBER


def _is_ours(part: Sequence[Token]) -> bool:
    numbers = [token for token in part if token.mark not in FLAGS]
    return bool(part) and atoms_of(numbers, flipped=False, sided=False) is not None


def _worth(kept: Sequence[Token], context: Context, least: int) -> Reading | None:
    """Return the tokens read when they are more than a lone number, which could be anything."""
    numbers = sum(token.mark in (Mark.NUMBER, Mark.CLOCK) for token in kept)
    said = any(token.mark in FLAGS or token.mark in (Mark.RIR, Mark.RPE) for token in kept)
    return read_line(kept, context) if numbers >= least or said else None


def _before_words(rest: Sequence[Token], context: Context) -> Reading | None:
    """Return what stands before the first word that is not ours, in a short line: `8 8 8 7 felt heavy`."""
    strange = (Mark.WORD, Mark.BODY_FILLER)
    first = next((place for place, token in enumerate(rest) if token.mark in strange), 0)
    after = rest[first:]
    if len(after) > MOST_WORDS:
        return None
    least = 3 if any(token.mark is Mark.NUMBER for token in after) else 2
    before = list(rest[:first])
    while before and before[-1].mark in _TAIL:
        before.pop()
    sides = [token.mark for token in before if token.mark in (Mark.LEFT, Mark.RIGHT)]
    if len(sides) > 1 and before[-1].mark in sides:
        return None
    return _worth(before, context, least)
