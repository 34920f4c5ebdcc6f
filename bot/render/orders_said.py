"""What a coach has ordered in a line, read back before it holds, and all that stands for a client."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Action, Button, Message, Rows
from bot.render.dates import day_words
from bot.render.exercise_names import in_sentence
from bot.render.ordering import FULL_WEEK, LIGHTER_WEEK, days_words, mass_words
from bot.render.restrictions import listed
from bot.render.setting_up import Buttons
from core.checkin.order_words import Ordered, OrderSaid
from core.programme.exercises import Exercise

EXAMPLES = (
    "<code>Ada: hip thrust 90 from next week</code>\n"
    "<code>Ada: bench up 2.5 next session</code>\n"
    "<code>Ada: no raises until Monday</code>\n"
    "<code>Ada: lighter next week</code>, <code>Ada: no lighter week</code>\n"
    "<code>Ada: rest Friday</code>\n"
    "<code>Ada: swap B1 for step-up</code>\n"
    "<code>Ada: no overhead until 1 May</code>\n"
    "<code>Ada: pause squats</code>, <code>Ada: let squats go on</code>"
)
NOT_ANY_MORE = "That does not hold any more, so nothing was changed."
NOT_HERE = "This client has left or has not joined yet."
NO_BLOCK = "There is no block running."
DAYS_OVER = "Those days are over, end before they begin, or are more than half a year off."
NO_LOAD_KNOWN = "I know no load of that exercise to count from. Write the load itself."
NOT_COUNTED_SO = "That exercise is not counted as bodyweight and more. Write the whole load, like 80."
NOT_PAUSED = "That is not paused."
NO_DAY = "Which day? Write it so: rest Friday."
NO_SESSION = "There is no session on those days that is laid out and not yet sent."
NO_LIGHTER_WEEK = "No lighter week is planned on those days, as laid out now."
CANNOT_SWAP = "That cannot stand in: it is the same, her kit has nothing for it, or a limit forbids it."
NOTHING = "no load"
UNDER_WAY = "A session has been begun with it, so it stays."


def how_to() -> Message:
    """Say how an order is given."""
    return Message(
        f"An order in one line, the name first:\n{EXAMPLES}\n\n"
        "I read it back before it holds. <code>/orders Ada</code> shows what stands.",
        silent=True,
    )


def unread(name: str) -> Message:
    """Say that a line is no order that is known."""
    return Message(
        f"<b>{escape(name)}</b>: I cannot read that as an order, and nothing was passed on. "
        f"So it works:\n{EXAMPLES}\n\n"
        "To write to a client, reply to a message of theirs.",
        silent=True,
    )


def whose() -> Message:
    """Say that an order was read and nobody knows for whom."""
    return Message(
        "That is an order, but whose? Write the name first: <code>Ada: rest Friday</code>", silent=True
    )


def sentence(said: OrderSaid, catalogue: Mapping[str, Exercise]) -> str:
    """Say an order as HTML, without a full stop at its end."""
    name = escape(in_sentence(catalogue[said.exercise].name)) if said.exercise else "everything"
    when = days_words(said.first, said.last)
    match said.what:
        case Ordered.LOAD | Ordered.STEP:
            load = mass_words(said.mass, catalogue[said.exercise]) if said.mass and said.exercise else ""
            ends = "" if said.last is not None else ", until you change it"
            return f"{name} {load}{when}{', next session only' if said.once else ends}"
        case Ordered.PAUSE:
            ends = "" if said.last is not None else ", until you let it go on"
            return f"{name} paused{when}{ends}"
        case Ordered.TAKE_UP:
            return f"{name} goes on from the next card"
        case Ordered.HOLD:
            ends = "" if said.last is not None else ", until you take it back"
            about = "" if said.exercise is None else f" of {name}"
            return f"no raises{about}{when}{ends}"
        case Ordered.LIGHTER:
            return f"lighter{when}. {LIGHTER_WEEK}"
        case Ordered.FULL:
            return f"no lighter week{when}. {FULL_WEEK}"
        case Ordered.RESTRICT:
            ends = "" if said.last is not None else ", until you take it back"
            return f"{listed(said.restrictions)}{when}{ends}"
        case Ordered.SWAP:
            instead = escape(in_sentence(catalogue[said.instead].name)) if said.instead else ""
            return f"{instead} in place of {name}, from the next card on, in this block"
        case _:
            return f"no session{_on(said.first, said.last)}; it does not count as missed"


def _on(first: date | None, last: date | None) -> str:
    if first is None:
        return ""
    return f" on {day_words(first)}" if last in (None, first) else days_words(first, last)


def read_back(name: str, told: str, notes: Sequence[str], buttons: Buttons, *, reply: bool) -> Message:
    """Read an order back in full, with what follows from it, before it holds.

    Args:
        name: The client's.
        told: What is ordered, as HTML.
        notes: What it comes to, and what stands against it.
        buttons: Of the prompt.
        reply: True where the line answered a message of the client's, and may be meant for her.
    """
    rows: list[tuple[Button, ...]] = [
        (
            buttons.one("Hold it", Action.CONFIRM),
            buttons.one("Change", Action.CHANGE),
            buttons.one("Never mind", Action.CANCEL),
        )
    ]
    if reply:
        rows.append((buttons.one(f"Send it to {name} instead", Action.WRITE),))
    return Message("\n".join([f"<b>{escape(name)}</b>: {told}.", *notes]), rows=tuple(rows), silent=True)


def ask_which(
    name: str, keys: Sequence[str], catalogue: Mapping[str, Exercise], buttons: Buttons, *, instead: bool
) -> Message:
    """Ask which exercise is meant."""
    picks = [(place, catalogue[key].name) for place, key in enumerate(keys)]
    what = "What is done in its place" if instead else "Which exercise"
    never = (buttons.one("Never mind", Action.CANCEL),)
    return Message(f"<b>{escape(name)}</b>: {what}?", rows=(*buttons.picks(picks, 1), never), silent=True)


def ask_anew(name: str, buttons: Buttons) -> Message:
    """Ask for the order once more."""
    text = f"<b>{escape(name)}</b>: write it anew, without the name, like <code>hip thrust 90 from next week</code>."
    return Message(text, rows=((buttons.one("Never mind", Action.CANCEL),),), silent=True)


def cannot(name: str, why: str) -> Message:
    """Say why an order cannot hold."""
    return Message(f"<b>{escape(name)}</b>: {why} Nothing was changed.", silent=True)


def holds(name: str, told: str, buttons: Buttons | None, note: str = "") -> Message:
    """Say that an order holds now."""
    rows: Rows = ((buttons.one("Undo", Action.UNDO),),) if buttons is not None else ()
    tail = f"\n{note}" if note else ""
    return Message(f"Holds. <b>{escape(name)}</b>: {told}.{tail}", rows=rows, silent=True)


def undone(name: str, told: str) -> Message:
    """Say that an order was taken back."""
    return Message(f"Taken back. <b>{escape(name)}</b>: {told}.", silent=True)


def dropped(name: str) -> Message:
    """Say that nothing was ordered."""
    return Message(f"<b>{escape(name)}</b>: nothing was ordered.", silent=True)


def nothing_to_undo() -> Message:
    """Say that there is no order to take back."""
    return Message("There is no order of yours to take back.", silent=True)


def now_at(load: str) -> str:
    """Say what a client lifts now."""
    return f"Now {load}."


def comes_to(on: date, load: str, why: str) -> str:
    """Say what an order comes to in the first session that it is about, and why where it is less than ordered."""
    return f"{day_words(on)}: {load}. {why}".rstrip()


def lighter_already(week: int) -> str:
    """Say that a week is planned lighter already, and what an order for a lighter one makes of it."""
    return f"Week {week} is planned lighter already. Only what you wrote for it yourself gets lighter still."


def over_pain(where: str, score: int, on: date) -> str:
    """Say that an order goes past a report that it was given after."""
    known = f"Pain: {where} {score} on {day_words(on)}."
    return f"{known} You order it after that, so it goes past it; a new report stops it."


def under_pain(where: str, score: int | None, on: date) -> str:
    """Say that an order does not go past pain."""
    told = "no number" if score is None else str(score)
    return f"Pain: {where} {told} on {day_words(on)}. No order raises over that: it stays lower until it has calmed."


@dataclass(frozen=True, slots=True)
class Listed:
    """An order in a list.

    Attributes:
        row_id: Its row.
        told: What it says, as HTML.
        since: When it was given.
    """

    row_id: int
    told: str
    since: date


def standing(
    name: str, stands: Sequence[Listed], over: Sequence[Listed], buttons: Buttons, note: str
) -> Message:
    """List what stands for a client, with a button each, and below it what is over."""
    lines = [note, ""] if note else []
    lines.append(
        f"<b>{escape(name)}</b>: what you have ordered"
        if stands
        else f"<b>{escape(name)}</b>: no order stands."
    )
    lines += [
        f"{number}. {each.told}. Since {day_words(each.since)}." for number, each in enumerate(stands, 1)
    ]
    if over:
        lines += ["", "Over or taken back", *(f"{each.told}. {day_words(each.since)}." for each in over)]
    rows = tuple(
        (buttons.one(f"Take back {number}", Action.CANCEL, each.row_id),)
        for number, each in enumerate(stands, 1)
    )
    return Message("\n".join(lines), rows=rows, silent=True)


def newer_list(name: str) -> Message:
    """Say of an older list that there is a newer one."""
    return Message(f"<b>{escape(name)}</b>: there is a newer list. /orders shows it.", silent=True)


def rest_day(coach: str, on: date, day: str) -> Message:
    """Tell a client that her coach has called a session off."""
    return Message(
        f"{escape(coach)} has given you a rest day on {day_words(on)}: {escape(day)} is called off. "
        "It counts as no miss."
    )


def held_by_pain(name: str, told: str, load: str, why: str) -> Message:
    """Tell a coach that her order is not followed as far as she wrote, since it hurts."""
    return Message(
        f"<b>{escape(name)}</b>: your order ({told}) is held at {load}.\n{why}\n"
        "A raise over pain of 1 to 3 needs a new order now, after the report; at 4 and over there is none."
    )
