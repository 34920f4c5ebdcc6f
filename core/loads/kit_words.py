"""Typed kit: plain lines to a kit. A line says all there is of its kind; what no line speaks of stays as it was."""

import re
import unicodedata
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from core.loads.kit import Kit, kit_at
from core.loads.kit_lines import LONGEST_NAME, NAME, NOTHING, READINGS, Fields, Reader
from core.loads.kit_masses import Unclear, Wrong
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.units import Unit
from core.value import Value

STACKS = "stacks"
"""The field of machines, each of which may have its line."""

_NONE = frozenset({"none", "no", "nothing", "0"})


class KitProblem(Value):
    """A line that was not taken.

    Attributes:
        line: Which, from 1.
        text: As it was typed, shortened.
        code: What is wrong.
        fact: The words that it is about.
    """

    line: int
    text: str
    code: Wrong
    fact: str = ""


class KitRead(Value):
    """What typed lines make of a kit.

    Attributes:
        kit: With every line that could be read; kept only where there are no problems.
        before: What was known of the place; None where nothing was.
        problems: In the order of the lines.
    """

    kit: Kit
    before: Kit | None
    problems: tuple[KitProblem, ...] = ()


class _Line(NamedTuple):
    """A line taken apart: its number from 1, all of it, what it is about, and the rest."""

    number: int
    text: str
    head: str
    rest: str


def read_kit(
    text: str, kits: Sequence[Kit], *, place: str | None = None, catalogue: Mapping[str, Exercise] = CATALOGUE
) -> KitRead:
    """Read lines such as `bar 20`, `plates 20x2 10 5` or `safety arms yes` on top of what is known of a place.

    Args:
        text: One thing a line.
        kits: What is known, the usual place first; not empty.
        place: Which place, where it was said before the lines; else a line says it, else it is the usual one.
        catalogue: To find the exercises that a bar or a machine is for.
    """
    lines = [(number, _plain(line)) for number, line in enumerate(text.splitlines(), 1)]
    typed = [_Line(number, line, *_head(line)) for number, line in lines if line]
    if not typed:
        typed = [_Line(1, "", "", "")]
    where, problems = _first_said(typed, ("place", "unit"), place)
    name = where.get("place", place) or kits[0].place
    before = kit_at(name, kits)
    kit = before or Kit(place=name, unit=where.get("unit", kits[0].unit))
    unit = where.get("unit", kit.unit)
    said, more = _all_said(typed, Reader(unit, catalogue))
    told = tuple(sorted((*problems, *more), key=lambda each: each.line))
    return KitRead(kit=kit.model_copy(update={"unit": unit, **said}), before=before, problems=told)


def _first_said(
    typed: Sequence[_Line], heads: Sequence[str], place: str | None
) -> tuple[Fields, list[KitProblem]]:
    """Return what must be known before the other lines can be read: which place, and the unit of bare numbers."""
    said: Fields = {}
    problems: list[KitProblem] = []
    for line in typed:
        if line.head in heads:
            try:
                rest = _something(line)
                fields = _place(rest, place) if line.head == "place" else _unit(rest)
                said |= _once(line.head, fields, said)
            except Unclear as wrong:
                problems.append(_problem(line, wrong))
    return said, problems


def _all_said(typed: Sequence[_Line], reader: Reader) -> tuple[Fields, list[KitProblem]]:
    said: Fields = {}
    keys: Fields = {}
    problems: list[KitProblem] = []
    for line in typed:
        if line.head in ("place", "unit"):
            continue
        try:
            fields = _fields(line, reader)
            key = _key(line.head, fields)
            if key == STACKS:
                fields = {STACKS: (*said.get(STACKS, ()), *fields[STACKS])}
            else:
                _once(line.head, {key: None}, keys)
            keys[key] = None
            said |= fields
        except Unclear as wrong:
            problems.append(_problem(line, wrong))
    return said, problems


