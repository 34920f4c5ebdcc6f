import pytest
from rows import each_row

from core.programme.catalogue import CATALOGUE, named
from core.programme.exercises import Exercise
from core.programme.prescription import Dose, Load, PercentOf, Span
from core.programme.problems import Code
from core.programme.set_styles import SetStyle, StyleKind
from core.programme.sheets import UnreadError
from core.programme.way_cells import misfit, way_of, way_text
from core.programme.ways_up import WORDS, WayKind, WayUp
from core.units import Mass

EIGHT, RANGE = Span(low=8, high=8), Span(low=8, high=12)


def known(text: str) -> Exercise:
    found = named(text)
    if found is None:
        raise UnreadError(Code.EXERCISE_UNKNOWN, written=text, suggestions="")
    return found


def way(kind: WayKind, *path: str) -> WayUp:
    return WayUp(kind=kind, path=path)


def name(key: str) -> str:
    return CATALOGUE[key].name


WAYS = [
    ("add reps, then load", way(WayKind.ADD_REPS)),
    ("Add Reps  then load.", way(WayKind.ADD_REPS)),
    ("reps, then load", way(WayKind.ADD_REPS)),
    ("load each week", way(WayKind.EACH_WEEK)),
    ("add load each week", way(WayKind.EACH_WEEK)),
    ("by reps left", way(WayKind.BY_LEFT)),
    ("by RIR", way(WayKind.BY_LEFT)),
    ("by the last set", way(WayKind.LAST_SET)),
    ("as written", way(WayKind.AS_WRITTEN)),
    ("unchanged", way(WayKind.UNCHANGED)),
    ("No change", way(WayKind.UNCHANGED)),
    ("all sets twice, then load", way(WayKind.DONE_TWICE)),
    ("add reps in all, then load", way(WayKind.TOTAL_REPS)),
    ("Total reps, then load", way(WayKind.TOTAL_REPS)),
    ("APRE 3", way(WayKind.APRE_3)),
    ("apre6", way(WayKind.APRE_6)),
    ("APRE 10.", way(WayKind.APRE_10)),
    ("DAPRE", way(WayKind.DAPRE)),
    ("DAPRE, later bands", way(WayKind.DAPRE_LATER)),
    ("easier to harder: Push-up > Dip", way(WayKind.VARIANTS, "push-up", "dip")),
    ("Variants: push ups, then dips", way(WayKind.VARIANTS, "push-up", "dip")),
    ("easier to harder: Push-up; Dip → Bench press", way(WayKind.VARIANTS, "push-up", "dip", "bench-press")),
]


@each_row(("text", "expected"), WAYS)
def test_a_way_up_is_read_and_written(text: str, expected: WayUp) -> None:
    assert way_of(text, known) == expected
    assert way_of(way_text(expected, name), known) == expected


def test_no_way_up_is_no_text() -> None:
    assert way_text(None, name) == ""


PROBLEMS = [
    ("somehow", "way_unreadable"),
    ("easier to harder", "way_unreadable"),
    ("easier to harder: Push-up", "way_unreadable"),
    ("easier to harder: Push-up >", "way_unreadable"),
    ("easier to harder: " + " > ".join(["Push-up"] * 7), "way_unreadable"),
    ("easier to harder: Push-up > Push ups", "way_path_twice"),
    ("easier to harder: Push-up > Flying", "exercise_unknown"),
]


@pytest.mark.parametrize(("text", "code"), PROBLEMS)
def test_what_is_no_way_up_is_a_problem(text: str, code: str) -> None:
    with pytest.raises(UnreadError) as caught:
        way_of(text, known)

    assert caught.value.code == code


def test_every_way_up_is_named_where_one_is_not_known() -> None:
    with pytest.raises(UnreadError) as caught:
        way_of("somehow", known)

    assert all(words in str(caught.value.facts["known"]) for words in WORDS.values())


def test_a_path_belongs_to_variants_alone() -> None:
    for kind, path in ((WayKind.VARIANTS, ("dip",)), (WayKind.UNCHANGED, ("dip", "push-up"))):
        with pytest.raises(ValueError, match="belongs to variants"):
            WayUp(kind=kind, path=path)


def dose(**fields: object) -> Dose:
    return Dose.model_validate({"sets": 3, "reps": EIGHT, **fields})


