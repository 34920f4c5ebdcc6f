"""Stop signs of a pregnancy and of the year after a birth."""

from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

TODAY = Urgency.DOCTOR_TODAY
FIRST = Urgency.DOCTOR_FIRST

_PREGNANT = (
    "pregnant, pregnancy, weeks along, trimester, my bump, expecting a baby, the baby, my baby, unborn"
)
_AFTER_BIRTH = (
    "since the birth, after the birth, gave birth, giving birth, postpartum, post partum, "
    "postnatal, c section"
)

BIRTH: tuple[Rule, ...] = (
    rule(
        "baby-still",
        TODAY,
        (
            "baby stopped moving, baby isnt moving, baby is not moving, baby hasnt moved, baby not "
            "moving, baby moves less, baby moving less, baby is moving less, no movement from the "
            "baby, cant feel the baby, cant feel baby move"
        ),
        deniable=False,
    ),
    rule(
        "baby-quiet",
        TODAY,
        "baby, bump",
        "stopped, hasnt, havent, not, no, less, isnt, fewer, barely, hardly, cant feel",
        "moving, moved, move, moves, movement, movements, kick, kicks, kicking, kicked",
        near=5,
        unless="baby weight, bump plates, asleep, sleep, walks",
        deniable=False,
    ),
    rule(
        "pregnancy",
        TODAY,
        _PREGNANT,
        (
            "bleeding, bleed, bled, blood, spotting, waters, water broke, contractions, leaking, "
            "fluid, cramps, cramping, not moving, stopped moving, moving less, moves less, headache, "
            "dizzy, fainted"
        ),
        near=16,
    ),
    rule(
        "vaginal-bleeding",
        TODAY,
        ("vaginal bleeding, bleeding from my vagina, waters broke, my waters have, waters have gone"),
    ),
    rule(
        "after-birth",
        FIRST,
        _AFTER_BIRTH,
        (
            "bleeding, heaviness, heavy, bulge, doming, dome, leaking, leak, dragging, prolapse, "
            "falling out, coming down, pressure down"
        ),
        near=16,
    ),
    rule(
        "pelvic-floor",
        FIRST,
        (
            "heaviness down there, bulge down there, prolapse, doming, dragging down there, something"
            " falling out"
        ),
    ),
)
