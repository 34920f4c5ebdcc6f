"""What joining says of itself, of consent and of health, in words.

The screen is in our own words after [Riebe2015], which asks about heart, sugar and kidney disease and about their
signs, and after a practising coach's review. It names no condition of anybody and asks for no details.
"""

from html import escape

from bot.messages import Action, Rows
from bot.render.join_view import JoinView
from core.checkin.limits_said import LIMIT_SITES

CONSENT_VERSION = "2026-2"
"""Rises whenever the words of the consent change."""


def caution(view: JoinView) -> tuple[str, Rows]:
    """Say what the bot does, and what it cannot do."""
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


def consent(view: JoinView) -> tuple[str, Rows]:
    """Ask for consent to health data, or say that joining stops without it."""
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
            "To do this I must keep <b>health data</b> about you: your age band, what you answer about your health, "
            "limits and injuries, pain, soreness, illness, and what you write about them.\n\n"
            f"{coach} sees it. If something urgent waits, a second person whom {coach} names hears your name and what "
            f"kind of thing it is. It is kept by whoever runs this bot for {coach}. "
            "It passes through this chat service, which can read what is sent to a bot.\n\n"
            "You can take your consent back at any time, in /settings or with /stop. "
            "Do you agree that I keep and use this data for your training?"
        ),
        ((view.button("I agree", Action.AGREE),), (view.button("No", Action.DECLINE),)),
    )


def age(view: JoinView) -> tuple[str, Rows]:
    """Ask for the age band."""
    return "How old are you?", view.picks(("Under 18", "18–39", "40–59", "60 or over"), 2)


def pregnancy(view: JoinView) -> tuple[str, Rows]:
    """Ask about pregnancy and birth, of everybody."""
    return (
        "Are you pregnant, or did you give birth in the last 12 months? I ask everybody.",
        view.picks(("Pregnant", "Gave birth in the last 12 months", "Neither")),
    )


def birth(view: JoinView) -> tuple[str, Rows]:
    """Ask for the date of a birth, which may be left out."""
    return (
        "When was the birth? Type the date, like <code>20 January</code>, or tap <b>Skip</b>.",
        ((view.button("Skip", Action.READY),),),
    )


def screen(view: JoinView) -> tuple[str, Rows]:
    """Ask one question for all of it."""
    return (
        (
            "Is any of these true for you?\n\n"
            "• a heart, kidney or blood sugar illness, or high blood pressure\n"
            "• pain or pressure in the chest, at rest or when you are active\n"
            "• you have fainted, or get dizzy\n"
            "• you get out of breath at rest, lying flat, or with light effort\n"
            "• your heart races or skips, or your ankles swell\n"
            "• you take medicine for your heart, blood pressure, blood sugar or bones\n"
            "• an operation in the last year, or one you still feel\n"
            "• epilepsy, eye trouble, or a hernia\n"
            "• a doctor has told you to limit what you do, or to train only with someone watching\n\n"
            "You need not say which."
        ),
        view.picks(("None of these", "One or more")),
    )


def pressure(view: JoinView) -> tuple[str, Rows]:
    """Ask whether high blood pressure is treated."""
    return (
        "Do you have high blood pressure? You need not say.",
        view.picks(("No", "Yes, treated", "Yes, not treated", "Rather not say"), 2),
    )


def limits(view: JoinView) -> tuple[str, Rows]:
    """Ask about limits and past injuries: places by button, anything in words."""
    chosen = view.facts.get("sites", [])
    buttons = [
        view.button(f"{name.capitalize()}: yes" if at in chosen else name.capitalize(), Action.TOGGLE, at)
        for at, name in enumerate(LIMIT_SITES)
    ]
    said = [", ".join(LIMIT_SITES[each] for each in chosen)] if chosen else []
    said += [escape(view.facts["line"])] if view.facts.get("line") else []
    told = f"\n\nSo far: {'. '.join(said)}" if said else ""
    done = "That is all" if said else "Nothing"
    return (
        (
            "Old injuries, or something you must not do? Tap each place, or type it in your own words. "
            f"It goes to {escape(view.coach)}.{told}"
        ),
        (tuple(buttons[:4]), tuple(buttons[4:]), (view.button(done, Action.READY),)),
    )
