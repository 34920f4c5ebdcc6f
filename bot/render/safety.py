"""The fixed safety texts. Short, static, read aloud before they were kept; nothing is filled in but a number.

They name no condition, guess no cause, recommend no medicine and clear nobody.
"""

from bot.messages import Message, Rows
from core.checkin.stop_signs import Urgency

NOBODY_WATCHES = "Nobody watches this chat in real time, so do not wait here for an answer."
HOLD = "Your plan is on hold. Your coach has been told, and only your coach can take it up again."

EMERGENCY_NOW = (
    "<b>Stop now. This may be an emergency.</b>\n\n"
    "Call your local emergency number now, or have someone call for you.\n"
    "Stay where help can reach you. Do not drive yourself.\n\n"
    f"{NOBODY_WATCHES}\n\n{HOLD}"
)

DOCTOR_TODAY = (
    "<b>Stop training for today.</b>\n\n"
    "What you wrote should be seen by a doctor today. Call your doctor, or an out-of-hours service.\n"
    "If it gets worse, or you feel very unwell, call your local emergency number.\n\n"
    f"{NOBODY_WATCHES}\n\n{HOLD}"
)

DOCTOR_FIRST = (
    "<b>Please stop here for now.</b>\n\n"
    "See a doctor or a physiotherapist about this before you train again.\n"
    "If it gets worse, or you feel very unwell, call your local emergency number.\n\n"
    f"{NOBODY_WATCHES}\n\n{HOLD}"
)

DISTRESS = (
    "<b>I am a program, and this matters more than training.</b>\n\n"
    "If you might be in danger, call your local emergency number now, or go to someone near you.\n"
    "A crisis line, a doctor or a person you trust can help you today. You do not have to do this alone.\n\n"
    f"{NOBODY_WATCHES}\n\n{HOLD}"
)

TEXTS: dict[Urgency, str] = {
    Urgency.EMERGENCY_NOW: EMERGENCY_NOW,
    Urgency.DOCTOR_TODAY: DOCTOR_TODAY,
    Urgency.DOCTOR_FIRST: DOCTOR_FIRST,
    Urgency.DISTRESS: DISTRESS,
}


def stop_text(urgency: Urgency, rows: Rows = (), *, known: bool = True) -> Message:
    """Return the fixed text of a stop sign; a stranger has no plan and no coach here."""
    text = TEXTS[urgency]
    return Message(text if known else text.replace(f"\n\n{HOLD}", ""), rows=rows)


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
    "If you lose strength in a leg or arm, or feeling between your legs, or control of bladder or bowel: "
    "call your local emergency number."
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
