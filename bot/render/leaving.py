"""Leaving, in words."""

from html import escape

from bot.messages import Action, Button, Message, Tap, encode


def stop_question(prompt_id: int, revision: int, note: str | None = None) -> Message:
    """Ask once whether the client means to stop."""
    return Message(
        (f"{note}\n\n" if note else "")
        + "Do you want to stop? No more sessions come, and your consent to keep health data is taken back.",
        rows=(
            (
                Button("Stop", encode(Tap(prompt_id, revision, Action.CONFIRM))),
                Button("Go on", encode(Tap(prompt_id, revision, Action.CANCEL))),
            ),
        ),
        silent=True,
    )


def goes_on() -> Message:
    """Say that nothing was stopped."""
    return Message("Nothing has changed. We go on.", silent=True)


def has_stopped(coach: str) -> Message:
    """Say that the client has stopped, and how to come back."""
    return Message(
        "<b>You have stopped.</b> No more sessions come. Your consent is taken back, and nothing new is kept.\n\n"
        f"To come back, ask {escape(coach)} for a new link. To have what was kept erased, send /forget.",
        silent=True,
    )


def stopped_speaks() -> Message:
    """Answer somebody who has stopped, or whose coach has ended."""
    return Message(
        "You do not train here now, so I kept nothing of that and passed nothing on. "
        "Ask your coach for a new link to come back.",
        silent=True,
    )


def not_shown(name: str) -> Message:
    """Say to the coach, in place of what an old message said of a client, that no consent to show it stands."""
    return Message(
        f"<b>{escape(name)}</b> does not train here now, so nothing of this is shown.", silent=True
    )


def has_left(name: str, *, joining: bool) -> Message:
    """Tell the coach that a client has stopped."""
    when = " while joining" if joining else ""
    return Message(
        f"<b>{escape(name)} has stopped</b>{when}. No more sessions go out, and the consent is taken back. "
        "To take up again, send a new /invite. If erasing is asked for, it is for you to see to."
    )
