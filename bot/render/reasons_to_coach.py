"""The reasons of a decision told to the coach: the client's words with the person changed.

To the client "your coach" is somebody else and "you" is the client; to the coach "you" is the coach.
"""

from core.loads.reasons import ReasonCode as Code

Phrases = tuple[tuple[str, str], ...]

_YOUR_LOOK: Phrases = (("until your coach has looked", "until you have looked"),)
_AS_WRITTEN: Phrases = (("as your coach wrote it", "as you wrote it"), ("As your coach", "As you"))
_LIMIT: Phrases = (("set by your", "set by a"),)
_ILL: Phrases = (("after you are free of it. Tell me when you are.", "after the client is free of it."),)

PHRASES: dict[Code, Phrases] = {
    Code.FROZEN: (("Your plan", "The plan"), ("your coach takes", "you take")),
    Code.ILL_CLINICIAN: (("Your coach takes your plan", "You take the plan"),),
    Code.ILL: _ILL,
    Code.BIRTH_HELD: (("Your coach takes your plan", "You take the plan"),),
    Code.TAKEN_UP: (("your plan", "the plan"),),
    Code.ILL_COLD: (("Make it an easy day if you like.", "The client may make it an easy day."),),
    Code.ILL_OVER: (("before you were ill", "before the illness"),),
    Code.LIMIT_FORBIDS: _LIMIT,
    Code.LIMIT_LOAD: _LIMIT,
    Code.PAIN_LOCKED: _YOUR_LOOK,
    Code.PAIN_SUDDEN: _YOUR_LOOK,
    Code.PAIN_SPREADING: _YOUR_LOOK,
    Code.PAIN_RELEASED: (("Your coach released", "You released"),),
    Code.COACH_PAUSED: (
        ("Paused by your coach, who takes it up again.", "Paused by you until you let it go on."),
    ),
    Code.COACH_EASED: (("Your coach eased", "You eased"),),
    Code.COACH_LIGHTER: (("by your coach", "by your order"),),
    Code.COACH_LOAD: (("Your coach set", "You set"),),
    Code.COACH_HELD: (("Your coach wants", "You want"),),
    Code.COACH_FULL: (("Your coach has taken", "You have taken"),),
    Code.RAISE_WAITS: (("your coach's word", "your word"),),
    Code.EASE_OVER: (("your coach eased", "you eased"),),
    Code.OWN_REPS: (("you go on", "it goes on"),),
    Code.COACH_LOWER: (("Your coach wrote", "You wrote"),),
    Code.COMEBACK_HOLD: (("since you last moved this", "since this was last done"),),
    Code.COMEBACK_COACH: (("your coach sets", "you set"),),
    Code.PRESSURE: (("with your blood pressure", "with the client's blood pressure"),),
    Code.CAP: (("Do ", ""), ("to earn it", "earn it")),
    Code.SETS_WEEK: (("enough for your", "enough for the client's"),),
    Code.START_ANEW: (("Find your load as if new", "The load is looked for as if new"),),
    Code.START_WRITTEN: (("as your coach wrote it", "as you wrote it"),),
    Code.START_FIND: (
        ("find the load,", "the client finds the load,"),
        (", as your ", ", as the "),
        ("and stop with", "and stops with"),
    ),
    Code.START_NO_LOAD: (("as your coach wrote it", "as you wrote it"),),
    Code.RAISE_EARNED: (("you did ", ""),),
    Code.RAISE_WRITTEN: (("your coach wrote", "you wrote"),),
    Code.RAISE_STEP: _AS_WRITTEN,
    Code.TABLE_BELOW: (("Talk to your coach.", "It is for you to look at."),),
    Code.AS_WRITTEN: _AS_WRITTEN,
    Code.PERCENT: (
        ("your heaviest single", "the heaviest single"),
        ("the most your sets say you could lift once", "the most that the sets say for one rep"),
    ),
    Code.UNCHANGED: _AS_WRITTEN,
    Code.LEFT_UNKNOWN: (
        (
            "how many more you could have done. Tell me, like 2 left.",
            "how many more would have gone, and the client has not said.",
        ),
    ),
    Code.VARIANT_NEXT: (("your coach writes", "you write"),),
    Code.VARIANT_LAST: (("your coach's path", "your path"),),
    Code.TOP_OF_KIT: (("in your kit", "in the client's kit"),),
    Code.TAPS_ALONE: (
        (
            "until you tell me once how many more you could have done, like 2 left.",
            "until the client says once how many more would have gone.",
        ),
    ),
    Code.LIGHTER_CHOSEN: (("You took", "The client took"),),
    Code.FOUND: (("that you found", "that the client found"), ("that your coach noted", "that you noted")),
    Code.REPS_CHANGED: (("Your coach noted", "You noted"),),
    Code.MISS_THIRD: (("your coach decides", "you decide"),),
    Code.SIDES_APART: (("Your ", "The client's "),),
}
"""By reason: what is said to the client, and what to her coach in its place."""


def to_coach(code: Code, told: str) -> str:
    """Return a reason's words, as told to a client, in the words for her coach."""
    for hers, yours in PHRASES.get(code, ()):
        told = told.replace(hers, yours)
    return told
