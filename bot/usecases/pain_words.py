"""Typed answers to the steps of the question about pain: every button has its words."""

import re

from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.pain_questions import END, FEVER, NONE, SPREADING, SUDDEN, TOOK, WEAK, WHEN
from bot.usecases.pain_reports import NERVE_SITES, SITES
from bot.usecases.reply_context import screen_of
from bot.usecases.typed_words import action_of
from core.checkin.reading import Context
from core.checkin.replies import read_reply

GONE = frozenset({"gone", "all gone", "it is gone", "its gone", "no pain", "nothing"})
FEELS: dict[str, int] = {
    **dict.fromkeys(("none", "neither", "none of these", "none of them", "no"), NONE),
    **dict.fromkeys(
        ("down the leg", "down the arm", "down the leg or arm", "numb", "tingling", "numb and tingling"),
        SPREADING,
    ),
    **dict.fromkeys(("sudden", "suddenly", "sharp and sudden", "pop", "with a pop", "a pop"), SUDDEN),
    **dict.fromkeys(("weak", "weaker", "weakness", "new weakness", "growing weakness"), WEAK),
    **dict.fromkeys(("fever", "with fever", "with a fever", "a fever"), FEVER),
}
_SAID = "heaviness leaking leak leaks leaked doming dome domes bleeding bleed bulging dragging"
_SIGNS = frozenset(_SAID.split())
"""The signs of the year after a birth, as their button names them."""
_BESIDE = (
    "i am im it is its a an the some bit of and or again today now still there down below when jump run lift"
)
_SIGNS_BESIDE = frozenset([*_BESIDE.split(), "my", "belly"])
TAKES = {
    **dict.fromkeys(("no", "nope", "nothing"), 0),
    **dict.fromkeys(("yes", "yep", "yeah", "i did"), 1),
    **dict.fromkeys(("rather not say", "rather not"), 2),
}
WHENS = {
    **dict.fromkeys(("before", "before training", "before the session"), 0),
    **dict.fromkeys(("during", "during training", "during the session"), 1),
    **dict.fromkeys(("after", "after training", "after the session"), 2),
    **dict.fromkeys(("next morning", "the next morning", "in the morning", "this morning"), 3),
}


def names_signs(text: str) -> bool:
    """Return whether a line names the signs of the year after a birth, and nothing else: `leaking`, `some bleeding`."""
    words = re.findall(r"[^\W\d_]+", text.casefold().replace("’", "").replace("'", ""))
    return bool(_SIGNS.intersection(words)) and all(word in _SIGNS | _SIGNS_BESIDE for word in words)


def spoken(text: str, prompt: Prompt, unit: Unit) -> tuple[str, int] | None:
    """Return what typed words answer, as the step and a number; None where they are of something else.

    What the session's card asks goes first where the words fit it: `no` under "Does anything hurt?" is no answer to
    whether something was taken.
    """
    words = " ".join(text.casefold().replace("’", "").replace("'", "").strip(" .!,").split())
    step = prompt.facts.get("step")
    if step in ("score", "morning"):
        return ("score", 0) if step == "morning" and words in GONE else _score(text)
    session = unit.sessions.open_one(prompt.client_id or 0)
    if session is not None and action_of(text, session.state, screen_of(session, unit)) is not None:
        return None
    if step == "feel" and words in FEELS:
        is_there = FEELS[words] != FEVER or SITES[prompt.facts["site"]] in NERVE_SITES
        return ("feel", FEELS[words]) if is_there else None
    if step == TOOK and words in TAKES:
        return "took", TAKES[words]
    if step in (TOOK, END, WHEN) and words in WHENS:
        return "when", WHENS[words]
    return None


def _score(text: str) -> tuple[str, int] | None:
    reading = read_reply(text, Context(open_question="pain score"))
    scores = [each.score for each in reading.pain if each.site is None and each.score is not None]
    return None if reading.ask or reading.stop_sign or not scores else ("score", scores[0])
