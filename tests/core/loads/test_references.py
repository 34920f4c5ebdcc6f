from decimal import Decimal

import pytest
from rows import each_row

from core.loads.one_rep_max import Formula
from core.loads.past import Exposure
from core.loads.references import reference
from core.programme.prescription import Load, PercentOf
from core.programme.set_styles import SetStyle, StyleKind
from core.units import Mass
from tests.core.loads.lifts import decide, done, dose

ESTIMATE, MAX = PercentOf.ESTIMATE, PercentOf.MAX
FIVES = dose(1, "5", "90")
PAUSED = FIVES.model_copy(update={"style": SetStyle(kind=StyleKind.REST_PAUSE)})
RISING = FIVES.model_copy(update={"style": SetStyle(kind=StyleKind.ASCENDING)})

CASES = [
    # 90 x 5 with 3 left is eight to the limit: 90 x 38 / 30 = 114. Source: [Epley1985].
    (ESTIMATE, (done(2, FIVES, "5", left=3),), "114"),
    # Reps left that were not said count as none: 90 x 35 / 30 = 105.
    (ESTIMATE, (done(2, FIVES, "5"),), "105"),
    # The best of a session, and of the three newest that have one.
    (ESTIMATE, (done(2, FIVES, "5 5", loads="90 81"),), "105"),
    (ESTIMATE, (done(4, FIVES, "5", left=3), done(2, FIVES, "5")), "114"),
    (ESTIMATE, (done(8, FIVES, "5", left=3), *(done(ago, FIVES, "5") for ago in (6, 4, 2))), "105"),
    (ESTIMATE, (done(8, FIVES, "5", left=3), *(done(ago, FIVES, "20") for ago in (6, 4, 2))), "114"),
    # Nothing to go by: no sets, too many reps, none done, no load, pauses in the set, only bodyweight.
    (ESTIMATE, (), None),
    (ESTIMATE, (done(2, FIVES, "13"),), None),
    (ESTIMATE, (done(2, FIVES, "0"),), None),
    (ESTIMATE, (done(2, dose(1, "5"), "5"),), None),
    (ESTIMATE, (done(2, PAUSED, "5"),), None),
    (ESTIMATE, (done(2, dose(1, "5", "bw+10"), "5"),), None),
    (ESTIMATE, (done(2, dose(1, "30", "24", timed=True), "30"),), None),
    (ESTIMATE, (done(2, RISING, "5", left=3),), "114"),
    (MAX, (done(2, dose(1, "1", "120"), "1"),), "120"),
    (MAX, (done(9, dose(1, "1", "120"), "1"), done(2, FIVES, "5")), "120"),
    # Something heavier was done for more reps: the single was no maximum.
    (MAX, (done(9, dose(1, "1", "80"), "1"), done(2, FIVES, "5")), None),
    (MAX, (done(9, dose(1, "1", "80"), "1"), done(2, FIVES, "0")), "80"),
    (MAX, (done(2, FIVES, "5"),), None),
    (MAX, (done(2, dose(1, "1", "bw+10"), "1"),), None),
    (MAX, (), None),
]


@each_row(("of", "history", "expected"), CASES)
def test_what_a_percentage_is_of(of: PercentOf, history: tuple[Exposure, ...], expected: str | None) -> None:
    found = reference(history, of)

    assert found == (None if expected is None else Mass(Decimal(expected), found.unit if found else None))


def test_the_order_of_logging_does_not_matter() -> None:
    history = (done(4, FIVES, "5", left=3), done(2, FIVES, "5"))

    assert reference(history, ESTIMATE) == reference(history[::-1], ESTIMATE)


def test_one_formula_makes_all_that_is_held_against_each_other() -> None:
    history = (done(4, FIVES, "5", left=3), done(2, FIVES, "5"))

    # 90 x 36 / (37 - 8) and 90 x 36 / (37 - 5).
    assert str(reference(history, ESTIMATE, formula=Formula.BRZYCKI).rounded(Decimal("0.01"))) == "111.72 kg"
    assert reference(history[1:], ESTIMATE, formula=Formula.BRZYCKI) == Mass.of("101.25")


@pytest.mark.parametrize("load", ["100", "60", "97.5", "20", "142.5"])
def test_three_quarters_of_what_ten_reps_show_is_that_very_load(load: str) -> None:
    # 75 % of 100 x 4/3 is 100, and not 99.99999999999999999999999998, which the bar would make 97.5 of.
    before = dose(1, "10", load)
    written = before.model_copy(update={"load": Load.share(75, ESTIMATE)})

    assert decide("back-squat", written, done(4, before, "10")).load == Load.of(load)
