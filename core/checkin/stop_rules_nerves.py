"""Stop signs of the back and the nerves."""

from core.checkin.stop_lists import CANT, PAIN, PEE
from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW = Urgency.EMERGENCY_NOW
TODAY = Urgency.DOCTOR_TODAY
FIRST = Urgency.DOCTOR_FIRST

_GUT = (
    "bowel, bowels, poo, pooped, my poop, stool, shit myself, soiled, incontinent, incontinence, "
    "bowel movement, number two, pooping, crap"
)
_SADDLE = (
    "saddle area, saddle, groin, between my legs, between the legs, inner thighs, inner thigh, "
    "inside of my thighs, inside of the thighs, genitals, genital, privates, private parts, "
    "crotch, down there, down below, anus, perineum, vagina, penis, testicles, scrotum, nether regions, "
    "lady parts, private bits, undercarriage"
)
_SEAT = "bum, butt, buttocks, buttock, backside, bottom, arse, my seat, rear, rear end"
_NUMB = "numb, numbness, pins and needles, tingling"
_NO_FEELING = (
    "no feeling, lost feeling, lost the feeling, lost all feeling, lost sensation, no sensation, cant feel, "
    "cannot feel, couldnt feel, can not feel, dont feel, without feeling"
)
_SITTING = (
    "bike, bicycle, cycling, cycle, spin, rower, rowing, rowed, bench seat, sitting on, my "
    "ride, erg, saddle sore, glute activation, glutes working, squeeze"
)
_LIMB = "leg, arm, foot, hand, left leg, right leg, left arm, right arm"

