"""Lines that every screen of a session shares."""

from datetime import date
from html import escape

from bot.render.dates import day_words
from bot.render.exercise_names import in_sentence
from bot.render.last_loads import FROM_COACH, date_words, load_and_reps
from bot.render.loads import dose_words, sets_words
from bot.render.moving import taken_in_line
from bot.render.session_views import ItemView, SessionView
from bot.render.set_plans import plan_lines
from core.checkin.away_words import PLACE
from core.loads.decision import Kind
from core.loads.reasons import ReasonCode

LEFT_OUT_FOR: dict[Kind | None, str] = {
    Kind.PAUSE: "on hold, your coach decides",
    Kind.SWAP: "left out, nothing here to do it with",
}


def head(view: SessionView) -> str:
    """Say which session it is."""
    late = "\nLate today: I was not running at your hour." if view.late else ""
    eased = "\nEased by your coach." if view.eased and view.state not in ("left_out", "moved") else ""
    moved = f"\nMoved from {day_words(view.moved_from)}." if view.moved_from else ""
    taken_in = f"\n{taken_in_line(view.taken_in)}" if view.taken_in else ""
    place = f"\nToday {at_place(view.place)}." if view.is_away and view.place else ""
    day = escape(view.day)
    phase = f" · {escape(view.phase)}" if view.phase else ""
    kind = " · testing week" if view.testing_week else " · lighter week" if view.is_lighter else ""
    first = f"<b>{day}</b> · week {view.week_no} of {view.weeks}{phase}{kind} · {day_words(view.local_on)}"
    return f"{first}{late}{moved}{taken_in}{place}{eased}"


def at_place(place: str) -> str:
    """Say at which place: `at home`, `at the gym`, `elsewhere`."""
    if place == "elsewhere":
        return place
    if place.startswith(PLACE):
        return "where you are while away"
    return "at the gym" if place == "gym" else f"at {escape(place)}"


def item_line(each: ItemView) -> str:
    """Say what is asked of an exercise, or what was done."""
    item = each.item
    instead = f" (instead of {escape(in_sentence(each.written_name))})" if each.stands_in else ""
    name = f"<b>{item.prescription.order}  {escape(each.exercise.name)}</b>{instead}"
    if item.state == "done":
        return f"{name}  done: {sets_words(each.sets)}"
    if item.state == "skipped":
        for_pain = "left out for pain" if item.cause == "pain" else "left out"
        return f"{name}  {LEFT_OUT_FOR.get(each.decision.kind if each.decision else None, for_pain)}"
    if each.plan is not None:
        return f"{name}  {plan_lines(each.plan, each.exercise.basis)}"
    return f"{name}  {dose_words(item.given, each.exercise)}"


def last_time(each: ItemView, today: date) -> str | None:
    """Say what was done last time; before anything was logged here, what the coach has noted, as hers."""
    if each.last:
        return f"last time {sets_words(each.last)}"
    if each.noted is None:
        return None
    return f"{FROM_COACH} {load_and_reps(each.noted, each.exercise)} ({date_words(each.noted.on, today)})"


def weaker_side(each: ItemView) -> str | None:
    """Say which side goes first, where one is behind and the other matches it."""
    reasons = each.decision.reasons if each.decision is not None else ()
    found = next((one.facts for one in reasons if one.code == ReasonCode.SIDES_APART), None)
    if found is None:
        return None
    other = "right" if found["side"] == "left" else "left"
    return f"{found['side'].capitalize()} side first: it is behind. The {other} does as many."
