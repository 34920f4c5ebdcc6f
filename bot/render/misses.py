"""Words about missed sessions: kind questions to the client, plain facts to the coach. Nobody is scolded."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Action, Button, Message, Tap, encode
from bot.render import moving
from bot.render.dates import day_words
from core.oversight.misses import Concern, Tally

REASON_WORDS = {
    "time": "no time",
    "ill": "ill",
    "pain": "pain",
    "other": "something else",
    "away": "away",
    "holiday": "holiday",
}

NOTED = {
    "time": "Noted: no time. Nothing is carried over, and no load goes down for it.",
    "ill": "Noted: ill. Get well first. With fever or chest symptoms, no training until they are gone.",
    "pain": "Noted: pain.",
    "other": (
        "Noted. If you want, write here what it was, and your coach will read it. "
        "The same if you trained and only did not log it."
    ),
}

SHOWN = 3
"""Sessions of a row that the coach reads by name."""

WHICH_DAYS = "Good to have you back. Choose below which days suit you better."
WILL_TALK = "Your coach has been told that you want to talk, and will write to you."
WELCOME = "Good to have you back."


@dataclass(frozen=True, slots=True)
class Named:
    """A session as people call it, why it was missed where that was said, and when it comes again if it does."""

    day: str
    on: date
    reason: str | None = None
    comes_on: date | None = None


def ask(prompt_id: int, revision: int, missed: Sequence[Named]) -> Message:
    """Ask what was in the way of a session, or of the last ones."""
    which = _listed([f"{escape(each.day)} ({day_words(each.on)})" for each in missed])
    if len(missed) == 1:
        first = f"Nothing was logged for {which}. {_happens(missed)}"
    else:
        first = f"I have not heard from you on {which}. {_happens(missed)} It helps your coach to know."

    def button(label: str, number: int) -> Button:
        return Button(label, encode(Tap(prompt_id, revision, Action.PICK, number)))

    return Message(
        f"{first}\nWhat was in the way?",
        rows=((button("No time", 1), button("Ill", 2)), (button("Pain", 3), button("Something else", 4))),
    )


def _happens(missed: Sequence[Named]) -> str:
    """Say that nobody is scolded, and what becomes of what was missed."""
    comes_on = missed[-1].comes_on
    if comes_on is None:
        return "That happens, and nothing is carried over."
    return f"That happens. {moving.comes_again(comes_on)}"


def noted(reason: str, comes_on: date | None = None) -> Message:
    """Answer the reason that was given; `comes_on` is when what was missed comes again, if it does."""
    if comes_on is None:
        return Message(NOTED[reason], silent=True)
    first = {"time": "Noted: no time. No load goes down for it."}.get(reason, NOTED[reason])
    return Message(f"{first} {moving.comes_again(comes_on)}", silent=True)


def offer(prompt_id: int, revision: int, missed: Named, moves: Sequence[moving.Move]) -> Message:
    """Offer another day for what was missed for want of time."""

    def button(label: str, action: Action, number: int = 0) -> Button:
        return Button(label, encode(Tap(prompt_id, revision, action, number)))

    lines = [
        "Noted: no time. No load goes down for it.",
        f"{escape(missed.day)} can still be done this week, or be left out.",
        *moving.explained(moves),
    ]
    rows = tuple((button(moving.label(each), Action.MOVE, place),) for place, each in enumerate(moves))
    return Message("\n".join(lines), rows=(*rows, (button(moving.LEAVE_OUT, Action.DROP),)), silent=True)


def decided(day: str, lines: Sequence[str]) -> Message:
    """Say what was decided about a session that was missed."""
    return Message("\n".join([f"<b>{escape(day)}</b>", *lines]), silent=True)


def stopped(prompt_id: int, revision: int, coach: str) -> Message:
    """Say that no more cards come until the client says something."""

    def button(label: str, number: int) -> Button:
        return Button(label, encode(Tap(prompt_id, revision, Action.PICK, number)))

    return Message(
        "I have not heard from you on the last three sessions, so I send no more for now. "
        f"{escape(coach)} has been told.\n"
        "Write anything, or tap, and we take it up again.",
        rows=((button("Pause a week", 1), button("Other days", 2)), (button("Talk with my coach", 3),)),
    )


def taken_up(next_on: date | None, said: str = "") -> Message:
    """Say that cards come again, after what else is said."""
    as_it_is = "As your days are now, the" if said == WHICH_DAYS else "The"
    when = (
        f"{as_it_is} next one comes {day_words(next_on)}."
        if next_on
        else "The next one comes when your coach sets it."
    )
    return Message(f"{said or WELCOME}\nYour sessions come again. {when}", silent=True)


def paused(prompt_id: int, revision: int, until: date) -> Message:
    """Say until when nothing comes."""
    back = Button("Back already", encode(Tap(prompt_id, revision, Action.CONFIRM)))
    return Message(
        f"Paused. Your sessions come again from {day_words(until)}. Your coach has been told.",
        rows=((back,),),
        silent=True,
    )


def alert(name: str, concern: Concern, run: Sequence[Named], recent: Tally, next_on: date | None) -> Message:
    """Tell the coach of missed sessions: what, since when, what was done about it, what comes."""
    who = f"<b>{escape(name)}</b>"
    kept = f"Kept in the last 14 days: {recent.kept} of {recent.due}."
    match concern:
        case Concern.SILENT:
            head = f"{who} has not answered the last {len(run)} cards."
            done = "I send no more cards until they answer, and have told them so. Please write to them yourself."
            return Message(f"{head}\n{_sessions(run)}\n{kept}\n{done}")
        case Concern.RUN:
            head = f"{who} has missed {len(run)} sessions in a row."
        case Concern.HALF:
            head = f"{who} has kept less than half of the last 14 days."
        case Concern.FIRST_WEEKS:
            head = f"{who} is in the first three weeks and has missed a session."
    comes = f" The next card goes out {day_words(next_on)}." if next_on else ""
    return Message(f"{head}\n{_sessions(run)}\n{kept}\nI have asked what was in the way.{comes}")


def left_out_twice(name: str, day: str, before: date, now: date) -> Message:
    """Tell the coach that the same day is left out two weeks running."""
    return Message(
        f"<b>{escape(name)}</b> leaves out {escape(day)} two weeks running: {day_words(before)} and "
        f"{day_words(now)}, no time. Another day may suit them better."
    )


def is_back(name: str) -> Message:
    """Tell the coach that a silent client has answered."""
    return Message(f"<b>{escape(name)}</b> has answered. Cards go out again.")


def has_paused(name: str, until: date) -> Message:
    """Tell the coach that a silent client wants a week's pause."""
    return Message(
        f"<b>{escape(name)}</b> has answered and pauses. Cards go out again from {day_words(until)}."
    )


def wants_to_talk(name: str) -> Message:
    """Tell the coach that a silent client wants to talk."""
    return Message(
        f"<b>{escape(name)}</b> has answered and wants to talk with you. Cards go out again. Please write to them."
    )


def _sessions(run: Sequence[Named]) -> str:
    """Name sessions, of a long row only the last."""
    before = [f"{len(run) - SHOWN} before"] if len(run) > SHOWN else []
    named = [f"{escape(each.day)} ({day_words(each.on)}{_because(each.reason)})" for each in run[-SHOWN:]]
    return "; ".join([*before, *named])


def _because(reason: str | None) -> str:
    return f", {REASON_WORDS[reason]}" if reason in REASON_WORDS else ""


def _listed(parts: Sequence[str]) -> str:
    return " and ".join([", ".join(parts[:-1]), parts[-1]]) if len(parts) > 1 else parts[0]
