from collections.abc import Mapping

import pytest
from examples import examples
from hypothesis import given
from hypothesis import strategies as st

from core.loads.equipment import Kit, default_kit, ladder_for
from core.loads.kit_fit import not_loadable
from core.loads.personalise import Change, Elsewhere, Personalised, may_choose, personalised
from core.loads.substitutes import Against, Circumstances, against
from core.programme.block import Block, Line, session_order
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Implement, Level
from core.programme.prescription import Load, Span
from core.programme.restrictions import Restriction
from core.units import Unit
from tests.core.programme.block_strategies import blocks
from tests.core.programme.written import block, day, one_day, row

GYM, HANDS, NOTHING = (default_kit(kind, Unit.KG) for kind in ("both", "dumbbells", "bodyweight"))
HOLD = Span(low=30, high=30)
NOT_DOWN = Restriction.FLOOR


def of(*kits: Kit, new: bool = False, no: tuple[Restriction, ...] = ()) -> Circumstances:
    return Circumstances(kits=kits or (GYM,), new=new, restrictions=frozenset(no))


def with_words(line: Line, **words: object) -> Line:
    return line.model_copy(update={"prescription": line.prescription.model_copy(update=words)})


def made(result: Personalised) -> list[tuple[str, str]]:
    return [
        (line.prescription.order, line.prescription.exercise)
        for one in result.block.days
        for line in one.lines
    ]


def placed(result: Personalised) -> dict[str, str | None]:
    return {one.exercise: one.instead for one in result.changes}


def test_what_fits_stays_as_it_was_written() -> None:
    asked = one_day(row("back-squat", load=Load.of(80)), row("plank", reps=None, seconds=HOLD))

    assert personalised(asked, of(GYM)) == Personalised(block=asked, changes=())


def test_what_the_kit_cannot_load_is_replaced_and_supersets_keep_their_order() -> None:
    asked = one_day(
        row("back-squat", load=Load.of(80), order="A"),
        row("leg-curl", order="B1"),
        row("push-up", order="B2"),
    )
    result = personalised(asked, of(HANDS))

    assert made(result) == [("A", "goblet-squat"), ("B1", "romanian-deadlift-dumbbell"), ("B2", "push-up")]
    squat, curl, push = (line.prescription for line in result.block.days[0].lines)
    assert (squat.dose.load, curl.dose.load) == (Load.find(), Load.find())
    assert push == asked.days[0].lines[2].prescription
    assert [(one.exercise, [why.code for why in one.why]) for one in result.changes] == [
        ("back-squat", [Against.KIT]),
        ("leg-curl", [Against.KIT]),
    ]


def test_words_about_the_written_exercise_do_not_go_with_another() -> None:
    words = {"cue": "Chest up.", "link": "https://example.org/squat", "tempo": "3010", "rest_s": 120}
    instead = {"instead": ("goblet-squat", "split-squat")}
    result = personalised(one_day(with_words(row("back-squat"), **words, **instead)), of(HANDS))

    asked = result.block.days[0].lines[0].prescription
    assert (asked.cue, asked.link, asked.tempo, asked.rest_s) == (None, None, "3010", 120)
    assert asked.instead == ("split-squat",)
    hold = personalised(
        one_day(with_words(row("back-squat"), **words)), of(), choices={"back-squat": "wall-sit"}
    )
    assert hold.block.days[0].lines[0].prescription.tempo is None


def test_the_coachs_own_equal_goes_first() -> None:
    line = with_words(row("back-squat"), instead=("leg-press", "step-up"))

    assert placed(personalised(one_day(line), of(HANDS))) == {"back-squat": "step-up"}


def test_an_exercise_of_several_days_is_replaced_by_the_same_one_on_all() -> None:
    asked = block(day("One", row("back-squat")), day("Two", row("back-squat"), row("goblet-squat")))

    result = personalised(asked, of(HANDS))

    assert made(result) == [("A", "split-squat"), ("A", "split-squat"), ("A", "goblet-squat")]


def test_nothing_comes_twice_in_a_session_while_something_else_is_left() -> None:
    asked = one_day(row("back-squat"), row("front-squat"), row("goblet-squat"))

    assert placed(personalised(asked, of(HANDS))) == {
        "back-squat": "split-squat",
        "front-squat": "bodyweight-squat",
    }
    few = {key: CATALOGUE[key] for key in ("back-squat", "goblet-squat")}
    assert placed(personalised(one_day(row("back-squat"), row("goblet-squat")), of(HANDS), few)) == {
        "back-squat": "goblet-squat"
    }


def test_what_cannot_be_placed_is_asked_with_what_is_likely() -> None:
    asked = one_day(row("plank", reps=None, seconds=HOLD), row("push-up"))
    result = personalised(asked, of(NOTHING, no=(NOT_DOWN,)))

    (question,) = result.asked
    assert (question.exercise, question.instead, question.open) == ("plank", None, True)
    assert question.likely == ("band-pallof-press", "hanging-knee-raise")
    assert made(result)[0] == ("A", "plank")


def test_where_nothing_at_all_is_left_the_question_offers_nothing() -> None:
    result = personalised(one_day(row("lateral-raise")), of(NOTHING, new=True, no=(Restriction.GRIP,)))

    assert [(one.exercise, one.likely) for one in result.asked] == [("lateral-raise", ())]


PLANK = one_day(row("plank", reps=None, seconds=HOLD), row("bodyweight-squat"))


