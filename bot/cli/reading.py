"""`plimsoll read`: how a reply is understood, as JSON."""

import json
from typing import TextIO

from rich.console import Console

from core.checkin.reading import Context
from core.checkin.reading_json import as_json
from core.checkin.replies import read_reply
from core.programme.catalogue import named, suggestions
from core.programme.dose_text import parse_planned
from core.units import Unit

NOT_AN_OBJECT = 'Not a JSON object with a "text".'


def read_one(
    text: str, exercise: str | None, planned: str | None, unit: str | None
) -> tuple[int, dict[str, object] | str]:
    """Return (0, the reading), or (2, what is wrong with the question).

    Without a unit the client's is taken to be that of what was planned, and kilograms where that has none.
    """
    if unit is not None and unit not in set(Unit):
        return 2, f"No such unit: {unit}. Use kg or lb."
    found = None
    if exercise:
        found = named(exercise)
        if found is None:
            near = ", ".join(each.name for each in suggestions(exercise))
            return 2, f"No such exercise: {exercise}." + (f" Did you mean: {near}?" if near else "")
    dose = None
    if planned:
        dose = parse_planned(planned, Unit(unit or Unit.KG), found)
        if dose is None:
            return 2, f"Cannot read what was planned: {planned}. Write it like '5x8 @ 92.5 kg' or '3x30s'."
    mass = dose.load.mass if dose is not None and dose.load is not None else None
    home = Unit(unit) if unit else mass.unit if mass is not None else Unit.KG
    context = Context(exercise=found, dose=dose, unit=home)
    return 0, as_json(read_reply(text, context))


def read_batch(lines: TextIO, out: TextIO, errors: Console) -> int:
    """Answer JSON lines with JSON lines, in order and each at once.

    Returns:
        0; 1 where a line could not be taken, which is answered with its error in its place.
    """
    status = 0
    for number, line in enumerate(lines, 1):
        if not line.strip():
            continue
        failed, answer = _read_line(line)
        if failed:
            status = 1
            errors.print(f"line {number}: {answer}", markup=False)
            answer = {"error": answer}
        # Half a character, which JSON can write, has no bytes of its own.
        out.write(json.dumps(answer, ensure_ascii=False).encode("utf-8", "replace").decode("utf-8") + "\n")
        out.flush()
    return status


def _read_line(line: str) -> tuple[int, dict[str, object] | str]:
    try:
        asked = json.loads(line)
    except (ValueError, RecursionError):
        return 2, NOT_AN_OBJECT
    if not isinstance(asked, dict) or not isinstance(asked.get("text"), str):
        return 2, NOT_AN_OBJECT
    more = [asked.get(name) or None for name in ("exercise", "planned", "unit")]
    if not all(each is None or isinstance(each, str) for each in more):
        return 2, "Exercise, planned and unit are text."
    return read_one(asked["text"], *more)
