"""What comes of joining, in words: for the client, and for the coach."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import time
from html import escape

from bot.messages import Action, Button, Message, Rows, Tap, encode
from bot.render.join import KIT_WORDS, day_list
from core.checkin.zones import city_of


def doctor_first(coach: str, *, joining: bool = True) -> str:
    """Say what follows from a yes to a health question."""
    return (
        "Thank you for saying so. <b>Please see a doctor before you train with this plan.</b> "
        f"Your plan waits until {escape(coach)} has looked and taken it up; I have told {escape(coach)}. "
        "Nobody watches this chat in real time: if you feel very unwell, call your local emergency number."
        + ("\nThe other questions can be answered now." if joining else "")
    )


def still_on_hold(coach: str) -> str:
    """Say that a hold from before still stands."""
    return f"Your plan is still on hold from before. {escape(coach)} takes it up again, nobody else."


def too_young(coach: str) -> Message:
    """Say that minors cannot join."""
    return Message(
        "This bot is only for people of 18 and over, so I cannot take you on. Nothing that you answered is kept. "
        f"{escape(coach)} can talk with you about training in person.\n\n"
        "If that was the wrong button, ask for a new link.",
        silent=True,
    )


def joined(
    coach: str, hour: time, days: Sequence[int], zone: str, *, frozen: bool, rows: Rows = ()
) -> Message:
    """Say that joining is over, and what comes next."""
    waits = (
        f"Your plan is on hold: see a doctor first. {escape(coach)} takes it up again, nobody else.\n\n"
        if frozen
        else ""
    )
    return Message(
        f"<b>That is all. You have joined.</b>\n\n{waits}"
        f"Your days: {day_list(days)} at {hour:%H:%M}, clock of {escape(city_of(zone))}.\n"
        f"Next: {escape(coach)} puts you on a block. Then each session comes by itself, and one tap or a short "
        "line answers it. If something hurts, say so here.\n\n"
        "/settings changes any of this. /stop ends it at any time.",
        rows=rows,
        silent=True,
    )


def kit_button(prompt_id: int, revision: int) -> Rows:
    """The button that shows what there is to lift, and how to say it."""
    return ((Button("Say what I have to lift", encode(Tap(prompt_id, revision, Action.CHANGE))),),)


def with_a_coach_already() -> Message:
    """Tell a client that somebody else's link cannot be used."""
    return Message(
        "You are with a coach here already, so I did not use that link, and nothing has changed. "
        "If you want to change coach, speak with both of them first.",
        silent=True,
    )


def nothing_open() -> Message:
    """Answer /start from a client who has joined."""
    return Message(
        "You have joined, and nothing is open. Your next session comes at your hour. "
        "If something hurts, say so here. /stop ends it.",
        silent=True,
    )


@dataclass(frozen=True, slots=True)
class Newcomer:
    """What a coach reads of a client who has joined."""

    name: str
    age_band: str
    unit: str
    zone: str
    hour: time
    days: Sequence[int]
    kit_kind: str
    usually_alone: bool
    safety_arms: bool
    experience: str
    frozen: bool
    place: str = "gym"
    minutes: int | None = None
    limits: str | None = None
    pregnancy: str | None = None


PLACE_WORDS = {"gym": "at the gym", "home": "at home", "elsewhere": "elsewhere"}


def has_joined(new: Newcomer) -> Message:
    """Tell the coach that a client has joined."""
    company = "alone" if new.usually_alone else "someone is there"
    arms = ", safety arms" if new.safety_arms else ""
    lifted = "new to lifting" if new.experience == "new" else "has lifted 3 months or longer"
    hold = "\nOn hold: the health question. You decide." if new.frozen else ""
    said = f"\n{new.pregnancy}." if new.pregnancy else ""
    limits = f"\nLimits and injuries, as said: {escape(new.limits)}" if new.limits else ""
    length = f", {new.minutes} min" if new.minutes else ""
    name, place = escape(new.name), PLACE_WORDS.get(new.place, escape(new.place))
    return Message(
        f"<b>{name} has joined.</b>\n"
        f"{day_list(new.days)} at {new.hour:%H:%M}, clock of {escape(city_of(new.zone))}{length}\n"
        f"{place.capitalize()}: {KIT_WORDS[new.kit_kind]}, {new.unit}, {company}{arms}\n"
        f"{new.age_band} years, {lifted}{said}{hold}{limits}\n\nNext: /assign"
    )


def health_gate(name: str, rows: Rows, *, joining: bool = True) -> Message:
    """Tell the coach that a client's plan waits for her."""
    who = escape(name)
    when = " when joining" if joining else ", from /settings"
    return Message(
        f"<b>{who}: a yes to the health question{when}.</b>\n"
        f"The plan is on hold, and {who} was told to see a doctor first. I asked no details and I clear nobody. "
        "Speak with each other before you release it.",
        rows=rows,
    )


def hold_stands(name: str, rows: Rows) -> Message:
    """Tell the coach that a client who comes back is still on hold."""
    who = escape(name)
    return Message(
        f"<b>{who} is joining again, and the plan is still on hold from before.</b>\n"
        "Speak with each other before you release it.",
        rows=rows,
    )


def could_not_join(name: str) -> Message:
    """Tell the coach that somebody is too young."""
    return Message(f"{escape(name)} could not join: the age given is under 18. Nothing else was kept.")
