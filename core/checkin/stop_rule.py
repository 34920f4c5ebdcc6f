"""One rule of the stop-sign scan."""

from dataclasses import dataclass

from core.checkin.stop_phrases import phrases
from core.checkin.urgency import Urgency


@dataclass(frozen=True, slots=True)
class Rule:
    """One stop sign.

    Attributes:
        code: For the record and the tests.
        urgency: Which text it gets.
        groups: A phrase of each must be there.
        near: Most words from the first phrase to the last.
        unless: Phrases that take it back when they stand in the same sentence.
        deniable: False when "not" is part of the sign itself, as in "cannot breathe".
    """

    code: str
    urgency: Urgency
    groups: tuple[frozenset[tuple[str, ...]], ...]
    near: int = 7
    unless: frozenset[tuple[str, ...]] = frozenset()
    deniable: bool = True


def rule(
    code: str,
    urgency: Urgency,
    *groups: str,
    near: int = 7,
    unless: str = "",
    deniable: bool = True,
) -> Rule:
    """Build a rule from lists of phrases set apart by commas."""
    listed = phrases(unless) if unless else frozenset()
    return Rule(code, urgency, tuple(phrases(group) for group in groups), near, listed, deniable)
