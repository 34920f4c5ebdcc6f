"""A coach's cues, in words."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from bot.messages import Action, Message
from bot.render.exercise_names import in_sentence
from bot.render.pain import place_words
from bot.render.setting_up import MOST_BUTTONS, PAGE, Buttons
from core.programme.exercises import Site

__all__ = ["Buttons", "CueView", "Unclear"]

OLD = "That button was from before. This is how things stand."
EXAMPLES = (
    "<code>/cue hip thrust: ribs down, chin tucked</code>\n"
    "<code>/cue Ada, hip thrust: ribs down</code>\n"
    "<code>/cue Ada, hip thrust, left knee: push the floor apart</code>\n"
    "<code>/cue low back: shorter range today</code>"
)


@dataclass(frozen=True, slots=True)
class CueView:
    """A cue as it is shown.

    Attributes:
        client: Name; None for all.
        exercise: Name; None for any.
        site: Where it hurts; None for a cue that is shown with the exercise.
        side: `L` or `R`; None for both.
        text: What the coach says.
    """

    client: str | None
    exercise: str | None
    site: Site | None
    side: str | None
    text: str

    @property
    def about(self) -> str:
        """What it is about, as it is typed: `Ada, hip thrust, left knee`."""
        place = place_words(self.site, self.side) if self.site is not None else None
        exercise = in_sentence(self.exercise) if self.exercise is not None else None
        return ", ".join(part for part in (self.client, exercise, place) if part)


@dataclass(frozen=True, slots=True)
class Unclear:
    """What of a line cannot be told.

    Attributes:
        written: As typed.
        near: Names of exercises that are like it.
        is_several: True when it may be more than one thing.
    """

    written: str
    near: tuple[str, ...] = ()
    is_several: bool = False


def how_to() -> Message:
    """Say how a cue is written."""
    return Message(
        f"What it is about, then a colon, then the cue:\n{EXAMPLES}\n\n"
        "Without a name it is for all your clients. With a place that can hurt it is said once when somebody "
        "reports 1 to 3 there. /cues lists them.",
        silent=True,
    )


def too_long(length: int, limit: int) -> Message:
    """Say that a cue does not fit on a card."""
    return Message(f"{length} characters; up to {limit} fit on a card. Nothing was kept.", silent=True)


def unclear(found: Unclear) -> Message:
    """Say what cannot be told of a line."""
    written = escape(found.written[:60])
    if found.is_several:
        return Message(
            f"“{written}” may be two things. Write the client's whole name, or the exercise's. Nothing was kept.",
            silent=True,
        )
    like = f" Did you mean {escape(' or '.join(found.near))}?" if found.near else ""
    return Message(
        f"I do not know what “{written}” is about: a client of yours, an exercise, a place that can hurt, in this "
        f"order, with commas between them.{like} Nothing was kept.\n{EXAMPLES}",
        silent=True,
    )


def kept(view: CueView, before: str | None, buttons: Buttons) -> Message:
    """Read a cue back, with the way to take it back."""
    lines = [f"{_about(view)}\n{escape(view.text)}", _when(view)]
    if before is not None:
        lines.append(f"In place of: {escape(before)}")
    lines.append(f"<code>/cues remove {escape(view.about)}</code> takes it back too.")
    return Message("\n".join(lines), rows=((buttons.one("Undo", Action.UNDO),),), silent=True)


def taken_back(view: CueView, before: str | None) -> Message:
    """Say that a cue no longer stands."""
    again = f"\nThe one before stands again: {escape(before)}" if before is not None else ""
    return Message(f"Taken back. {_about(view)}\n{escape(view.text)}{again}", silent=True)


def overtaken(view: CueView) -> Message:
    """Say of an older cue that others may have come since."""
    return Message(
        f"{_about(view)}\n{escape(view.text)}\n\nThis was settled before. /cues shows what stands.",
        silent=True,
    )


def none_about(view: CueView) -> Message:
    """Say that there is nothing to take back."""
    return Message(
        f"There is no cue for {escape(view.about)}. Nothing was changed. /cues lists those there are.",
        silent=True,
    )


def listed(views: Sequence[tuple[int, CueView]], buttons: Buttons, note: str | None) -> Message:
    """List the cues that stand, newest last, with a button to take each back."""
    top = f"{note}\n\n" if note else ""
    if not views:
        return Message(f"{top}No cue of yours stands.\n{EXAMPLES}", silent=True)
    shown: list[tuple[int, str]] = []
    for number, (row, view) in enumerate(views[-MOST_BUTTONS:], 1):
        line = f"\n{number}. {_about(view)}\n{escape(view.text)}"
        if len(top) + sum(len(text) for _, text in shown) + len(line) > PAGE:
            break
        shown.append((row, line))
    hidden = len(views) - len(shown)
    more = f"\n… and {hidden} more." if hidden else ""
    numbers = [
        buttons.one(f"Take back {number}", Action.PICK, row) for number, (row, _) in enumerate(shown, 1)
    ]
    rows = tuple(tuple(numbers[at : at + 3]) for at in range(0, len(numbers), 3))
    example = escape(views[-1][1].about)
    end = f"\n\nOr type it: <code>/cues remove {example}</code>"
    return Message(
        f"{top}<b>Your cues</b>{''.join(text for _, text in shown)}{more}{end}", rows=rows, silent=True
    )


def _about(view: CueView) -> str:
    whom = escape(view.client) if view.client is not None else "All clients"
    place = f"pain at the {place_words(view.site, view.side)}" if view.site is not None else None
    exercise = in_sentence(view.exercise) if view.exercise is not None else None
    rest = [escape(part) for part in (exercise, place) if part]
    return f"<b>{whom}, {', '.join(rest)}</b>"


def _when(view: CueView) -> str:
    if view.site is not None:
        return "I say it once when 1 to 3 of 10 is reported there, never from 4 on."
    if view.client is not None:
        return "It stands on the card from now on, in place of the block's own cue."
    return "It stands on the card from now on, where the block has no cue of its own."
