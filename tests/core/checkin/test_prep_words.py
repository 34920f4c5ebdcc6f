import pytest

from core.checkin.prep_words import PrepHeard, prep_heard
from core.programme.daily_prep import DailyPrep
from core.programme.exercises import Site

READ = [
    ("hips, low back", DailyPrep(sites=(Site.HIP, Site.LOW_BACK))),
    ("Hips and lower back", DailyPrep(sites=(Site.HIP, Site.LOW_BACK))),
    ("knee, 6 min", DailyPrep(sites=(Site.KNEE,), minutes=6)),
    ("left knee; about 4 minutes.", DailyPrep(sites=(Site.KNEE,), minutes=4)),
    ("ankle rock, hips", DailyPrep(sites=(Site.HIP,), drills=("ankle-rock",))),
    ("Cat and camel, Ankle rock", DailyPrep(drills=("cat-camel", "ankle-rock"))),
    ("hips, hip, hips", DailyPrep(sites=(Site.HIP,))),
]


@pytest.mark.parametrize(("text", "asked"), READ)
def test_places_drills_and_time_are_read(text: str, asked: DailyPrep) -> None:
    assert prep_heard(text) == PrepHeard(asked)


@pytest.mark.parametrize(
    ("text", "unread", "near"),
    [
        ("hips, foo", ("foo",), ("",)),
        ("ankel rock, bar", ("ankel rock", "bar"), ("Ankle rock", "")),
        ("back", ("back",), ("low back; upper back",)),
        ("hips, 16 min", ("16 min",), ("",)),
        ("hips, 0 min", ("0 min",), ("",)),
    ],
)
def test_what_is_not_understood_is_named_and_nothing_is_taken(
    text: str, unread: tuple[str, ...], near: tuple[str, ...]
) -> None:
    assert prep_heard(text) == PrepHeard(None, unread, near)


@pytest.mark.parametrize("text", ["", " , ", "5 min"])
def test_a_time_alone_asks_for_nothing(text: str) -> None:
    assert prep_heard(text) == PrepHeard(None)


def test_more_drills_than_fit_on_a_card_are_not_taken() -> None:
    names = "ankle rock, ankle circles, leg swing, open book, seated turn, wall slide, heel taps, easy squat"

    assert prep_heard(names).asked is not None
    assert prep_heard(f"{names}, arm turns").asked is None
