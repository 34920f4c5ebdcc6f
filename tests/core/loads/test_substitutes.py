from datetime import date

import pytest
from rows import each_row

from core.loads.equipment import default_kit
from core.loads.limits import Limit
from core.loads.substitutes import Against, Circumstances, Why, against, can_stand_in, substitutes
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Pattern
from core.programme.prescription import Load, Span
from core.programme.restrictions import Restriction
from core.programme.set_styles import SetStyle, StyleKind
from core.programme.sisters import INSTEAD, sisters
from core.units import Unit
from tests.core.programme.written import row

GYM, HANDS, NOTHING = (default_kit(kind, Unit.KG) for kind in ("both", "dumbbells", "bodyweight"))
SAFE = GYM.model_copy(update={"safety_arms": True})
DROPS = SetStyle(kind=StyleKind.DESCENDING, steps=1)


def at(*kits: object, new: bool = False, no: tuple[Restriction, ...] = ()) -> Circumstances:
    return Circumstances(kits=kits or (SAFE,), new=new, restrictions=frozenset(no))


def said(exercise: str, about: Circumstances, **dose: object) -> list[tuple[Against, dict[str, str]]]:
    asked = row(exercise, **dose).prescription
    return [(one.code, one.facts) for one in against(CATALOGUE[exercise], [asked], about)]


def test_what_stands_against_an_exercise_is_told_in_order_of_authority() -> None:
    about = at(HANDS, new=True, no=(Restriction.DEEP_KNEE, Restriction.SPINE_LOAD, Restriction.GRIP))

    assert said("front-squat", about, left=0) == [
        (Against.RESTRICTION, {"restriction": "no load on the spine"}),
        (Against.RESTRICTION, {"restriction": "no deep knee bend"}),
        (Against.KIT, {"lacks": "barbell", "place": "home"}),
        (Against.ALONE, {"left": "2"}),
        (Against.LEVEL, {}),
    ]


def limited(**what: object) -> Limit:
    return Limit.model_validate({"row_id": 1, "by": "doctor", "since": date(2026, 4, 6), **what})


@pytest.mark.parametrize(
    ("limit", "facts", "ruled_out", "first"),
    [
        ({"kind": "forbidden", "exercise": "back-squat"}, {}, "back-squat", "leg-press"),
        ({"kind": "restriction", "restriction": Restriction.OVERHEAD}, {}, "overhead-press", None),
        (
            {"kind": "forbidden", "pattern": "squat", "until": date(2026, 5, 1)},
            {"until": "2026-05-01"},
            "back-squat",
            None,
        ),
        ({"kind": "forbidden"}, {}, "push-up", None),
    ],
)
def test_what_a_clinician_rules_out_comes_first_and_nothing_that_he_rules_out_stands_in(
    limit: dict[str, object], facts: dict[str, str], ruled_out: str, first: str | None
) -> None:
    one = limited(**limit)
    about = at(no=(Restriction.GRIP,)).model_copy(update={"limits": (one,)})
    found = substitutes(CATALOGUE[ruled_out], (), about)

    assert said(ruled_out, about)[0] == (Against.LIMIT, {"by": "doctor", **facts})
    assert not any(one.bears_on(CATALOGUE[key]) for key in found)
    assert first is None or found[0] == first


def test_a_most_load_rules_nothing_out() -> None:
    one = limited(kind="most load", exercise="back-squat", mass={"value": "40", "unit": "kg"})

    assert said("back-squat", at().model_copy(update={"limits": (one,)})) == []


def test_where_a_clinician_names_what_to_avoid_its_sister_pattern_comes_first() -> None:
    one = limited(kind="restriction", restriction=Restriction.OVERHEAD)
    hers, his = at(no=(Restriction.OVERHEAD,)), at().model_copy(update={"limits": (one,)})

    assert substitutes(CATALOGUE["overhead-press"], (), his) == substitutes(
        CATALOGUE["overhead-press"], (), hers
    )


@pytest.mark.parametrize(
    ("exercise", "about"),
    [
        ("back-squat", at()),
        ("back-squat", at(no=(Restriction.GRIP,))),
        ("push-up", at(NOTHING, new=True)),
        ("band-row", at(NOTHING)),
        ("front-squat", at(SAFE, new=False)),
    ],
)
def test_nothing_stands_against_what_she_can_be_given(exercise: str, about: Circumstances) -> None:
    assert said(exercise, about, left=0) == []


@pytest.mark.parametrize(
    ("dose", "expected"),
    [
        ({}, False),
        ({"left": 2}, False),
        ({"left": 1}, True),
        ({"or_more": True}, True),
        ({"or_more": True, "left": 2}, False),
        ({"reps": None, "to_left": True, "left": 0}, True),
        ({"style": DROPS}, True),
    ],
)
def test_alone_under_a_bar_only_what_goes_to_the_limit_is_replaced(
    dose: dict[str, object], *, expected: bool
) -> None:
    told = [Against.ALONE] if expected else []
    with_somebody = GYM.model_copy(update={"usually_alone": False})

    assert [code for code, _ in said("bench-press", at(GYM), **dose)] == told
    assert said("bench-press", at(SAFE), **dose) == []
    assert said("bench-press", at(with_somebody), **dose) == []
    assert said("dumbbell-bench-press", at(GYM), **dose) == []


