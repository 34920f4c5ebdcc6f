"""Joining, in words: one question a message. What is asked of health is in `bot.render.join_health`."""

from collections.abc import Callable, Sequence
from datetime import datetime, time
from html import escape

from bot.messages import Action, Message, Rows
from bot.render import join_health as health
from bot.render.join_view import JoinView
from core.checkin.zones import city_of
from core.local_time import zone_named

__all__ = ["CONSENT_VERSION", "JoinView"]

CONSENT_VERSION = health.CONSENT_VERSION

DAY_NAMES = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def question(view: JoinView) -> Message:
    """Show a question."""
    text, rows = QUESTIONS[view.step](view)
    if view.can_go_back:
        rows = (*rows, (view.button("Back", Action.BACK),))
    note = f"{view.note}\n\n" if view.note else ""
    return Message(f"{note}Joining, {view.number} of {view.of}\n\n{text}", rows=rows, silent=True)


def _unit(view: JoinView) -> tuple[str, Rows]:
    return "Which unit are your plates and dumbbells marked in?", view.picks(("kg", "lb"), 2)


def _zone(view: JoinView) -> tuple[str, Rows]:
    zones = [city_of(zone) for zone in view.facts.get("zones", [])]
    if view.facts.get("asked"):
        return (
            (
                "Tap the city whose clock is yours. Or type your city, or the time where you are, "
                "like <code>18:40</code>."
            ),
            view.picks(zones, 2),
        )
    return (
        (
            "What time is it where you are? Type it off your clock, like <code>18:40</code>. "
            "Or type a big city near you. Or share your location here: I keep only the clock."
        ),
        view.picks([f"Same clock as {city}" for city in zones]),
    )


def _hour(view: JoinView) -> tuple[str, Rows]:
    return (
        "At what time shall your session come, on your own clock? Tap, or type it, like <code>6:30</code>.",
        view.picks([f"{hour:%H:%M}" for hour in view.hours], 3),
    )


def _days(view: JoinView) -> tuple[str, Rows]:
    chosen = view.facts.get("days", [])
    buttons = [
        view.button(f"{name}: yes" if day in chosen else name, Action.TOGGLE, day)
        for day, name in enumerate(DAY_NAMES)
    ]
    return (
        (
            "On which days can you train? Tap each, then <b>That is all</b>. "
            "Or type them, like <code>mon tue thu</code>.\n\n"
            f"Chosen: {day_list(chosen) or 'none yet'}"
        ),
        (tuple(buttons[:4]), tuple(buttons[4:]), (view.button("That is all", Action.READY),)),
    )


def _minutes(view: JoinView) -> tuple[str, Rows]:
    return (
        "How long may a session be? Tap, or type it, like <code>50</code>.",
        view.picks([f"{length} min" for length in view.lengths], 3),
    )


def _place(view: JoinView) -> tuple[str, Rows]:
    return "Where do you train?", view.picks(("Gym", "Home", "Elsewhere"), 3)


def _known(view: JoinView) -> tuple[str, Rows]:
    shown = view.facts.get("known", [])
    lines = [f"{LABELS[step]}: {escape(said)}" for step, said in zip(shown, view.known, strict=True)]
    buttons = [view.button(f"{LABELS[step]}: change", Action.CHANGE, at) for at, step in enumerate(shown)]
    rows = tuple(tuple(buttons[at : at + 2]) for at in range(0, len(buttons), 2))
    return (
        f"{escape(view.coach)} has filled this in for you. Is it right?\n\n" + "\n".join(lines),
        ((view.button("All right", Action.CONFIRM),), *rows),
    )


def _kit(view: JoinView) -> tuple[str, Rows]:
    return "What do you lift with?", view.picks(
        ("Bar and plates", "Dumbbells", "Both", "Only my bodyweight"), 2
    )


def _alone(view: JoinView) -> tuple[str, Rows]:
    labels = ["Alone", "Someone is there"]
    if view.facts.get("arms"):
        labels.append("Alone, with safety arms")
        return (
            "When you lift, is someone there who could help? Safety arms are rails that catch the bar.",
            view.picks(labels),
        )
    return "When you train, is someone there who could help?", view.picks(labels)


def _experience(view: JoinView) -> tuple[str, Rows]:
    return "How long have you lifted regularly?", view.picks(("Under 3 months", "3 months or longer"))


