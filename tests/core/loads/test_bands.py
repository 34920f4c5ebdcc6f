import pytest
from rows import each_row

from core.loads.bands import assists, easier_band, harder_band
from core.loads.equipment import Kit, ladder_for
from core.programme.catalogue import CATALOGUE, exercise
from core.programme.exercises import Implement
from core.units import Unit

KIT = Kit(place="home", unit=Unit.KG, bands=("loop", "light red", "strong"))
CURL, PULL_UP = exercise("band-curl"), exercise("band-assisted-pull-up")


@pytest.mark.parametrize(
    ("name", "harder", "easier"),
    [
        ("loop", "light red", None),
        ("light red", "strong", "loop"),
        (" Light Red", "strong", "loop"),
        ("strong", None, "light red"),
        ("blue", None, None),
    ],
)
def test_a_step_is_the_next_band_by_name(name: str, harder: str | None, easier: str | None) -> None:
    assert harder_band(name, CURL, KIT) == harder
    assert easier_band(name, CURL, KIT) == easier
    # Where a band takes load off, the lighter one is the harder one.
    assert harder_band(name, PULL_UP, KIT) == easier
    assert easier_band(name, PULL_UP, KIT) == harder


def test_only_where_a_body_hangs_in_it_does_a_band_take_load_off() -> None:
    assert [key for key, row in CATALOGUE.items() if assists(row)] == ["band-assisted-pull-up"]
    assert not assists(exercise("pull-up"))


@each_row("key", [key for key, row in CATALOGUE.items() if row.implement is Implement.BAND])
def test_no_load_is_ever_reckoned_of_a_band(key: str) -> None:
    assert ladder_for(exercise(key), KIT).steps == ()


def test_a_band_that_was_never_named_has_no_neighbours() -> None:
    assert harder_band("loop", CURL, Kit(place="home", unit=Unit.KG)) is None
