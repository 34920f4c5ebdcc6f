"""Muscles of the catalogue beside an anatomy text: [OpenStaxAP2e], chapter 11; section by row."""

from decimal import Decimal

import pytest
from rows import each_row

from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Pattern
from core.programme.muscles import Muscle
from core.sources import SOURCES, Mark

# What the text names as moving a joint so, in our groups, the chief mover first. The text speaks of the deltoid as a
# whole (it flexes, abducts and extends the arm); that the front, side and rear of it do so is from memory.
MOVERS = {
    "knee extension": [Muscle.QUADS],  # 11.6: quadriceps femoris
    "knee flexion": [Muscle.HAMSTRINGS, Muscle.CALVES],  # 11.6: hamstring group; gastrocnemius assists
    "hip extension": [
        Muscle.GLUTES,
        Muscle.HAMSTRINGS,
        Muscle.ADDUCTORS,
    ],  # 11.6: the adductor magnus assists
    "hip abduction": [Muscle.ABDUCTORS, Muscle.GLUTES],  # 11.6: gluteus medius, minimus, tensor; maximus
    "hip adduction": [Muscle.ADDUCTORS],  # 11.6: adductors longus, brevis and magnus
    "plantar flexion": [Muscle.CALVES],  # 11.6: gastrocnemius, soleus
    "elbows together": [Muscle.CHEST],  # 11.5: pectoralis major
    "elbows up": [Muscle.FRONT_DELTS, Muscle.CHEST],  # 11.5: deltoid; pectoralis major
    "arm aside": [Muscle.SIDE_DELTS],  # 11.5: deltoid, the major abductor
    "elbow back": [Muscle.LATS, Muscle.REAR_DELTS],  # 11.5: latissimus dorsi, teres major, deltoid
    "elbows apart": [Muscle.REAR_DELTS],  # from memory for the rear of the deltoid
    "blades together": [Muscle.UPPER_BACK],  # 11.5: trapezius, rhomboids
    "blades up": [Muscle.UPPER_BACK],  # 11.5: trapezius
    "elbow flexion": [Muscle.BICEPS, Muscle.FOREARMS],  # 11.5: biceps, brachialis, brachioradialis
    "elbow extension": [Muscle.TRICEPS],  # 11.5: triceps brachii, anconeus
    "wrist flexion": [Muscle.FOREARMS],  # 11.5: anterior compartment of the forearm
    "closing the hand": [Muscle.FOREARMS],  # 11.5: the same
    "spine flexion": [Muscle.ABDOMINALS],  # 11.4: rectus abdominis
    "spine aside or round": [Muscle.OBLIQUES],  # 11.4: obliques, quadratus lumborum
    "spine extension": [Muscle.SPINAL_ERECTORS],  # 11.3: erector spinae
}

# What the joints do in a pattern, or hold against: common practice, no source.
ACTIONS = {
    Pattern.SQUAT: ["knee extension", "hip extension"],
    Pattern.LUNGE: ["knee extension", "hip extension"],
    Pattern.STEP: ["knee extension", "hip extension"],
    Pattern.JUMP: ["knee extension", "hip extension", "plantar flexion"],
    Pattern.HINGE: ["hip extension", "spine extension"],
    Pattern.SWING: ["hip extension", "spine extension"],
    Pattern.BRIDGE: ["hip extension"],
    Pattern.KNEE_EXTENSION: ["knee extension"],
    Pattern.KNEE_FLEXION: ["knee flexion"],
    Pattern.HIP_ABDUCTION: ["hip abduction"],
    Pattern.HIP_ADDUCTION: ["hip adduction"],
    Pattern.CALF: ["plantar flexion"],
    Pattern.HORIZONTAL_PRESS: ["elbows together", "elbows up", "elbow extension"],
    Pattern.DIP: ["elbows together", "elbows up", "elbow extension"],
    Pattern.VERTICAL_PRESS: ["elbows up", "arm aside", "elbow extension"],
    Pattern.HORIZONTAL_PULL: ["elbow back", "blades together", "elbow flexion"],
    Pattern.VERTICAL_PULL: ["elbow back", "blades together", "elbow flexion"],
    Pattern.CURL: ["elbow flexion"],
    Pattern.ELBOW_EXTENSION: ["elbow extension"],
    Pattern.RAISE: ["arm aside"],
    Pattern.SHRUG: ["blades up"],
    Pattern.CARRY: ["closing the hand", "blades up", "spine aside or round"],
    Pattern.TRUNK: ["spine flexion", "spine aside or round", "spine extension"],
}