NERVES: tuple[Rule, ...] = (
    rule(
        "cant-feel-legs",
        NOW,
        (
            "cant feel, cannot feel, can not feel, couldnt feel, could not feel, no feeling in, lost "
            "feeling in, lost all feeling in, lost sensation in, not feel, dont feel, do not feel"
        ),
        ("leg, legs, feet, foot, arm, arms, toes, lower body, hand, hands, waist"),
        near=4,
        deniable=False,
        unless=(
            "cant feel my feet pushing, working, it in, activate, activation, engaged, burn, exercise, "
            "tired, drive"
        ),
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
        "both legs, both my legs, legs are both, legs both, two legs, both feet, both my feet",
        (
            "weak, weakness, weaker, tingling, pins and needles, heavy and numb, dragging, numb, "
            "numbness, electric, shocks, shooting"
        ),
        near=5,
    ),
    rule(
        "numb-limb",
        TODAY,
        "leg, foot, legs, feet, arm, hand",
        "numb, numbness",
        (
            "cant walk, barely walk, hardly walk, cant stand, hardly stand, barely stand, cant move, "
            "cannot walk, cant hold"
        ),
        near=10,
        deniable=False,
    ),
    rule(
        "wiping",
        NOW,
        f"{_NUMB}, {_NO_FEELING}",
        "when i wipe, wiping, wipe myself, toilet paper",
        near=8,
        deniable=False,
    ),
    rule("saddle", NOW, _SADDLE, _NUMB, near=7, unless="bike saddle"),
    rule(
        "saddle-lost", NOW, _SADDLE, _NO_FEELING, near=7, unless="no feeling of, bike saddle", deniable=False
    ),
    rule("saddle-seat", NOW, _SEAT, _NUMB, near=7, unless=_SITTING),
    rule("saddle-seat-lost", NOW, _SEAT, _NO_FEELING, near=7, unless=_SITTING, deniable=False),
    rule(
        "bladder",
        NOW,
        (
            f"{CANT}, lost control, losing control, no control, lose control, leaking, leaked, "
            "trouble, difficulty, dont feel, struggling, stopped, wet myself, accident, numb, "
            "retention, cant hold, problems"
        ),
        f"{PEE}, {_GUT}, hold it in",
        near=6,
        unless=(
            "leaking when i jump, when i jump, jumping, jumps, skipping, sneeze, in a wetsuit, queue,"
            " toilets, training, dark, between sets, mid session"
        ),
        deniable=False,
    ),
    rule(
        "bladder-full",
        NOW,
        "bladder",
        "empty, emptying, doesnt work, not working, wont work, retention",
        "doesnt, not, wont, cant, cannot, never, retention, stopped",
        near=6,
        deniable=False,
    ),
    rule(
        "cannot-hold",
        NOW,
        "cant hold my water, cant hold the water, cant hold my wee, cant hold my pee, cant keep it in",
        unless="bottle",
        deniable=False,
    ),
    rule(
        "no-wee",
        NOW,
        "not been, havent been, havent had, not had, no, not passed, havent passed",
        "for a wee, for a pee, a wee, a pee, wee, pee, passed water, water",
        "hours, since yesterday, all day, since this morning, 12h, 14h",
        near=8,
        unless="drink, drank, bottle, litres, need",
        deniable=False,
    ),
    rule(
        "no-urge",
        NOW,
        (
            "cant tell, cannot tell, cant feel, cannot feel, dont feel, dont notice, no urge, without "
            "noticing, lost the urge"
        ),
        (
            "need the toilet, need to go, need to pee, need a wee, need a pee, bladder, toilet, "
            "peeing, to wee, pooing"
        ),
        near=7,
        deniable=False,
    ),
    rule(
        "back-leaks",
        NOW,
        "back, spine, sciatica, disc",
        (
            "leaking, leak, wetting myself, accidents, cant hold it, cannot hold it, cant tell when i "
            "need, cant feel when i need, dont feel when i need, dont notice when i need"
        ),
        near=14,
        unless="when i jump, jumping, bottle, roof, tent, shower, air, pack, car",
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
            "went dead, gone dead, floppy, limp, gives way, give way, keeps giving way, gone weak, "
            "lost strength, no strength, lost power, no power, going weak, went"
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
        "limb-wont",
        TODAY,
        f"{_LIMB}, fingers, toes, thumb, wrist, ankle",
        (
            "wont lift, wont grip, wont move, wont work, wont close, wont open, wont hold, wont respond, "
            "wont "
            "do what, wont go up, wont come up, doesnt work, doesnt respond, doesnt move, not working, isnt "
            "working, not responding"
        ),
        near=4,
        unless="sets, set, reps, rep, pump, glute, glutes, machine, pedal, strap, fatigue, doms, cold",
        deniable=False,
    ),
    rule(
        "limb-weaker",
        TODAY,
        f"{_LIMB}, legs, arms, grip, hands",
        (
            "getting weaker, growing weaker, gets weaker, weaker every day, weaker each day, weaker "
            "and weaker, getting weaker by, losing strength, losing power, suddenly weak"
        ),
        near=6,
        unless="sets, set, each set, during, end of the session, workout, plateau, reps",
    ),
    rule(
        "drops-things",
        TODAY,
        "grip, hand, hands, fingers, arm",
        "weak, weaker, weakness, numb, clumsy",
        "drop things, drop cups, keep dropping, i drop, dropped my cup, dropped my phone",
        near=10,
    ),
    rule(
        "foot-drags",
        TODAY,
        "foot, toes, toe",
        (
            "dropping, drops, drop, slapping, slaps, slap, dragging, drags, drag, catches, catch, "
            "flops, flopping, hangs down"
        ),
        "walk, walking, step, steps, stairs",
        near=8,
    ),
    rule(
        "foot-drop",
        TODAY,
        (
            "foot drop, drop foot, cant lift my foot, cannot lift my foot, foot slaps, tripping over "
            "my foot, cant lift my toes, cannot lift my toes"
        ),
        unless="cue, drill, lighter",
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
        PAIN + ", sore, stiff",
        "fever, feverish, temperature, chills, shivering",
        near=14,
    ),
    rule(
        "back-hot",
        TODAY,
        "my back, lower back, low back, back is, back bad, spine",
        "fever, feverish, temperature, chills, shivering, shivers",
        near=10,
        unless="is fine, is ok, is good, kid, kids, fever is gone, fever gone, no fever, back in the gym, back to",
    ),
    rule(
        "back-night",
        FIRST,
        "back, spine",
        ("wakes me, woke me, every night, all night, at night, night pain"),
        PAIN,
        near=10,
    ),
)