@pytest.mark.parametrize(
    ("choices", "expected"),
    [
        ({"plank": None}, [("A", "bodyweight-squat")]),
        ({"plank": "band-pallof-press"}, [("A", "band-pallof-press"), ("A", "bodyweight-squat")]),
        # The floor is forbidden, so these count as no choice.
        ({"plank": "plank"}, [("A", "plank"), ("A", "bodyweight-squat")]),
        ({"plank": "side-plank"}, [("A", "plank"), ("A", "bodyweight-squat")]),
        ({"plank": "gone"}, [("A", "plank"), ("A", "bodyweight-squat")]),
        # Of what fits she may choose too.
        ({"bodyweight-squat": "sit-to-stand"}, [("A", "plank"), ("A", "sit-to-stand")]),
        ({"bodyweight-squat": None}, [("A", "plank")]),
        ({"bodyweight-squat": "bodyweight-squat"}, [("A", "plank"), ("A", "bodyweight-squat")]),
    ],
)
def test_what_the_coach_chose_is_done(
    choices: Mapping[str, str | None], expected: list[tuple[str, str]]
) -> None:
    assert made(personalised(PLANK, of(NOTHING, no=(NOT_DOWN,)), choices=choices)) == expected


def test_a_choice_carries_the_dose_over_even_to_what_is_counted_otherwise() -> None:
    result = personalised(PLANK, of(GYM, no=(NOT_DOWN,)), choices={"plank": "pallof-press"})

    dose = result.block.days[0].lines[0].prescription.dose
    assert (dose.reps, dose.seconds, dose.each_side) == (Span(low=8, high=8), None, True)
    (change,) = result.changes
    assert (change.chosen, change.open, change.kept) == (True, False, False)


def test_a_coach_may_keep_what_is_for_trained_people_or_goes_to_the_limit() -> None:
    asked = one_day(row("pike-push-up"), row("bench-press", left=0))
    about = of(GYM, new=True)

    assert placed(personalised(asked, about)) == {
        "pike-push-up": "dumbbell-overhead-press",
        "bench-press": "dumbbell-bench-press",
    }
    kept = personalised(asked, about, choices={"pike-push-up": "pike-push-up", "bench-press": "bench-press"})
    assert kept.block == asked
    assert [(one.exercise, one.kept) for one in kept.changes] == [
        ("pike-push-up", True),
        ("bench-press", True),
    ]


@pytest.mark.parametrize(
    ("key", "expected"),
    [(None, True), ("dip", True), ("bench-press", True), ("overhead-press", False), ("gone", False)],
)
def test_a_coach_may_choose_over_level_and_being_alone_but_over_no_limit(
    key: str | None, *, expected: bool
) -> None:
    about = of(GYM, new=True, no=(Restriction.OVERHEAD,))

    assert may_choose(key, "push-up", (), about, CATALOGUE) == expected
    assert not may_choose("leg-press", "back-squat", (), of(HANDS), CATALOGUE)


def test_what_is_lacking_at_another_place_is_told_and_changes_nothing() -> None:
    asked = one_day(row("back-squat"), row("dumbbell-bench-press"), row("push-up"))
    home = NOTHING.model_copy(update={"place": "home"})

    result = personalised(asked, of(GYM, HANDS, home))

    assert result == Personalised(
        block=asked,
        changes=(),
        elsewhere=(
            Elsewhere(place="home", exercises=("back-squat",)),
            Elsewhere(place="home", exercises=("back-squat", "dumbbell-bench-press")),
        ),
    )


ABOUT = st.builds(
    Circumstances,
    kits=st.lists(st.sampled_from([GYM, HANDS, NOTHING]), min_size=1, max_size=2).map(tuple),
    new=st.booleans(),
    restrictions=st.frozensets(st.sampled_from(Restriction), max_size=2),
)


def check(change: Change, asked: Block, about: Circumstances) -> None:
    """What is put in place of another can be loaded, allowed for her level and safe, and is never the other."""
    assert change.why
    if change.instead is None:
        assert change.open
        return
    put = CATALOGUE[change.instead]
    assert put.key != change.exercise
    assert put.implement is Implement.BAND or ladder_for(put, about.kit).steps
    assert not put.breaks & about.restrictions
    assert not (about.new and put.level is Level.TRAINED)
    assert not (about.alone and put.needs_safeties)
    assert put.timed == CATALOGUE[change.exercise].timed
    assert change.exercise in {line.prescription.exercise for one in asked.days for line in one.lines}


@examples(60)
@given(blocks(), ABOUT)
def test_what_is_put_in_its_place_can_be_done_and_the_same_comes_of_the_same(
    asked: Block, about: Circumstances
) -> None:
    result = personalised(asked, about)

    assert personalised(asked, about).model_dump_json() == result.model_dump_json()
    assert Personalised.model_validate_json(result.model_dump_json()) == result
    for change in result.changes:
        check(change, asked, about)
    left = {one.exercise for one in result.asked}
    assert set(not_loadable(result.block, about.kit)) <= left
    for before, after in zip(asked.days, result.block.days, strict=True):
        pairs = zip(before.lines, after.lines, strict=True)
        assert all(
            old.weeks == new.weeks and old.prescription.order == new.prescription.order for old, new in pairs
        )
        orders = [session_order(line.prescription.order) for line in before.lines]
        assert orders == [session_order(line.prescription.order) for line in after.lines]
        for line in after.lines:
            key = line.prescription.exercise
            if key not in left:
                assert against(CATALOGUE[key], [line.prescription], about) == ()
