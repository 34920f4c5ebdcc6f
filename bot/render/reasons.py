"""The words of a decision's reasons: true, one line; the coach is told the same in her own person."""

from collections.abc import Callable, Mapping
from datetime import date
from html import escape

from bot.render.dates import day_words
from bot.render.reasons_to_coach import to_coach
from core.loads.decision import Decision, Reason
from core.loads.reasons import ReasonCode as Code

Facts = Mapping[str, str]


def _count(facts: Facts) -> str:
    if "metres" in facts:
        return f"{facts['metres']} m"
    return f"{facts['reps']} reps" if "reps" in facts else f"{facts.get('seconds', '?')} s"


def _day(iso: str) -> str:
    return day_words(date.fromisoformat(iso))


def _pain(facts: Facts) -> str:
    score = f"{facts['score']} of 10" if "score" in facts else "no number given"
    return f"{facts['site']} ({score}, {_day(facts['date'])})"


def _ceiling(facts: Facts) -> str:
    """Say the most that is given: a load, or reps or seconds where the load cannot fall."""
    if facts.keys() & {"reps", "seconds", "metres"}:
        return f", {_count(facts)}"
    return f", at most {facts['load']}" if "load" in facts else ""


def _cap(facts: Facts) -> str:
    first = f"At most {facts['cap']} now."
    if "next" in facts:
        first += f" The step to {facts['next']} is {facts['percent']} % more."
    return f"{first} Do {facts['reps']} reps in every set to earn it." if "reps" in facts else first


def _same(facts: Facts) -> str:
    """Say that the load stays, where there is one."""
    return "Same load, " if any(sign.isdigit() for sign in facts.get("load", "")) else ""


def _share(facts: Facts) -> str:
    """Say which part of a load is given, where there is one to take part of."""
    is_load = any(sign.isdigit() for sign in facts["load"])
    return f"{facts['percent']} % of {facts['load']}, " if is_load else ""


def _less(facts: Facts) -> str:
    return f"{facts['percent']} % less, at most {facts['load']}, and " if "percent" in facts else ""


def _fewer_sets(facts: Facts) -> str:
    return "one set fewer" if facts["sets"] == "1" else f"{facts['sets']} sets fewer"


def _sets_at(facts: Facts) -> str:
    sets = "one set" if facts["sets"] == "1" else f"{facts['sets']} sets"
    return f"{sets} at {facts['percent']} %" if "percent" in facts else sets


def _at_most(facts: Facts) -> str:
    return f"at most {facts['load']}" if "load" in facts else "nothing heavier"


def _maximum(facts: Facts) -> str:
    return "your heaviest single" if facts["of"] == "max" else "the most your sets say you could lift once"


def _wanting(facts: Facts) -> str:
    return "single at the limit" if facts["of"] == "max" else "set that it can be reckoned from"


def _until(facts: Facts) -> str:
    """Say how long a clinician's limit stands, and whether it was to be looked at by now."""
    if "review" in facts:
        return f" It was to be looked at on {_day(facts['review'])}."
    return f" Until {_day(facts['until'])}." if "until" in facts else ""


def _ill(facts: Facts) -> str:
    if "date" in facts:
        return f"Ill: no training before {_day(facts['date'])}."
    more = "a day" if facts["days"] == "1" else f"{facts['days']} days"
    return f"Ill: no training until {more} after you are free of it. Tell me when you are."


def _sister(facts: Facts) -> str:
    return f", as your {facts['sister']} says" if "sister" in facts else ""


def _plain(words: str) -> Callable[[Facts], str]:
    return lambda facts: words.format(**facts)


