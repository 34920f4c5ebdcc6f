"""Stop signs of the back and the nerves."""

from core.checkin.stop_lists import PAIN
from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW = Urgency.EMERGENCY_NOW
TODAY = Urgency.DOCTOR_TODAY
FIRST = Urgency.DOCTOR_FIRST

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
            "cannot walk, cant hold, wont come back, hasnt come back, not come back, not coming back, wont go "
            "away, hasnt gone, for hours, all day, all night, since yesterday, since this morning"
        ),
        near=10,
        unless="cold, gloves, slept on, lay on",
        deniable=False,
    ),
    rule(
        "neck-and-nerves",
        TODAY,
        "neck",
        f"{PAIN}, cracked, popped, crunched, snapped, jarred, jolted, twisted, clicked",
        "tingling, tingly, numb, numbness, pins and needles, weak, electric, dead",
        "arm, arms, hand, hands, finger, fingers, legs, feet",
        near=14,
    ),
    rule(
        "both-legs-pain",
        NOW,
        "down both legs, down both my legs, down the back of both legs, sciatica in both, sciatica on both, "
        "both sides sciatica, down both sides",
        f"{PAIN}, sciatica, shooting, electric",
        near=9,
        unless="doms, soreness, squats yesterday, leg day",
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
