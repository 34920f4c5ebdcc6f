"""Place today, in words: where a session is done, and what that changes."""

import re
from collections.abc import Sequence
from html import escape

from bot.messages import Action, Button, Message
from bot.render.exercise_names import in_sentence
from bot.render.session_lines import at_place, head
from bot.render.session_views import SessionView
from core.programme.exercises import Exercise

KIND = Action.PICK
ANY = ""
"""What is meant where only another place is: which one is asked."""
KINDS = ("Bar and plates", "Dumbbells", "Both", "Only my bodyweight")
"""As at joining, in the order of `bot.usecases.kit_known.KINDS`."""

_KIND_WORDS = {
    1: ("bar", "bar and plates", "barbell", "plates"),
    2: ("dumbbells", "dumbbell"),
    3: ("both", "all", "everything"),
    4: ("bodyweight", "only my bodyweight", "nothing", "none", "body weight"),
}
_ELSEWHERE = frozenset(
    {"elsewhere", "somewhere else", "at another gym", "another gym", "hotel", "at a hotel"}
)
_ANY = frozenset({"place", "another place", "other place", "where", "place today"})
_AT = re.compile(
    r"(?:i am |i'm |im |training |today )*(?:at|in|back at) (?:the |my )?(?P<name>.+?)(?: today)?"
)
_ALONE = re.compile(r"(?:the )?(?P<name>.+?)(?: today)?")


def place_meant(text: str, known: Sequence[str], *, alone: bool) -> str | None:
    """Return the place that words mean: `at home`, `I'm at the gym today`, `elsewhere`; None for other words.

    Args:
        text: As typed.
        known: Places that can be named, as they are kept.
        alone: True where a place is asked for, so that its name alone is enough; else `home` alone says nothing.
    """
    words = " ".join(text.casefold().replace("’", "'").strip(" .!").split())
    plain = re.sub(r"^(?:i am |i'm |im |training )", "", re.sub(r" today$", "", words))
    if plain in _ELSEWHERE:
        return "elsewhere"
    if words in _ANY:
        return ANY
    found = _AT.fullmatch(words) or (_ALONE.fullmatch(words) if alone else None)
    name = found["name"] if found is not None else ""
    return next((each for each in known if each.casefold() in (name, f"my {name}", f"the {name}")), None)


def kind_meant(text: str) -> int | None:
    """Return which kind of kit typed words mean, from 1; None for other words."""
    words = " ".join(text.casefold().strip(" .!").split())
    return next((number for number, named in _KIND_WORDS.items() if words in named), None)


def place_screen(view: SessionView) -> Message:
    """Ask where the session is done today."""
    rows = tuple((each,) for each in place_buttons(view))
    return Message(
        f"{head(view)}\n\nWhere do you train today? Tap, or type it, like <code>at home</code>. "
        "I fit what is still to do to what is there. What you have logged stays.",
        rows=(*rows, (view.button("Back", Action.BACK),)),
    )


def place_buttons(view: SessionView) -> tuple[Button, ...]:
    """Return a button for each place but the one where she is."""
    return tuple(
        view.button(name.capitalize(), Action.PLACE, number)
        for number, name in enumerate(view.places, 1)
        if name != view.place
    )


def kind_screen(view: SessionView) -> Message:
    """Ask what there is at a place of which nothing is known."""
    name = view.place_asked
    where = at_place(name) if name else "there"
    more = (
        " For today only."
        if name == "elsewhere"
        else f" <code>/kit {escape(name)}:</code> takes all of it, when there is time."
    )
    rows = tuple((view.button(label, KIND, number),) for number, label in enumerate(KINDS, 1))
    return Message(
        f"{head(view)}\n\nWhat is there to lift {where}?{more}",
        rows=(*rows, (view.button("Back", Action.BACK),)),
    )


def there_already(place: str) -> str:
    """Say that the session is at that place already."""
    return f"It is set for today {at_place(place)} already."


def fitted(
    place: str,
    others: Sequence[tuple[str, Exercise]],
    gone: Sequence[tuple[str, Exercise]],
    *,
    machines: bool,
) -> str:
    """Say what a place has changed.

    Args:
        place: Where.
        others: Order and exercise of what is another one than before.
        gone: Order and exercise of what cannot be done there.
        machines: True where the load of a machine must be found there.
    """
    lines = [f"Set for today {at_place(place)}."]
    if others:
        lines.append(f"Now {_named(others)}.")
    if gone:
        lines.append(f"Not there, so left out: {_named(gone)}.")
    if machines:
        lines.append("A machine here is another one than yours: find its load anew.")
    return " ".join(lines)


def _named(exercises: Sequence[tuple[str, Exercise]]) -> str:
    return ", ".join(f"{order} {escape(in_sentence(exercise.name))}" for order, exercise in exercises)