WORDS: dict[Code, Callable[[Facts], str]] = {
    Code.FROZEN: _plain("Your plan is on hold until your coach takes it up again."),
    Code.ILL_CLINICIAN: _plain("A doctor first. Your coach takes your plan up again after that."),
    Code.ILL: _ill,
    Code.BIRTH_HELD: _plain("A doctor or midwife first. Your coach takes your plan up after that."),
    Code.PREGNANT: _plain("In pregnancy nothing gets heavier by itself."),
    Code.TAKEN_UP: _plain("Not heavier the first time after your plan was on hold."),
    Code.ILL_COLD: _plain("Not heavier with a cold. Make it an easy day if you like."),
    Code.ILL_EASY: lambda f: f"An easy day with a cold: {f['percent']} % less{_ceiling(f)}, half the sets.",
    Code.ILL_BACK: lambda f: (
        f"First time after being ill: {f['percent']} % less{_ceiling(f)}, half the sets."
    ),
    Code.ILL_OVER: _plain("{load} again, as before you were ill."),
    Code.LIMIT_FORBIDS: lambda f: f"Left out: a limit set by your {f['by']}.{_until(f)}",
    Code.LIMIT_LOAD: lambda f: f"At most {f['load']}, a limit set by your {f['by']}.{_until(f)}",
    Code.PAIN_LOCKED: lambda f: f"Locked until your coach has looked: {_pain(f)}.",
    Code.PAIN_SUDDEN: lambda f: f"Locked until your coach has looked: {_pain(f)}, sudden.",
    Code.PAIN_SPREADING: lambda f: (
        f"Left out until your coach has looked: {_pain(f)}, spreading, numb or tingling."
    ),
    Code.PAIN_NO_FINDING: lambda f: f"No new load is looked for while it hurts: {_pain(f)}.",
    Code.PAIN_DROP: lambda f: (
        f"{f['percent']} % less because of {_pain(f)}{_ceiling(f)}, until two sessions at 2 or less."
    ),
    Code.PAIN_RELEASED: lambda f: (
        f"Your coach released it after {_pain(f)}: {f['percent']} % of the last without pain{_ceiling(f)}."
    ),
    Code.PAIN_NO_RAISE: lambda f: f"Not heavier because of {_pain(f)}.",
    Code.PAIN_WAY_BACK: lambda f: (
        f"On the way back after {f['site']}: at most {f['percent']} % of the last without pain{_ceiling(f)}, "
        f"small steps until {_day(f['until'])}."
    ),
    Code.PAIN_HOLD: lambda f: (
        f"The same again because of {_pain(f)}; {f['sessions']} more to see that it is calm."
    ),
    Code.COACH_PAUSED: _plain("Paused by your coach, who takes it up again."),
    Code.COACH_EASED: lambda f: f"Your coach eased it: {_less(f)}{_fewer_sets(f)}.",
    Code.COACH_LIGHTER: lambda f: f"A lighter week by your coach: {_sets_at(f)}.",
    Code.COACH_LOAD: _plain("Your coach set {load}."),
    Code.COACH_HELD: lambda f: f"Your coach wants nothing heavier: {f['load']} again.{_until(f)}",
    Code.COACH_FULL: lambda f: f"Your coach has taken the lighter week out: {_at_most(f)}.",
    Code.RAISE_WAITS: _plain("{load} again: {next} waits for your coach's word."),
    Code.EASE_OVER: _plain("{load} again, as before the session that your coach eased."),
    Code.LIGHTER_OVER: lambda f: (
        f"The lighter week is over: on from {f['load']}, the load of {_day(f['date'])}."
    ),
    Code.OWN_REPS: lambda f: f"For {f['count']} you go on from {f['load']}, as on {_day(f['date'])}.",
    Code.COACH_LOWER: _plain("Your coach wrote {load}."),
    Code.COMEBACK_HOLD: _plain("{days} days since you last moved this: {load} again, with one more left."),
    Code.COMEBACK: lambda f: f"{f['days']} days away: {_share(f)}step {f['step']} of {f['steps']} back.",
    Code.COMEBACK_COACH: _plain(
        "{days} days away: at most {percent} % of {load} until your coach sets the way back."
    ),
    Code.DELOAD: lambda f: f"A lighter week: {f['sets']} sets at {f['percent']} %.",
    Code.MERGED: _plain("Not heavier, for two sessions were put into one."),
    Code.NO_LIMIT: _plain("Not to the limit now: always keep {left} or more left."),
    Code.PREGNANT_LEFT: _plain("In pregnancy: always keep {left} or more left."),
    Code.PRESSURE: _plain("No set to the limit with your blood pressure: keep {left} or more left."),
    Code.ALONE_UNDER_BAR: _plain("Alone without safety arms: always keep {left} or more left."),
    Code.AGE: _plain("Smaller steps from 60 on, and {left} or more left."),
    Code.CAP: _cap,
    Code.CAP_WEEK: lambda f: f"Enough rise for a week, since {_day(f['date'])}; at most {f['cap']} now.",
    Code.CAP_FOUR_WEEKS: lambda f: (
        f"Enough rise for four weeks, since {_day(f['date'])}; at most {f['cap']} now."
    ),
    Code.SETS_WEEK: _plain(
        "{sets} here: {most} hard sets this week are enough for your {muscle}, after {before} a week before."
    ),
    Code.START_ANEW: _plain("Find your load as if new, not over {load}."),
    Code.START_WRITTEN: _plain("First time: {load}, as your coach wrote it."),
    Code.START_FIND: lambda f: (
        f"First time: find the load, from {f['first']} up{_sister(f)}, and stop with {f['left']} left."
    ),
    Code.START_BODYWEIGHT: _plain("First time, with bodyweight."),
    Code.START_NO_LOAD: _plain("First time, as your coach wrote it."),
    Code.RAISE_DONE_TWICE: lambda f: (
        f"From {f['load']} to {f['next']}: all {f['sets']} sets of {_count(f)} done "
        f"in {f['sessions']} sessions running."
    ),
    Code.RAISE_TOP: lambda f: f"From {f['load']} to {f['next']}: all {f['sets']} sets reached {_count(f)}.",
    Code.RAISE_EARNED: lambda f: (
        f"From {f['load']} to {f['next']}: you did {f['reps']} reps in every set; {f['earned']} earn this step."
    ),
    Code.RAISE_WRITTEN: _plain(
        "From {load} to {next}: your coach wrote {written}, and the last session was done."
    ),
    Code.REPS_CHANGED: _plain(
        "Reps go from {before} to {now}, so the load goes from {load} to {next} ({percent} %)."
    ),
    Code.WORK_CHANGED: _plain("The block counts differently now; the load stays at {load}."),
    Code.RAISE_STEP: _plain("From {load} to {next}, as your coach wrote it; last time every set was done."),
    Code.RAISE_WEEK: _plain("From {load} to {next}: every set was done, and a week is over."),
    Code.RAISE_LEFT: _plain("From {load} to {next}: {left} left where {asked} were asked."),
    Code.RAISE_LAST_SET: _plain(
        "From {load} to {next}: two over in the last set, in two sessions running; {done} last time."
    ),
    Code.RAISE_TOTAL: _plain("From {load} to {next}: {done} reps in all sets together, {goal} were asked."),
    Code.TABLE_RAISE: _plain("{table}: {reps} in the last set at {load}, so {next} now."),
    Code.TABLE_SAME: lambda f: (
        f"{f['table']}: {f['reps']} in the last set at {f['load']}, so "
        f"{'the same' if f['next'] == f['load'] else f['next']} again."
    ),
    Code.TABLE_LOWER: _plain("{table}: {reps} in the last set at {load}, so {next} now."),
    Code.TABLE_BELOW: _plain(
        "{table}: {reps} in the last set at {load} is too heavy. {next} now. Talk to your coach."
    ),
    Code.AS_WRITTEN: _plain("As your coach wrote it."),
    Code.PERCENT: lambda f: f"{f['percent']} % of {f['maximum']}, {_maximum(f)}.",
    Code.NO_MAXIMUM: lambda f: (
        f"{f['percent']} % was asked, and there is no {_wanting(f)} yet: the load stays."
    ),
    Code.UNCHANGED: _plain("The same again, as your coach wrote it."),
    Code.WEEK_HOLD: lambda f: (
        f"The same again: it rises once a week, and this load began on {_day(f['date'])}."
    ),
    Code.LEFT_UNKNOWN: _plain(
        "The same again: it rises by how many more you could have done. Tell me, like 2 left."
    ),
    Code.LEFT_HOLD: _plain("The same again: {left} left, and it rises with more than {asked}."),
    Code.LAST_SET_HOLD: _plain("{done} in the last set. {goal} there, twice running, and it goes up."),
    Code.VARIANT_NEXT: lambda f: (
        f"{_count(f).capitalize()} in every set: {f['next']} is next, once your coach writes it."
    ),
    Code.VARIANT_LAST: lambda f: (
        f"{_count(f).capitalize()} in every set, and it is the hardest on your coach's path."
    ),
    Code.ADD_REP: lambda f: f"{_same(f)}{_count(f)} in every set now.",
    Code.ADD_SECONDS: lambda f: f"{_same(f)}{_count(f)} in every set now.",
    Code.DONE_ONCE: lambda f: f"Every set of {_count(f)} done once. Once more, and it goes up.",
    Code.BRIDGE: lambda f: (
        f"{_count(f).capitalize()} in every set. Now a heavier first set, a slow way down, or a harder variant."
    ),
    Code.TOP_OF_KIT: _plain("There is nothing heavier in your kit."),
    Code.FEW_LEFT: _plain("All done, but with {left} left where {asked} were asked: the same again."),
    Code.HARD_SESSION: _plain("All done, but the session was very hard: the same again."),
    Code.TAPS_ALONE: _plain(
        "The same again until you tell me once how many more you could have done, like 2 left."
    ),
    Code.NOT_ALL_DONE: lambda f: (
        f"{f['done']} of {f['sets']} sets done: the same again."
        if f["done"] != f["sets"]
        else "Fewer reps than asked, and strength was not why: the same again."
    ),
    Code.LIGHTER_CHOSEN: _plain("You took {load} instead of {asked}: that again."),
    Code.FOUND: _plain("The load that you found."),
    Code.MISS_FIRST: lambda f: f"{_count(f)} where {f['asked']} were asked: the same again.",
    Code.MISS_SECOND: _plain("Fewer than asked, twice running: {percent} % less, {next}."),
    Code.MISS_THIRD: _plain("Fewer than asked, {times} times running: your coach decides."),
    Code.SIDES_APART: _plain(
        "Your {side} side was {reps} or more behind, twice running: it goes first, the other does as many."
    ),
    Code.ROUNDED_DOWN: _plain("{wanted} cannot be loaded here; {load} can."),
    Code.NOTHING_LIGHT_ENOUGH: _plain(
        "The lightest here, {lightest}, is over {line}, the most that is allowed now."
    ),
    Code.NO_KIT: _plain("There is nothing here to load it with."),
}


