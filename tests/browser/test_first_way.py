"""A newcomer's first way, and the README's pictures of it."""

from io import BytesIO

import pytest
from browser.first_way import MAKE_ANEW, MOST_BYTES, PICTURES, FirstWay, kept
from house.tree import ROOT
from PIL import Image

README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_a_newcomer_gets_to_a_logged_set_and_a_digest_by_pressing_six_things(first_way: FirstWay) -> None:
    assert first_way.pressed == (
        "Maya",
        "All done as written",
        "Nothing hurts",
        "2",
        "Coach's digest",
        "Marit Halvorsen",
    )
    assert "Deadlift  done: 80 kg × 5 5 5" in first_way.logged
    assert "Maya" in first_way.digest


def test_she_needs_less_than_five_minutes(first_way: FirstWay) -> None:
    assert first_way.seconds < 300


def test_the_browser_has_nothing_to_complain_of(first_way: FirstWay) -> None:
    assert first_way.broken == ()


@pytest.mark.parametrize("name", ["session.png", "digest.png"])
def test_a_picture_of_the_readme_shows_what_the_page_shows_now(name: str, first_way: FirstWay) -> None:
    assert kept(name).text == first_way.pictures[name].text, f"Make the pictures anew: {MAKE_ANEW}"


@pytest.mark.parametrize("name", ["session.png", "digest.png"])
def test_a_picture_is_small_and_stands_in_the_readme_with_words_for_who_cannot_see_it(name: str) -> None:
    png = kept(name).png

    assert len(png) < MOST_BYTES
    assert Image.open(BytesIO(png)).format == "PNG"
    assert f"]({(PICTURES / name).relative_to(ROOT).as_posix()})" in README
