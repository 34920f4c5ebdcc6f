import pytest

from core.loads.looking_back import asked_dose, last_trained, least_asked
from core.programme.prescription import Dose, Span
from tests.core.loads.lifts import day, done, dose


def test_a_lift_was_last_trained_when_most_of_its_best_load_was_moved() -> None:
    what = dose(3, "5", "100")
    light, heavy = done(2, what, "5 5 5", loads="79 79 79"), done(9, what, "5 5 5")
    failed = done(1, what, "0", loads="100")
    bare = done(4, dose(3, "8", "bw"), "8 8 8")

    assert last_trained(()) is None
    assert last_trained((heavy, light, failed)) == day(9)
    assert last_trained((heavy, done(2, what, "5", loads="80"))) == day(2)
    assert last_trained((bare,)) == day(4)


def test_what_a_card_gave_counts_as_asked_for() -> None:
    written, given = dose(3, "6-8", "60"), dose(2, "7", "55", left=3)

    assert asked_dose(written, given) == dose(2, "6-8", "55", left=3)


@pytest.mark.parametrize(
    ("written", "given", "least"),
    [
        (dose(3, "6-8", "60"), dose(3, "7", "60"), None),
        (dose(3, "6-8", "bw"), dose(3, "4", "bw"), 4),
        (dose(3, "30", timed=True), dose(3, "20", timed=True), 20),
        (dose(3, "30", timed=True), dose(3, "8"), None),
        (
            Dose(sets=1, metres=Span(low=40, high=40)),
            Dose(sets=1, metres=Span(low=30, high=30)),
            30,
        ),
    ],
)
def test_fewer_than_written_on_a_card_is_kept(written: Dose, given: Dose, least: int | None) -> None:
    assert least_asked(written, given) == least
