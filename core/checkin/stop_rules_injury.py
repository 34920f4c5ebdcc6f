"""Stop signs of bones and joints."""

from core.checkin.stop_lists import CANT, PAIN, SWOLLEN
from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW = Urgency.EMERGENCY_NOW
TODAY = Urgency.DOCTOR_TODAY

_BONES = (
    "arm, leg, wrist, ankle, rib, ribs, bone, bones, finger, fingers, toe, toes, collarbone, "
    "elbow, foot, hand, shin, hip, knee, nose, jaw, shoulder, neck, back, skull, forearm, patella, kneecap, "
    "thumb, heel, cheekbone, tailbone, joint"
)

INJURY: tuple[Rule, ...] = (
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
        (
            "deformed, out of place, wrong angle, out of its socket, popped out, look crooked, looks "
            "crooked, sticking out, sticks out, stuck out, round the side, off to the side, "
            "in the wrong place, "
            "not where it should, hanging out"
        ),
        near=9,
        unless="squat, squats, stance, posture, form, video, bench, press, row, rows, cue",
    ),
    rule(
        "think-broken",
        NOW,
        f"{_BONES}, cheek, spine",
        (
            "think its broken, think it is broken, might be broken, may be broken, could be broken, "
            "probably broken, feels broken, looks broken, must be broken, is it broken, definitely "
            "broken, think its fractured, bent the wrong way, wrong way, looks bent, is bent, crooked "
            "now, out of joint"
        ),
        near=12,
        unless="bar is bent, pin is bent, machine, strap",
        deniable=False,
    ),
    rule(
        "pop-and-lost",
        TODAY,
        (
            "pop, popped, popping, snap, snapped, crack, cracked, rip, ripped, tore, tear, crunch, "
            "twang, something went, bang, crushed"
        ),
        (
            "cant walk, cannot walk, can barely walk, can hardly walk, cant stand, cannot stand, cant "
            "put weight, cannot put weight, cant put any weight, cant move, cannot move, cant lift, "
            "cannot lift, cant raise, cannot raise, cant bend, cannot bend, cant straighten, swollen, "
            "swelling, swelled up, gave way, black and blue, bruised, cant use, cannot use, cant rise, "
            "cant push off, cannot push off, lump, bulge, dent, gap, rolled up, bunched up, changed shape"
            f", {SWOLLEN}"
        ),
        near=14,
    ),
    rule(
        "muscle-rolled",
        TODAY,
        "bicep, biceps, pec, hamstring, quad, calf, tricep, triceps, muscle",
        "rolled up, bunched up, balled up, curled up, slid up, slid down, changed shape, a gap, a dent, a hole, "
        "like a ball, in a ball",
        near=5,
        unless="roller, foam, sleeve, sleeves, trouser, trousers, flexed, mirror",
    ),
    rule(
        "fell-and-lost",
        TODAY,
        "fell, fallen, fall, slipped, tripped, landed, twisted, rolled, went over, dropped",
        (
            "cant walk, cannot walk, cant stand, cannot stand, cant get up, cannot get up, cant move, cannot "
            "move, cant put weight, cannot put weight, cant put any weight, barely walk, hardly walk, "
            "cant lift "
            "my, cant use my, hobbling"
        ),
        near=10,
        unless="doms, lol, haha, asleep, behind, a set, sets, foam",
        deniable=False,
    ),
    rule(
        "kicked-by-none",
        TODAY,
        "kicked, kick, shot, whacked, hit, stone, ball",
        "calf, heel, achilles, back of my leg, back of my ankle",
        "felt like, like someone, as if, nobody, no one, turned round",
        near=12,
        deniable=False,
    ),
    rule(
        "joint-locked",
        TODAY,
        "knee, elbow, jaw, shoulder, hip, finger",
        "locked, stuck, jammed, locks, locking, wedged",
        "cant straighten, cannot straighten, cant bend, cannot bend, cant move, cannot move, "
        "wont straighten, "
        "wont bend, wont move, wont open, cant open, wont go",
        near=8,
        deniable=False,
    ),
    rule(
        "limb-snapped",
        NOW,
        "ankle, wrist, arm, leg, knee, elbow, achilles, bicep, biceps, pec, hamstring, quad, shin, finger, "
        "thumb",
        "snapped, went snap, went bang, went crack, ruptured, came off the bone",
        near=3,
        unless="strap, wrap, wraps, band, sleeve, cuff, attachment, snapped out, snapped into, snapped back",
    ),
    rule(
        "cannot-stand-on",
        TODAY,
        "ankle, knee, foot, achilles, leg, hip, toes, toe, heel",
        (
            "cant walk, cannot walk, cant stand on, cannot stand on, cant put weight, cant put my "
            "weight, cannot put weight, cant put any weight, cannot put any weight, cant bear weight, "
            "cannot bear weight, cant walk on"
        ),
        near=8,
        unless="leg day, doms, lol, haha, sore, squats yesterday, machine, one leg squat",
        deniable=False,
    ),
    rule(
        "cant-move",
        NOW,
        CANT,
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
        "cant-move-limb",
        NOW,
        CANT,
        "move, moving",
        "toes, toe, foot, feet, leg, legs, fingers, hand, hands, neck, head, face",
        near=4,
        unless="leg day, doms, lol, haha, sore, soreness, yesterdays, furniture, machine, bench",
        deniable=False,
    ),
    rule(
        "trauma",
        TODAY,
        (
            "car crash, car accident, crashed my car, crashed my bike, came off my bike, fell off my "
            "bike, fell down the stairs, fell off a ladder, fell off the ladder, hit by a car, "
            "motorbike accident, fell from"
        ),
        PAIN + ", cant move, whiplash, stiff",
        near=14,
    ),
)
