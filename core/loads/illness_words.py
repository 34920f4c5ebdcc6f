"""Illness as people type it: which class their words name, if they name one; and that it is over. English.

A class is no diagnosis: it says what a plan does, and what is not clearly one class is asked about.
"""

import re
from datetime import date
from typing import NamedTuple

from core.checkin.day_spans import day_said, days_said
from core.loads.health import IllnessKind

_GENERAL = (
    "(?:high )?fever|(?:a )?(?:high )?temperature|feverish|flu|influenza|covid|(?:stomach|tummy) (?:bug|flu)|"
    "food poisoning|chest infection|throwing up|vomiting|aching all over|ill all over"
)
_COLD = (
    "(?:head|bad|slight|little|nasty|bit of a|bad head) cold|a cold|(?:the )?sniffles|runny nose|blocked nose"
)
_CLINICIAN = "(?:in|at) (?:the )?hospital|operation|surgery"
_ANY = "sick|ill|unwell|poorly|not well|not feeling well|under the weather"
_LEAD = (
    r"(?:sorry,? |hi,? |hello,? )?(?:(?:i am|i'm|im|i feel|i've been|i have been|i've got|ive got|i got|i have|i had|"
    r"i caught|got|have|had|caught|feeling|feel|been) )?(?:(?:down|in bed|home|off) with )?"
    r"(?:(?:a|an|the|really|so|very|quite|a bit|still|again|now) )?"
)
_MORE = r"(?P<more>(?:[,.;!:]| -| so| and| but| since| with| can't| cannot| can not| today| now| again| this)(?: .*)?)?"
_WHICH = "|".join(
    f"(?P<{name}>{words})"
    for name, words in (
        ("general", _GENERAL),
        ("clinician", _CLINICIAN),
        ("any", _ANY),
    )
)
_ILL = re.compile(f"{_LEAD}(?:(?P<cold>{_COLD})|{_WHICH}){_MORE}", re.DOTALL)
_COLD_ALONE = re.compile(
    f"(?:sorry,? )?(?:(?:i've got|i have|i've|i got|i caught|got|have|caught) )?(?P<cold>{_COLD}){_MORE}"
)
_WELL = re.compile(
    r"(?:(?:hi|good news)[,!]? )?(?:(?:i am|i'm|im|i feel|i'm feeling|feeling|feel) )?"
    r"(?:(?:now|much|all|fully|quite|finally|a lot) )?"
    r"(?:better|well(?: again)?|healthy(?: again)?|fit again|recovered|over it|free of (?:it|symptoms)|"
    r"symptom[- ]free|no symptoms|no (?:more )?fever|fever(?: is)? gone|(?:it is|it's) gone)"
    r"(?: (?:again|now))?(?P<since> .+)?"
)
_FOR_DAYS = re.compile(r"for (?:a|one|\d+|two|three|four|five|six|seven) (?:days?|weeks?)")

KINDS = {
    "cold": IllnessKind.COLD,
    "general": IllnessKind.GENERAL,
    "clinician": IllnessKind.CLINICIAN,
}


class IllSaid(NamedTuple):
    """Somebody says that she is ill.

    Attributes:
        kind: The class that her words name; None where they name none.
        more: True when she says more than that, which is for her coach.
    """

    kind: IllnessKind | None
    more: bool = False


class WellSaid(NamedTuple):
    """Somebody says that she is well again; `on` is the first day of it where she names one."""

    on: date | None


def ill_said(text: str) -> IllSaid | None:
    """Return what a text says of being ill; None where it does not begin with that."""
    said = _plain(text)
    found = _COLD_ALONE.fullmatch(said) or _ILL.fullmatch(said)
    if found is None:
        return None
    named = next((name for name in KINDS if found.groupdict().get(name)), None)
    more = (found["more"] or "").strip(" ,.;!:-")
    return IllSaid(KINDS.get(named or ""), more=more not in ("", "today", "now", "again", "this morning"))


def well_said(text: str, today: date) -> WellSaid | None:
    """Return what a text says of being well again; None where it says something else."""
    found = _WELL.fullmatch(_plain(text))
    if found is None:
        return None
    since = (found["since"] or "").strip()
    if not since:
        return WellSaid(None)
    on = since_said(since, today)
    return None if on is None else WellSaid(on)


def since_said(text: str, today: date) -> date | None:
    """Return the day in `since yesterday`, `today`, `for two days`; None where there is none, or it is to come."""
    said = _plain(text)
    if _FOR_DAYS.fullmatch(said):
        span = days_said(said, today)
        return None if span is None else today - (span.last - span.first)
    return day_said(said.removeprefix("since "), today, past=True)


def _plain(text: str) -> str:
    return " ".join(text.casefold().replace("’", "'").split()).strip(" .!")
