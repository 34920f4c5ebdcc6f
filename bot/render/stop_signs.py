"""What the coach reads of a stop sign, and what is said when it is released."""

from html import escape

from bot.messages import Action, Button, Message, Rows, Tap, encode
from bot.render.pain import HasRevision
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


def ask_release(prompt: HasRevision, name: str) -> Message:
    """Ask the coach once more before a plan is taken up again."""
    return Message(
        f"Release the plan of <b>{escape(name)}</b>? Cards go out again from the next session on.\n"
        "Do this only after a doctor or physiotherapist has seen them. You take the responsibility, not I.",
        rows=(
            (
                Button("Yes, release", encode(Tap(prompt.id, prompt.revision, Action.CONFIRM))),
                Button("Not yet", encode(Tap(prompt.id, prompt.revision, Action.CANCEL))),
            ),
        ),
        silent=True,
    )


def stays_on_hold(name: str) -> Message:
    """Say that nothing was released."""
    return Message(f"The plan of <b>{escape(name)}</b> stays on hold.", silent=True)


def released(name: str) -> Message:
    """Say that the plan was released."""
    return Message(f"Released. <b>{escape(name)}</b> gets cards again from the next session on.", silent=True)


def released_client() -> Message:
    """Tell the client that the coach has taken the plan up again."""
    return Message("Your coach has taken your plan up again. Your next card comes at your hour. Start easy.")
