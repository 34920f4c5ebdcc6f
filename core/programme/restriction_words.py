"""Restrictions as a coach types them: `no overhead, no deep knee bend`."""

import re
from collections.abc import Mapping
from types import MappingProxyType

from core.programme.folding import words_of
from core.programme.restrictions import Restriction

_WORDS: Mapping[Restriction, tuple[str, ...]] = MappingProxyType(
    {
        Restriction.OVERHEAD: ("overhead", "arms overhead", "overhead work", "pressing overhead"),
        Restriction.LOADED_HINGE: (
            "loaded hinge",
            "hinge",
            "hinging",
            "loaded hinging",
            "bending over with load",
        ),
        Restriction.SPINE_LOAD: ("load on the spine", "spine load", "spinal load", "load on the back"),
        Restriction.SPINE_BEND: (
            "bending or turning of the spine",
            "bending of the spine",
            "turning of the spine",
            "spine bending",
            "twisting",
        ),
        Restriction.DEEP_KNEE: ("deep knee bend", "deep knee bending", "deep knee", "deep squat"),
        Restriction.JUMPING: ("jumping", "jump", "landing"),
        Restriction.SUPINE: ("lying flat on the back", "lying on the back", "flat on the back"),
        Restriction.PRONE: ("lying face down", "face down", "lying on the belly"),
        Restriction.FLOOR: ("getting down to the floor", "floor", "floor work", "going down to the floor"),
        Restriction.HANGING: ("hanging", "hang"),
        Restriction.GRIP: ("loaded grip", "grip", "gripping", "heavy grip"),
        Restriction.WRIST_EXTENSION: (
            "wrist bent back under load",
            "wrist bent back",
            "weight on flat hands",
            "bent wrist",
        ),
        Restriction.ONE_LEG: ("balancing on one leg", "balance on one leg", "one leg", "standing on one leg"),
    }
)
"""Words for each, after the `no` that may stand before them."""

_LEADING = frozenset({"no", "not", "nothing"})


def _key(text: str) -> tuple[str, ...]:
    words = words_of(text)
    return words[1:] if words and words[0] in _LEADING else words


_BY_WORDS = {_key(each): one for one, known in _WORDS.items() for each in (*known, one.value)}


def restrictions_in(text: str) -> tuple[frozenset[Restriction], tuple[str, ...]]:
    """Return the restrictions that a line names, and what of it says none that is known.

    Parts stand apart by commas, semicolons or lines; upper case, accents and plurals do not matter.
    """
    parts = [part.strip() for part in re.split(r"[,;\n]", text)]
    read = {part: _BY_WORDS.get(_key(part)) for part in parts if part}
    return (
        frozenset(one for one in read.values() if one is not None),
        tuple(part for part, one in read.items() if one is None),
    )