# Exercises whose joints do something else than their pattern says.
OTHER_ACTIONS = {
    "trap-bar-deadlift": ["hip extension", "spine extension", "knee extension"],
    "sumo-deadlift": ["hip extension", "spine extension", "knee extension", "hip adduction"],
    "lateral-lunge": ["knee extension", "hip extension", "hip adduction"],
    "dumbbell-fly": ["elbows together", "elbows up"],
    "band-pull-apart": ["elbows apart", "blades together"],
    "face-pull": ["elbows apart", "blades together", "elbow flexion"],
    "reverse-fly": ["elbows apart", "blades together"],
    "prone-t-raise": ["elbows apart", "blades together"],
    "dumbbell-pullover": ["elbow back"],
    "wrist-curl": ["wrist flexion"],
    "crunch": ["spine flexion"],
    "cable-crunch": ["spine flexion"],
    "hanging-knee-raise": ["spine flexion"],
    "rollout": ["spine flexion"],
    "plank": ["spine flexion"],
    "dead-bug": ["spine flexion"],
    "side-plank": ["spine aside or round"],
    "side-bend": ["spine aside or round"],
    "pallof-press": ["spine aside or round"],
    "band-pallof-press": ["spine aside or round"],
    "bird-dog": ["spine extension", "hip extension"],
}

# What holds still while others move, and is counted by half: from memory.
HOLDING = {
    Muscle.SPINAL_ERECTORS,
    Muscle.UPPER_BACK,
    Muscle.FOREARMS,
    Muscle.ABDOMINALS,
    Muscle.OBLIQUES,
    Muscle.ABDUCTORS,
}
# Muscles that help as the exercise is done, beside the actions of its pattern: from memory.
HELPING = {
    **dict.fromkeys(["deadlift", "hip-thrust"], Muscle.QUADS),
    **dict.fromkeys(["sliding-leg-curl", "nordic-curl"], Muscle.GLUTES),
    "dumbbell-pullover": Muscle.CHEST,
    "rollout": Muscle.LATS,
}


def actions(row: Exercise) -> list[str]:
    return OTHER_ACTIONS.get(row.key, ACTIONS[row.pattern])


def movers(row: Exercise) -> set[Muscle]:
    return {muscle for action in actions(row) for muscle in MOVERS[action]}


def test_the_text_was_read() -> None:
    assert SOURCES["OpenStaxAP2e"].mark is Mark.TEXT


@each_row("row", list(CATALOGUE.values()))
def test_a_muscle_that_counts_in_full_moves_a_joint_of_the_exercise(row: Exercise) -> None:
    assert row.direct - movers(row) == set()


@each_row("row", list(CATALOGUE.values()))
def test_a_muscle_that_counts_by_half_moves_a_joint_or_holds_one(row: Exercise) -> None:
    assert row.indirect - movers(row) - HOLDING - {HELPING.get(row.key)} == set()


@each_row("row", list(CATALOGUE.values()))
def test_every_joint_that_moves_has_a_mover_that_counts(row: Exercise) -> None:
    counted = row.direct | row.indirect

    assert [action for action in actions(row) if not counted & set(MOVERS[action])] == []


@each_row("row", list(CATALOGUE.values()))
def test_the_chief_mover_of_some_joint_counts_in_full(row: Exercise) -> None:
    assert row.direct & {MOVERS[action][0] for action in actions(row)}


def test_every_other_action_is_of_an_exercise_that_there_is() -> None:
    assert (set(OTHER_ACTIONS) | set(HELPING)) - set(CATALOGUE) == set()


# [Mier2014]: percent of bodyweight on the hands, held with arms straight and bent, mean of men and of women.
@pytest.mark.parametrize(
    ("key", "straight", "bent"),
    [("push-up", ("67.0", "65.1"), ("74.6", "70.3")), ("knee-push-up", ("52.5", "51.5"), ("60.1", "56.6"))],
)
def test_the_share_of_a_push_up_lies_between_arms_straight_and_bent(
    key: str, straight: tuple[str, str], bent: tuple[str, str]
) -> None:
    share = CATALOGUE[key].body_share
    low, high = (sum(map(Decimal, pair)) / 200 for pair in (straight, bent))

    assert share is not None
    assert low < share < high


def test_a_push_up_from_the_knees_moves_less_and_a_raised_one_is_not_given_a_share() -> None:
    """Source: [Ebben2011]."""
    assert CATALOGUE["knee-push-up"].body_share < CATALOGUE["push-up"].body_share
    assert CATALOGUE["incline-push-up"].body_share is None
