"""What the coach reads of a stop sign, and what is said when it is released."""

from html import escape

from bot.messages import Message, Rows
from core.checkin.stop_signs import Urgency

SENT = {
    Urgency.EMERGENCY_NOW: "to call the local emergency number now",
    Urgency.DOCTOR_TODAY: "to see a doctor today",
    Urgency.DOCTOR_FIRST: "to see a doctor or physiotherapist before training again",
    Urgency.DISTRESS: "where to find help today",
}


def alert(name: str, urgency: Urgency, text: str, rows: Rows) -> Message:
    """Tell the coach of a stop sign."""
    return Message(
        f"<b>{escape(name)}: stop sign.</b>\n"
        f"Wrote: “{escape(text[:500])}”\n"
        f"I sent the text that says {SENT[urgency]}. The plan is on hold, and no card goes out.\n"
        "Please reach them yourself now. Only you can release the plan, "
        "after a doctor or physiotherapist has seen them.",
        rows=rows,
    )


def not_meant(name: str) -> Message:
    """Tell the coach that a client took it back."""
    return Message(
        f"<b>{escape(name)}</b> says the stop sign was not meant that way. Nothing is released: please talk first."
    )


def not_meant_noted() -> Message:
    """Answer a client who took it back."""
    return Message(
        "Thank you. I have told your coach. Your plan stays on hold until your coach has talked with you. "
        "If you do feel unwell, call your local emergency number.",
        silent=True,
    )
