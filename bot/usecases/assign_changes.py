"""What a coach chooses for one client in place of what she wrote, while she puts her on a block."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from bot.render import personalise as say
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.personalise import about, fitted
from core.loads.personalise import Change, Personalised, may_choose
from core.loads.substitutes import against
from core.programme.block import Block
from core.programme.catalogue import named, suggestions
from core.programme.folding import folded

Answer = tuple[dict[str, Any], str | None]
"""The facts after an answer, and what stands against it where it was not taken."""

OUT = frozenset({"leave out", "leave it out", "out"})
KEEP = frozenset({"keep", "keep it", "as written"})


def result_of(facts: Mapping[str, Any], client: Client, unit: Unit) -> Personalised:
    """Return the block as the client would do it, with what was chosen so far."""
    return fitted(
        unit.blocks.version(facts["version"]), client, facts.get("choices", {}), _begins(facts), unit
    )


def _begins(facts: Mapping[str, Any]) -> date:
    return date.fromisoformat(facts["starts_on"])


def open_question(facts: Mapping[str, Any], client: Client, unit: Unit) -> Change | None:
    """Return what cannot be placed and has yet to be answered; None where all is placed, or it cannot start at all."""
    block = unit.blocks.version(facts["version"])
    if len(client.days or ()) < len(block.days):
        return None
    return next(iter(result_of(facts, client, unit).asked), None)


def picked(argument: int, facts: Mapping[str, Any], client: Client, unit: Unit) -> Answer | None:
    """Take an answer that was tapped; None where it was not among those offered."""
    question = open_question(facts, client, unit)
    if question is None or argument > len(question.likely):
        return None
    chosen = question.likely[argument - 1] if argument else None
    return _with(facts, question.exercise, chosen, client, unit)


def answered(text: str, facts: Mapping[str, Any], client: Client, unit: Unit) -> Answer:
    """Take an answer that was typed.

    To an open question that is a name, or to leave it out; else `back squat: split squat` for any exercise of the
    block.
    """
    question = open_question(facts, client, unit)
    if question is not None:
        return _taken(question.exercise, text, facts, client, unit)
    name, colon, answer = text.partition(":")
    if not colon:
        return dict(facts), None
    catalogue, block = unit.exercises.catalogue(), unit.blocks.version(facts["version"])
    written = named(name, catalogue)
    if written is None:
        return dict(facts), say.no_such_exercise(name.strip(), suggestions(name, catalogue=catalogue))
    if not any(line.prescription.exercise == written.key for day in block.days for line in day.lines):
        return dict(facts), say.not_in_block(written)
    return _taken(written.key, answer, facts, client, unit)


def _taken(exercise: str, answer: str, facts: Mapping[str, Any], client: Client, unit: Unit) -> Answer:
    catalogue, block = unit.exercises.catalogue(), unit.blocks.version(facts["version"])
    said = folded(answer)
    if said in {folded(each) for each in OUT}:
        return _with(facts, exercise, None, client, unit)
    if said in {folded(each) for each in KEEP}:
        found = catalogue[exercise]
    else:
        known = named(answer, catalogue)
        if known is None:
            near = suggestions(answer, catalogue=catalogue)
            return dict(facts), say.no_such_exercise(answer.strip(), near)
        found = known
    if not _may(found.key, exercise, block, client, _begins(facts), unit):
        return dict(facts), say.cannot_be_given(client.name, found)
    return _with(facts, exercise, found.key, client, unit)


def _may(key: str, exercise: str, block: Block, client: Client, on: date, unit: Unit) -> bool:
    catalogue, hers = unit.exercises.catalogue(), about(client, on, unit)
    asked = [
        line.prescription
        for day in block.days
        for line in day.lines
        if line.prescription.exercise == exercise
    ]
    why = against(catalogue[exercise], asked, hers)
    return may_choose(key, exercise, why, hers, catalogue)


def _with(facts: Mapping[str, Any], exercise: str, chosen: str | None, client: Client, unit: Unit) -> Answer:
    """Keep a choice, unless it would leave a day with nothing on it."""
    made = {**facts, "choices": {**facts.get("choices", {}), exercise: chosen}}
    empty = next((day for day in result_of(made, client, unit).block.days if not day.lines), None)
    if chosen is None and empty is not None:
        return dict(facts), say.nothing_left(empty.name)
    return made, None
