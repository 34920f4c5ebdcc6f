"""Four sets with loads of their own, as they are shown and as they are typed."""

from html import escape

from bot.render.loads import load_words
from core.loads.outcome import LastSet, SetPlan
from core.programme.exercises import Basis
from core.units import plain


def plan_lines(plan: SetPlan, basis: Basis) -> str:
    """Write a plan as HTML: the two sets before, the one to the limit, and the last one by what that gave."""
    before = ", ".join(f"{one.reps} × {load_words(one.load, basis)}" for one in plan.sets if not one.to_limit)
    full = next(one for one in plan.sets if one.to_limit)
    return (
        f"{escape(plan.table)}: {escape(before)}\n"
        f"Set 3: as many good reps as you can at <b>{escape(load_words(full.load, basis))}</b>\n"
        f"Set 4, again as many as you can, by the reps of set 3: {escape(_last(plan.last))}"
    )


def _last(rows: tuple[LastSet, ...]) -> str:
    """Write what set 4 is loaded with: `0–2 reps 95 kg, 3–4 97.5 kg, 5 or more 100 kg`."""
    if len(rows) == 1:
        return f"any, {rows[0].load}"
    said = []
    for one, following in zip(rows, (*rows[1:], None), strict=True):
        most = None if following is None else following.reps_from - 1
        reps = (
            f"{one.reps_from} or more"
            if most is None
            else str(most)
            if most == one.reps_from
            else f"{one.reps_from}–{most}"
        )
        said.append(f"{reps}: {one.load}")
    return ", ".join(said)


def plan_example(plan: SetPlan) -> str:
    """Return a reply that fits a plan: every set with its load, the last as after a third as asked."""
    full = next(one for one in plan.sets if one.to_limit)
    sets = [*((one.load, one.reps) for one in plan.sets), (plan.fourth(full.reps), full.reps)]
    return ", ".join(f"{plain(load.mass.value)}x{reps}" for load, reps in sets if load.mass is not None)
