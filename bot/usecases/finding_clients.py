"""Which client a coach means by a name that she typed."""

from rapidfuzz import fuzz

from bot.store.people import Client
from bot.store.units import Unit
from core.programme.folding import folded, words_of

ALIKE = 70
"""How like a name must be to what was typed to be offered. [0..100] Our proposal."""


def clients_meant(text: str, unit: Unit) -> list[Client]:
    """Return the clients who may be meant, by name: one when it is clear, all when nothing fits."""
    everyone = unit.clients.roster()
    same = [each for each in everyone if folded(each.name) == folded(text)]
    if same or not folded(text):
        return same or everyone
    begun = [each for each in everyone if _begins(each.name, text)]
    if begun:
        return begun
    return [each for each in everyone if _is_alike(each.name, text)] or everyone


def is_clear(text: str, found: list[Client]) -> bool:
    """Return whether one client is meant beyond doubt: her name, or the beginning of it."""
    return len(found) == 1 and bool(folded(text)) and _begins(found[0].name, text)


def is_like(text: str, found: list[Client]) -> bool:
    """Return whether what was typed says anything of the clients that were found; nothing typed does not say no."""
    return not folded(text) or any(_begins(each.name, text) or _is_alike(each.name, text) for each in found)


def _is_alike(name: str, text: str) -> bool:
    return fuzz.WRatio(folded(name), folded(text)) >= ALIKE


def _begins(name: str, text: str) -> bool:
    return folded(name).startswith(folded(text)) or any(
        word.startswith(folded(text)) for word in words_of(name)
    )
