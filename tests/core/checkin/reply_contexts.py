"""Exercises, contexts and a short notation for readings; a helper of tests.

The notation holds every field of a reading: `92.5kg 8 8 7` are three sets, `L10` a side, `45s` seconds, `8@9` an
RPE and `8!2` reps left of one set; then flags, effort, pain, soreness, `+note`, and `ASK why:` with the readings.
"""

from core.checkin.reading import BodyRead, Context, Reading, SetRead
from core.programme.exercises import Basis, Exercise, Implement, Pattern, Region, Site
from core.programme.prescription import Dose, Load, Span
from core.units import Mass, Unit

THRUST = Exercise(
    key="hip-thrust",
    name="Hip thrust",
    aliases=("Barbell hip thrust",),
    pattern=Pattern.BRIDGE,
    region=Region.LOWER,
    basis=Basis.TOTAL,
    implement=Implement.BARBELL,
    loads_sites=frozenset({Site.HIP, Site.LOW_BACK, Site.HAMSTRING}),
)
STEP_DOWN = Exercise(
    key="step-down",
    name="Step-down",
    pattern=Pattern.STEP,
    region=Region.LOWER,
    basis=Basis.PER_HAND,
    implement=Implement.DUMBBELL,
    each_side=True,
    loads_sites=frozenset({Site.KNEE}),
)
PULL_UP = Exercise(
    key="pull-up",
    name="Pull-up",
    pattern=Pattern.VERTICAL_PULL,
    region=Region.UPPER,
    basis=Basis.BODYWEIGHT,
    implement=Implement.BODYWEIGHT,
)
PLANK = Exercise(
    key="plank",
    name="Plank",
    pattern=Pattern.TRUNK,
    region=Region.TRUNK,
    basis=Basis.BODYWEIGHT,
    implement=Implement.BODYWEIGHT,
    timed=True,
)
CARRY = Exercise(
    key="carry",
    name="Farmer carry",
    pattern=Pattern.CARRY,
    region=Region.TRUNK,
    basis=Basis.PER_HAND,
    implement=Implement.DUMBBELL,
    timed=True,
)

BENCH = Exercise(
    key="bench-press",
    name="Bench press",
    aliases=("Flat bench",),
    pattern=Pattern.HORIZONTAL_PRESS,
    region=Region.UPPER,
    basis=Basis.TOTAL,
    implement=Implement.BARBELL,
    loads_sites=frozenset({Site.SHOULDER, Site.ELBOW}),
)
ROW = Exercise(
    key="bent-over-row",
    name="Bent-over row",
    aliases=("Barbell row",),
    pattern=Pattern.HORIZONTAL_PULL,
    region=Region.UPPER,
    basis=Basis.TOTAL,
    implement=Implement.BARBELL,
    loads_sites=frozenset({Site.LOW_BACK}),
)
DEADLIFT = Exercise(
    key="deadlift",
    name="Deadlift",
    pattern=Pattern.HINGE,
    region=Region.LOWER,
    basis=Basis.TOTAL,
    implement=Implement.BARBELL,
    loads_sites=frozenset({Site.LOW_BACK, Site.HAMSTRING}),
)
SQUAT = Exercise(
    key="back-squat",
    name="Back squat",
    pattern=Pattern.SQUAT,
    region=Region.LOWER,
    basis=Basis.TOTAL,
    implement=Implement.BARBELL,
    loads_sites=frozenset({Site.KNEE, Site.LOW_BACK}),
)
CURL = Exercise(
    key="dumbbell-curl",
    name="Dumbbell curl",
    pattern=Pattern.CURL,
    region=Region.UPPER,
    basis=Basis.PER_HAND,
    implement=Implement.DUMBBELL,
    loads_sites=frozenset({Site.ELBOW}),
)
SIDE_PLANK = Exercise(
    key="side-plank",
    name="Side plank",
    pattern=Pattern.TRUNK,
    region=Region.TRUNK,
    basis=Basis.BODYWEIGHT,
    implement=Implement.BODYWEIGHT,
    timed=True,
    each_side=True,
)


