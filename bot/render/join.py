"""Joining, in words: one question a message."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import datetime, time
from html import escape
from typing import Any

from bot.messages import Action, Button, Message, Rows, Tap, encode
from core.checkin.zones import city_of
from core.local_time import zone_named

CONSENT_VERSION = "2026-1"
"""Rises whenever the words of the consent change."""

DAY_NAMES = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


@dataclass(frozen=True, slots=True)
class JoinView:
    """A joining question as it is shown.

    Attributes:
        step: Which question.
        number: Its place, from 1.
        of: How many there are.
        name: The client's name.
        coach: The coach's name.
        prompt_id: Prompt that the buttons answer.
        revision: Revision of that prompt.
        facts: What the prompt remembers: days chosen, zones suggested, whether arms matter.
        hours: Hours to choose from.
        can_go_back: True when there is a way to the question before.
        note: Line above the question: what was understood, or what was not.
    """

    step: str
    number: int
    of: int
    name: str
    coach: str
    prompt_id: int
    revision: int
    facts: dict[str, Any] = field(default_factory=dict)
    hours: tuple[time, ...] = ()
    can_go_back: bool = False
    note: str | None = None

    def button(self, label: str, action: Action, argument: int = 0) -> Button:
        """A button of this question as it now stands."""
        return Button(label, encode(Tap(self.prompt_id, self.revision, action, argument)))

    def picks(self, labels: Sequence[str], width: int = 1) -> Rows:
        """One choice a button, `width` in a row."""
        buttons = [self.button(label, Action.PICK, number) for number, label in enumerate(labels)]
        return tuple(tuple(buttons[at : at + width]) for at in range(0, len(buttons), width))


def question(view: JoinView) -> Message:
    """Show a question."""
    text, rows = QUESTIONS[view.step](view)
    if view.can_go_back:
        rows = (*rows, (view.button("Back", Action.BACK),))
    note = f"{view.note}\n\n" if view.note else ""
    return Message(f"{note}Joining, {view.number} of {view.of}\n\n{text}", rows=rows, silent=True)


def _caution(view: JoinView) -> tuple[str, Rows]:
    coach = escape(view.coach)
    return (
        (
            f"Hello {escape(view.name)}. I am a program. {coach} writes your training, and I bring it to you.\n\n"
            "<b>What I do.</b> I send each session at your hour. I keep what you lifted and how your body took it. "
            f"I work out your next loads by {coach}'s rules. {coach} sees what you write here.\n\n"
            "<b>What I cannot do.</b> I am no doctor. I cannot examine you, or tell you that training is safe for "
            "you. Nobody watches this chat in real time. In an emergency call your local emergency number.\n\n"
            "If something hurts or you feel unwell: stop, and say so here. You can leave at any time with /stop."
        ),
        ((view.button("Go on", Action.CONFIRM),),),
    )


def _consent(view: JoinView) -> tuple[str, Rows]:
    coach = escape(view.coach)
    if view.facts.get("declined"):
        return (
            (
                "That is fine. Without it I cannot bring you training, so we stop here, and I ask you nothing more.\n\n"
                f"If you change your mind, tap below or send /start. You can also talk to {coach}."
            ),
            ((view.button("Show me the question again", Action.READY),),),
        )
    return (
        (
            "To do this I must keep <b>health data</b> about you: your age band, a health question, pain, soreness, "
            "illness, and what you write about them.\n\n"
            f"{coach} sees it. It is kept by whoever runs this bot for {coach}. It passes through this chat service, "
            "which can read what is sent to a bot.\n\n"
            "You can take your consent back at any time with /stop. Do you agree that I keep and use this data for "
            "your training?"
        ),
        ((view.button("I agree", Action.AGREE),), (view.button("No", Action.DECLINE),)),
    )


def _age(view: JoinView) -> tuple[str, Rows]:
    return "How old are you?", view.picks(("Under 18", "18–39", "40–59", "60 or over"), 2)


def _health(view: JoinView) -> tuple[str, Rows]:
    return (
        (
            "Is any of these true for you?\n\n"
            "• a heart condition, or high blood pressure\n"
            "• pain or pressure in the chest, at rest or when you are active\n"
            "• you have fainted, or get dizzy\n"
            "• you get out of breath at rest or with light effort\n"
            "• you are pregnant, or gave birth in the last 12 months\n"
            "• a doctor has told you to limit what you do, or to train only under supervision\n"
            "• you take medicine for your heart or blood pressure\n\n"
            "You need not say which."
        ),
        view.picks(("None of these", "One or more")),
    )


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
            "Or type a big city near you."
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
    "caution": _caution,
    "consent": _consent,
    "age": _age,
    "health": _health,
    "unit": _unit,
    "zone": _zone,
    "hour": _hour,
    "days": _days,
    "kit": _kit,
    "alone": _alone,
    "experience": _experience,
}

EXAMPLES = {
    "caution": "Tap <b>Go on</b>, or type <code>go on</code>.",
    "consent": "Tap a button, or type <code>I agree</code> or <code>no</code>.",
    "age": "Tap a button, or type your age, like <code>34</code>.",
    "health": "Tap a button, or type <code>none</code> or <code>one or more</code>.",
    "unit": "Tap a button, or type <code>kg</code> or <code>lb</code>.",
    "zone": "Type the time off your clock, like <code>18:40</code>, or a city, like <code>Lisbon</code>.",
    "hour": "Type a time, like <code>6:30</code> or <code>18</code>.",
    "days": "Type days, like <code>mon tue thu</code>.",
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
    return None


def day_list(days: Sequence[int]) -> str:
    """Write days: `Mon Tue Thu`."""
    return " ".join(DAY_NAMES[day] for day in days)
