"""Stop signs of the head, of bones, of the back and the nerves."""

from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW, TODAY, FIRST, DISTRESS = (
    Urgency.EMERGENCY_NOW,
    Urgency.DOCTOR_TODAY,
    Urgency.DOCTOR_FIRST,
    Urgency.DISTRESS,
)

_PAIN = (
    "pain, pains, painful, hurt, hurts, hurting, ache, aches, aching, sharp, stabbing, burning, "
    "discomfort, cramp, cramping, agony, killing"
)
_HIT = (
    "hit, banged, bumped, knocked, smacked, cracked, whacked, bashed, struck, slammed, landed on,"
    " fell on, dropped, smashed"
)
_BONES = (
    "arm, leg, wrist, ankle, rib, ribs, bone, bones, finger, fingers, toe, toes, collarbone, "
    "elbow, foot, hand, shin, hip, knee, nose, jaw, shoulder, neck, back, skull, forearm"
)
_PEE = "pee, peeing, wee, weeing, urine, urinate, urinating, piss, bladder, pass water, passing water"
_GUT = "bowel, bowels, poo, pooped, my poop, stool, shit myself, soiled, incontinent, incontinence"
_SADDLE = (
    "saddle area, saddle, groin, between my legs, between the legs, inner thighs, genitals, "
    "genital, privates, private parts, crotch, down there, anus, perineum, vagina, penis, "
    "testicles"
)
_SEAT = "bum, butt, buttocks, buttock, backside, bottom, arse"
_NUMB = (
    "numb, numbness, no feeling, lost feeling, lost all feeling, lost sensation, no sensation, "
    "cant feel, cannot feel, couldnt feel, can not feel, pins and needles, tingling"
)
_CANT = (
    "cant, cannot, can not, couldnt, could not, unable to, not able to, wasnt able to, impossible to, "
    "havent been able to, not been able to, have not been able to"
)
_LIMB = "leg, arm, foot, hand, left leg, right leg, left arm, right arm"

