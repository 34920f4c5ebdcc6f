"""What there is to lift, in words: known, read back, and what of typed lines was not taken."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from html import escape

from bot.messages import Action, Message
from bot.render.setting_up import Buttons
from core.loads.kit import Kit, strays
from core.loads.kit_masses import MOST_MASS, MOST_PAIRS, Wrong
from core.loads.kit_words import KitProblem
from core.units import Mass, Unit, plain

__all__ = ["Buttons"]

FIRST = 3
"""Loads that are named from the light end before the heaviest. Our proposal: they show the step."""
EXAMPLES = (
    "bar 20",
    "plates 20x2 10x2 5x2 2.5x2 1.25x2",
    "collars 2.5 each",
    "dumbbells 2-30 by 2",
    "adjustable handles 2, plates 5x4 2.5x4",
    "kettlebells 8 12 16",
    "stack 5 to 100 by 5, add 2.5",
    "bands red, blue, black",
    "belt by 1.25",
    "safety arms yes",
    "alone no",
)
PAIRS = (
    "Plates, dumbbells and kettlebells count in pairs: 20x2 is two pairs of 20, so four plates; 20 without x is "
    "plenty. Of one alone: single dumbbells 16. Bands: the lightest first. "
    "A line says all there is of its kind; “none” says there is nothing."
)


@dataclass(frozen=True, slots=True)
class KitView:
    """The kit of a place as it is shown.

    Attributes:
        kit: What there is.
        lines: The same as lines that can be typed.
        is_kind_alone: True where only the kind of kit was said.
        bar: Loads on the usual bars, rising.
        hands: Loads in each hand, rising.
    """

    kit: Kit
    lines: tuple[str, ...]
    is_kind_alone: bool
    bar: tuple[Mass, ...]
    hands: tuple[Mass, ...]


def known(views: Sequence[KitView], whose: str | None, *, place: str | None = None) -> Message:
    """Show what is known, by place, and how to say more."""
    call = f"/kit {whose}" if whose else "/kit"
    several = place is None and len(views) > 1
    parts = [_known(view, usual=several and view is views[0]) for view in views]
    if not parts:
        parts = [f"Nothing is known of {escape(place or '')} yet."]
    usual = views[0].kit.place if views else place or "home"
    head = f"<b>What {escape(whose)} has to lift</b>" if whose else "<b>What you have to lift</b>"
    how = f"<code>{escape(call)}</code> alone says how to change it."
    if place is None or not views:
        how = (
            f"To change it: <code>{escape(_call(call, whose, usual))} bar 20</code>, one kind a line, "
            f"as many lines as you like:\n{_code(EXAMPLES)}\n{PAIRS}"
        )
    if several:
        where = _call(call, whose, views[1].kit.place)
        how = f"To make another place the usual one: <code>{escape(where)} usual</code>.\n\n{how}"
    return Message("\n\n".join([head, *parts, how]), silent=True)


def usual_now(place: str, before: str, whose: str | None) -> Message:
    """Say which place is usual now, and how to have the other one back."""
    of = f"{escape(whose)}, {escape(place)}" if whose else escape(place.capitalize())
    back = _call(f"/kit {whose}" if whose else "/kit", whose, before)
    return Message(
        f"<b>{of}</b>: the usual place, from the next card on. Back to the other: <code>{escape(back)} usual</code>.",
        silent=True,
    )


def usual_already(place: str, whose: str | None) -> Message:
    """Say that it is the usual place already."""
    of = f"{escape(whose)}, {escape(place)}" if whose else escape(place.capitalize())
    return Message(f"{of} is the usual place already.", silent=True)


def usual_for_coach(name: str, place: str) -> Message:
    """Tell a coach where a client trains from now on."""
    return Message(f"<b>{escape(name)}</b> trains at another place now: {escape(place)}.", silent=True)


def usual_by_coach(place: str, before: str) -> Message:
    """Tell a client which place her coach has made the usual one."""
    back = _call("/kit", None, before)
    return Message(
        f"Your coach has made {escape(place)} your usual place, from the next card on. "
        f"Not so? <code>{escape(back)} usual</code> takes it back.",
        silent=True,
    )


def _call(call: str, whose: str | None, place: str) -> str:
    return f"{call}, {place}:" if whose else f"{call} {place}:"


def _known(view: KitView, *, usual: bool = False) -> str:
    alone = "\nOnly the kind was said; these are the usual ones." if view.is_kind_alone else ""
    kind = ", the usual place" if usual else ""
    return (
        f"<b>{escape(view.kit.place.capitalize())}</b>{kind}, in {view.kit.unit}{alone}\n{_code(view.lines)}"
    )


def _code(lines: Sequence[str]) -> str:
    return "\n".join(f"<code>{escape(line)}</code>" for line in lines)


def how_to() -> Message:
    """Say how a coach asks for a client's kit, and says it."""
    return Message(
        "Whose kit? <code>/kit Ada</code> shows it; <code>/kit Ada: bar 20</code> says it, one kind a line; "
        "<code>/kit Ada, home: bar 15</code> is for one place.",
        silent=True,
    )


