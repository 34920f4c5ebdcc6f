"""Short replies, read: load and reps, done, skip, undo, effort, pain, soreness.

The parts, in the order they are tried: a bare number that answers the open question; the whole line; the line with
slips mended, which is asked about; what can be read of it, with the rest as a note; a note.
"""

import re
from collections.abc import Sequence
from decimal import Decimal
from itertools import product

from core.checkin.answers import answer
from core.checkin.atom_reading import atoms_of
from core.checkin.body_words import BodyPart, Told, body_part, told
from core.checkin.choice import read_sets
from core.checkin.reading import AskWhy, BodyRead, Context, Effort, Reading
from core.checkin.stop_signs import scan
from core.checkin.tokens import Token, folded, tokens_of
from core.checkin.typos import mended
from core.checkin.words import Mark
from core.programme.exercises import Site

LONGEST_LINE = 120
"""A text of more words and signs is a letter to the coach; only pain is looked for in it. Our proposal."""
MOST_SAYINGS = 6
"""Most places that hurt that are read from one reply."""
MOST_WORDS = 12
"""Most words after `8 8 8 7` that are still asked about rather than passed on."""
_METRES = re.compile(r"(\d) ?(?:m|met(?:re|er)s?)(?![^\W\d_])", re.IGNORECASE)
_COMMAND = re.compile(r"\s*/([^\W\d_]+)(?:@\w+)?")
_COMMANDS = frozenset({Mark.LOG, Mark.PAIN, Mark.SORE, Mark.SKIP, Mark.UNDO, Mark.DONE})
_FLAGS = frozenset({Mark.DONE, Mark.SKIP, Mark.UNDO})
_EMPTY = frozenset({Mark.STOP, Mark.SPLIT, Mark.FILLER, Mark.LOG})
_TAIL = frozenset({Mark.AT, Mark.BODY_FILLER, Mark.FILLER, Mark.SPLIT, Mark.STOP})


def read_reply(text: str, context: Context) -> Reading:
    """Read one reply. Never raises; in doubt asks.

    When it asks, what is said of pain and soreness beyond doubt stands beside `ask` as well, since it is never to
    be lost; a site that must be asked for is None there.
    """
    clean = text.encode("utf-8", "replace").decode("utf-8").strip()
    if scan(clean) is not None:
        return Reading(understood=True, note=clean, stop_sign=True)
    command = _COMMAND.match(clean)
    tokens = tokens_of(_without_metres(_without_name(clean[1:] if command else clean, context), context))
    if command:
        tokens = tokens_of(command[1] + clean[command.end() :])
        if not tokens or tokens[0].mark not in _COMMANDS:
            return _note(clean)
    if not tokens:
        return _note(clean)
    found = answer(tokens, context) or _line(tokens, context) or _slip(tokens, context)
    return found or _parted(tokens, context, clean) or _note(clean)


def _note(text: str) -> Reading:
    return Reading(understood=False, note=text or None)


def _without_metres(text: str, context: Context) -> str:
    """Return `text` without the `m` of metres, where sets are counted in metres: `24 kg 40m 40 m`."""
    dose = context.dose
    return text if dose is None or dose.metres is None else _METRES.sub(r"\1 ", text)


def _without_name(text: str, context: Context) -> str:
    """Return a text without the exercise's own name at its start."""
    if context.exercise is None:
        return text
    line = folded(text)
    names = sorted(
        (folded(name) for name in (context.exercise.name, *context.exercise.aliases)), key=len, reverse=True
    )
    for name in names:
        rest = line.removeprefix(name)
        if rest != line and rest.lstrip("s")[:1] in (" ", ":", ","):
            return rest.lstrip("s: ,")
    return text


def _line(tokens: Sequence[Token], context: Context) -> Reading | None:
    """Return a line of which every word is ours; None when one is not."""
    if len(tokens) > LONGEST_LINE or any(token.mark is Mark.QUESTION for token in tokens):
        return None
    body = body_part(tokens)
    if len(body.sayings) > MOST_SAYINGS:
        return None
    flags = {token.mark for token in body.rest if token.mark in _FLAGS}
    rest = [token for token in body.rest if token.mark not in _FLAGS]
    plain = not any(token.mark not in _EMPTY for token in rest)
    if len(flags) > 1 or (plain and not flags and not body.sayings):
        return None
    line = Reading(understood=True) if plain else read_sets(rest, context)
    return _joined(_flagged(line, flags), body, context) if line is not None else None


