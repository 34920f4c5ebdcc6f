"""Words about being ill: which class, what the plan does meanwhile, and how it goes on. No diagnosis, no medicine."""

from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Action, Button, Message, Rows, Tap, encode
from bot.render.dates import day_words

WORSE = "If it gets worse or does not settle, see a doctor. If you feel very unwell, call your local emergency number."
NOBODY_WATCHES = "Nobody watches this chat in real time, so do not wait here for an answer."
EASY_NOTE = "An easy day: half the sets, and lighter. Stop when it does not feel right."


@dataclass(frozen=True, slots=True)
class Buttons:
    """Makes the buttons of a question as it now stands."""

    prompt_id: int
    revision: int

    def row(self, *buttons: tuple[str, Action, int]) -> tuple[Button, ...]:
        """One row."""
        return tuple(
            Button(label, encode(Tap(self.prompt_id, self.revision, action, number)))
            for label, action, number in buttons
        )


def ask_kind(buttons: Buttons, note: str = "") -> Message:
    """Ask which class it is, in plain words."""
    before = f"{note}\n\n" if note else ""
    return Message(
        f"{before}What is it like? I am no doctor, and ask only for your plan.",
        rows=(
            buttons.row(("Head cold, no fever", Action.PICK, 1)),
            buttons.row(("Fever, chest, stomach or aches", Action.PICK, 2)),
            buttons.row(("Hospital, operation, concussion", Action.PICK, 3)),
            buttons.row(("Chest trouble that stays", Action.PICK, 3)),
            buttons.row(("I am not ill", Action.CANCEL, 0)),
        ),
        silent=True,
    )


def ask_cold(buttons: Buttons, percent: int) -> Message:
    """Ask what a head cold does to today."""
    return Message(
        "Noted: a head cold, no fever. What about today?\n"
        f"An easy day has half the sets and loads {percent} % lighter.\n"
        "With fever, or when you feel it in your chest, do not train: write <code>fever</code>.",
        rows=(
            buttons.row(("Easy day", Action.EASE, 0), ("Leave today out", Action.DROP, 0)),
            buttons.row(("That was a slip", Action.CANCEL, 0)),
        ),
        silent=True,
    )


def noted_cold(buttons: Buttons, days: int, said: str = "") -> Message:
    """Say what a head cold does to the plan."""
    before = f"{said} " if said else "Noted: a head cold, no fever. "
    return Message(
        f"{before}For {days} days nothing gets heavier, or until you write <code>better</code>.\n"
        "With fever, or when you feel it in your chest, do not train: write <code>fever</code>.\n"
        f"{WORSE}",
        rows=(buttons.row(("It is gone", Action.READY, 0), ("That was a slip", Action.CANCEL, 0)),),
        silent=True,
    )


def noted_general(buttons: Buttons, since: date, wait: int) -> Message:
    """Say that no training comes while this lasts."""
    return Message(
        f"Noted: ill since {day_words(since)}. No training now.\n"
        f"It goes on {_days(wait)} after you are free of all of it, without medicine against fever. "
        "No card comes before that, and nothing counts as missed.\n"
        f"{WORSE}\n"
        "Your coach has been told. When you are well, tap or write <code>better</code>.",
        rows=(buttons.row(("I am free of it", Action.READY, 0), ("That was a slip", Action.CANCEL, 0)),),
        silent=True,
    )


def noted_clinician() -> Message:
    """Say that a doctor comes first, and that the plan is on hold."""
    return Message(
        "Noted. <b>A doctor first, then training.</b>\n"
        "Your plan is on hold. Your coach has been told, and only your coach can take it up again, "
        "after a doctor has seen you.\n"
        f"{WORSE}\n{NOBODY_WATCHES}",
        silent=True,
    )