def no_place(text: str) -> Message:
    """Say that a place cannot be called that."""
    return Message(
        f"“{escape(text[:40])}” cannot be a place. Use a short name, like home or gym.", silent=True
    )


def asked(view: KitView, was: Sequence[str], whose: str | None, buttons: Buttons) -> Message:
    """Read back what was typed, with what it makes and what it replaces."""
    now = set(view.lines)
    new, gone = [line for line in view.lines if line not in was], [line for line in was if line not in now]
    of = f"{escape(whose)}, {escape(view.kit.place)}" if whose else escape(view.kit.place.capitalize())
    parts = [f"<b>{of}</b>. Is this right?", _code(new)]
    if gone:
        parts.append(f"In place of:\n{_code(gone)}")
    parts += [line for line in (_makes(view), _odd(view.kit)) if line]
    if any(line.startswith(("plates", "dumbbells", "kettlebells", "adjustable")) for line in new):
        parts.append(
            "Counted in pairs: 20x2 is two pairs of 20, so four plates. Of one alone write “single dumbbells 16”."
        )
    rows = ((buttons.one("Keep", Action.CONFIRM), buttons.one("Leave it", Action.CANCEL)),)
    return Message("\n\n".join(parts), rows=rows, silent=True)


def _makes(view: KitView) -> str:
    kit = view.kit
    plenty = any(one.pairs is None for one in kit.plates)
    parts = []
    if view.bar:
        parts.append(f"This makes {_loads(view.bar, plenty=plenty)} on the bar.")
    if view.hands:
        free = plenty and kit.handles is not None and not kit.handles.plates
        parts.append(f"In each hand: {_loads(view.hands, plenty=free)}.")
    return "\n".join(parts)


def _loads(loads: tuple[Mass, ...], *, plenty: bool) -> str:
    first = ", ".join(plain(mass.value) for mass in loads[: FIRST + 1])
    if len(loads) <= FIRST + 1:
        return f"{first} {loads[0].unit}"
    first = ", ".join(plain(mass.value) for mass in loads[:FIRST])
    return f"{first} {loads[0].unit} and so on" if plenty else f"{first} … {loads[-1]}"


def _odd(kit: Kit) -> str:
    found = [str(mass) for each in strays(kit) for mass in each.masses]
    return f"Not in {kit.unit}: {', '.join(dict.fromkeys(found))}." if found else ""


def nothing_new(view: KitView) -> Message:
    """Say that it stands so already."""
    return Message(
        f"{escape(view.kit.place.capitalize())}: I know that already. Nothing was changed.", silent=True
    )


def kept(view: KitView, whose: str | None) -> Message:
    """Say that it is kept, and from when it holds."""
    of = f"{escape(whose)}, {escape(view.kit.place)}" if whose else escape(view.kit.place.capitalize())
    return Message(
        f"<b>{of}</b>: kept. It holds from the next card on.\n{_code(view.lines)}",
        silent=True,
    )


def left() -> Message:
    """Say that nothing was kept."""
    return Message("Nothing was kept.", silent=True)


def settled() -> Message:
    """Say that this question is over."""
    return Message("This is settled. /kit shows how it stands.", silent=True)


