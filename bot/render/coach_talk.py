"""What a coach is told when nothing is open."""

from html import escape

from bot.messages import Message

NEXT_FOR_COACH = (
    "Send me a block as a file (xlsx, csv or yaml), and I check it. /template sends you a form.\n"
    "<code>/invite Ada</code> makes a link for a client.\n"
    "/assign puts a client on a block."
)


def coach_welcome(name: str) -> Message:
    """Greet a coach whose account was just bound."""
    return Message(
        f"<b>Welcome, {escape(name)}.</b> This chat is now yours as a coach.\n\n{NEXT_FOR_COACH}", silent=True
    )


def coach_help() -> Message:
    """Say in a few lines what a coach can do."""
    return Message(f"{NEXT_FOR_COACH}\nTo write to a client, reply to a message of theirs.", silent=True)


def edits_stay() -> Message:
    """Say that an edited message is not sent once more."""
    return Message("What was sent stays as it was; an edit is not passed on. Send it anew.", silent=True)


def coach_is_no_client() -> Message:
    """Answer /stop from a coach."""
    return Message("You are the coach here, so there is nothing to stop. Nothing has changed.", silent=True)
