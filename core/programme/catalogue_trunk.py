"""Rows of the catalogue for the trunk and for carries.

Names, sites and cues are common practice, no source.
"""

from core.programme.exercises import Basis, Exercise, Implement, Pattern, Region, Site

_BRACED = frozenset({Site.ABDOMEN, Site.LOW_BACK})

TRUNK: tuple[Exercise, ...] = (
    Exercise(
        key="plank",
        name="Plank",
        aliases=("Front plank", "Forearm plank"),
        pattern=Pattern.TRUNK,
        region=Region.TRUNK,
        basis=Basis.BODYWEIGHT,
        implement=Implement.BODYWEIGHT,
        timed=True,
        loads_sites=_BRACED | {Site.SHOULDER, Site.ELBOW},
        equals=("dead-bug", "side-plank"),
        cue="Squeeze the buttocks, ribs towards the hips, keep breathing.",
    ),
    Exercise(
        key="side-plank",
        name="Side plank",
        aliases=("Forearm side plank",),
        pattern=Pattern.TRUNK,
        region=Region.TRUNK,
        basis=Basis.BODYWEIGHT,
        implement=Implement.BODYWEIGHT,
        each_side=True,
        timed=True,
        loads_sites=_BRACED | {Site.SHOULDER, Site.ELBOW, Site.HIP},
        equals=("plank", "suitcase-carry"),
        cue="Elbow under the shoulder, hips high and stacked.",
    ),
    Exercise(
        key="dead-bug",
        name="Dead bug",
        aliases=("Deadbug",),
        pattern=Pattern.TRUNK,
        region=Region.TRUNK,
        basis=Basis.BODYWEIGHT,
        implement=Implement.BODYWEIGHT,
        each_side=True,
        loads_sites=_BRACED | {Site.HIP},
        equals=("plank", "side-plank"),
        cue="Low back stays on the floor, breathe out as the leg goes long.",
    ),
    Exercise(
        key="farmer-carry",
        name="Farmer carry",
        aliases=("Farmer's walk", "Dumbbell carry", "Loaded carry"),
        pattern=Pattern.CARRY,
        region=Region.TRUNK,
        basis=Basis.PER_HAND,
        implement=Implement.DUMBBELL,
        timed=True,
        loads_sites=_BRACED
        | {Site.HAND, Site.FOREARM, Site.WRIST, Site.NECK, Site.SHOULDER, Site.UPPER_BACK},
        equals=("suitcase-carry", "plank"),
        cue="Walk tall with short quick steps, shoulders quiet.",
    ),
    Exercise(
        key="suitcase-carry",
        name="Suitcase carry",
        aliases=("One-hand carry", "One-arm carry"),
        pattern=Pattern.CARRY,
        region=Region.TRUNK,
        basis=Basis.PER_HAND,
        implement=Implement.DUMBBELL,
        each_side=True,
        timed=True,
        loads_sites=_BRACED | {Site.HAND, Site.FOREARM, Site.WRIST, Site.NECK, Site.SHOULDER, Site.HIP},
        equals=("farmer-carry", "side-plank"),
        cue="Do not lean, the empty side works.",
    ),
)
"""What is held first, then what is carried."""
