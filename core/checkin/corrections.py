"""A slip put right in the same line: `8 8 8 no wait 8 8 7`, `80 8 8 8 sorry 7`, `80 8 8 8 actually 82.5`."""

import re
from collections.abc import Sequence
from decimal import Decimal

from core.checkin.choice import MOST_ASKED, load_read
from core.checkin.lines import LONGEST_LINE, read_line
from core.checkin.plausibility import known, planned_sets
from core.checkin.reading import AskWhy, Context, Reading, SetRead
from core.checkin.set_atoms import Num, Role
from core.checkin.site_scores import as_said
from core.checkin.tokens import Token, first_number
from core.checkin.words import Mark
from core.units import Unit

MOST_PARTS = 4
"""A line with more corrections is a tale. Our proposal."""
_PASSED = frozenset({Mark.STOP, Mark.SPLIT, Mark.FILLER})
_OF_COUNTS = (Mark.NUMBER, Mark.CLOCK, Mark.SLASH, Mark.MINUS, Mark.LEFT, Mark.RIGHT)
_UNITS = {Mark.KG: Unit.KG, Mark.LB: Unit.LB}


def corrected(tokens: Sequence[Token], context: Context) -> Reading | None:
    """Return a line with what came after "sorry" in the place of what it puts right; None where that is not plain.

    As many sets again, or more, take the place of all. Fewer are the last ones where that makes the planned number
    of sets; otherwise it is asked about. Pain that was said before stays, or is asked about, and is never dropped.
    """
    parts = _parts(tokens)
    said = [part for part in parts if any(token.mark not in _PASSED for token in part)]
    if len(parts) == 1 or not 1 <= len(said) <= MOST_PARTS or len(tokens) > LONGEST_LINE:
        return None
    if len(said) == 1:
        return read_line(said[0], context)
    *before, after = [read_line(part, context) or read_line(as_said(part), context) for part in said]
    last = said[-1]
    if after is None or any(one is None for one in before):
        return None
    first = before[-1] or after
    found = _in_place(first, after, last, context)
    return (
        _with_earlier_pain(found, [one for one in before if one is not None]) if found is not None else None
    )


def _parts(tokens: Sequence[Token]) -> list[list[Token]]:
    parts: list[list[Token]] = [[]]
    for token in tokens:
        if token.mark is Mark.CORRECTION:
            parts.append([])
        else:
            parts[-1].append(token)
    return parts


def _in_place(first: Reading, after: Reading, last: Sequence[Token], context: Context) -> Reading | None:
    """Return the two put together; the body of the first is left to the caller."""
    lone, bare = _lone(last), _are_counts(last, len(after.sets))
    if any(one.sets for one in first.ask) and (lone is not None or bare):
        return _in_each(first, after, last, context)
    if lone is not None and first.sets:
        return _one_number(first, *lone, context)
    if after.ask or not after.sets or not first.sets:
        return after
    if len(after.sets) >= len(first.sets):
        sets = _at_loads_of(first.sets, after.sets) if bare else after.sets
        return _as(first, sets, after)
    tail = first.sets[-len(after.sets) :]
    news = _at_loads_of(tail, after.sets) if bare else after.sets
    return _replaced_or_added(first, news, after, context)


def _in_each(first: Reading, after: Reading, last: Sequence[Token], context: Context) -> Reading | None:
    """Return a question with what came after put into each reading of what came before."""
    found = [_in_place(one, after, last, context) for one in first.ask]
    options = dict.fromkeys(each for one in found if one is not None for each in one.ask or (one,))
    if not options:
        return None
    return Reading(understood=True, ask=tuple(options)[:MOST_ASKED], ask_why=first.ask_why)


def _lone(last: Sequence[Token]) -> tuple[Decimal, Unit | None] | None:
    """Return the only number of a part, with its unit; None when there is more in it."""
    kept = [token for token in last if token.mark not in (*_PASSED, Mark.AT)]
    marks = [token.mark for token in kept]
    if marks[:1] != [Mark.NUMBER] or len(marks) > 2 or (len(marks) == 2 and marks[1] not in _UNITS):
        return None
    return first_number(kept[0]), _UNITS[marks[1]] if len(marks) == 2 else None


def _one_number(first: Reading, value: Decimal, unit: Unit | None, context: Context) -> Reading | None:
    facts = known(context)
    if unit is None and facts.count_fits(value):
        last = first.sets[-1]
        counted = {"reps": int(value)} if last.seconds is None else {"seconds": int(value)}
        return _replaced_or_added(first, (last.model_copy(update=counted),), first, context)
    if not facts.fits(facts.kg(value, unit)):
        return None
    bodyweight = any((one.load or "").startswith("bw") for one in first.sets)
    load, written = load_read(Num(value, Role.LOAD, unit, bodyweight), context)
    changed = {"load": load, "unit": written}
    return first.model_copy(update={"sets": tuple(one.model_copy(update=changed) for one in first.sets)})


def _are_counts(last: Sequence[Token], sets: int) -> bool:
    """Return whether a part is mere reps or seconds, a number for each set."""
    if not all(token.mark in (*_PASSED, *_OF_COUNTS) for token in last):
        return False
    numbers = [token for token in last if token.mark in (Mark.NUMBER, Mark.CLOCK)]
    return sum(1 if one.value is not None else len(re.split("[.,]", one.text)) for one in numbers) == sets


def _at_loads_of(olds: Sequence[SetRead], news: Sequence[SetRead]) -> tuple[SetRead, ...]:
    """Return sets that were said again as mere reps at the loads that were said before, the last of them for more."""
    more = [olds[-1]] * max(len(news) - len(olds), 0)
    return tuple(
        one.model_copy(update={"load": old.load, "unit": old.unit})
        for one, old in zip(news, (*olds, *more), strict=False)
    )


def _replaced_or_added(first: Reading, news: Sequence[SetRead], after: Reading, context: Context) -> Reading:
    """Return the sets with the last ones replaced; asked about unless that makes the planned number of sets."""
    replaced = _as(first, (*first.sets[: -len(news)], *news), after)
    if len(first.sets) == planned_sets(context.dose):
        return replaced
    added = _as(first, (*first.sets, *news), after)
    return Reading(understood=True, ask=(replaced, added), ask_why=AskWhy.TWO_READINGS)


def _as(first: Reading, sets: Sequence[SetRead], after: Reading) -> Reading:
    said_again = after.effort.rir is not None or after.effort.rpe is not None
    return after.model_copy(
        update={"sets": tuple(sets), "effort": after.effort if said_again else first.effort}
    )


def _with_earlier_pain(found: Reading, before: Sequence[Reading]) -> Reading:
    """Return a reading with the pain and soreness that was said before the slip."""
    pain = tuple(each for one in before for each in one.pain)
    soreness = tuple(each for one in before for each in one.soreness)
    if not pain and not soreness:
        return found
    options = found.ask or (found,)
    both = tuple(
        one.model_copy(
            update={
                "pain": tuple(dict.fromkeys((*pain, *one.pain))),
                "soreness": tuple(dict.fromkeys((*soreness, *one.soreness))),
            }
        )
        for one in options
    )
    said_again = any(one.pain or one.soreness for one in options)
    if not said_again and len(both) == 1:
        return both[0]
    offered = tuple(dict.fromkeys((*options, *both) if said_again else both))[:MOST_ASKED]
    return Reading(
        understood=True,
        pain=both[0].pain,
        soreness=both[0].soreness,
        ask=offered,
        ask_why=found.ask_why or AskWhy.TWO_READINGS,
    )