def changed_meanwhile() -> Message:
    """Say that something else was kept since it was asked."""
    return Message(
        "Nothing was kept: something else was said meanwhile. /kit shows how it stands.", silent=True
    )


def for_coach(name: str, view: KitView) -> Message:
    """Tell a coach what a client has to lift now."""
    return Message(f"<b>{escape(name)}</b> has said what there is: {escape(view.kit.place)}.", silent=True)


def by_coach(view: KitView) -> Message:
    """Tell a client what her coach has written down."""
    return Message(
        f"Your coach has written down what there is to lift, {escape(view.kit.place)}:\n{_code(view.lines)}\n"
        "Not so? /kit changes it.",
        silent=True,
    )


def say_what_there_is(*, is_known: bool) -> Message:
    """Point at the command that takes what there is to lift."""
    first = (
        "/kit shows what I know you have"
        if is_known
        else "I know only the kind of your kit: /kit takes what it is"
    )
    return Message(f"{first}. For now, type what you can load.", silent=True)


def problems(found: Sequence[KitProblem], unit: Unit) -> Message:
    """Say what was not taken, line by line, and what would be right."""
    lines = [
        f"• <code>{escape(each.text)}</code>\n{_PROBLEMS[each.code](escape(each.fact), unit)}"
        for each in found
    ]
    head = "This line" if len(found) == 1 else f"These {len(found)} lines"
    return Message(f"{head} I cannot read for sure, so nothing was kept.\n\n" + "\n".join(lines), silent=True)


def _always(words: str) -> Callable[[str, Unit], str]:
    return lambda fact, unit: words.format(fact=fact, unit=unit)


_PROBLEMS: Mapping[Wrong, Callable[[str, Unit], str]] = {
    Wrong.WORD: _always(
        "Begin with what it is: bar, plates, dumbbells, kettlebells, stack, bands, belt. /kit shows all."
    ),
    Wrong.NUMBER: _always(
        "“{fact}” does not fit here. Write masses like 20 or 2.5, and a range like 2-30 by 2."
    ),
    Wrong.COMMA: _always("“{fact}” may be one number or several. Write 2.5, or 2, 5 with a space."),
    Wrong.ZERO: _always("Nothing weighs {fact}. Write “none” where there is none."),
    Wrong.HEAVY: _always(f"{{fact}} is more than {MOST_MASS}. Is a decimal point missing?"),
    Wrong.FINE: _always("No plate weighs {fact}. Write it as it is marked."),
    Wrong.STEP: _always("“{fact}” needs its steps. Write from, to and step: 2-30 by 2."),
    Wrong.OFF_STEP: _always("The last one does not lie on a step; the nearest below is {fact}."),
    Wrong.FALLS: _always("“{fact}” does not rise. Write the lightest first: 2-30 by 2."),
    Wrong.STEPS: _always("“{fact}” has too many steps. Is the step right?"),
    Wrong.MANY: _always("That is more than {fact} of a kind. Write fewer, or a range like 2-30 by 2."),
    Wrong.PAIRS: _always(
        f"“{{fact}}”: the mass comes first, then the pairs, 1 to {MOST_PAIRS}: 20x2. Without x it is plenty."
    ),
    Wrong.UNITS: _always("“{fact}”: kg or lb? Write the unit with every number of this line."),
    Wrong.ONE: _always("“{fact}” is not one mass. Write one, like 20 or 2.5 kg."),
    Wrong.EACH: _always("One, or both? Write “collars {fact} each” or “collars {fact} together”."),
    Wrong.TWICE: _always("“{fact}” is here twice. Say it once, all of it in one line."),
    Wrong.EXERCISE: _always("I know no exercise “{fact}”. Write its name as it stands on the card."),
    Wrong.YES_NO: _always("Write yes or no."),
    Wrong.EMPTY: _always("Something is missing. Write what there is, or “none”."),
    Wrong.PLACE: _always("“{fact}” cannot be the place here. Use one short name, like home or gym."),
    Wrong.BANDS: _always("Put a comma after each band, the lightest first: red, blue, black."),
    Wrong.NAME: _always("“{fact}” cannot be a name. Use a few letters, like light bar."),
}
