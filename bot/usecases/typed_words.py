"""Words of the card's buttons, typed: every step has a typed equivalent."""

from bot.messages import Action

ANYWHERE = {
    "why": Action.WHY,
    "why these loads": Action.WHY,
    "back": Action.BACK,
    "something hurts": Action.HURTS,
    "hurts": Action.HURTS,
    "not today": Action.NOT_TODAY,
    "end here": Action.NOT_TODAY,
    "short on time": Action.SHORT,
}
HURTING = ("something hurts", "hurts")
BEFORE = {
    "all done": Action.ALL_DONE,
    "all done as written": Action.ALL_DONE,
    "start": Action.START,
    "prep": Action.PREP,
    "no training today": Action.NOT_TODAY,
}
FELT = dict.fromkeys(
    (
        "no",
        "nope",
        "none",
        "nothing",
        "nothing else",
        "nothing hurts",
        "nothing else hurts",
        "no pain",
        "all good",
    ),
    Action.NOTHING_HURTS,
)
LEFT = dict.fromkeys(("not sure", "no idea", "don't know", "dont know"), Action.LATER)
BEGUN = {"swap": Action.SWAP, "show me": Action.SHOW_ME}
PREP = {
    **dict.fromkeys(("next", "done", "ok", "skip", "skip it", "next one"), Action.NEXT),
    **dict.fromkeys(
        ("skip the rest", "skip prep", "skip the prep", "prep done", "no prep"), Action.PREP_OVER
    ),
    "back": Action.BACK,
}
PLACES = {"feel": FELT, "left": LEFT, "prep": PREP}


def is_bare_number(text: str) -> bool:
    """Return whether somebody typed a whole number and nothing else: an answer to what is asked, if to anything."""
    return text.strip(" .!,").isdigit()


def action_of(text: str, state: str, screen: str) -> Action | None:
    """Return what typed words ask of a session's card in its state and on its screen; None for other words."""
    words = " ".join(text.casefold().replace("’", "'").strip(" .!,/").split())
    known = PLACES.get(screen, {}) | (BEFORE if state == "sent" else {})
    if words in known:
        return known[words]
    if state == "started" and words in BEGUN:
        return BEGUN[words]
    return ANYWHERE.get(words) if state != "asking" or words in HURTING else None