def _noted_reps(facts: Facts) -> str:
    stays = "so it stays" if facts["load"] == facts["next"] else f"so {facts['next']}"
    return f"Your coach noted {facts['load']} for {facts['before']} reps; {facts['now']} are asked, {stays}."


NOTED: dict[Code, Callable[[Facts], str]] = {
    Code.FOUND: _plain("The load that your coach noted."),
    Code.REPS_CHANGED: _noted_reps,
}
"""Words where a load rests on what the coach had noted, and nothing was logged here."""


def reason_line(reason: Reason, *, noted: bool = False, coach: bool = False) -> str:
    """Write one reason as HTML; `noted` where it rests on a load that the coach noted, `coach` where she reads it."""
    code = Code(reason.code)
    words = NOTED.get(code, WORDS[code]) if noted else WORDS[code]
    told = words(reason.facts)
    return escape(to_coach(code, told) if coach else told, quote=False)


def why_line(decision: Decision, *, coach: bool = False) -> str:
    """Write why a load is what it is: the reason with most authority, and beside it what the coach eased.

    Where it is not the newest work that the load goes on from, that is told first.
    """
    told = decision.reasons[: 2 if decision.reasons[0].code == Code.OWN_REPS else 1]
    eased = [one for one in decision.reasons[1:] if one.code in (Code.COACH_EASED, Code.COACH_LIGHTER)]
    noted = rests_on_note(decision)
    return " ".join(reason_line(one, noted=noted, coach=coach) for one in (*told, *eased))


def rests_on_note(decision: Decision) -> bool:
    """Return whether a decision rests on a last load that the coach noted, and on nothing that was logged here."""
    return bool(decision.used) and all(row < 0 for row in decision.used)


def row_words(row: int) -> str:
    """Name a row that a decision rests on: a set of the log, or with a minus a last load that the coach noted."""
    return f"set {row}" if row > 0 else f"last load {-row} of the coach"
