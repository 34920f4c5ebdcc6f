"""The fixed safety texts. Short, static, read aloud before they were kept; nothing is filled in but a number.

They name no condition, guess no cause, recommend no medicine and clear nobody.
"""

from bot.messages import Message, Rows
from bot.render.emergency import FIXED, with_number
from core.checkin.stop_signs import Urgency

NOBODY_WATCHES = "Nobody watches this chat in real time, so do not wait here for an answer."
HOLD = "Your plan is on hold. Your coach has been told, and only your coach can take it up again."

EMERGENCY_NOW = (
    "<b>Stop now. This may be an emergency.</b>\n"
    f"Call {FIXED} now, or have someone call for you.\n"
    "Stay where help can reach you. Do not drive yourself.\n\n"
    f"{NOBODY_WATCHES}\n\n{HOLD}"
)

DOCTOR_TODAY = (
    "<b>Stop training for today.</b>\n"
    "See a doctor today about what you wrote. Call your doctor now. "
    "If nobody answers, call a doctor on duty, or go to a hospital.\n"
    f"If it gets worse, or you feel very unwell, call {FIXED}.\n\n"
    f"{NOBODY_WATCHES}\n\n{HOLD}"
)

DOCTOR_FIRST = (
    "<b>Please stop here for now.</b>\n"
    "See a doctor or a physiotherapist about this before you train again.\n"
    f"If it gets worse, or you feel very unwell, call {FIXED}.\n\n"
    f"{NOBODY_WATCHES}\n\n{HOLD}"
)

DISTRESS = (
    "<b>I am a program, and this matters more than training.</b>\n"
    f"If you might be in danger, call {FIXED} now, or go to someone near you.\n"
    "Please do not stay alone with this. Call someone you trust, a doctor or a crisis line today.\n\n"
    f"{NOBODY_WATCHES}\n\n{HOLD}"
)

TEXTS: dict[Urgency, str] = {
    Urgency.EMERGENCY_NOW: EMERGENCY_NOW,
    Urgency.DOCTOR_TODAY: DOCTOR_TODAY,
    Urgency.DOCTOR_FIRST: DOCTOR_FIRST,
    Urgency.DISTRESS: DISTRESS,
}


def stop_text(urgency: Urgency, rows: Rows = (), *, known: bool = True, zone: str | None = None) -> Message:
    """Return the fixed text of a stop sign.

    Args:
        urgency: Which text.
        rows: Buttons under it.
        known: False for a stranger, who has no plan and no coach here.
        zone: Of the client's clock, for the number of her country; None where it is not known.
    """
    text = TEXTS[urgency] if known else TEXTS[urgency].replace(f"\n\n{HOLD}", "")
    return with_number(Message(text, rows=rows), zone)


IN_CASE = (
    "If something is wrong with you, do not wait for your coach to read this. Stop training, and call a doctor today. "
    f"If it may be an emergency, call {FIXED}."
)
"""Said beside words that went to the coach and may be about health; most of them are not."""


def in_case(zone: str | None) -> Message:
    """Return the caution beside words that went to the coach, with the number of the client's country."""
    return with_number(Message(IN_CASE, silent=True), zone)


STOP_THIS_SESSION = (
    "<b>Stop here for today.</b>\n\n"
    "Leave alone every exercise that loads where it hurts. They stay locked until your coach has looked.\n"
    "If the pain is severe, came suddenly, or does not settle: see a doctor or physiotherapist today. "
    "If you feel very unwell, call your local emergency number.\n\n"
    f"{NOBODY_WATCHES}"
)

EASE_TODAY = (
    "Take 20–40 % off the load, or shorten the movement, until it is 3 or less. One try.\n"
    "If it stays above 3, leave this exercise out today."
)

LOSS = (
    f"Call {FIXED} if one of these happens. A leg or arm gets weak. "
    "You lose feeling between your legs. You lose control of your bladder or bowel."
)

SPREADING = (
    "Leave bending under load, and load on your back, alone for now. Your coach has been told. "
    "Please have a physiotherapist look at it.\n"
    f"{LOSS}"
)

STOP_AND_SPREADING = STOP_THIS_SESSION.replace(f"\n\n{NOBODY_WATCHES}", f"\n{LOSS}\n\n{NOBODY_WATCHES}")

EASE_NEXT = (
    "Your next loads take it into account: lighter where it hurt, and no raise near it.\n"
    "If it gets worse or does not settle, see a doctor or physiotherapist."
)

LOW_PAIN = "The load will not go up while it is there. Tell me tomorrow morning if it is worse."

GOES_ON = "Your coach knows of it and decides about the load. If it is worse than before, tell me and stop."

AFTER_BIRTH = (
    "<b>Stop this exercise.</b>\n\n"
    "Leave it out until a doctor or a midwife has seen you and your coach has looked. Your coach has been told.\n"
    "If you bleed heavily or feel very unwell, call your local emergency number.\n\n"
    f"{NOBODY_WATCHES}"
)

AFTER_BIRTH_NOTED = (
    "Noted. Your coach has been told, and the exercise stays locked until your coach has looked."
)
