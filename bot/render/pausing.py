"""A client paused, taken up again or ended by her coach: what each of the two is asked and told."""

from datetime import date
from html import escape

from bot.messages import Action, Message
from bot.render.dates import day_words
from bot.render.setting_up import Buttons


def how_to(command: str) -> Message:
    """Say how a client is paused, taken up again or ended."""
    tail = " until 3 May" if command == "pause" else ""
    return Message(f"Whom? Write it so: <code>/{command} Ada{tail}</code>", silent=True)


def unread(name: str) -> Message:
    """Say that a day was not understood."""
    return Message(
        f"Until when? <code>/pause {escape(name)} until 3 May</code>, or without a day until you take it up.",
        silent=True,
    )


def paused(name: str, last: date | None, buttons: Buttons) -> Message:
    """Say that a client is paused."""
    ends = f" until {day_words(last)}" if last is not None else ", until /resume"
    return Message(
        f"<b>{escape(name)}</b> is paused{ends}. No cards and no questions; nothing is lost, and nothing is missed.",
        rows=((buttons.one("Undo", Action.UNDO),),),
        silent=True,
    )


def pause_undone(name: str) -> Message:
    """Say that a pause was taken back."""
    return Message(f"Taken back. <b>{escape(name)}</b> is not paused.", silent=True)


def is_paused(name: str, until: date | None) -> Message:
    """Say that a client is paused already."""
    ends = f"; sessions come again from {day_words(until)}" if until is not None else ""
    return Message(f"<b>{escape(name)}</b> is paused already{ends}. Nothing was changed.", silent=True)


def not_paused(name: str) -> Message:
    """Say that a client is not paused."""
    return Message(f"<b>{escape(name)}</b> is not paused. Nothing was changed.", silent=True)


def resumed(name: str) -> Message:
    """Say that a client goes on."""
    return Message(f"<b>{escape(name)}</b> goes on. The next session comes at its hour.", silent=True)


def ask_end(name: str, buttons: Buttons) -> Message:
    """Ask once more whether a client is to be ended."""
    return Message(
        f"End with <b>{escape(name)}</b>? Cards and questions stop now, and the block and the contract end.\n"
        "The log is kept, but I use it for nothing more and no longer show it to you. "
        "They are told, and can have it sent or deleted.",
        rows=((buttons.one("Yes, end it", Action.CONFIRM), buttons.one("No", Action.CANCEL)),),
        silent=True,
    )


def ended(name: str) -> Message:
    """Say that a client was ended."""
    return Message(
        f"<b>{escape(name)}</b> is ended, and was told. Nothing of theirs is used or shown any more. "
        f"<code>/invite again {escape(name)}</code> brings them back with their log, once they agree again.",
        silent=True,
    )


def stays(name: str) -> Message:
    """Say that nothing was ended."""
    return Message(f"<b>{escape(name)}</b> stays. Nothing was changed.", silent=True)


def settled(name: str) -> Message:
    """Say of an old button that there is nothing more to it."""
    return Message(f"<b>{escape(name)}</b>: that is settled.", silent=True)


def told_paused(coach: str, last: date | None) -> Message:
    """Tell a client that her coach has paused the plan."""
    ends = f" until {day_words(last)}" if last is not None else " for now"
    return Message(
        f"{escape(coach)} has paused your plan{ends}. No sessions come and none is missed. "
        "What you have done stays. You can write here at any time."
    )


def told_resumed(coach: str) -> Message:
    """Tell a client that it goes on."""
    return Message(f"{escape(coach)} has taken your plan up again. Your next session comes at its hour.")


def told_ended(coach: str) -> Message:
    """Tell a client kindly that her coach has ended the work together."""
    return Message(
        f"{escape(coach)} has ended your training together here, so no more sessions come. "
        "Thank you for the work that you put in.\n\n"
        f"What you logged is kept but no longer used, and {escape(coach)} does not see it here any more. "
        "/mydata sends it to you, /forget deletes it. "
        f"For anything else ask {escape(coach)}."
    )
