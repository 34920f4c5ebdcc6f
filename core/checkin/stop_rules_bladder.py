"""Stop signs of what nerves of the lower back hold: bladder, bowel, and feeling where one sits."""

from core.checkin.stop_lists import CANT, PEE
from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW = Urgency.EMERGENCY_NOW

_GUT = (
    "bowel, bowels, poo, pooped, my poop, stool, shit myself, soiled, incontinent, incontinence, "
    "bowel movement, number two, pooping, crap"
)
_SADDLE = (
    "saddle area, saddle, groin, between my legs, between the legs, inner thighs, inner thigh, "
    "inside of my thighs, inside of the thighs, genitals, genital, privates, private parts, "
    "crotch, down there, down below, anus, perineum, vagina, penis, testicles, scrotum, nether regions, "
    "lady parts, private bits, my bits, undercarriage"
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

BLADDER: tuple[Rule, ...] = (
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
)
