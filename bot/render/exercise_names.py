"""The name of an exercise or drill in the middle of a sentence: small letters, but no proper noun loses its capital."""

import re

PROPER = frozenset(
    {
        "anderson",
        "arnold",
        "bosu",
        "bulgarian",
        "copenhagen",
        "cossack",
        "cuban",
        "french",
        "gironda",
        "hatfield",
        "hungarian",
        "jefferson",
        "kroc",
        "larsen",
        "meadows",
        "nordic",
        "nordics",
        "olympic",
        "pallof",
        "pendlay",
        "peterson",
        "romanian",
        "romanians",
        "russian",
        "scott",
        "smith",
        "spanish",
        "steinborn",
        "svend",
        "swiss",
        "tate",
        "turkish",
        "yates",
        "zercher",
        "zottman",
    }
)
"""Names of people and places, and words made of them, that stand in names of exercises. Common practice, no source."""
ABBREVIATION = 3
"""Most letters of a word in a name all of capitals that is still read as short forms: DB RDL. Our proposal."""

_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?")


def in_sentence(name: str) -> str:
    """Return a name as it is written inside a sentence: `Dumbbell Romanian deadlift` → `dumbbell Romanian deadlift`.

    Single letters and abbreviations stay (`T-bar row`, `RDL`). A capital inside of a name that is not written with
    capitals throughout was meant, and stays too: a coach's own exercise may be named after somebody.
    """
    found_words = list(_WORD.finditer(name))
    words = [found.group() for found in found_words]
    begins = found_words[0].start() if found_words else 0
    shouted = len(words) > 1 and name.isupper() and any(len(word) > ABBREVIATION for word in words)
    throughout = all(word[0].isupper() for word in words[1:])

    def written(found: re.Match[str]) -> str:
        word, is_first = found.group(), found.start() == begins
        if re.sub(r"['’]s$", "", word.casefold()) in PROPER:
            return f"{word[0].upper()}{word[1:].lower()}"
        if len(word) == 1 or (not shouted and word[1:] != word[1:].lower()):
            return word
        return word.lower() if is_first or throughout else word

    return _WORD.sub(written, name)
