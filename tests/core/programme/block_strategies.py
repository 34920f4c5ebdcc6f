"""Blocks drawn at random, as a coach might have written them, with every form there is; a helper of tests."""

from decimal import Decimal

from hypothesis import strategies as st

from core.programme.block import Block, Day, Line, Phase, Target, Weekday
from core.programme.block_sheet import day_key
from core.programme.catalogue import CATALOGUE
from core.programme.dose_fit import OVER_A_DISTANCE
from core.programme.drills import DRILLS
from core.programme.exercises import Basis, Exercise, Implement
from core.programme.prep import MOST
from core.programme.prescription import Dose, Load, LoadKind, PercentOf, Prescription, Rpe, Span
from core.programme.set_styles import SetStyle, StyleKind
from core.programme.way_cells import misfit
from core.programme.ways_up import BY_TABLE, TABLE_REPS, TABLE_SETS, WayKind, WayUp
from core.units import Mass, Unit

_LETTERS = st.characters(categories=("L", "N", "P", "S"))


def texts(longest: int) -> st.SearchStrategy[str]:
    """Return words with single spaces; a leading `=` would be a formula."""
    raw = st.text(st.one_of(_LETTERS, st.just(" ")), min_size=1, max_size=longest)
    return raw.map(lambda text: " ".join(text.split())).filter(lambda text: text and not text.startswith("="))


spans = st.tuples(st.integers(1, 60), st.integers(0, 40)).map(lambda pair: Span(low=pair[0], high=sum(pair)))
masses = st.builds(
    Mass,
    st.integers(1, 40_000).map(lambda hundredths: Decimal(hundredths) / 100),
    st.sampled_from(Unit),
)
percents = st.integers(60, 210).map(lambda halves: Decimal(halves) / 2)
bands = st.from_regex(r"[a-z0-9]{1,8}([ -][a-z0-9]{1,8}){0,2}", fullmatch=True).map(Load.banded)
efforts = st.one_of(
    st.just({}),
    st.integers(0, 5).map(lambda left: {"left": left}),
    st.tuples(st.integers(0, 4), st.integers(1, 4)).map(
        lambda pair: {"left": pair[0], "left_high": min(5, sum(pair))}
    ),
    st.tuples(st.integers(12, 20), st.integers(0, 4)).map(lambda pair: _by_rpe(pair[0], sum(pair))),
)


def _by_rpe(low: int, high: int) -> dict[str, object]:
    rpe = Rpe(low=Decimal(low) / 2, high=Decimal(min(high, 20)) / 2)
    fewest, most = rpe.left
    return {"rpe": rpe, "left": fewest, "left_high": None if fewest == most else most}


def loads(exercise: Exercise) -> st.SearchStrategy[Load | None]:
    """Return loads counted as the exercise is."""
    if exercise.implement is Implement.BAND:
        return st.one_of(st.none(), st.just(Load.find()), bands)
    if exercise.basis is Basis.BODYWEIGHT:
        signed = st.tuples(masses, st.sampled_from([1, -1])).map(lambda pair: pair[0] * pair[1])
        some = st.one_of(st.none(), signed).map(Load.bodyweight)
    else:
        some = masses.map(lambda mass: Load.of(mass.value, mass.unit))
        some |= st.builds(Load.share, percents, st.sampled_from(PercentOf))
    return st.one_of(st.none(), st.just(Load.find()), some, masses.map(Load.up))


@st.composite
def counts(draw: st.DrawFn, exercise: Exercise) -> dict[str, object]:
    """Draw what a set of an exercise is counted in, with its kind of sets."""
    ascending = draw(st.sampled_from([None, SetStyle(kind=StyleKind.ASCENDING)]))
    if exercise.pattern in OVER_A_DISTANCE and draw(st.booleans()):
        return {"metres": draw(spans), "style": ascending}
    if exercise.timed:
        return {"seconds": draw(spans), "style": ascending}
    form = draw(st.sampled_from(["reps", "open", "more", "portion", "down", "pause", "cluster"]))
    span, few = draw(spans), draw(st.integers(1, 60))
    fixed = Span(low=few, high=few)
    pause_s = draw(st.none() | st.integers(5, 60))
    if form == "open":
        return {"to_left": True, "left": 2}
    if form == "more":
        return {"reps": fixed, "or_more": True, "style": ascending}
    if form == "portion":
        portion, times = draw(st.integers(1, 6)), draw(st.integers(2, 5))
        whole = Span(low=portion * times, high=portion * (times + draw(st.integers(0, 3))))
        return {"reps": whole, "portion": portion, "each_side": True}
    if form == "down":
        drop = draw(st.none() | st.integers(10, 100).map(lambda halves: Decimal(halves) / 2))
        return {
            "reps": span,
            "style": SetStyle(kind=StyleKind.DESCENDING, steps=draw(st.integers(1, 5)), drop=drop),
        }
    if form == "pause":
        return {"reps": span, "style": SetStyle(kind=StyleKind.REST_PAUSE, pause_s=pause_s)}
    if form == "cluster":
        parts = tuple(draw(st.lists(st.integers(1, 20), min_size=2, max_size=5)))
        whole = Span(low=sum(parts), high=sum(parts))
        return {"reps": whole, "style": SetStyle(kind=StyleKind.CLUSTER, parts=parts, pause_s=pause_s)}
    return {"reps": span, "style": ascending}


