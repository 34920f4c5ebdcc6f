"""Prep drills for the trunk, upper back, shoulders, arms and neck.

Common practice, no source; cues and doses are our own.
"""

from core.programme.drill import Drill, Stage
from core.programme.exercises import Implement, Pattern, Site, Station
from core.programme.restrictions import Restriction

UPPER_DRILLS: tuple[Drill, ...] = (
    Drill(
        key="open-book",
        name="Open book",
        stage=Stage.LOOSEN,
        sites=frozenset({Site.UPPER_BACK, Site.CHEST, Site.SHOULDER}),
        prepares=frozenset(
            {
                Pattern.HORIZONTAL_PRESS,
                Pattern.VERTICAL_PRESS,
                Pattern.HORIZONTAL_PULL,
                Pattern.VERTICAL_PULL,
                Pattern.DIP,
            }
        ),
        reps=6,
        each_side=True,
        breaks=frozenset({Restriction.FLOOR, Restriction.SPINE_BEND}),
        cue="On the side, knees together, let the top arm open and the eyes follow.",
    ),
    Drill(
        key="seated-turn",
        name="Seated turn",
        stage=Stage.LOOSEN,
        sites=frozenset({Site.UPPER_BACK}),
        prepares=frozenset(
            {
                Pattern.HORIZONTAL_PULL,
                Pattern.HORIZONTAL_PRESS,
                Pattern.VERTICAL_PRESS,
                Pattern.VERTICAL_PULL,
                Pattern.CARRY,
                Pattern.TRUNK,
            }
        ),
        reps=6,
        each_side=True,
        breaks=frozenset({Restriction.SPINE_BEND}),
        cue="Arms crossed, sit tall, turn as far as is easy, breathe out.",
    ),
    Drill(
        key="wall-slide",
        name="Wall slide",
        stage=Stage.LOOSEN,
        sites=frozenset({Site.SHOULDER, Site.UPPER_BACK}),
        prepares=frozenset({Pattern.VERTICAL_PRESS, Pattern.VERTICAL_PULL, Pattern.RAISE}),
        reps=8,
        breaks=frozenset({Restriction.OVERHEAD}),
        cue="Forearms on the wall, slide up, ribs stay down.",
    ),
    Drill(
        key="doorway-stretch",
        name="Doorway stretch",
        stage=Stage.LOOSEN,
        sites=frozenset({Site.CHEST, Site.SHOULDER}),
        prepares=frozenset({Pattern.HORIZONTAL_PRESS, Pattern.DIP, Pattern.RAISE}),
        seconds=30,
        cue="Forearms on the frame below the shoulders, lean through, breathe.",
    ),
    Drill(
        key="shoulder-roll",
        name="Shoulder roll",
        stage=Stage.LOOSEN,
        sites=frozenset({Site.SHOULDER, Site.NECK, Site.UPPER_BACK}),
        prepares=frozenset(
            {
                Pattern.HORIZONTAL_PRESS,
                Pattern.VERTICAL_PRESS,
                Pattern.HORIZONTAL_PULL,
                Pattern.VERTICAL_PULL,
                Pattern.SHRUG,
                Pattern.CARRY,
                Pattern.RAISE,
                Pattern.DIP,
            }
        ),
        reps=10,
        cue="Up, back, down, big and slow, arms hang.",
    ),
    Drill(
        key="chin-glide",
        name="Chin glide",
        stage=Stage.LOOSEN,
        sites=frozenset({Site.NECK}),
        prepares=frozenset({Pattern.SHRUG, Pattern.CARRY, Pattern.VERTICAL_PRESS}),
        reps=8,
        cue="Slide the chin straight back as on a shelf, eyes level.",
    ),
    Drill(
        key="wrist-circles",
        name="Wrist circles",
        stage=Stage.LOOSEN,
        sites=frozenset({Site.WRIST, Site.HAND, Site.FOREARM}),
        prepares=frozenset(
            {
                Pattern.CURL,
                Pattern.CARRY,
                Pattern.HORIZONTAL_PRESS,
                Pattern.VERTICAL_PRESS,
                Pattern.HORIZONTAL_PULL,
            }
        ),
        reps=10,
        cue="Fists loose, slow circles both ways, then spread the fingers.",
    ),
    Drill(
        key="arm-turns",
        name="Arm turns",
        stage=Stage.LOOSEN,
        sites=frozenset({Site.ELBOW, Site.FOREARM, Site.UPPER_ARM}),
        prepares=frozenset({Pattern.CURL, Pattern.ELBOW_EXTENSION, Pattern.HORIZONTAL_PULL, Pattern.DIP}),
        reps=10,
        cue="Arms long at the sides, turn the palms out and in.",
    ),
    Drill(
        key="dead-hang",
        name="Easy hang",
        stage=Stage.LOOSEN,
        sites=frozenset({Site.SHOULDER, Site.UPPER_BACK}),
        prepares=frozenset({Pattern.VERTICAL_PULL}),
        needs=frozenset({Station.PULL_UP_BAR}),
        seconds=20,
        breaks=frozenset({Restriction.OVERHEAD, Restriction.HANGING, Restriction.GRIP}),
        cue="Hang with the toes still on the floor, let the neck be long.",
    ),
    Drill(
        key="standing-brace",
        name="Standing brace",
        stage=Stage.WAKE,
        sites=frozenset({Site.ABDOMEN, Site.LOW_BACK}),
        prepares=frozenset(
            {Pattern.TRUNK, Pattern.CARRY, Pattern.SQUAT, Pattern.HINGE, Pattern.VERTICAL_PRESS}
        ),
        reps=5,
        cue="Breathe in wide, firm up all round as for a poke, breathe on top of it.",
    ),
    Drill(
        key="heel-taps",
        name="Heel taps",
        stage=Stage.WAKE,
        sites=frozenset({Site.ABDOMEN, Site.LOW_BACK, Site.HIP}),
        prepares=frozenset({Pattern.TRUNK, Pattern.CARRY, Pattern.HINGE}),
        reps=8,
        each_side=True,
        breaks=frozenset({Restriction.SUPINE, Restriction.FLOOR}),
        cue="On the back, knees over hips, tap one heel down, low back quiet.",
    ),
    Drill(
        key="wall-blade-push",
        name="Wall blade push",
        stage=Stage.WAKE,
        sites=frozenset({Site.SHOULDER, Site.UPPER_BACK}),
        prepares=frozenset(
            {Pattern.HORIZONTAL_PRESS, Pattern.DIP, Pattern.VERTICAL_PRESS, Pattern.ELBOW_EXTENSION}
        ),
        reps=10,
        cue="Fists on the wall, elbows straight, push the upper back away and let it sink.",
    ),
    Drill(
        key="band-turn-out",
        name="Band turn-out",
        stage=Stage.WAKE,
        sites=frozenset({Site.SHOULDER}),
        prepares=frozenset(
            {
                Pattern.HORIZONTAL_PRESS,
                Pattern.VERTICAL_PRESS,
                Pattern.VERTICAL_PULL,
                Pattern.HORIZONTAL_PULL,
                Pattern.DIP,
                Pattern.RAISE,
            }
        ),
        implement=Implement.BAND,
        reps=12,
        breaks=frozenset({Restriction.GRIP}),
        cue="Elbows at the ribs, turn the fists out against a light band.",
    ),
    Drill(
        key="wall-push-up",
        name="Wall push-up",
        stage=Stage.REHEARSE,
        sites=frozenset({Site.CHEST, Site.SHOULDER, Site.ELBOW}),
        prepares=frozenset(
            {Pattern.HORIZONTAL_PRESS, Pattern.DIP, Pattern.ELBOW_EXTENSION, Pattern.VERTICAL_PRESS}
        ),
        reps=10,
        breaks=frozenset({Restriction.WRIST_EXTENSION}),
        cue="Arm's length from the wall, body one line, slow in, quick out.",
    ),
    Drill(
        key="empty-row",
        name="Row without a weight",
        stage=Stage.REHEARSE,
        sites=frozenset({Site.UPPER_BACK, Site.SHOULDER, Site.ELBOW}),
        prepares=frozenset({Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL, Pattern.SHRUG, Pattern.CURL}),
        reps=10,
        cue="Tip forward a little, draw the elbows back, pinch and hold.",
    ),
)
"""What loosens first, then what wakes up, then what rehearses."""
