"""Blocks drawn at random, as a coach might have written them; a helper of tests."""

from decimal import Decimal

from hypothesis import strategies as st

from core.programme.block import Block, Day, Line, Weekday
from core.programme.block_sheet import day_key
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Basis, Exercise, Implement
from core.programme.prescription import Dose, Load, Prescription, Span
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


def loads(exercise: Exercise) -> st.SearchStrategy[Load | None]:
    """Return loads counted as the exercise is."""
    if exercise.implement is Implement.BAND:
        return st.sampled_from([None, Load.find()])
    if exercise.basis is Basis.BODYWEIGHT:
        signed = st.tuples(masses, st.sampled_from([1, -1])).map(lambda pair: pair[0] * pair[1])
        some = st.one_of(st.none(), signed).map(Load.bodyweight)
    else:
        some = masses.map(lambda mass: Load.of(mass.value, mass.unit))
    return st.one_of(st.none(), st.just(Load.find()), some)


@st.composite
def prescriptions(draw: st.DrawFn, order: str) -> Prescription:
    """Draw a prescription for a place in the session."""
    exercise = CATALOGUE[draw(st.sampled_from(sorted(CATALOGUE)))]
    span = draw(spans)
    dose = Dose(
        sets=draw(st.integers(1, 20)),
        reps=None if exercise.timed else span,
        seconds=span if exercise.timed else None,
        load=draw(loads(exercise)),
        left=draw(st.none() | st.integers(0, 5)),
        each_side=exercise.each_side or draw(st.booleans()),
    )
    return Prescription(
        order=order,
        exercise=exercise.key,
        dose=dose,
        rest_s=draw(st.none() | st.integers(0, 1200)),
        tempo=draw(st.none() | st.text("0123456789X", min_size=3, max_size=4)),
        cue=draw(st.none() | texts(200)),
        instead=tuple(draw(st.lists(st.sampled_from(sorted(CATALOGUE)), max_size=3))),
        link=draw(
            st.none() | st.sampled_from(["https://clips.example/step-down", "http://a.example:8080/?v=1"])
        ),
    )


@st.composite
def days(draw: st.DrawFn, name: str, weeks: int) -> Day:
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
    return Day(key=day_key(name), name=name, lines=lines)


@st.composite
def blocks(draw: st.DrawFn) -> Block:
    """Draw a block."""
    weeks = draw(st.integers(1, 12))
    # A spreadsheet's cell of days is split at commas.
    day_names = texts(40).filter(lambda text: "," not in text and day_key(text) != "")
    names = draw(st.lists(day_names, min_size=1, max_size=4, unique_by=day_key))
    return Block(
        name=draw(texts(80)),
        weeks=weeks,
        week_starts=draw(st.sampled_from(Weekday)),
        days=tuple(draw(days(name, weeks)) for name in names),
    )