def _flagged(line: Reading, flags: set[Mark]) -> Reading:
    """Add done, skip or undo; sets said with skip or undo are two readings."""
    said = {"as_written": Mark.DONE in flags, "skip": Mark.SKIP in flags, "undo": Mark.UNDO in flags}
    if not flags:
        return line
    has_sets = bool(line.sets or (line.ask and line.ask[0].sets))
    if not has_sets:
        ask = tuple(each.model_copy(update=said) for each in line.ask)
        return line.model_copy(update={"ask": ask} if ask else said)
    if Mark.DONE in flags:
        return line
    flag_alone = Reading(understood=True, **said)
    return Reading(understood=True, ask=(*(line.ask or (line,)), flag_alone), ask_why=AskWhy.TWO_READINGS)


def _joined(line: Reading, body: BodyPart, context: Context, note: str | None = None) -> Reading:
    """Return sets, what is said of the body and a note as one reading; each sensible pair of them when asking."""
    meanings = told(body.sayings, _near(context))
    options = tuple(
        one.model_copy(update={"pain": meaning.pain, "soreness": meaning.soreness, "note": note})
        for one, meaning in product(line.ask or (line,), meanings)
    )
    if not line.ask and len(options) == 1:
        return options[0]
    sure = _sure(meanings)
    return Reading(
        understood=True,
        pain=sure.pain,
        soreness=sure.soreness,
        note=note,
        ask=options[:MOST_SAYINGS],
        ask_why=line.ask_why or AskWhy.SITE,
    )


def _near(context: Context) -> tuple[Site, ...]:
    loaded = context.exercise.loads_sites if context.exercise else frozenset()
    return tuple(site for site in Site if site in loaded)


def _sure(meanings: Sequence[Told]) -> Told:
    """Return what all meanings agree on; where they differ it is pain of a site that is not known."""
    if len(meanings) == 1:
        return meanings[0]
    pain, soreness = (
        tuple(
            each for each in getattr(meanings[0], kind) if all(each in getattr(one, kind) for one in meanings)
        )
        for kind in ("pain", "soreness")
    )
    unclear = [each for each in (*meanings[0].pain, *meanings[0].soreness) if each not in (*pain, *soreness)]
    return Told(
        (*pain, *(BodyRead(site=None, side=each.side, score=each.score) for each in unclear)), soreness
    )


def _slip(tokens: Sequence[Token], context: Context) -> Reading | None:
    """Return the line with mistyped words mended, to be asked about."""
    better = mended(tokens)
    found = _line(better, context) if better is not None else None
    why = AskWhy.TYPO
    if found is None:
        found, why = _line(_as_pain(tokens), context), AskWhy.TWO_READINGS
    return Reading(understood=True, ask=found.ask or (found,), ask_why=why) if found is not None else None


def _as_pain(tokens: Sequence[Token]) -> list[Token]:
    """Return tokens with "pain" after the first site where no such word was said: `left knee 4`."""
    first = next((place for place, token in enumerate(tokens) if token.mark is Mark.SITE), None)
    said = any(token.mark in (Mark.PAIN, Mark.SORE, Mark.PAINLESS, Mark.NOT) for token in tokens)
    if first is None or said:
        return []
    return [*tokens[: first + 1], Token(Mark.PAIN, "pain"), *tokens[first + 1 :]]


