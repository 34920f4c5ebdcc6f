"""The weekly check-in: to a client, and as her coach edits it."""

from collections.abc import Sequence
from html import escape

from bot.messages import Action, Button, Message, Rows
from bot.render.setting_up import Buttons
from core.checkin.check_in import CHOSEN, LONGEST, MOST, Kind, Question

TITLE = ("Your check-in", "check-in")
LEAD = "A few quick ones. Skip what you like. /checkin opens it again later."
PLAN_COMES = "Your plan for the week comes after it, or with /plan."
LAST = "That is all. Your coach reads it."
PLAN_WAITS = "Your plan for the week is under /plan."
KINDS = {
    Kind.HARD: "five words, very hard to very easy",
    Kind.FIVE: "five words, very bad to very good",
    Kind.REST: "sleep and stress, three words each",
    Kind.YES_NO: "yes or no",
    Kind.FREE: "a free line",
    Kind.PICK: "quick words",
}
NO_NUMBERS = (
    "Only pain is asked for as a number, so that no two scales can be mistaken for each other. "
    "Ask with five words, yes or no, or a free line. Nothing was changed."
)
NOT_READ = (
    "I could not read that. Nothing was changed. Try:\n"
    "<code>/checkin 3 How was your sleep?</code>\n"
    "<code>/checkin 3 yes or no</code>\n"
    "<code>/checkin out 2</code>\n"
    "<code>/checkin add yes or no: Did you eat enough?</code>\n"
    "<code>/checkin off Ada</code>"
)
TOO_LONG = f"A question has at most {LONGEST} letters. Nothing was changed."
NO_SUCH = f"There is no such question, or there are {MOST} already. Nothing was changed."
CHANGED = "Changed. It holds from the next check-in."
STALE = "That button was from before. This is how things stand."
ASK_NEW = (
    "Type the new question. Put <code>five words:</code>, <code>yes or no:</code> or <code>free line:</code> "
    "first, if you like."
)


def listed(
    questions: Sequence[Question], day: str, off: Sequence[str], buttons: Buttons, note: str = ""
) -> Message:
    """Show a coach her questions, with buttons to change them."""
    lines = [
        f"{number}. {escape(each.text)} ({KINDS[each.kind]})" for number, each in enumerate(questions, 1)
    ]
    head = f"<b>Your check-in</b>, {day}, at most {MOST} questions"
    without = f"Not asked: {escape(', '.join(off))}." if off else ""
    body = "\n".join(lines) or "No question, so nobody is asked."
    rows: list[tuple[Button, ...]] = [
        (
            buttons.one(f"Change {number}", Action.CHANGE, number),
            buttons.one(f"Take out {number}", Action.DROP, number),
        )
        for number, _ in enumerate(questions, 1)
    ]
    if len(questions) < MOST:
        rows.append((buttons.one("Add one", Action.TYPE),))
    rows.append((buttons.one("As it was at first", Action.UNDO),))
    more = "The day is in /settings. <code>/checkin off NAME</code> leaves somebody out."
    text = "\n\n".join(part for part in (head, note, body, without, more) if part)
    return Message(text, rows=tuple(rows), silent=True)


def one(number: int, question: Question, buttons: Buttons, note: str = "") -> Message:
    """Show one question, to be answered another way or worded anew."""
    head = f"<b>Question {number}</b>\n{escape(question.text)} ({KINDS[question.kind]})"
    rows: Rows = tuple(
        (buttons.one(f"As {KINDS[kind]}", Action.PICK, number * 8 + place),)
        for place, kind in enumerate(CHOSEN)
    )
    text = "\n\n".join(
        part for part in (head, note, "Type its new words, or choose how it is answered.") if part
    )
    return Message(text, rows=(*rows, buttons.back), silent=True)


def adding(buttons: Buttons) -> Message:
    """Ask for one more question."""
    return Message(ASK_NEW, rows=(buttons.back,), silent=True)


def turned(name: str, *, on: bool) -> str:
    """Say whether somebody is asked."""
    return f"{escape(name)} is asked again." if on else f"{escape(name)} is not asked any more."


def unknown(written: str, known: Sequence[str]) -> str:
    """Say that a name is not clear."""
    return f"Who is {escape(written)}? Yours: {escape(', '.join(known))}. Nothing was changed."


def closed() -> Message:
    """Say that this card is over."""
    return Message("This list is from before. /checkin shows it as it is now.", silent=True)
