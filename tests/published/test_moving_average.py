"""Averages that forget: a worked example of [NIST], the form of [Williams2017], and pandas beside both."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.loads.moving_average import moving_averages, smoothed
from core.sources import SOURCES, Mark

# [NIST] section 6.3.2.4: weight 0.3, starting from 50; data, and the average printed beside it. Secondary: the table
# as several public projects copy it.
NIST = [
    ("52.0", "50.60"),
    ("47.0", "49.52"),
    ("53.0", "50.56"),
    ("49.3", "50.18"),
    ("50.1", "50.16"),
    ("47.0", "49.21"),
    ("51.0", "49.75"),
    ("50.1", "49.85"),
    ("51.2", "50.26"),
    ("50.5", "50.33"),
    ("49.6", "50.11"),
    ("47.6", "49.36"),
    ("49.9", "49.52"),
    ("51.3", "50.05"),
    ("47.8", "49.38"),
    ("51.2", "49.92"),
    ("52.6", "50.73"),
    ("52.4", "51.23"),
    ("53.6", "51.94"),
    ("52.1", "51.99"),
]


@each_row("place", range(len(NIST)))
def test_the_worked_example(place: int) -> None:
    data = [Decimal(50), *(Decimal(each) for each, _ in NIST)]
    average = smoothed(data, Decimal("0.3"))[place + 1]

    assert SOURCES["NIST"].mark is Mark.SECONDARY
    assert average.quantize(Decimal("0.01")) == Decimal(NIST[place][1])


FORTNIGHT = [420, 0, 300, 0, 480, 200, 0] * 2
"""Our own days; the digits beside them are computed from the form."""


@pytest.mark.parametrize(
    ("span", "day", "average"),
    [
        (7, 1, "420.000"),
        (7, 2, "315.000"),
        (7, 3, "311.250"),
        (7, 4, "233.438"),
        (7, 5, "295.078"),
        (7, 6, "271.309"),
        (7, 7, "203.481"),
        (7, 14, "174.580"),
        (28, 14, "276.447"),
    ],
)
def test_days_of_training_in_the_printed_digits(span: int, day: int, average: str) -> None:
    found = moving_averages([Decimal(each) for each in FORTNIGHT], span)[day - 1]

    assert SOURCES["Williams2017"].mark is Mark.ABSTRACT
    assert found.value.quantize(Decimal("0.001")) == Decimal(average)


@pytest.mark.parametrize(("span", "weight"), [(7, "0.25"), (28, "0.0689655")])
def test_the_weight_of_a_new_day(span: int, weight: str) -> None:
    # From memory, and the same as the rule of pandas for a span.
    found = moving_averages([Decimal(0), Decimal(1)], span)[1].value

    assert found.quantize(Decimal(weight)) == Decimal(weight)


@pytest.mark.parametrize(
    ("span", "days", "percent"), [(7, 7, "13.3"), (7, 14, "1.8"), (28, 28, "13.5"), (28, 56, "1.8")]
)
def test_what_the_first_day_still_weighs(span: int, days: int, percent: str) -> None:
    found = moving_averages([Decimal(1), *[Decimal(0)] * days], span)[-1]

    assert (found.value * 100).quantize(Decimal("0.1")) == Decimal(percent)


@pytest.mark.parametrize(("span", "other"), [(7, 170.127), (28, 192.959)])
def test_the_default_of_pandas_is_another_average(span: int, other: float) -> None:
    import pandas as pd

    adjusted = pd.Series(FORTNIGHT, dtype="float64").ewm(span=span).mean().iloc[-1]

    assert adjusted == pytest.approx(other, abs=5e-4)
    assert float(moving_averages([Decimal(each) for each in FORTNIGHT], span)[-1].value) > adjusted + 4


@given(st.lists(st.integers(0, 2000), min_size=1, max_size=60), st.sampled_from([1, 3, 7, 28, 42]))
def test_every_series_as_pandas_has_it_without_adjusting(loads: list[int], span: int) -> None:
    import pandas as pd

    theirs = pd.Series(loads, dtype="float64").ewm(span=span, adjust=False).mean().tolist()

    ours = [float(one.value) for one in moving_averages([Decimal(each) for each in loads], span)]

    assert ours == pytest.approx(theirs, rel=1e-9, abs=1e-9)
