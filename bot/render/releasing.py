"""What is said when a coach takes up again what was held."""

from html import escape

from bot.messages import Action, Button, Message, Tap, encode
from bot.render.pain import HasRevision

LABELS = {
    "plan": "Release the plan",
    "pain": "Release what is locked",
    "health": "Let loads rise again",
    "slip": "It was a slip",
}

RESPONSIBLE = (
    "Do this only after a doctor or physiotherapist has seen them. You take the responsibility, not I."
)
SPOKEN = "Do this only after you have spoken with them. You take the responsibility, not I."


def ask_release(prompt: HasRevision, name: str, what: str) -> Message:
    """Ask the coach once more."""
    of = f"of <b>{escape(name)}</b>"
    asked = {
        "plan": f"Release the plan {of}? Cards go out again from the next session on.",
        "pain": f"Release what pain has locked {of}? It comes back lighter, from the next session on.",
        "health": f"Let the loads {of} rise again by the plan, from the next session on?",
        "slip": f"Take the birth {of} back? Loads then go by the log again, from the next session on.",
    }[what]
    return Message(
        f"{asked}\n{SPOKEN if what == 'slip' else RESPONSIBLE}",
        rows=(
            (
                Button("Yes, release", encode(Tap(prompt.id, prompt.revision, Action.CONFIRM))),
                Button("Not yet", encode(Tap(prompt.id, prompt.revision, Action.CANCEL))),
            ),
        ),
        silent=True,
    )


def stays(name: str, what: str) -> Message:
    """Say that nothing was released, and how it can be later."""
    held = {
        "plan": f"The plan of <b>{escape(name)}</b> stays on hold.",
        "pain": f"What pain has locked of <b>{escape(name)}</b> stays locked.",
        "health": f"The loads of <b>{escape(name)}</b> stay held as they are.",
        "slip": f"The birth of <b>{escape(name)}</b> counts as before.",
    }[what]
    return Message(f"{held} The button under the alert stays good.", silent=True)


def released(name: str, what: str, *, held: bool = False) -> Message:
    """Say that it was released."""
    if what == "plan":
        words = f"Released. <b>{escape(name)}</b> gets cards again from the next session on."
    elif what == "health":
        words = (
            f"Released. The loads of <b>{escape(name)}</b> follow the plan again from the next session on."
        )
    elif what == "slip":
        words = f"Taken back. The loads of <b>{escape(name)}</b> go by the log from the next session on."
    else:
        words = f"Released. What was locked of <b>{escape(name)}</b> comes back lighter, from the next session on."
    return Message(f"{words}\nThe plan itself is still on hold." if held else words, silent=True)


def released_before(name: str) -> Message:
    """Say that it has been released already."""
    return Message(f"This was released already: <b>{escape(name)}</b>.", silent=True)


def released_client(what: str) -> Message:
    """Tell the client; the first line, which a locked screen shows, says nothing about her body."""
    if what == "plan":
        return Message(
            "Your coach has taken your plan up again. Your next card comes at your hour. Start easy."
        )
    if what == "health":
        return Message(
            "Your coach has looked. Your loads follow the plan again. If anything feels wrong, stop and tell me."
        )
    if what == "slip":
        return Message(
            "Your coach has put something right.\n"
            "It is taken back that you gave birth. Your loads go by your log again."
        )
    return Message(
        "Your coach has looked.\nWhat was locked for pain is unlocked. It comes back lighter. "
        "If it hurts again, stop and tell me."
    )