INJURY: tuple[Rule, ...] = (
    rule(
        "head-injury",
        NOW,
        _HIT,
        "my head, head, skull, my face",
        near=6,
        unless=(
            "nail on the head, head over, headband, personal best, head of, hit a new, overhead, head"
            " first into the"
        ),
    ),
    rule(
        "head-injury-named",
        NOW,
        ("head injury, concussion, concussed, head trauma, seeing double, double vision"),
    ),
    rule(
        "bar-on-neck",
        NOW,
        "bar, barbell, plate, dumbbell, kettlebell, weight",
        "fell, dropped, landed, crushed, came down",
        "neck, throat, head, chest, face",
        near=9,
    ),
    rule(
        "headache",
        NOW,
        (
            "sudden, suddenly, worst, thunderclap, explosive, severe, exploded, exploding, blinding, "
            "excruciating, unbearable"
        ),
        ("headache, head pain, pain in my head, migraine, my head hurts, head hurts"),
        near=5,
    ),
    rule(
        "stroke",
        NOW,
        (
            "blurred vision, vision is blurred, vision went blurry, slurred, face drooping, face is "
            "drooping, face droops, face dropped, mouth drooping, slurred "
            "speech, slurring, slurring my words, cant speak, cannot speak, lost my speech, speech is"
            " slurred, having a stroke, had a stroke, lost vision, lost my vision, lost sight, cant "
            "see, cannot see, gone blind, went blind, one side is numb, numb on one side, numb down "
            "one side, one side went numb, one side of my face, one side of my body"
        ),
        unless=(
            "stroke of luck, cant see the, cannot see the, cant see my, cant see a, cant see it, "
            "cant see how, cant "
            "see why, cant see what, cant see where, cant see any, cant see myself, cant see that, "
            "cant see you, cannot see how"
        ),
        deniable=False,
    ),
    rule("seizure", NOW, ("seizure, seizures, convulsion, convulsions, convulsing, had a fit, having a fit")),
    rule(
        "fracture",
        NOW,
        (
            "fracture, fractured, broken bone, broke a bone, bone sticking out, bone is sticking, "
            "bone came through, dislocated, dislocation, dislocate"
        ),
        unless="stress fracture in",
    ),
    rule(
        "broken",
        NOW,
        (
            "broke my, broken my, have broken, broke the, broken, i broke, broke a, snapped my, heard"
            " my, felt my, think i broke"
        ),
        _BONES,
        near=3,
        unless=(
            "back is broken, lol, haha, broken sleep, hip thrust record, broken up, broken pr, back "
            "record, broken record, broke"
            " my back squat, broke a record, personal best, pr, pb, best, hip thrust, hip hinge, leg "
            "press, back squat, leg curl, rib cage cue"
        ),
    ),
    rule(
        "snapped",
        NOW,
        "snapped, snap, cracked, crack",
        _BONES,
        "heard, felt, bent, deformed, out of place",
        near=9,
        unless=("joints crack, cracks all, crack my knuckles, back cracked nicely"),
    ),
    rule(
        "deformed",
        NOW,
        _BONES,
        ("deformed, out of place, wrong angle, out of its socket, popped out"),
        near=6,
    ),
    rule(
        "cant-move",
        NOW,
        _CANT,
        (
            "move my leg, move my legs, move my arm, move my arms, move my neck, move my foot, move "
            "my hand, bear weight, put weight on it, put any weight on it, stand on it, put weight on"
            " my, put any weight on my"
        ),
        near=5,
        deniable=False,
        unless="leg day, doms, lol, haha",
    ),
    rule(
        "cant-feel-legs",
        NOW,
        (
            "cant feel, cannot feel, can not feel, couldnt feel, could not feel, no feeling in, lost "
            "feeling in, lost all feeling in, lost sensation in, not feel"
        ),
        ("leg, legs, feet, foot, arm, arms, toes, lower body, hand, hands, waist"),
        near=4,
        deniable=False,
        unless="cant feel my feet pushing",
    ),
    rule(
        "legs-numb",
        NOW,
        "legs, both legs, both feet",
        (
            "numb, numbness, paralysed, paralyzed, wont work, stopped working, dont work, wont move, "
            "not working, gave way, giving way, gave out, giving out, buckled"
        ),
        near=5,
        unless="ladder, stool, chair, table, last rep, last set, last reps",
    ),
    rule(
        "legs-weak",
        NOW,
        "both legs, both my legs, legs are both, legs both, two legs",
        ("weak, weakness, weaker, tingling, pins and needles, heavy and numb, dragging"),
        near=5,
    ),
    rule("saddle", NOW, _SADDLE, _NUMB, near=7, unless="no feeling of, bike saddle", deniable=False),
    rule(
        "saddle-seat",
        NOW,
        _SEAT,
        _NUMB,
        near=7,
        unless=(
            "bike, bicycle, cycling, cycle, spin, rower, rowing, rowed, bench seat, sitting on, my "
            "ride, erg, saddle sore, glute activation, glutes working, squeeze"
        ),
        deniable=False,
    ),
    rule(
        "bladder",
        NOW,
        (
            f"{_CANT}, lost control, losing control, no control, lose control, leaking, leaked, "
            "trouble, difficulty, dont feel, struggling, stopped, wet myself, accident, numb, "
            "retention, cant hold, problems"
        ),
        f"{_PEE}, {_GUT}, hold it in",
        near=6,
        unless=(
            "leaking when i jump, when i jump, jumping, jumps, skipping, sneeze, in a wetsuit, queue,"
            " toilets, training, dark, between sets, mid session"
        ),
        deniable=False,
    ),
    rule(
        "wet-myself",
        NOW,
        (
            "wet myself, peed myself, pissed myself, shit myself, soiled myself, pooed myself, "
            "incontinent, incontinence"
        ),
        unless=("laughing, when i jump, jumping, jumps, skipping, sneeze, nearly, almost, scared"),
    ),
    rule(
        "back-function",
        NOW,
        "back pain, back hurts, my back, sciatica",
        "sexual, erection, impotent, cant get it up",
        near=12,
    ),
    rule(
        "one-limb-weak",
        TODAY,
        _LIMB,
        (
            "weak, weakness, gave way, giving way, gave out, giving out, dragging, drags, wont lift, "
            "went dead, gone dead, lost strength, no strength, lost power, no power, going weak, went"
            " weak, wont work, stopped working, paralysed, paralyzed, foot drop"
        ),
        near=4,
        unless=(
            "weak arm, weak leg, weak hand, weak point, weak link, weak spot, weak side, weaker side, "
            "weak foot football, hand "
            "weights, on the other hand, leg day, no power in the, leg press, leg curl, leg "
            "extension, foot pressure"
        ),
    ),
    rule(
        "foot-drop",
        TODAY,
        (
            "foot drop, drop foot, cant lift my foot, cannot lift my foot, foot slaps, tripping over "
            "my foot, cant lift my toes, cannot lift my toes"
        ),
        deniable=False,
    ),
    rule(
        "new-weakness",
        TODAY,
        (
            "new weakness, sudden weakness, growing weakness, getting weaker in my, lost strength in "
            "my, losing strength in my, lost the strength in my, lost power in my, weakness in my"
        ),
    ),
    rule(
        "back-fever",
        TODAY,
        "back",
        _PAIN + ", sore, stiff",
        "fever, feverish, temperature, chills, shivering",
        near=14,
    ),
    rule(
        "back-night",
        FIRST,
        "back, spine",
        ("wakes me, woke me, every night, all night, at night, night pain"),
        _PAIN,
        near=10,
    ),
    rule(
        "trauma",
        TODAY,
        (
            "car crash, car accident, crashed my car, crashed my bike, came off my bike, fell off my "
            "bike, fell down the stairs, fell off a ladder, fell off the ladder, hit by a car, "
            "motorbike accident, fell from"
        ),
        _PAIN + ", cant move, whiplash, stiff",
        near=14,
    ),
)
