"""What a client has said of her health that bears on loads: an illness, a birth. Never a diagnosis, never a release.

Who is ill, pregnant or has given birth says so; the coach or a clinician releases, nothing here does.
"""

from datetime import date
from enum import StrEnum
from typing import ClassVar

from core.value import Grown, Value


class IllnessKind(StrEnum):
    """The three classes. Our proposal after a practising coach's review."""

    COLD = "head cold"
    """A head cold without fever: an easy day if wanted."""
    GENERAL = "fever or ill all over"
    """Fever, chest, stomach, aches: no training until free of symptoms, and some time without fever medicine."""
    CLINICIAN = "clinician first"
    """Chest symptoms that stay, hospital, an operation, a concussion: a clinician first."""


class Illness(Grown):
    """One illness, as it was said.

    Attributes:
        kind: Its class.
        since: First day.
        free_on: First day free of symptoms and of fever medicine; None while not said.
        released_on: When the coach took the plan up again, for what a clinician looks at first; None while not.
        easy_on: The day of a head cold that was to be an easy one; None where none was.
    """

    later: ClassVar[frozenset[str]] = frozenset({"easy_on"})

    kind: IllnessKind
    since: date
    free_on: date | None = None
    released_on: date | None = None
    easy_on: date | None = None


class Birth(Value):
    """A birth in the last 12 months.

    Attributes:
        on: The date; None where only the 12 months were said.
        released_on: When the coach took the plan up, a clinician having been asked; None while not.
    """

    on: date | None = None
    released_on: date | None = None
