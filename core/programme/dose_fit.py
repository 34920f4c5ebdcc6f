"""Whether the cells of a row fit each other: sets, reps, load, reps left, the way up, and the exercise."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from core.programme import session_sheet as heading
from core.programme.count_cells import Count
from core.programme.effort_cells import Effort
from core.programme.exercises import Basis, Exercise, Implement, Pattern
from core.programme.prescription import Dose, Load, LoadKind
from core.programme.problems import Code
from core.programme.set_cells import Sets
from core.programme.set_styles import StyleKind
from core.programme.sheets import UnreadError
from core.programme.way_cells import misfit
from core.programme.ways_up import TABLE_REPS, WayUp

OVER_A_DISTANCE = frozenset({Pattern.CARRY, Pattern.LUNGE})
"""Patterns that may be done over a distance. Common practice, no source."""
OF_ONE_JOINT = frozenset(
    {
        Pattern.KNEE_EXTENSION,
        Pattern.KNEE_FLEXION,
        Pattern.CALF,
        Pattern.CURL,
        Pattern.ELBOW_EXTENSION,
        Pattern.RAISE,
        Pattern.SHRUG,
    }
)
"""Patterns that move one joint: descending sets are for these and for machines. Common practice, no source."""

Misfit = tuple[str, UnreadError]


@dataclass(frozen=True, slots=True)
class Cells:
    """What the cells of a row say; None where one is empty or could not be read.

    Attributes:
        exercise: Of the row.
        sets: Under Sets.
        count: Under Reps.
        load: Under Load.
        effort: Under Reps left.
        way: Under Way up.
        texts: As typed, by heading.
    """

    exercise: Exercise | None = None
    sets: Sets | None = None
    count: Count | None = None
    load: Load | None = None
    effort: Effort | None = None
    way: WayUp | None = None
    texts: Mapping[str, str] = field(default_factory=dict)


def misfits(cells: Cells) -> Iterator[Misfit]:
    """Yield what does not fit, each with the heading it stands under."""
    if cells.exercise is not None and cells.count is not None:
        yield from _counted_otherwise(cells, cells.exercise, cells.count)
    if cells.sets is not None:
        yield from _parts_astray(cells, cells.sets, cells.count)
    if cells.sets is not None and cells.count is not None:
        yield from _style_astray(cells, cells.sets, cells.count)
    if (
        cells.count is not None
        and cells.count.effort not in (None, cells.effort)
        and cells.effort is not None
    ):
        facts = {"written": cells.texts[heading.LEFT], "first": cells.texts.get(heading.REPS, "")}
        yield heading.LEFT, UnreadError(Code.LEFT_TWICE, **facts)


def _counted_otherwise(cells: Cells, exercise: Exercise, count: Count) -> Iterator[Misfit]:
    code = None
    if count.metres:
        code = None if exercise.pattern in OVER_A_DISTANCE else Code.METRES_NOT_FOR
    elif exercise.timed is not count.timed:
        code = Code.TIMED_GIVEN_REPS if exercise.timed else Code.COUNTED_GIVEN_TIME
    facts = {"exercise": exercise.name, "written": cells.texts.get(heading.REPS, "")}
    if code is not None:
        yield heading.REPS, UnreadError(code, **facts)
    if (count.metres or count.timed) and cells.load is not None and cells.load.kind is LoadKind.PERCENT:
        facts = {"exercise": exercise.name, "written": cells.texts[heading.LOAD]}
        yield heading.LOAD, UnreadError(Code.PERCENT_NEEDS_REPS, **facts)


def _parts_astray(cells: Cells, sets: Sets, count: Count | None) -> Iterator[Misfit]:
    if count is None:
        return
    written = cells.texts.get(heading.REPS, "")
    if sets.parts:
        yield heading.REPS, UnreadError(Code.PARTS_TWICE, written=written, first=cells.texts[heading.SETS])
    elif count.parts and sets.kind is not StyleKind.CLUSTER:
        yield heading.REPS, UnreadError(Code.PARTS_WITHOUT_CLUSTER, written=written)
    elif sets.kind is StyleKind.CLUSTER and not count.parts:
        yield heading.REPS, UnreadError(Code.CLUSTER_WITHOUT_PARTS, written=written)


def _style_astray(cells: Cells, sets: Sets, count: Count) -> Iterator[Misfit]:
    if sets.kind not in (StyleKind.DESCENDING, StyleKind.REST_PAUSE):
        return
    facts = {"written": cells.texts.get(heading.REPS, ""), "style": sets.kind.capitalize()}
    if count.timed or count.metres:
        yield heading.REPS, UnreadError(Code.STYLE_NEEDS_REPS, **facts)
    elif count.or_more:
        yield heading.REPS, UnreadError(Code.STYLE_WITH_OPEN_SET, **facts)


def on_compound(exercise: Exercise, dose: Dose) -> bool:
    """Return whether descending sets are asked of work that is neither a machine's nor of one joint."""
    descends = dose.style is not None and dose.style.kind is StyleKind.DESCENDING
    return descends and exercise.implement is not Implement.STACK and exercise.pattern not in OF_ONE_JOINT


def way_misfit(cells: Cells, dose: Dose, exercise: Exercise) -> Misfit | None:
    """Return why the way up does not fit the dose; None when it does."""
    if cells.way is None:
        return None
    loaded = exercise.basis is not Basis.BODYWEIGHT and exercise.implement is not Implement.BAND
    code = misfit(cells.way, dose, exercise.key, loaded=loaded)
    if code is None:
        return None
    facts = {"written": cells.texts[heading.WAY]}
    if code is Code.WAY_AGAINST_LOAD:
        facts["load"] = str(dose.load)
    if code in (Code.WAY_PATH_ELSEWHERE, Code.WAY_NEEDS_LOAD):
        facts["exercise"] = exercise.name
    if code is Code.WAY_NEEDS_ITS_REPS:
        facts["reps"] = str(TABLE_REPS[cells.way.kind])
    return heading.WAY, UnreadError(code, **facts)


def dose_of(sets: Sets, count: Count, cells: Cells, *, sided: bool) -> Dose:
    """Return the dose of cells that fit; one-sided work counts for each side whether or not that is written."""
    effort = cells.effort or count.effort or Effort()
    is_reps = not (count.timed or count.metres)
    return Dose(
        sets=sets.working,
        reps=count.span if is_reps else None,
        seconds=count.span if count.timed else None,
        metres=count.span if count.metres else None,
        to_left=count.span is None,
        or_more=count.or_more,
        portion=count.portion,
        load=cells.load,
        left=effort.left,
        left_high=effort.left_high,
        rpe=effort.rpe,
        each_side=count.each_side or sided,
        style=sets.style(sets.parts or count.parts),
        way=cells.way,
    )
