"""How a bar is made up and led up to, in words."""

from collections.abc import Iterator, Sequence
from html import escape

from bot.render.exercise_names import in_sentence
from bot.render.session_views import ItemView
from core.loads.bars import BarLoad
from core.loads.warmup import RampSet
from core.units import Mass, plain


def loading_lines(each: ItemView) -> Iterator[str]:
    """Say the ramp of an exercise, what stands against it, and how its bar is made up."""
    if each.ramp.bar_too_heavy:
        yield _too_heavy(each.lighter)
        return
    if each.plan is None and each.ramp.sets:
        yield f"Ramp: {_ramp(each.ramp.sets)}"
        low = [one.load for one in each.ramp.sets if one.low_bar]
        if low:
            yield f"At {_masses(low, ' and ')} the bar lies low: use full-size plates, or put it on blocks."
    if each.made is not None and (line := made_line(each.made, each.bars)):
        yield line


def _too_heavy(lighter: str | None) -> str:
    if lighter is None:
        return "The empty bar is too heavy for this. Tap Swap, or ask your coach."
    return f"The empty bar is too heavy for this. Do {escape(in_sentence(lighter))} instead: tap Swap."


def _ramp(sets: Sequence[RampSet]) -> str:
    return ", ".join(
        f"{one.load if number == 0 else plain(one.load.value)} × {one.reps}"
        for number, one in enumerate(sets)
    )


def made_line(made: BarLoad, bars: int) -> str:
    """Say the plates of a side, the collars where there are any, and which bar where there are several.

    Nothing is said of the empty bar where there is but one.
    """
    name = made.name if made.name and made.name != f"{made.bar} bar" else ""
    bar = f"the {escape(name)} ({made.bar})" if name else f"the {made.bar} bar"
    if not made.side:
        return f"Empty: {bar}" if bars > 1 else ""
    on = f", on {bar}" if bars > 1 else ""
    collars = f", collars on ({made.collars} both)" if made.collars is not None else ""
    return f"Plates a side: {_masses(made.side, ' + ')}{on}{collars}"


def _masses(masses: Sequence[Mass], between: str) -> str:
    """Write masses with their unit once, or with each where they are of two."""
    if len({mass.unit for mass in masses}) > 1:
        return between.join(str(mass) for mass in masses)
    return f"{between.join(plain(mass.value) for mass in masses)} {masses[0].unit}"