def ask_well(buttons: Buttons, wait: int, note: str = "", *, silent: bool = True) -> Message:
    """Ask how she is: still ill, or free of it and since when."""
    before = f"{note}\n\n" if note else ""
    return Message(
        f"{before}How are you today?\nTraining goes on {_days(wait)} after you are free of all of it, without medicine "
        "against fever.",
        rows=(
            buttons.row(("Still ill", Action.PICK, 0)),
            buttons.row(("Free of it since today", Action.PICK, 1)),
            buttons.row(("Free of it since yesterday", Action.PICK, 2)),
            buttons.row(("Free of it for longer", Action.PICK, 3)),
        ),
        silent=silent,
    )


def still_ill() -> Message:
    """Answer that it is not over."""
    return Message(
        f"Get well. No card comes today. {WORSE}\nWhen you are well, write <code>better</code>.", silent=True
    )


def free(free_on: date, goes_on: date, today: date, percent: int, comeback: str) -> Message:
    """Say from when training goes on, and what is lighter then."""
    when = "today" if goes_on <= today else f"from {day_words(goes_on)}"
    more = f"\n{comeback}" if comeback else ""
    return Message(
        f"Good. Free of it since {day_words(free_on)}, so training goes on {when}.\n"
        f"Each exercise comes back once with half the sets and {percent} % less load, since you were ill. "
        f"After that you go on from before.{more}\n"
        "If it comes back, write <code>ill</code>.",
        silent=True,
    )


def cold_gone() -> Message:
    """Say that a head cold is over."""
    return Message("Good. Your plan goes on as before.", silent=True)


def taken_back() -> Message:
    """Say that it was a slip."""
    return Message("Taken back. You are not noted as ill.", silent=True)


def not_ill() -> Message:
    """Answer that she is not ill."""
    return Message("Good. Nothing was noted.", silent=True)


def easy_day(session: bool) -> Message:
    """Say that today is an easy day."""
    where = "Your card has been changed." if session else "Your card comes at its hour, made easy."
    return Message(
        f"An easy day: half the sets, and lighter. {where}\n"
        "Stop when it does not feel right. With fever, or when you feel it in your chest, do not train.",
        silent=True,
    )


def left_out() -> Message:
    """Say that today is left out for a cold."""
    return Message(f"Left out for today: a head cold. It does not count as missed.\n{WORSE}", silent=True)


def settled() -> Message:
    """Say that this question is over."""
    return Message(
        "That was from before. Write <code>ill</code> or <code>better</code> to say how you are now.",
        silent=True,
    )


def held_today(goes_on: date | None) -> Message:
    """Say why there is no card today."""
    if goes_on is None:
        words = "You are noted as ill, so there is no card. When you are well, write <code>better</code>."
    else:
        words = f"You were ill, so training goes on from {day_words(goes_on)}. There is no card before that."
    return Message(words, silent=True)


def for_coach(name: str, kind: str, since: date, rows: Rows = ()) -> Message:
    """Tell the coach of an illness, by its class."""
    who = f"<b>{escape(name)}</b>"
    words = {
        "cold": f"{who} has a head cold without fever since {day_words(since)}. Nothing gets heavier for a week.",
        "general": (
            f"{who} is ill since {day_words(since)}: fever, chest, stomach or aches. No card goes out until they are "
            "free of it, and some days more. Then each exercise comes back once with half the sets and less load."
        ),
        "clinician": (
            f"<b>{escape(name)}: a doctor first.</b>\n"
            "Says: hospital, an operation, a concussion, or chest trouble that stays. The plan is on hold, and no "
            "card goes out. Please write to them yourself. Only you can release the plan, after a doctor has seen them."
        ),
    }[kind]
    return Message(words, rows=rows)


def well_for_coach(name: str, free_on: date, goes_on: date) -> Message:
    """Tell the coach that somebody is well again."""
    return Message(
        f"<b>{escape(name)}</b> is free of it since {day_words(free_on)}. Training goes on from {day_words(goes_on)}, "
        "each exercise once lighter."
    )


def noted_since(since: date) -> str:
    """Say back from when on she was ill."""
    return f"Noted: ill since {day_words(since)}."


def _days(wait: int) -> str:
    return "a day" if wait == 1 else f"{wait} days"
