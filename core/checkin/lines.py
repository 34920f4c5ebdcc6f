"""One line of which every word is ours: sets, a flag, effort, what is said of the body."""

from collections.abc import Sequence
from decimal import Decimal
from itertools import product

from core.checkin.body_words import BodyPart, Told, body_part, told
from core.checkin.choice import planned_load, read_sets
from core.checkin.plausibility import counted_load
from core.checkin.reading import AskWhy, BodyRead, Context, Reading, SetRead
from core.checkin.tokens import Token, first_number
from core.checkin.words import Mark
from core.programme.exercises import Site

LONGEST_LINE = 120
"""A text of more words and signs is a letter to the coach; only pain is looked for in it. Our proposal."""
MOST_SAYINGS = 6
"""Most places that hurt that are read from one reply."""
FLAGS = frozenset({Mark.DONE, Mark.SKIP, Mark.UNDO})
"""Marks that say something by themselves."""
_EMPTY = frozenset({Mark.STOP, Mark.SPLIT, Mark.FILLER, Mark.LOG})


def read_line(tokens: Sequence[Token], context: Context) -> Reading | None:
    """Return a line of which every word is ours; None when one is not."""
    if len(tokens) > LONGEST_LINE or any(token.mark is Mark.QUESTION for token in tokens):
        return None
    body = body_part(tokens)
    if len(body.sayings) > MOST_SAYINGS:
        return None
    flags = {token.mark for token in body.rest if token.mark in FLAGS}
    rest = [token for token in body.rest if token.mark not in FLAGS]
    plain = not any(token.mark not in _EMPTY for token in rest)
    if len(flags) > 1 or (plain and not flags and not body.sayings):
        return None
    if Mark.DONE in flags and (number := _sets_done(rest)) is not None:
        line = _of_planned(number, rest, context)
        if line is not None:
            return with_body(line, body, context)
    line = Reading(understood=True) if plain else read_sets(rest, context)
    return with_body(_flagged(line, flags), body, context) if line is not None else None


def _sets_done(rest: Sequence[Token]) -> Decimal | None:
    """Return the number of `3 done` and `all 3 sets done`; None when there is more in the line."""
    said = [token for token in rest if token.mark not in (*_EMPTY, Mark.EVERY)]
    marks = [token.mark for token in said]
    if marks not in ([Mark.NUMBER], [Mark.NUMBER, Mark.SETS]) or "," in said[0].text:
        return None
    return first_number(said[0])


def _of_planned(number: Decimal, rest: Sequence[Token], context: Context) -> Reading | None:
    """Return so many of the planned sets: all of them as written; fewer, or a number alone, are asked about.

    None where the number can only be a load or reps.
    """
    dose = context.dose
    if dose is None or not 1 <= number <= dose.sets or number != int(number):
        return None
    if number == dose.sets:
        whole = Reading(understood=True, as_written=True)
        if any(token.mark is Mark.SETS for token in rest):
            return whole
        lone = read_sets(rest, context)
        options = (whole, *(lone.ask if lone is not None else ()))
        return Reading(understood=True, ask=options, ask_why=AskWhy.TWO_READINGS)
    load, unit = (None, None) if context.loads_differ else planned_load(counted_load(dose))
    reps, seconds = (span.low if span is not None else None for span in (dose.reps, dose.seconds))
    one = SetRead(load=load, unit=unit, reps=reps, seconds=seconds)
    if reps is None and seconds is None:
        return None
    done = Reading(understood=True, sets=(one,) * int(number))
    return Reading(understood=True, ask=(done,), ask_why=AskWhy.SETS)


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


def with_body(line: Reading, body: BodyPart, context: Context, note: str | None = None) -> Reading:
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
