import pytest
from pydantic import ValidationError

from core.programme.prescription import Dose, Load, PercentOf, Prescription, Span
from core.programme.set_styles import SetStyle, StyleKind
from core.programme.ways_up import WayKind
from core.units import Mass

EIGHT = Span(low=8, high=8)


@pytest.mark.parametrize(
    ("load", "text"),
    [
        (Load.of("82.50"), "82.5 kg"),
        (Load.of(135, "lb"), "135 lb"),
        (Load.find(), "find"),
        (Load.bodyweight(), "bw"),
        (Load.bodyweight(Mass.of(0)), "bw"),
        (Load.bodyweight(Mass.of("2.5")), "bw+2.5 kg"),
        (Load.bodyweight(Mass.of(-20, "lb")), "bw-20 lb"),
        (Load.share("72.50", PercentOf.ESTIMATE), "72.5 % of estimate"),
        (Load.share(80, PercentOf.MAX), "80 % of max"),
        (Load.up(Mass.of("2.50")), "+2.5 kg from last time"),
        (Load.banded("light"), "light band"),
    ],
)
def test_a_load_is_shown_as_it_is_written(load: Load, text: str) -> None:
    assert str(load) == text


@pytest.mark.parametrize(("low", "high", "text", "fixed"), [(8, 8, "8", True), (8, 10, "8-10", False)])
def test_a_span_is_one_number_or_two(low: int, high: int, text: str, fixed: bool) -> None:
    span = Span(low=low, high=high)

    assert (str(span), span.fixed) == (text, fixed)


def test_a_span_that_runs_backwards_is_refused() -> None:
    with pytest.raises(ValidationError, match="fewer to more"):
        Span(low=10, high=8)


@pytest.mark.parametrize(("reps", "seconds"), [(None, None), (EIGHT, EIGHT)])
def test_a_dose_counts_one_thing(reps: Span | None, seconds: Span | None) -> None:
    with pytest.raises(ValidationError, match="one of reps, seconds and metres"):
        Dose(sets=3, reps=reps, seconds=seconds)


OPEN = Dose(sets=3, to_left=True, left=2)


@pytest.mark.parametrize(
    ("dose", "span", "told_by_tap"),
    [
        (Dose(sets=3, reps=EIGHT), EIGHT, True),
        (Dose(sets=3, seconds=EIGHT, load=Load.of(20)), EIGHT, True),
        (Dose(sets=3, metres=EIGHT), EIGHT, True),
        (OPEN, None, False),
        (Dose(sets=3, reps=EIGHT, or_more=True), EIGHT, False),
        (Dose(sets=3, reps=EIGHT, load=Load.find()), EIGHT, False),
        (Dose(sets=3, reps=EIGHT, load=Load.of(20), style=SetStyle(kind=StyleKind.ASCENDING)), EIGHT, False),
        (Dose(sets=3, reps=EIGHT, style=SetStyle(kind=StyleKind.ASCENDING)), EIGHT, True),
        (Dose(sets=1, reps=EIGHT, style=SetStyle(kind=StyleKind.DESCENDING, steps=2)), EIGHT, True),
    ],
)
def test_a_tap_says_all_of_it_only_where_nothing_is_open(
    dose: Dose, span: Span | None, told_by_tap: bool
) -> None:
    assert (dose.span, dose.told_by_tap) == (span, told_by_tap)


def test_a_prescription_has_the_way_up_of_its_dose() -> None:
    assert Prescription(order="A", exercise="dip", dose=OPEN).way_up.kind is WayKind.UNCHANGED


@pytest.mark.parametrize(
    ("load", "fields"),
    [
        (Load.of(80), {"kind": "mass", "mass": {"value": "80", "unit": "kg"}}),
        (Load.find(), {"kind": "find", "mass": None}),
        (Load.banded("light"), {"kind": "band", "mass": None, "band": "light"}),
        (
            Load.share(80, PercentOf.MAX),
            {"kind": "percent", "mass": None, "percent": "80", "percent_of": "max"},
        ),
    ],
)
def test_a_load_is_kept_with_what_it_has_and_comes_back(load: Load, fields: dict[str, object]) -> None:
    dose = Dose(sets=3, reps=EIGHT, load=load)

    assert dose.model_dump(mode="json")["load"] == fields
    assert Dose.model_validate_json(dose.model_dump_json()) == dose