@pytest.mark.parametrize(
    ("exercise", "about", "expected"),
    [
        ("bench-press", at(SAFE), True),
        ("bench-press", at(GYM), False),
        ("bench-press", at(HANDS), False),
        ("dip", at(), True),
        ("dip", at(new=True), False),
        ("overhead-press", at(no=(Restriction.OVERHEAD,)), False),
    ],
)
def test_what_stands_in_is_loaded_allowed_for_her_level_and_safe(
    exercise: str, about: Circumstances, *, expected: bool
) -> None:
    assert can_stand_in(CATALOGUE[exercise], about) == expected


def test_what_its_coach_took_out_stands_in_for_nothing() -> None:
    assert not can_stand_in(CATALOGUE["push-up"].model_copy(update={"retired": True}), at())


def nearest(exercise: str, about: Circumstances, *instead: str, most: int = 3) -> tuple[str, ...]:
    return substitutes(CATALOGUE[exercise], instead, about)[:most]


@pytest.mark.parametrize(
    ("exercise", "about", "instead", "expected"),
    [
        # The coach's own first, then the catalogue's; what is likely there before what is not.
        ("back-squat", at(HANDS), (), ("goblet-squat", "split-squat", "bodyweight-squat")),
        ("back-squat", at(HANDS), ("leg-press", "step-up"), ("step-up", "goblet-squat", "split-squat")),
        ("pulldown", at(HANDS), (), ("one-arm-row", "dumbbell-pullover", "band-pulldown")),
        # Nothing of the pattern is left: its sister that the restriction names.
        ("overhead-press", at(no=(Restriction.OVERHEAD,)), (), ("incline-dumbbell-press", "push-up")),
        ("kettlebell-swing", at(no=(Restriction.LOADED_HINGE,)), (), ("hip-thrust", "dumbbell-hip-thrust")),
        # For trained people: the same pattern before another.
        ("box-jump", at(new=True), (), ("goblet-squat",)),
        ("pike-push-up", at(HANDS, new=True), (), ("dumbbell-overhead-press",)),
        ("dip", at(new=True), (), ("push-up",)),
        # Already there, unknown, or itself.
        ("back-squat", at(HANDS), ("back-squat", "gone", "goblet-squat"), ("goblet-squat",)),
    ],
)
def test_the_nearest_comes_first(
    exercise: str, about: Circumstances, instead: tuple[str, ...], expected: tuple[str, ...]
) -> None:
    assert nearest(exercise, about, *instead, most=len(expected)) == expected


def test_a_hold_stays_a_hold_unless_that_is_given_up() -> None:
    about = at(NOTHING, no=(Restriction.FLOOR,))

    assert nearest("plank", about) == ()
    assert substitutes(CATALOGUE["plank"], (), about, counted_alike=False)[0] == "band-pallof-press"


def test_nothing_explosive_stands_in_for_what_is_not() -> None:
    slow = [one for one in CATALOGUE.values() if one.pattern not in (Pattern.JUMP, Pattern.SWING)]

    for one in slow:
        found = [CATALOGUE[key] for key in substitutes(one, (), at(), counted_alike=False)]
        explosive = {row.key for row in found if row.pattern in (Pattern.JUMP, Pattern.SWING)}
        assert explosive <= set(one.equals)


def test_what_the_catalogue_lacks_is_passed_over() -> None:
    few = {key: CATALOGUE[key] for key in ("back-squat", "bodyweight-squat", "leg-extension")}

    assert substitutes(CATALOGUE["back-squat"], (), at(), few) == ("bodyweight-squat",)


@each_row("pattern", Pattern)
@each_row("restriction", Restriction)
def test_every_restriction_leaves_something_for_every_pattern(
    restriction: Restriction, pattern: Pattern
) -> None:
    about = at(no=(restriction,))
    rows = [one for one in CATALOGUE.values() if one.pattern is pattern and restriction in one.breaks]
    allowed = {pattern, *sisters(pattern), *INSTEAD.get(restriction, {}).values()}

    for one in rows:
        found = substitutes(one, (), about, counted_alike=False)
        assert found
        assert restriction not in CATALOGUE[found[0]].breaks
        assert CATALOGUE[found[0]].pattern in allowed or found[0] in one.equals


def test_a_reason_is_a_code_with_facts() -> None:
    asked = row("plank", reps=None, seconds=Span(low=30, high=30), load=Load.bodyweight()).prescription

    assert against(CATALOGUE["plank"], [asked], at(NOTHING, no=(Restriction.PRONE, Restriction.FLOOR))) == (
        Why(code=Against.RESTRICTION, facts={"restriction": Restriction.FLOOR.value}),
    )