def place_name(text: str) -> str | None:
    """Return the name of a place as it is kept; None where it can be none."""
    name = _plain(text)
    fits = len(name) <= LONGEST_NAME and NAME.fullmatch(name) is not None
    return name if fits and not _head(name)[0] else None


def _plain(line: str) -> str:
    """Return a line in lower case, with one kind of dash, cross and space, without a bullet or a full stop."""
    text = unicodedata.normalize("NFKC", line).casefold()
    for mark, plain_mark in (("×", "x"), ("–", "-"), ("—", "-"), ("−", "-"), ("’", "'")):
        text = text.replace(mark, plain_mark)
    return " ".join(text.split()).lstrip("-•* ").rstrip(" .!")


def _problem(line: _Line, wrong: Unclear) -> KitProblem:
    return KitProblem(line=line.number, text=line.text[:60], code=wrong.code, fact=wrong.fact[:40])


def _head(line: str) -> tuple[str, str]:
    """Return what a line is about, and the rest; without anything where its first words are not known."""
    found = _WORDS.match(line)
    if found is None:
        return "", line
    return _HEADS[found[2]], "none" if found[1] and not found[3] else f"{found[1] or ''}{found[3]}"


def _fields(line: _Line, reader: Reader) -> Fields:
    if not line.head:
        raise Unclear(Wrong.WORD if line.text else Wrong.EMPTY, line.text)
    rest = _something(line)
    if rest in _NONE and line.head in NOTHING:
        return dict(NOTHING[line.head])
    return READINGS[line.head](rest, reader)


def _something(line: _Line) -> str:
    if not line.rest:
        raise Unclear(Wrong.EMPTY, line.head)
    return line.rest


def _key(head: str, fields: Fields) -> str:
    """Return what may be said once in a message; of machines each may have its line."""
    if head == "stack":
        return STACKS if fields.keys() == {STACKS} else "stack"
    return "belt with plates" if fields == {"belt": True} else head


def _once(head: str, fields: Fields, said: Fields) -> Fields:
    if said.keys() & fields.keys():
        raise Unclear(Wrong.TWICE, head)
    return fields


def _place(rest: str, before: str | None) -> Fields:
    name = place_name(rest)
    if name is None or (before is not None and name != before):
        raise Unclear(Wrong.PLACE, rest)
    return {"place": name}


def _unit(rest: str) -> Fields:
    found = {"kg": Unit.KG, "kilos": Unit.KG, "lb": Unit.LB, "lbs": Unit.LB, "pounds": Unit.LB}.get(rest)
    if found is None:
        raise Unclear(Wrong.UNITS, rest)
    return {"unit": found}


_HEADS: dict[str, str] = {
    **{each: each for each in (*READINGS, "place", "unit")},
    **dict.fromkeys(("bars", "barbell", "barbells"), "bar"),
    "collar": "collars",
    **dict.fromkeys(("plate", "discs", "disc"), "plates"),
    **dict.fromkeys(("full size plates", "full-size plates", "full-size"), "full size"),
    **dict.fromkeys(("dumbbell", "db", "dbs"), "dumbbells"),
    **dict.fromkeys(("single dumbbell", "one dumbbell"), "single dumbbells"),
    **dict.fromkeys(("adjustable handles", "adjustable handle", "handle"), "handles"),
    **dict.fromkeys(("kettlebell", "kb", "kbs"), "kettlebells"),
    **dict.fromkeys(("single kettlebell", "one kettlebell"), "single kettlebells"),
    **dict.fromkeys(("stacks", "machine", "machines"), "stack"),
    "band": "bands",
    **dict.fromkeys(("vest", "vests", "sandbag", "sandbags"), "added"),
    **dict.fromkeys(("safeties", "safety"), "safety arms"),
}
"""Words that a line may begin with, and what it is about."""

_WORDS = re.compile(
    rf"(no )?({'|'.join(sorted(map(re.escape, _HEADS), key=len, reverse=True))})(?![\w-])\s*[:=]?\s*(.*)"
)
