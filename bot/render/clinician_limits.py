"""Clinicians' limits in words: read back to the coach in full, told to the client, listed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Action, Message
from bot.render.clinicians import BY
from bot.render.dates import day_words
from bot.render.exercise_names import in_sentence
from bot.render.pain import place_words
from bot.render.personalise import change_line
from bot.render.setting_up import Buttons
from core.loads.asked import hands, load_text
from core.loads.limits import Limit
from core.loads.personalise import Change
from core.programme.exercises import Basis, Exercise
from core.units import plain

HOW = (
    "<code>/limit Ada: no overhead until 1 June, by physiotherapist</code>\n"
    "<code>/limit Ada: deadlift at most 60 kg, doctor, review 10 May</code>\n"
    "<code>/limit Ada: nothing that loads the left knee</code>\n"
    "<code>/limit Ada</code> shows what stands."
)
KEPT_NOTHING = "Nothing was kept."
STALE = "That button was from before. This is how things stand."


@dataclass(frozen=True, slots=True)
class OnCard:
    """What became of an exercise on a card that is out.

    Attributes:
        exercise: As it was.
        now: What is done now: another, or the same with less; None where it is left out.
    """

    exercise: Exercise
    now: Exercise | None = None


def how_to() -> Message:
    """Say how a limit is given."""
    return Message(f"A clinician's limit, word for word as it was given:\n{HOW}", silent=True)


def unread(parts: Sequence[str], near: Sequence[str]) -> Message:
    """Say what was not understood, so that nothing was kept."""
    said = ", ".join(f"“{escape(part[:60])}”" for part in parts) or "a limit in that"
    meant = f" Did you mean {escape(', '.join(near))}?" if near else ""
    return Message(f"I could not read {said}.{meant} {KEPT_NOTHING}\n\n{HOW}", silent=True)


def no_unit() -> Message:
    """Ask for the unit of a load."""
    return Message(f"Write the load with kg or lb. {KEPT_NOTHING}", silent=True)


def backwards() -> Message:
    """Say that a limit would end before it begins."""
    return Message(f"That ends before it begins. {KEPT_NOTHING}", silent=True)


def limit_line(limit: Limit, catalogue: Mapping[str, Exercise]) -> str:
    """Say a limit in full, as plain text: `No arms overhead. By a physiotherapist, from Mon 6 April, until …`."""
    days = f"from {_dated(limit.since)}, " + (
        f"until {_dated(limit.until)} (that day too)" if limit.until is not None else "until you take it out"
    )
    review = f", to be reviewed {_dated(limit.review_on)}" if limit.review_on is not None else ""
    return f"{what_words(limit, catalogue)}. By {BY[limit.by]}, {days}{review}."


def short_line(limit: Limit, catalogue: Mapping[str, Exercise], today: date) -> str:
    """Say a limit in a line of a client's card, as plain text: by whom, what, until when, when to look at it again."""
    parts = [f"By {BY[limit.by]}: {in_sentence(what_words(limit, catalogue))}"]
    if limit.since > today:
        parts.append(f"from {day_words(limit.since)}")
    if limit.until is not None:
        parts.append(f"until {day_words(limit.until)}")
    if limit.review_on is not None:
        due = "review is due since" if limit.review_on <= today else "review"
        parts.append(f"{due} {day_words(limit.review_on)}")
    return f"{', '.join(parts)}."


def what_words(limit: Limit, catalogue: Mapping[str, Exercise]) -> str:
    """Say what a limit leaves out or lets at most, as plain text."""
    if limit.restriction is not None:
        return limit.restriction.value.capitalize()
    if limit.mass is None:
        return _none_of(limit, catalogue)
    about, each = _about(limit, catalogue)
    most = f"{about}: at most {plain(limit.mass.value)} {limit.mass.unit} in all"
    if each is None:
        return f"{most}, both hands and sides together"
    if hands(each) == 1:
        return most
    apart = "hand" if each.basis is Basis.PER_HAND else "side"
    return f"{most}, {load_text(limit.mass / hands(each), each)} a {apart}"


def _none_of(limit: Limit, catalogue: Mapping[str, Exercise]) -> str:
    if limit.exercise is not None:
        return f"No {in_sentence(_about(limit, catalogue)[0])}"
    if limit.pattern is not None:
        return f"No {limit.pattern.value} of any kind"
    if limit.site is not None:
        return f"Nothing that loads the {place_words(limit.site, None)}, left or right"
    return "No training at all"


def _about(limit: Limit, catalogue: Mapping[str, Exercise]) -> tuple[str, Exercise | None]:
    if limit.exercise is not None:
        exercise = catalogue.get(limit.exercise)
        return (exercise.name if exercise is not None else limit.exercise), exercise
    if limit.pattern is not None:
        return f"Every {limit.pattern.value}", None
    if limit.site is not None:
        return f"All that loads the {place_words(limit.site, None)}, left or right", None
    return "Everything", None


