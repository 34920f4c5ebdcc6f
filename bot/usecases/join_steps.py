"""The questions of joining: which there are, in which order, and which of them one can go back from."""

from collections.abc import Collection

STEPS = (
    "caution",
    "consent",
    "age",
    "pregnancy",
    "health",
    "limits",
    "unit",
    "zone",
    "hour",
    "days",
    "minutes",
    "place",
    "kit",
    "alone",
    "experience",
)
"""The questions in order. What could end the joining comes first; what is only details comes last."""

UNDER = {"birth": "pregnancy", "pressure": "health"}
"""Questions that only some answers bring, and the one that they belong to."""

KNOWN = "known"
"""Instead of what the coach has said already: one look over it."""

KNOWABLE = ("unit", "zone", "hour", "days", "minutes", "place", "kit", "experience")
"""What a coach may say beforehand: never consent, age or health."""

HEALTH_STEPS = frozenset({"pregnancy", "birth", "health", "pressure"})

FIRST_BACK = STEPS.index("unit")
"""First question that one can go back from: consent, age and health are not taken back with a button."""


def asked_steps(known: Collection[str]) -> tuple[str, ...]:
    """Return the questions that somebody is asked: one look over what the coach has said stands for those."""
    if not known:
        return STEPS
    rest = [step for step in STEPS[FIRST_BACK:] if step not in known]
    return (*STEPS[:FIRST_BACK], KNOWN, *rest)


def can_go_back(step: str) -> bool:
    """Return whether there is a way from a question to the one before it."""
    return step in UNDER or (step == KNOWN or STEPS.index(step) >= FIRST_BACK)
