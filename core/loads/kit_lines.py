"""One line of typed kit: what it is about, and what it says of that."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from core.loads.kit import Bar, Handles, Stack
from core.loads.kit_masses import (
    MOST_ADDS,
    MOST_MASS,
    Unclear,
    Wrong,
    few,
    mass_in,
    masses_and_runs,
    masses_in,
    plates_in,
    run_in,
)
from core.programme.catalogue import named
from core.programme.exercises import Exercise
from core.units import Mass, Unit, plain

LONGEST_NAME = 30
"""Most letters of a name. Our proposal: it stands on a card. [characters]"""
MOST_BANDS = 12
"""Most bands. Our proposal: over any that there are."""

NAME = re.compile(r"[^\W\d_][^\W_]*(?:[ '-][^\W_]+)*")
"""What a bar, a band or a place may be called."""

_YES, _NO = frozenset({"yes", "y"}), frozenset({"no", "n", "none"})

Fields = dict[str, Any]
"""Fields of a kit that a line says anew."""


@dataclass(frozen=True, slots=True)
class Reader:
    """What is needed to read a line.

    Attributes:
        unit: What a bare number is in.
        catalogue: To find the exercises that a bar or a machine is for.
    """

    unit: Unit
    catalogue: Mapping[str, Exercise]


Reading = Callable[[str, Reader], Fields]


def _bars(rest: str, reader: Reader) -> Fields:
    usual: Mass | None = None
    others: list[Bar] = []
    for part in _parts(rest):
        what, _, whom = part.partition(" for ")
        name, masses = _name_and_masses(what, reader)
        exercises = _exercises(whom, reader) if whom else ()
        for mass in masses:
            if usual is None and not name and not exercises:
                usual = mass
            else:
                others.append(Bar(name=name or f"{mass} bar", mass=mass, exercises=exercises))
    known = [each.name for each in others]
    if len(set(known)) < len(known):
        raise Unclear(Wrong.TWICE, max(known, key=known.count))
    return {"bar": usual, "bars": tuple(others)}


def _parts(rest: str) -> list[str]:
    """Return what stands between commas that are no decimal commas."""
    return [part.strip() for part in re.split(r";|,(?!\d)|(?<!\d),", rest) if part.strip()]


def _name_and_masses(text: str, reader: Reader) -> tuple[str, tuple[Mass, ...]]:
    found = re.match(r"[^\d]*", text)
    name = " ".join((found[0] if found is not None else "").split())
    if not name:
        return "", masses_in(text, reader.unit)
    if NAME.fullmatch(name) is None or len(name) > LONGEST_NAME:
        raise Unclear(Wrong.NAME, name)
    return name, (mass_in(text.removeprefix(name), reader.unit),)


def _exercises(text: str, reader: Reader) -> tuple[str, ...]:
    """Return the keys of exercises that `and` stands between; a name may hold an `and` of its own."""
    words, found = text.split(" and "), []
    while words:
        for count in range(len(words), 0, -1):
            known = named(" and ".join(words[:count]), reader.catalogue)
            if known is not None:
                found.append(known.key)
                words = words[count:]
                break
        else:
            raise Unclear(Wrong.EXERCISE, words[0])
    return tuple(dict.fromkeys(found))


def _collars(rest: str, reader: Reader) -> Fields:
    found = re.fullmatch(r"(.*?)\s*(each|apiece|together|both|the pair|a pair)", rest)
    if found is None:
        mass_in(rest, reader.unit)
        raise Unclear(Wrong.EACH, rest)
    mass = mass_in(found[1], reader.unit)
    both = mass * 2 if found[2] in ("each", "apiece") else mass
    if both.value > MOST_MASS:
        raise Unclear(Wrong.HEAVY, plain(both.value))
    return {"collars": both}


def _dumbbells(rest: str, reader: Reader) -> Fields:
    masses, runs = masses_and_runs(rest, reader.unit)
    return {"dumbbells": masses, "dumbbell_runs": runs}


def _handles(rest: str, reader: Reader) -> Fields:
    parts = re.split(r",?\s+(?=plates?\b|up to\b|one handle|\d+ handles?\b)", rest)
    fields: Fields = {"mass": mass_in(parts[0].removesuffix(" each"), reader.unit)}
    for part in parts[1:]:
        if plates := re.fullmatch(r"plates? (.+)", part):
            more: Fields = {"plates": plates_in(plates[1].rstrip(","), reader.unit)}
        elif most := re.fullmatch(r"up to (.+)", part):
            more = {"most": mass_in(most[1].rstrip(","), reader.unit)}
        elif count := re.fullmatch(r"(one|[1-9]) handles?,?", part):
            more = {"count": 1 if count[1] == "one" else int(count[1])}
        else:
            raise Unclear(Wrong.NUMBER, part)
        if more.keys() & fields.keys():
            raise Unclear(Wrong.TWICE, part)
        fields |= more
    return {"handles": Handles(**fields)}


def _stack(rest: str, reader: Reader) -> Fields:
    if step := re.fullmatch(r"by (.+)", rest):
        return {"stack_step": mass_in(step[1], reader.unit)}
    return {"stacks": (_one_stack(rest, reader),)}


def _one_stack(rest: str, reader: Reader) -> Stack:
    what, _, whom = rest.partition(" for ")
    pins, adding, adds = re.sub(r",?\s*\badd(?:s|-ons?)?\b", "\n", what).partition("\n")
    run = run_in(pins, reader.unit)
    more = few(masses_in(adds, reader.unit), MOST_ADDS) if adding else ()
    return Stack(
        start=run.first,
        step=run.step,
        top=run.last,
        adds=more,
        exercises=_exercises(whom.strip(), reader) if whom else (),
    )


def _bands(rest: str, _: Reader) -> Fields:
    names = _parts(rest)
    if "," not in rest and " " in rest:
        raise Unclear(Wrong.BANDS, rest)
    for each in names:
        if NAME.fullmatch(each) is None or len(each) > LONGEST_NAME:
            raise Unclear(Wrong.NAME, each)
    if not 0 < len(names) <= MOST_BANDS or len(set(names)) < len(names):
        raise Unclear(Wrong.TWICE, rest)
    return {"bands": tuple(names)}


def _belt(rest: str, reader: Reader) -> Fields:
    if rest in ("yes", "with plates", "plates"):
        return {"belt": True}
    return {"bodyweight_step": mass_in(rest.removeprefix("by "), reader.unit)}


def _yes_no(field: str) -> Reading:
    def read(rest: str, _: Reader) -> Fields:
        if rest not in _YES | _NO:
            raise Unclear(Wrong.YES_NO, rest)
        return {field: rest in _YES}

    return read


def _list_of(field: str) -> Reading:
    return lambda rest, reader: {field: masses_in(rest, reader.unit)}


READINGS: dict[str, Reading] = {
    "bar": _bars,
    "collars": _collars,
    "plates": lambda rest, reader: {"plates": plates_in(rest, reader.unit)},
    "full size": _list_of("full_size"),
    "dumbbells": _dumbbells,
    "single dumbbells": _list_of("lone_dumbbells"),
    "handles": _handles,
    "kettlebells": _list_of("kettlebells"),
    "single kettlebells": _list_of("lone_kettlebells"),
    "stack": _stack,
    "assistance": lambda rest, reader: {"assistance": _one_stack(rest, reader)},
    "bands": _bands,
    "belt": _belt,
    "added": _list_of("added"),
    "safety arms": _yes_no("safety_arms"),
    "alone": _yes_no("usually_alone"),
}
"""How the rest of a line is read, by what it is about."""

NOTHING: dict[str, Fields] = {
    "bar": {"bar": None, "bars": ()},
    "collars": {"collars": None},
    "plates": {"plates": ()},
    "full size": {"full_size": ()},
    "dumbbells": {"dumbbells": (), "dumbbell_runs": ()},
    "single dumbbells": {"lone_dumbbells": ()},
    "handles": {"handles": None},
    "kettlebells": {"kettlebells": ()},
    "single kettlebells": {"lone_kettlebells": ()},
    "stack": {"stack_step": None, "stacks": ()},
    "assistance": {"assistance": None},
    "bands": {"bands": ()},
    "belt": {"bodyweight_step": None, "belt": False},
    "added": {"added": ()},
}
"""What `none` makes of a kind."""