def reps(exercise: Exercise, sets: int, low: int, load: Load | None, high: int | None = None) -> Context:
    """Return the context of a counted dose."""
    return Context(exercise=exercise, dose=Dose(sets=sets, reps=Span(low=low, high=high or low), load=load))


def seconds(exercise: Exercise, sets: int, length: int, load: Load | None) -> Context:
    """Return the context of a timed dose."""
    return Context(exercise=exercise, dose=Dose(sets=sets, seconds=Span(low=length, high=length), load=load))


CONTEXTS = {
    "hip": reps(THRUST, 5, 8, Load.of("92.5")),
    "hip80": reps(THRUST, 3, 8, Load.of("80")),
    "hip60": reps(THRUST, 3, 8, Load.of("60")),
    "hip100": reps(THRUST, 5, 5, Load.of("100")),
    "hip10": reps(THRUST, 3, 10, Load.of("10")),
    "pounds": reps(THRUST, 3, 8, Load.of("135", "lb")).model_copy(update={"unit": Unit.LB}),
    "find": reps(THRUST, 3, 8, Load.find()),
    "step": reps(STEP_DOWN, 3, 10, Load.of("16")),
    "pull": reps(PULL_UP, 3, 8, Load.bodyweight(), 12),
    "pull10": reps(PULL_UP, 3, 6, Load.bodyweight(Mass.of(10))),
    "plank": seconds(PLANK, 3, 45, Load.bodyweight()),
    "carry": seconds(CARRY, 3, 40, Load.of("24")),
    "bench": reps(BENCH, 3, 8, Load.of("62.5")),
    "row40": reps(ROW, 3, 10, Load.of("40")),
    "dead": reps(DEADLIFT, 3, 5, Load.of("140")),
    "squatlb": reps(SQUAT, 5, 5, Load.of("225", "lb")).model_copy(update={"unit": Unit.LB}),
    "curl": reps(CURL, 3, 12, Load.of("10")),
    "side": seconds(SIDE_PLANK, 3, 30, Load.bodyweight()),
    "none": Context(),
}


def in_short(reading: Reading) -> str:
    """Return a whole reading in the short notation."""
    parts = [] if reading.understood else ["NOT UNDERSTOOD"]
    parts += [_sets(reading.sets)] if reading.sets else []
    parts += [flag for flag in ("as_written", "skip", "undo", "stop_sign") if getattr(reading, flag)]
    parts += [f"rir {reading.effort.rir}"] if reading.effort.rir is not None else []
    parts += [f"rpe {reading.effort.rpe}"] if reading.effort.rpe is not None else []
    parts += [_body("pain", each) for each in reading.pain]
    parts += [_body("sore", each) for each in reading.soreness]
    parts += ["+note"] if reading.note is not None else []
    if reading.ask:
        assert reading.ask_why is not None
        parts.append(f"ASK {reading.ask_why}: " + " | ".join(in_short(each) for each in reading.ask))
    return "; ".join(parts)


def _sets(sets: tuple[SetRead, ...]) -> str:
    groups: list[str] = []
    last = None
    for each in sets:
        head = (each.load, each.unit)
        if head != last:
            groups.append(f"{each.load or '-'}{each.unit or ''}")
            last = head
        count = f"{each.side or ''}{each.reps if each.reps is not None else ''}"
        count += f"{each.seconds}s" if each.seconds is not None else ""
        count += f"@{each.rpe}" if each.rpe is not None else ""
        groups.append(count + (f"!{each.rir}" if each.rir is not None else ""))
    return " ".join(group for group in groups if group)


def _body(kind: str, each: BodyRead) -> str:
    side = f" {each.side}" if each.side else ""
    score = f" {each.score}" if each.score is not None else ""
    return f"{kind} {each.site.value if each.site else '?'}{side}{score}"
