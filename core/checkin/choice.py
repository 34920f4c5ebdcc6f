"""Which of the ways to read a line is meant; where that is not sure, which are worth asking about."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from core.checkin.atom_reading import atoms_of
from core.checkin.doubts import HOPELESS, Doubt, doubts_of, loads_of
from core.checkin.plausibility import Known, counted_load, known, planned_sets
from core.checkin.reading import AskWhy, Context, Effort, Reading, SetRead
from core.checkin.set_atoms import Num, Role, Said
from core.checkin.set_lines import (
    run_together,
    with_effort_each,
    without_at,
    without_limbs,
    without_pair,
    without_set_count,
)
from core.checkin.set_readings import candidate, shapes_of
from core.checkin.set_walk import Candidate, Draft
from core.checkin.tokens import Token, starts_decimal
from core.checkin.words import Mark
from core.programme.exercises import Basis
from core.programme.prescription import Load, LoadKind
from core.units import Unit, plain

MOST_ASKED = 4
"""Most readings that are offered."""


@dataclass(frozen=True, slots=True)
class Judged:
    """A candidate with its doubts."""

    line: Candidate
    doubts: tuple[Doubt, ...]

    @property
    def weight(self) -> int:
        """Return how unlikely it is."""
        return sum(doubt.weight for doubt in self.doubts)


def read_sets(tokens: Sequence[Token], context: Context) -> Reading | None:
    """Return a line of sets as read, or as asked about; None when it is no line of sets."""
    facts = known(context)
    basis = context.exercise.basis if context.exercise is not None else None
    tokens = without_limbs(tokens) if facts.sided else tokens
    plain = without_set_count(without_pair(tokens) if basis is Basis.PER_HAND else tokens)
    plain = without_at(plain, facts.sets) if plain is not None else None
    plain = with_effort_each(plain, facts.sets) if plain is not None else None
    if plain is None:
        return None
    found = _read(plain, facts, context)
    apart = run_together(plain, facts.sets) if found is None or found.ask else None
    split = _read(apart, facts, context) if apart is not None else None
    if split is None or split.ask:
        return found
    options = (split, *(found.ask if found is not None else ()))[:MOST_ASKED]
    return Reading(understood=True, ask=options, ask_why=AskWhy.FAR_OFF)


def _read(tokens: Sequence[Token], facts: Known, context: Context) -> Reading | None:
    commas = [token for token in tokens if token.mark is Mark.NUMBER and "," in token.text]
    found: list[Judged] = []
    together = any(starts_decimal(token) for token in commas) or _is_open(tokens)
    for flipped in (False, True) if commas or together else (False,):
        atoms = atoms_of(tokens, flipped=flipped, sided=facts.sided)
        if not atoms:
            continue
        lines = (candidate(atoms, shape, facts) for shape in shapes_of(atoms))
        judged = [_judged(line, facts, context) for line in lines if line is not None]
        clean = _distinct([each for each in judged if not each.doubts], context)
        if clean and not together and all(each.weight > 1 for each in found):
            return _chosen(clean, facts, context)
        found += judged
    clean = _distinct([each for each in found if not each.doubts], context)
    if together and clean:
        return _chosen(clean, facts, context)
    return _asked(found, facts, context) if found else None


def _is_open(tokens: Sequence[Token]) -> bool:
    """Return whether numbers may come apart: `eighty eight seven`, `1 min 1 min 45 s`."""
    minutes = [place for place, token in enumerate(tokens) if token.mark is Mark.MINUTE]
    after = [[token.mark for token in tokens[place + 1 : place + 3]] for place in minutes]
    some = [marks == [Mark.NUMBER, Mark.SECOND] for marks in after]
    bare = any(marks == [Mark.NUMBER] for marks in after)
    return any(token.apart for token in tokens) or bare or (any(some) and not all(some))


def _judged(line: Candidate, facts: Known, context: Context) -> Judged:
    sets = tuple(replace(one, load=_on_bodyweight(one.load, facts)) for one in line.sets)
    line = replace(line, sets=sets, load_only=_on_bodyweight(line.load_only, facts))
    return Judged(line, doubts_of(line, facts, context))


def _on_bodyweight(load: Num | None, facts: Known) -> Num | None:
    return load if load is None or not facts.bodyweight else replace(load, bodyweight=True)


def _distinct(judged: Sequence[Judged], context: Context) -> list[Judged]:
    seen: dict[Reading, Judged] = {}
    for each in judged:
        seen.setdefault(reading_of(each.line, context), each)
    kept = list(seen.values())
    plain = [each for each in kept if each.line.shape.bare != "alternate"]
    planned = planned_sets(context.dose)
    return [each for each in kept if each in plain or not plain or len(each.line.sets) == planned]


def _chosen(clean: Sequence[Judged], facts: Known, context: Context) -> Reading:
    """Return the one sensible reading; of several, the one that has the planned number of sets, else ask."""
    if len(clean) == 1:
        return reading_of(clean[0].line, context)
    lines = [each.line for each in clean]
    best = _by_plan(lines, facts)
    if best is not None:
        return reading_of(best, context)
    readings = tuple(reading_of(line, context) for line in lines[:MOST_ASKED])
    return Reading(understood=True, ask=readings, ask_why=AskWhy.TWO_READINGS)


def _by_plan(lines: Sequence[Candidate], facts: Known) -> Candidate | None:
    if len(lines) == 1:
        return None
    bare = next((line for line in lines if loads_of(line) == [] and line.load_only is None), None)
    first = next((line for line in lines if line.shape.bare == "first" and loads_of(line)), None)
    if bare is None or first is None:
        in_span = [line for line in lines if line.sets and all(facts.in_span(one.count) for one in line.sets)]
        planned = [line for line in lines if len(line.sets) == facts.sets]
        return next((fitting[0] for fitting in (in_span, planned) if len(fitting) == 1), None)
    written = loads_of(first)[0].value
    is_planned = facts.planned is not None and facts.kg(written, None) == facts.planned
    as_reps = facts.in_span(written)
    if facts.sets is None:
        others = max((one.count for one in first.sets), default=Decimal(0))
        return bare if written <= others + 3 else None
    if len(bare.sets) == facts.sets and (as_reps or not (is_planned or facts.find)):
        return bare
    if len(first.sets) == facts.sets and is_planned and not as_reps:
        return first
    return None


def _asked(judged: Sequence[Judged], facts: Known, context: Context) -> Reading | None:
    lightest = min(each.weight for each in judged)
    if lightest >= HOPELESS:
        return None
    kept = [each for each in judged if each.weight <= max(lightest, 1)]
    best = _by_plan([each.line for each in kept], facts)
    kept = [each for each in kept if best is None or each.line is best]
    offered: list[Reading] = []
    for each in kept:
        for doubt in each.doubts:
            offered += [reading_of(line, context) for line in doubt.instead if line.load_only is None]
        if not each.doubts:
            offered.append(reading_of(each.line, context))
    readings = tuple(dict.fromkeys(offered))[:MOST_ASKED]
    why = next((doubt.why for each in kept for doubt in each.doubts), AskWhy.TWO_READINGS)
    return Reading(understood=True, ask=readings, ask_why=why) if readings else None


def reading_of(line: Candidate, context: Context) -> Reading:
    """Return a candidate as a reading, with the load as written where the reply gave none."""
    effort: dict[str, object] = {}
    for said in line.said:
        effort |= _effort_fields(said)
    sets = tuple(_set_read(one, context) for one in line.sets)
    return Reading(understood=True, sets=sets, effort=Effort.model_validate(effort))


def _effort_fields(said: Said | None) -> dict[str, object]:
    if said is None:
        return {}
    return {"rpe": plain(said.value)} if said.scale is Mark.RPE else {"rir": int(said.value)}


def _set_read(one: Draft, context: Context) -> SetRead:
    load, unit = load_read(one.load, context)
    count = int(one.count)
    effort = _effort_fields(one.said)
    return SetRead.model_validate(
        {
            "load": load,
            "unit": unit,
            "reps": None if one.seconds else count,
            "side": one.side,
            "seconds": count if one.seconds else None,
            **effort,
        }
    )


def load_read(num: Num | None, context: Context) -> tuple[str | None, Unit | None]:
    """Return a load as text and its unit; as planned where the reply gave none."""
    if num is None:
        return (None, None) if context.loads_differ else planned_load(counted_load(context.dose))
    unit = num.unit or context.unit
    if not num.bodyweight:
        return plain(num.value), unit
    if num.value == 0:
        return "bw", None
    return f"bw{'-' if num.value < 0 else '+'}{plain(abs(num.value))}", unit


def planned_load(load: Load | None) -> tuple[str | None, Unit | None]:
    """Return a planned load as text and its unit; nothing while it is yet to be found."""
    if load is None or load.kind is LoadKind.FIND:
        return None, None
    num = Num(load.mass.value, Role.LOAD, load.mass.unit) if load.mass else Num(Decimal(0), Role.LOAD)
    bodyweight = replace(num, bodyweight=load.kind is LoadKind.BODYWEIGHT)
    return load_read(bodyweight, Context())
