"""What people call the practitioners whom a coach sends clients to. English."""

import re

from core.loads.limits import Clinician

_WORDS: tuple[tuple[Clinician, str], ...] = (
    (Clinician.DOCTOR, r"doctor|doc|dr|gp|physician|surgeon|consultant|specialist|cardiologist|orthop\w+"),
    (Clinician.PHYSIOTHERAPIST, r"physio(?:therapist|therapy)?|physical therapist|pt"),
    (Clinician.MIDWIFE, r"midwife"),
    (Clinician.OTHER, r"clinician|practitioner|other|osteopath|dietitian|nurse|therapist"),
)
_BEFORE = r"(?:(?:by|from|to|said by|says) )?(?:(?:the|a|an|her|his|their) )?"


def clinician_named(text: str) -> Clinician | None:
    """Return the practitioner whom words name and nothing else: `by her physio`; None for other words."""
    words = " ".join(text.casefold().strip(" .").split())
    for clinician, known in _WORDS:
        if re.fullmatch(rf"{_BEFORE}(?:{known})\.?(?: says| said)?", words):
            return clinician
    return None


def clinician_first(text: str) -> tuple[Clinician | None, str]:
    """Return the practitioner that a line begins with, before a colon, and what stands after it."""
    first, colon, rest = text.partition(":")
    return (clinician_named(first), " ".join(rest.split())) if colon else (None, " ".join(text.split()))