def _dated(on: date) -> str:
    return f"{day_words(on)} {on.year}"


def read_back(
    client: str,
    limits: Sequence[Limit],
    coming: Sequence[Change],
    catalogue: Mapping[str, Exercise],
    buttons: Buttons,
) -> Message:
    """Read limits back in full before they hold, with what of the block would be done otherwise."""
    parts = [
        f"<b>{escape(client)}</b>, as I read it. It does not hold yet:",
        "\n".join(escape(limit_line(each, catalogue)) for each in limits),
    ]
    if coming:
        parts.append("\n".join(["With it, in the block:", *(_change(each, catalogue) for each in coming)]))
    parts.append("It can only lower loads. A review day ends nothing.")
    return Message(
        "\n\n".join(parts),
        rows=((buttons.one("Let it hold", Action.CONFIRM), buttons.one("No", Action.CANCEL)),),
        silent=True,
    )


def _change(change: Change, catalogue: Mapping[str, Exercise]) -> str:
    if change.open:
        return f"{escape(catalogue[change.exercise].name)}: nothing near it fits, left out"
    return change_line(change, catalogue)


def standing(
    client: str,
    limits: Sequence[Limit],
    catalogue: Mapping[str, Exercise],
    buttons: Buttons,
    note: str = "",
    *,
    can_undo: bool = False,
) -> Message:
    """List the limits that stand, each with its way out; `note` is HTML."""
    lines = [
        f"{number}. {escape(limit_line(each, catalogue))}"
        if len(limits) > 1
        else escape(limit_line(each, catalogue))
        for number, each in enumerate(limits, 1)
    ]
    head = f"<b>{escape(client)}</b>: limits by clinicians"
    body = "\n".join(lines) or "None stands."
    text = "\n\n".join(part for part in (head, note, body) if part)
    rows = tuple(
        (buttons.one(f"Take {number} out" if len(limits) > 1 else "Take it out", Action.DROP, each.row_id),)
        for number, each in enumerate(limits, 1)
    )
    undo = ((buttons.one("Undo", Action.UNDO),),) if can_undo else ()
    return Message(text, rows=(*undo, *rows), silent=True)


def ask_out(client: str, limit: Limit, catalogue: Mapping[str, Exercise], buttons: Buttons) -> Message:
    """Ask once more before a limit is taken out."""
    return Message(
        f"Take this out for <b>{escape(client)}</b>?\n\n{escape(limit_line(limit, catalogue))}\n\n"
        f"Only when {BY[limit.by]} says that it is over. It frees the next card, not the one that is out.",
        rows=(
            (
                buttons.one("Yes, take it out", Action.RELEASE, limit.row_id),
                buttons.one("Keep it", Action.BACK),
            ),
        ),
        silent=True,
    )


def cancelled() -> Message:
    """Say that nothing was kept."""
    return Message(f"{KEPT_NOTHING}", silent=True)


def closed() -> Message:
    """Say of an older list that there is a newer one."""
    return Message("There is a newer list. /limit shows it with the name behind it.", silent=True)


def holds_now(limits: Sequence[Limit], card: Sequence[OnCard]) -> str:
    """Tell a client why her card has less now, or other exercises."""
    is_other = any(each.now is not None and each.now.key != each.exercise.key for each in card)
    return f"{'Changed' if is_other else 'Less'} now: a limit set by your {limits[0].by.value}."


def held(
    client: str, card: Sequence[OnCard], coming: Sequence[Change], catalogue: Mapping[str, Exercise]
) -> str:
    """Tell a coach that limits hold, and what they have done: on the card that is out, and from the next one on."""
    parts = ["It holds now."]
    if card:
        parts.append(f"On the card that is out: {'; '.join(map(_on_card, card))}.")
    if coming:
        parts.append("\n".join(["From the next card on:", *(_change(each, catalogue) for each in coming)]))
        name = escape(in_sentence(catalogue[coming[0].exercise].name))
        parts.append(f"Another one instead: <code>{escape(client)}: swap {name} for …</code>")
    return "\n\n".join(parts)


def _on_card(each: OnCard) -> str:
    name = escape(in_sentence(each.exercise.name))
    if each.now is None:
        return f"{name} left out"
    same = each.now.key == each.exercise.key
    return f"less of {name}" if same else f"{name} → {escape(in_sentence(each.now.name))}"


def taken_out(back: Sequence[Change], catalogue: Mapping[str, Exercise]) -> str:
    """Tell a coach that a limit is out, and what is done as written again."""
    names = ", ".join(escape(in_sentence(catalogue[each.exercise].name)) for each in back)
    return f"Taken out. The next card goes without it.{f' As written again: {names}.' if names else ''}"


def undone(*, on_card: bool) -> str:
    """Tell a coach that limits are taken back as a slip."""
    card = "The card that is out is as before, but for what was begun."
    return f"Taken back, as if never said.{f' {card}' if on_card else ''}"


LIFTED_NOW = "As before: your coach has taken the limit back."