OPEN = Dose(sets=3, to_left=True, left=2)
CLUSTERS = dose(style=SetStyle(kind=StyleKind.CLUSTER, parts=(4, 4)))
SHARE, STEP = dose(load=Load.share(75, PercentOf.MAX)), dose(load=Load.up(Mass.of(5)))
PATH = ("push-up", "dip")
SIX = Span(low=6, high=6)
FOUR = dose(sets=4, reps=SIX, load=Load.of(100))
FITS = [
    (way(WayKind.AS_WRITTEN), SHARE, None),
    (way(WayKind.UNCHANGED), SHARE, "way_against_load"),
    (way(WayKind.EACH_WEEK), STEP, "way_against_load"),
    (way(WayKind.AS_WRITTEN), STEP, None),
    (way(WayKind.EACH_WEEK), OPEN, "way_with_open_reps"),
    (way(WayKind.UNCHANGED), OPEN, None),
    (way(WayKind.EACH_WEEK), CLUSTERS, "way_not_for_cluster"),
    (way(WayKind.AS_WRITTEN), CLUSTERS, None),
    (way(WayKind.VARIANTS, *PATH), dose(), None),
    (way(WayKind.VARIANTS, "bench-press", "dip"), dose(), "way_path_elsewhere"),
    (way(WayKind.ADD_REPS), dose(), "way_needs_range"),
    (way(WayKind.ADD_REPS), dose(reps=RANGE), None),
    (way(WayKind.ADD_REPS), dose(reps=None, metres=RANGE), None),
    (way(WayKind.DONE_TWICE), dose(reps=RANGE), "way_needs_fixed"),
    (way(WayKind.DONE_TWICE), dose(), None),
    (way(WayKind.LAST_SET), dose(), "way_needs_open"),
    (way(WayKind.LAST_SET), dose(or_more=True), None),
    (way(WayKind.BY_LEFT), dose(), "way_needs_left"),
    (way(WayKind.BY_LEFT), dose(reps=None, seconds=RANGE, left=2), "way_needs_left"),
    (way(WayKind.BY_LEFT), dose(left=2), None),
    (way(WayKind.EACH_WEEK), dose(), None),
    (way(WayKind.TOTAL_REPS), dose(), "way_needs_range"),
    (way(WayKind.TOTAL_REPS), dose(reps=RANGE), None),
    (way(WayKind.APRE_6), FOUR, None),
    (way(WayKind.DAPRE), dose(sets=4, reps=SIX, load=Load.find()), None),
    (way(WayKind.APRE_3), FOUR, "way_needs_its_reps"),
    (way(WayKind.APRE_6), dose(sets=3, reps=SIX), "way_needs_four_sets"),
    (
        way(WayKind.APRE_6),
        dose(sets=4, reps=SIX, style=SetStyle(kind=StyleKind.ASCENDING)),
        "way_needs_four_sets",
    ),
    (way(WayKind.APRE_6), dose(sets=4, reps=Span(low=6, high=8)), "way_needs_its_reps"),
    (way(WayKind.APRE_6), dose(sets=4, reps=SIX, or_more=True), "way_needs_its_reps"),
    (way(WayKind.APRE_6), dose(sets=4, reps=SIX, portion=3), "way_needs_its_reps"),
    (way(WayKind.APRE_6), dose(sets=4, reps=None, seconds=SIX), "way_needs_its_reps"),
    (way(WayKind.APRE_6), dose(sets=4, reps=SIX, left=2), "way_to_the_limit"),
    (way(WayKind.APRE_6), dose(sets=4, reps=SIX, load=Load.bodyweight()), "way_needs_load"),
    (way(WayKind.APRE_6), dose(sets=4, reps=SIX, load=Load.share(75, PercentOf.MAX)), "way_against_load"),
]


@each_row(("written", "given", "code"), FITS)
def test_a_way_up_fits_what_is_written_or_is_a_problem(written: WayUp, given: Dose, code: str | None) -> None:
    assert misfit(written, given, "push-up") == code


def test_a_table_needs_an_exercise_that_is_loaded() -> None:
    assert misfit(way(WayKind.APRE_6), FOUR, "push-up", loaded=False) == "way_needs_load"


DEFAULTS = [
    (dose(), WayKind.DONE_TWICE),
    (dose(reps=RANGE), WayKind.ADD_REPS),
    (dose(reps=None, seconds=EIGHT), WayKind.DONE_TWICE),
    (dose(reps=None, metres=RANGE), WayKind.ADD_REPS),
    (dose(or_more=True), WayKind.LAST_SET),
    (OPEN, WayKind.UNCHANGED),
    (SHARE, WayKind.AS_WRITTEN),
    (STEP, WayKind.AS_WRITTEN),
    (CLUSTERS, WayKind.AS_WRITTEN),
    (dose(way=WayUp(kind=WayKind.EACH_WEEK)), WayKind.EACH_WEEK),
]


@pytest.mark.parametrize(("given", "kind"), DEFAULTS)
def test_without_a_way_up_what_is_written_gives_it(given: Dose, kind: WayKind) -> None:
    assert given.way_up.kind is kind
