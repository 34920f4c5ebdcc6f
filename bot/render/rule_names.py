"""Short names of the rules, for tables and pictures: at most 32 letters."""

from collections.abc import Mapping
from types import MappingProxyType

from core.loads.reasons import ReasonCode as Code

NAMES: Mapping[str, str] = MappingProxyType(
    {
        Code.FROZEN: "plan on hold",
        Code.PAIN_LOCKED: "pain of 7 and over: locked",
        Code.PAIN_SUDDEN: "sudden pain: locked",
        Code.PAIN_SPREADING: "spreading pain: locked",
        Code.PAIN_NO_FINDING: "pain: no load looked for",
        Code.PAIN_DROP: "pain of 4 to 6: lighter",
        Code.PAIN_RELEASED: "pain: released, lighter",
        Code.PAIN_NO_RAISE: "pain of 4 to 6: no heavier",
        Code.PAIN_WAY_BACK: "pain: the way back",
        Code.PAIN_HOLD: "pain of 1 to 3: held",
        Code.LIGHTER_OVER: "lighter week over",
        Code.OWN_REPS: "own reps",
        Code.COACH_LOWER: "you wrote a lighter load",
        Code.COMEBACK_HOLD: "8 to 13 days away",
        Code.COMEBACK: "14 to 55 days away",
        Code.COMEBACK_COACH: "56 days away and more",
        Code.DELOAD: "lighter week",
        Code.NO_LIMIT: "not to the limit",
        Code.ALONE_UNDER_BAR: "alone under a bar",
        Code.AGE: "60 and over",
        Code.CAP: "most at once",
        Code.CAP_FOUR_WEEKS: "most in four weeks",
        Code.START_WRITTEN: "first time, as written",
        Code.START_FIND: "first time, load to be found",
        Code.START_BODYWEIGHT: "first time, bodyweight",
        Code.START_NO_LOAD: "first time, no load",
        Code.RAISE_DONE_TWICE: "heavier: all done twice",
        Code.RAISE_TOP: "heavier: top of the range",
        Code.RAISE_EARNED: "heavier: step earned with reps",
        Code.RAISE_WRITTEN: "heavier: you wrote it",
        Code.RAISE_STEP: "heavier: the step you wrote",
        Code.RAISE_WEEK: "heavier: once a week",
        Code.RAISE_LEFT: "heavier: more left than asked",
        Code.RAISE_LAST_SET: "heavier: the open last set",
        Code.REPS_CHANGED: "other reps written",
        Code.ADD_REP: "same load, a rep more",
        Code.ADD_SECONDS: "same load, longer",
        Code.DONE_ONCE: "all done once",
        Code.BRIDGE: "reps used up, step too big",
        Code.TOP_OF_KIT: "top of the kit",
        Code.FEW_LEFT: "fewer left than asked",
        Code.HARD_SESSION: "very hard session",
        Code.TAPS_ALONE: "taps alone: no raise on them",
        Code.NOT_ALL_DONE: "not every set done",
        Code.LIGHTER_CHOSEN: "lighter load chosen",
        Code.FOUND: "load found last time",
        Code.MISS_FIRST: "too few reps, once: same again",
        Code.MISS_SECOND: "too few reps, twice: lighter",
        Code.MISS_THIRD: "too few reps, again: you decide",
        Code.ROUNDED_DOWN: "rounded down to the kit",
        Code.NOTHING_LIGHT_ENOUGH: "nothing light enough: swap",
        Code.NO_KIT: "nothing to load it: swap",
        "cap week": "most in a week",
        "sets week": "most sets in a week",
        "sides apart": "one side behind the other",
        "start anew": "first time again",
        "raise total": "heavier: total of the sets",
    }
)


def rule_name(code: str) -> str:
    """Return the short name of a rule; one without a name of its own goes by its code, which is in plain words."""
    return NAMES.get(code, code)