QUESTIONS: dict[str, Callable[[JoinView], tuple[str, Rows]]] = {
    "caution": health.caution,
    "consent": health.consent,
    "age": health.age,
    "pregnancy": health.pregnancy,
    "birth": health.birth,
    "health": health.screen,
    "pressure": health.pressure,
    "limits": health.limits,
    "known": _known,
    "unit": _unit,
    "zone": _zone,
    "hour": _hour,
    "days": _days,
    "minutes": _minutes,
    "place": _place,
    "kit": _kit,
    "alone": _alone,
    "experience": _experience,
}

LABELS = {
    "unit": "Unit",
    "zone": "Clock",
    "hour": "Hour",
    "days": "Days",
    "minutes": "Length",
    "place": "Place",
    "kit": "Kit",
    "experience": "Lifting",
}
"""What a coach may have filled in, by question."""

KIT_WORDS = {
    "bar": "bar and plates",
    "dumbbells": "dumbbells",
    "both": "bar, plates and dumbbells",
    "bodyweight": "bodyweight only",
}

EXAMPLES = {
    "caution": "Tap <b>Go on</b>, or type <code>go on</code>.",
    "consent": "Tap a button, or type <code>I agree</code> or <code>no</code>.",
    "age": "Tap a button, or type your age, like <code>34</code>.",
    "pregnancy": "Tap a button, or type <code>pregnant</code>, <code>gave birth</code> or <code>neither</code>.",
    "birth": "Type the date, like <code>20 January</code>. It lies in the last 12 months. "
    "Or type <code>skip</code>.",
    "health": "Tap a button, or type <code>none</code> or <code>one or more</code>.",
    "pressure": "Tap a button, or type <code>no</code>, <code>treated</code>, <code>not treated</code> or "
    "<code>rather not say</code>.",
    "limits": "Tap a place, or type it in your own words, or <code>nothing</code>.",
    "known": "Tap <b>All right</b>, or type <code>all right</code>, or what to change, like <code>hour</code>.",
    "unit": "Tap a button, or type <code>kg</code> or <code>lb</code>.",
    "zone": "Type the time off your clock, like <code>18:40</code>, or a city, like <code>Lisbon</code>.",
    "hour": "Type a time, like <code>6:30</code> or <code>18</code>.",
    "days": "Type days, like <code>mon tue thu</code>.",
    "minutes": "Type minutes, like <code>50</code>, from 15 to 240.",
    "place": "Tap a button, or type <code>gym</code>, <code>home</code> or <code>elsewhere</code>.",
    "kit": "Tap a button, or type <code>bar</code>, <code>dumbbells</code>, <code>both</code> or "
    "<code>bodyweight</code>.",
    "alone": "Tap a button, or type <code>alone</code> or <code>someone</code>.",
    "experience": "Tap a button, or type <code>new</code> or <code>longer</code>.",
}

NOTES = {
    "zone unknown": "I know no city like that, and no clock that shows it. "
    "You can type another big city, or the name of your time zone, like <code>Europe/Riga</code>.",
    "zone at": "Clocks that show this time now:",
    "zone like": "I do not have that one by name. Did you mean one of these?",
    "no day": "Please choose at least one day.",
    "no clock": "I find no clock for that place. You can type a city, or the time where you are.",
    "limits line": "Noted. You can add more, or tap <b>That is all</b>.",
    "limits long": "That is too much to keep here. Say it in fewer words: 300 letters in all.",
    "stale": "That button was from an earlier question. Here is where we are.",
}


def not_read(step: str) -> str:
    """Say that an answer was not understood, with an example."""
    return f"I could not read that. {EXAMPLES[step]}"


def understood(step: str, value: object, now: datetime) -> str | None:
    """Say back what was understood, where no button showed it."""
    if step == "zone":
        zone = str(value)
        return f"Your clock: {escape(city_of(zone))}, {now.astimezone(zone_named(zone)):%H:%M} now."
    if step == "hour" and isinstance(value, time):
        return f"Your hour: {value:%H:%M}."
    if step == "days" and isinstance(value, list):
        return f"Your days: {day_list(value)}."
    if step == "minutes" and isinstance(value, int):
        return f"Your length: {value} min."
    if step == "limits" and isinstance(value, str):
        return "Noted for your coach. If something hurts when you train, stop and say so here."
    return None


def known_words(step: str, value: object) -> str:
    """Say what a coach has filled in, as plain text."""
    match step:
        case "zone":
            return city_of(str(value))
        case "days" if isinstance(value, list):
            return day_list(value)
        case "minutes":
            return f"{value} min"
        case "kit":
            return KIT_WORDS[str(value)]
        case "experience":
            return "under 3 months" if value == "new" else "3 months or longer"
        case _:
            return str(value)


def day_list(days: Sequence[int]) -> str:
    """Write days: `Mon Tue Thu`."""
    return " ".join(DAY_NAMES[day] for day in days)