def _parted(tokens: Sequence[Token], context: Context, text: str) -> Reading | None:
    """Return what can be read of a line with other words in it, those as a note; None when nothing can."""
    body = body_part(tokens)
    asks = any(token.mark is Mark.QUESTION for token in tokens)
    kept = () if _is_weak(body, asks) else body.sayings[:MOST_SAYINGS]
    body = BodyPart(kept, body.rest)
    if len(tokens) <= LONGEST_LINE and not asks:
        # A number beside pain without a score may be the score.
        least = 3 if any(one.score is None for one in body.sayings) else 2
        line = _apart(body.rest, context, least)
        if line is not None:
            return _joined(line, body, context, text)
        line = _before_words(body.rest, context)
        if line is not None:
            found = _joined(line, body, context, text)
            ask = found.ask or (found,)
            return Reading(understood=True, ask=ask, ask_why=found.ask_why or AskWhy.TWO_READINGS)
    return _joined(Reading(understood=True), body, context, text) if body.sayings else None


def _is_weak(body: BodyPart, asks: bool) -> bool:
    """Return whether no site and no number was said, only such a word as "tight", or any word in a question."""
    return all(
        (one.kind is Mark.SORE or asks) and one.place is None and one.score is None for one in body.sayings
    )


def _apart(rest: Sequence[Token], context: Context, least: int) -> Reading | None:
    """Return the sets or the flag of a line whose other words are set apart by a sign: `8 8 8 7, felt good`."""
    kept: list[Token] = []
    part: list[Token] = []
    for place, token in enumerate((*rest, Token(Mark.STOP, "."))):
        is_dash = token.mark is Mark.MINUS and token.spaced and not _is_number(rest[place + 1 : place + 2])
        if token.mark not in (Mark.STOP, Mark.SPLIT) and not is_dash:
            part.append(token)
            continue
        if _is_ours(part):
            kept += [*part, Token(Mark.STOP, ".")]
        part = []
    return _worth(kept, context, least)


def _is_number(tokens: Sequence[Token]) -> bool:
    return bool(tokens) and tokens[0].mark is Mark.NUMBER


def _is_ours(part: Sequence[Token]) -> bool:
    numbers = [token for token in part if token.mark not in _FLAGS]
    return bool(part) and atoms_of(numbers, flipped=False, sided=False) is not None


def _worth(kept: Sequence[Token], context: Context, least: int) -> Reading | None:
    """Return the tokens read when they are more than a lone number, which could be anything."""
    numbers = sum(token.mark in (Mark.NUMBER, Mark.CLOCK) for token in kept)
    said = any(token.mark in _FLAGS or token.mark in (Mark.RIR, Mark.RPE) for token in kept)
    return _line(kept, context) if numbers >= least or said else None


def _before_words(rest: Sequence[Token], context: Context) -> Reading | None:
    """Return what stands before the first word that is not ours, in a short line: `8 8 8 7 felt heavy`."""
    first = next((place for place, token in enumerate(rest) if token.mark is Mark.WORD), 0)
    after = rest[first:]
    if len(after) > MOST_WORDS:
        return None
    least = 3 if any(token.mark is Mark.NUMBER for token in after) else 2
    before = list(rest[:first])
    while before and before[-1].mark in _TAIL:
        before.pop()
    return _worth(before, context, least)


def as_json(reading: Reading) -> dict[str, object]:
    """Return the reading as `plimsoll read` prints it."""
    ask = [_plain_json(each) for each in reading.ask] or None
    return {**_plain_json(reading), "ask": ask, "stop_sign": reading.stop_sign}


def _plain_json(reading: Reading) -> dict[str, object]:
    return {
        "understood": reading.understood,
        "sets": [{**each.model_dump(mode="json"), "rpe": _number(each.rpe)} for each in reading.sets],
        "as_written": reading.as_written,
        "skip": reading.skip,
        "undo": reading.undo,
        "effort": _effort(reading.effort),
        "pain": [each.model_dump(mode="json") for each in reading.pain],
        "soreness": [each.model_dump(mode="json") for each in reading.soreness],
        "note": reading.note,
    }


def _effort(effort: Effort) -> dict[str, object]:
    said = {"rir": effort.rir, "rpe": _number(effort.rpe)}
    return {scale: value for scale, value in said.items() if value is not None}


def _number(text: str | None) -> int | float | None:
    """Return an RPE as a number; halves are exact in binary."""
    if text is None:
        return None
    value = Decimal(text)
    return int(value) if value == int(value) else float(value)