@st.composite
def doses(draw: st.DrawFn, exercise: Exercise) -> Dose:
    """Draw a dose of an exercise whose parts fit each other."""
    counted = draw(counts(exercise))
    load = draw(loads(exercise))
    if load is not None and load.kind is LoadKind.PERCENT and ("metres" in counted or "seconds" in counted):
        load = None
    given = {
        "sets": draw(st.integers(1, 20)),
        "load": load,
        "each_side": exercise.each_side or draw(st.booleans()),
        **draw(efforts),
    }
    if counted.get("to_left") and given.get("left") is None:
        given["left"] = 2
    counted.pop("left", None)
    dose = Dose.model_validate(given | counted)
    loaded = exercise.basis is not Basis.BODYWEIGHT and exercise.implement is not Implement.BAND
    if loaded and not exercise.timed and draw(st.integers(0, 5)) == 0:
        return _by_table(draw(st.sampled_from(sorted(BY_TABLE))), dose)
    way = draw(st.none() | ways(exercise))
    against = way is not None and misfit(way, dose, exercise.key, loaded=loaded)
    return dose if way is None or against else dose.model_copy(update={"way": way})


def _by_table(kind: WayKind, dose: Dose) -> Dose:
    """Return the sets of a table, with the load of a dose where that says nothing of how it goes on."""
    reps = Span(low=TABLE_REPS[kind], high=TABLE_REPS[kind])
    says = dose.load is not None and dose.load.kind in (LoadKind.PERCENT, LoadKind.UP)
    load = None if says else dose.load
    return Dose(sets=TABLE_SETS, reps=reps, load=load, each_side=dose.each_side, way=WayUp(kind=kind))


@st.composite
def ways(draw: st.DrawFn, exercise: Exercise) -> WayUp:
    """Draw a way up; a path has the exercise in it."""
    kind = draw(st.sampled_from(WayKind))
    if kind is not WayKind.VARIANTS:
        return WayUp(kind=kind)
    others = st.lists(st.sampled_from(sorted(CATALOGUE)), min_size=1, max_size=4, unique=True)
    keys = [key for key in draw(others) if key != exercise.key] or [
        "push-up" if exercise.key != "push-up" else "dip"
    ]
    return WayUp(kind=kind, path=tuple(draw(st.permutations([*keys, exercise.key]))))


@st.composite
def prescriptions(draw: st.DrawFn, order: str) -> Prescription:
    """Draw a prescription for a place in the session."""
    exercise = CATALOGUE[draw(st.sampled_from(sorted(CATALOGUE)))]
    return Prescription(
        order=order,
        exercise=exercise.key,
        dose=draw(doses(exercise)),
        rest_s=draw(st.none() | st.integers(0, 1200)),
        tempo=draw(st.none() | st.text("0123456789X", min_size=3, max_size=4)),
        cue=draw(st.none() | texts(200)),
        instead=tuple(draw(st.lists(st.sampled_from(sorted(CATALOGUE)), max_size=3))),
        link=draw(
            st.none() | st.sampled_from(["https://clips.example/step-down", "http://a.example:8080/?v=1"])
        ),
    )


@st.composite
def days(draw: st.DrawFn, name: str, weeks: int, lighter: frozenset[int]) -> Day:
    """Draw a day; each place in the session is taken once."""
    orders = draw(
        st.lists(st.from_regex(r"[A-Z][1-9]?", fullmatch=True), min_size=1, max_size=4, unique=True)
    )
    lines = tuple(
        Line(
            weeks=draw(st.frozensets(st.integers(1, weeks), min_size=1)),
            prescription=draw(prescriptions(order)),
        )
        for order in orders
    )
    prep = draw(st.none() | st.lists(st.sampled_from(sorted(DRILLS)), max_size=MOST, unique=True).map(tuple))
    return Day(key=day_key(name), name=name, lines=lines, lighter_weeks=lighter, prep=prep)


@st.composite
def targets(draw: st.DrawFn, weeks: int) -> Target:
    """Draw what a lift is to reach."""
    loaded = sorted(key for key, row in CATALOGUE.items() if row.implement is not Implement.BAND)
    exercise = CATALOGUE[draw(st.sampled_from(loaded))]
    plain = loads(exercise).filter(
        lambda load: load is not None and load.kind in (LoadKind.MASS, LoadKind.BODYWEIGHT)
    )
    return Target(
        exercise=exercise.key,
        load=draw(plain),
        reps=draw(st.integers(1, 100)),
        week=draw(st.integers(1, weeks)),
    )


@st.composite
def phases(draw: st.DrawFn, weeks: int) -> tuple[Phase, ...]:
    """Draw phases; no week is in two."""
    named = texts(40).filter(lambda text: ";" not in text and any(letter.isalnum() for letter in text))
    found = []
    left = list(range(1, weeks + 1))
    for name in draw(st.lists(named, max_size=3)):
        mine = draw(st.frozensets(st.sampled_from(left), min_size=1)) if left else frozenset()
        left = [week for week in left if week not in mine]
        if mine:
            found.append(Phase(name=name, weeks=mine))
    return tuple(found)


@st.composite
def blocks(draw: st.DrawFn) -> Block:
    """Draw a block."""
    weeks = draw(st.integers(1, 12))
    # A spreadsheet's cell of days is split at commas.
    day_names = texts(40).filter(lambda text: "," not in text and day_key(text) != "")
    names = draw(st.lists(day_names, min_size=1, max_size=4, unique_by=day_key))
    lighter = draw(st.frozensets(st.integers(1, weeks), max_size=3))
    testing = draw(st.frozensets(st.integers(1, weeks), max_size=2)) - lighter
    return Block(
        name=draw(texts(80)),
        weeks=weeks,
        week_starts=draw(st.sampled_from(Weekday)),
        days=tuple(draw(days(name, weeks, lighter)) for name in names),
        phases=draw(phases(weeks)),
        testing_weeks=testing,
        targets=tuple(draw(st.lists(targets(weeks), max_size=2))),
    )
