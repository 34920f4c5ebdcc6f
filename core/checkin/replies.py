"""Short replies, read: load and reps, done, skip, undo, effort, pain, soreness.

The parts, in the order they are tried: a bare number that answers the open question; a slip put right in the same
line; the whole line; a site with a score; the line with slips mended, which is asked about; what can be read of it,
with the rest as a note; a note.
"""

import re
from collections.abc import Sequence

from core.checkin.answers import answer
from core.checkin.corrections import corrected
from core.checkin.lines import MOST_SAYINGS, read_line
from core.checkin.naming import without_name
from core.checkin.parts import parted
from core.checkin.reading import AskWhy, Context, Reading
from core.checkin.site_scores import as_said, in_name, is_muscle, is_scored, without_site
from core.checkin.spoken import joined
from core.checkin.stop_signs import scan
from core.checkin.tokens import Token, folded, tokens_of
from core.checkin.typos import mended
from core.checkin.words import Mark

_METRES = re.compile(r"(\d) ?(?:m|met(?:re|er)s?)(?![^\W\d_])", re.IGNORECASE)
_COMMAND = re.compile(r"\s*/([^\W\d_]+)(?:@\w+)?")
_COMMANDS = frozenset({Mark.LOG, Mark.PAIN, Mark.SORE, Mark.SKIP, Mark.UNDO, Mark.DONE})


def read_reply(text: str, context: Context) -> Reading:
    """Read one reply. Never raises; in doubt asks.

    When it asks, what is said of pain and soreness beyond doubt stands beside `ask` as well, since it is never to
    be lost; a site that must be asked for is None there.
    """
    clean = text.encode("utf-8", "replace").decode("utf-8").strip()
    if scan(clean) is not None:
        return Reading(understood=True, note=clean, stop_sign=True)
    command = _COMMAND.match(clean)
    if command:
        tokens = _tokens(command[1] + clean[command.end() :], context)
        if not tokens or tokens[0].mark not in _COMMANDS:
            return _note(clean)
        return _read(tokens, context, clean) or _note(clean)
    rest = without_name(clean, context.exercise)
    found = _read(_tokens(_without_metres(rest.text, context), context), context, clean) or _note(clean)
    if rest.sure or not found.understood or found.ask:
        return found
    return Reading(
        understood=True, pain=found.pain, soreness=found.soreness, ask=(found,), ask_why=AskWhy.TYPO
    )


def _tokens(text: str, context: Context) -> tuple[Token, ...]:
    timed = context.dose is not None and context.dose.seconds is not None
    return joined(tokens_of(text, timed=timed))


def _read(tokens: Sequence[Token], context: Context, text: str) -> Reading | None:
    if not tokens:
        return None
    found = answer(tokens, context) or corrected(tokens, context) or read_line(tokens, context)
    return found or _site(tokens, context) or _slip(tokens, context) or parted(tokens, context, text)


def _note(text: str) -> Reading:
    return Reading(understood=False, note=text or None)


def _without_metres(text: str, context: Context) -> str:
    """Return `text` without the `m` of metres, where sets are counted in metres: `24 kg 40m 40 m`."""
    dose = context.dose
    return text if dose is None or dose.metres is None else _METRES.sub(r"\1 ", text)


def _site(tokens: Sequence[Token], context: Context) -> Reading | None:
    """Return a line with a site that no word says to hurt: with a score it is pain, without one it is asked about."""
    found = read_line(as_said(tokens), context)
    if found is None:
        return None
    options = list(found.ask or (found,))
    name = folded(context.exercise.name) if context.exercise else ""
    is_sure = is_scored(tokens, name)
    if in_name(tokens, name) and (bare := read_line(without_site(tokens), context)) is not None:
        options = [*(bare.ask or (bare,)), *options]
    if is_sure and not is_muscle(tokens):
        return found
    if is_sure and (sore := read_line(as_said(tokens, Mark.SORE), context)) is not None:
        options += sore.ask or (sore,)
    return Reading(
        understood=True, ask=tuple(dict.fromkeys(options))[:MOST_SAYINGS], ask_why=AskWhy.TWO_READINGS
    )


def _slip(tokens: Sequence[Token], context: Context) -> Reading | None:
    """Return the line with mistyped words mended, to be asked about."""
    better = mended(tokens)
    found = read_line(better, context) if better is not None else None
    if found is None:
        return None
    return Reading(understood=True, ask=found.ask or (found,), ask_why=AskWhy.TYPO)
