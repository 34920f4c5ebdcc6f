"""Four sets with loads of their own, on the card and as a reply to type."""

from bot.render.set_plans import plan_example, plan_lines
from core.loads.outcome import LastSet, PlannedSet, SetPlan
from core.programme.exercises import Basis
from core.programme.prescription import Load

PLAN = SetPlan(
    table="APRE 6",
    sets=(
        PlannedSet(load=Load.of(50), reps=10),
        PlannedSet(load=Load.of(75), reps=6),
        PlannedSet(load=Load.of(100), reps=6, to_limit=True),
    ),
    last=(
        LastSet(reps_from=0, load=Load.of(95)),
        LastSet(reps_from=3, load=Load.of("97.5")),
        LastSet(reps_from=4, load=Load.of(100)),
        LastSet(reps_from=8, load=Load.of("102.5")),
    ),
)


def test_a_plan_says_each_set_and_the_last_by_what_the_third_gave() -> None:
    assert plan_lines(PLAN, Basis.TOTAL) == (
        "APRE 6: 10 × 50 kg, 6 × 75 kg\n"
        "Set 3: as many good reps as you can at <b>100 kg</b>\n"
        "Set 4, again as many as you can, by the reps of set 3: "
        "0–2: 95 kg, 3: 97.5 kg, 4–7: 100 kg, 8 or more: 102.5 kg"
    )


def test_loads_of_a_hand_are_said_as_such_and_one_load_for_any_reps_too() -> None:
    alike = PLAN.model_copy(update={"last": PLAN.last[:1]})

    assert plan_lines(alike, Basis.PER_HAND) == (
        "APRE 6: 10 × 50 kg a hand, 6 × 75 kg a hand\n"
        "Set 3: as many good reps as you can at <b>100 kg a hand</b>\n"
        "Set 4, again as many as you can, by the reps of set 3: any, 95 kg"
    )


def test_the_example_has_every_set_with_its_load() -> None:
    assert plan_example(PLAN) == "50x10, 75x6, 100x6, 100x6"
