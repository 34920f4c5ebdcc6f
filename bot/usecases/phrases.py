"""A coach's saved phrases: kept by a line, and put in place of `phrase knee` in what she sends."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Person
from bot.render import phrases as say
from bot.store.phrases import Phrase
from bot.store.units import Unit
from bot.usecases.leaving import answer
from bot.usecases.only_coaches import only_for_coaches

REMOVE, WORD = "remove", "phrase"
LONGEST_NAME, LONGEST = 20, 1000
"""Most letters of a name, and of what it stands for. Our proposal."""
BUTTONS = 3
"""Phrases that have a button where a coach writes to somebody. Our proposal."""


@dataclass(frozen=True, slots=True)
class PhraseSaid:
    """`/phrase`, with what stands after it: nothing, a name, `remove NAME`, or `NAME: WORDS`."""

    text: str = ""


def phrase_said(command: PhraseSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep, show, take away or list phrases."""
    if person.role != "coach":
        return only_for_coaches(person)
    phrases = unit.talking.phrases
    name, colon, words = command.text.partition(":")
    name, text = _folded(name), words.strip()
    if not name and not colon:
        return [answer(person, WORD, say.listed([(each.name, each.text) for each in phrases.standing()]))]
    if not colon:
        wanted = name.removeprefix(f"{REMOVE} ").strip()
        found = _named(wanted, unit)
        if found is None:
            return [answer(person, WORD, say.unknown(wanted[:LONGEST_NAME], _names(unit)))]
        if wanted == name:
            return [answer(person, WORD, say.one(found.name, found.text))]
        phrases.remove(found.name, now)
        return [answer(person, WORD, say.removed(found.name, found.text))]
    fits = 1 <= len(name) <= LONGEST_NAME and len(name.split()) == 1 and name != REMOVE
    if not fits or not 1 <= len(text) <= LONGEST:
        return [answer(person, WORD, say.how_to(LONGEST_NAME, LONGEST))]
    before = _named(name, unit)
    phrases.keep(name, text, now)
    return [answer(person, WORD, say.kept(name, text, before.text if before is not None else None))]


def asked_for(text: str) -> str | None:
    """Return the name of the phrase that words stand for; None where they are words of their own."""
    words = _folded(text).strip(" .!").split()
    return words[1] if len(words) == 2 and words[0] == WORD else None


def written_out(text: str, unit: Unit) -> str | None:
    """Return what goes out for what a coach typed; None where it names a phrase that there is not."""
    name = asked_for(text)
    if name is None:
        return text
    found = _named(name, unit)
    return found.text if found is not None else None


def unknown(text: str, person: Person, unit: Unit) -> list[Effect]:
    """Say that there is no such phrase."""
    return [answer(person, WORD, say.unknown(asked_for(text) or "", _names(unit)))]


def offered(unit: Unit) -> list[tuple[int, str]]:
    """Return the phrases that have a button, by row."""
    return [(each.id, each.name) for each in unit.talking.phrases.standing()[:BUTTONS]]


def of_button(phrase_id: int, unit: Unit) -> str | None:
    """Return the words of a phrase that was tapped; None where it does not stand, or is not this coach's."""
    return next((each.text for each in unit.talking.phrases.standing() if each.id == phrase_id), None)


def _named(name: str, unit: Unit) -> Phrase | None:
    return next((each for each in unit.talking.phrases.standing() if each.name == name), None)


def _names(unit: Unit) -> list[str]:
    return [each.name for each in unit.talking.phrases.standing()]


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())
