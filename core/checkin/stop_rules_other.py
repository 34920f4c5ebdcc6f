"""Stop signs of urine, heat, blood, calf, pregnancy, and words of distress."""

from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW, TODAY, FIRST, DISTRESS = (
    Urgency.EMERGENCY_NOW,
    Urgency.DOCTOR_TODAY,
    Urgency.DOCTOR_FIRST,
    Urgency.DISTRESS,
)

_SWOLLEN = "swollen, swelling, swelled, swells, swell, swole up, puffy, puffed up, blown up, ballooned"
_PREGNANT = (
    "pregnant, pregnancy, weeks along, trimester, my bump, expecting a baby, the baby, my baby, unborn"
)
_AFTER_BIRTH = (
    "since the birth, after the birth, gave birth, giving birth, postpartum, post partum, "
    "postnatal, c section"
)
_PEE = "pee, peeing, wee, weeing, urine, urinate, urinating, piss, bladder, pass water, passing water"

OTHER: tuple[Rule, ...] = (
    rule(
        "urine-swelling",
        NOW,
        ("dark, brown, cola, coke, black, tea coloured, tea colored, rust, red, bloody"),
        _PEE,
        _SWOLLEN
        + (
            ", weak, weakness, stiff, cant bend, cant straighten, cannot bend, cannot straighten, "
            "muscle pain, muscles hurt, severe"
        ),
        near=16,
        unless="dark outside",
    ),
    rule(
        "urine",
        TODAY,
        (
            "dark, brown, cola, black, tea coloured, tea colored, rust, blood in, bloody, coke "
            "coloured, like coke, like cola, colour of coke, color of coke, color of cola, colour of "
            "cola"
        ),
        _PEE,
        near=7,
        unless=("in the dark, dark outside, after dark, so dark, black coffee"),
    ),
    rule("heat-named", NOW, "heat stroke, heatstroke, sunstroke, sun stroke, heat exhaustion"),
    rule(
        "heat",
        NOW,
        ("heat, hot, sun, overheated, overheating, boiling, sauna, stopped sweating"),
        (
            "confused, confusion, disoriented, disorientated, delirious, dont know where, vomiting, "
            "throwing up, not making sense, stopped sweating, shivering, faint"
        ),
        near=14,
        unless="hot tub, hot chocolate, confused about, confused by",
    ),
    rule(
        "confused",
        NOW,
        (
            "dont know where i am, do not know where i am, disoriented, disorientated, delirious, "
            "suddenly confused, very confused and, feel confused and"
        ),
        deniable=False,
    ),
    rule(
        "blood",
        NOW,
        (
            "coughing up blood, coughed up blood, coughing blood, vomiting blood, vomited blood, "
            "throwing up blood, wont stop bleeding, bleeding wont stop, cant stop the bleeding, "
            "bleeding heavily, bleeding badly, losing blood, lost a lot of blood"
        ),
        deniable=False,
    ),
    rule(
        "allergy",
        NOW,
        (
            "throat closing, throat is closing, throat swelling, throat is swelling, tongue swelling,"
            " tongue is swelling, tongue swollen, throat closed up, anaphylaxis, anaphylactic, "
            "allergic reaction, epipen"
        ),
    ),
    rule(
        "calf",
        TODAY,
        "calf, calves, lower leg",
        _SWOLLEN + (", red and, warm and, hot and, red hot, red, blood clot, clot"),
        near=7,
    ),
    rule("clot", TODAY, "blood clot, deep vein thrombosis, dvt"),
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
        ("bleeding, heaviness, heavy, bulge, doming, dome, leaking, leak, dragging, prolapse"),
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
    rule(
        "wants-to-die",
        DISTRESS,
        (
            "want to die, wanna die, wish i was dead, wish i were dead, wish i wasnt here, want to be"
            " dead, better off dead, better off without me, rather be dead, kill myself, killing "
            "myself, killed myself, end my life, ending my life, end it all, want to end it, wanna end "
            "it, disappear forever, take my life, take my "
            "own life, taking my own life, suicide, suicidal, unalive, kms, not want to live, dont "
            "want to live, no reason to live, dont want to be alive, dont want to be here anymore, "
            "not want to be here anymore, dont want to exist, dont want to wake up, nothing to live "
            "for, cant go on living, cant go on anymore, cant go on any more, no point in living, no "
            "point living, done with life, tired of living, life is not worth, life isnt worth"
        ),
        unless=(
            "suicide squeeze, suicide runs, suicide sprints, suicide grip, did suicides, suicides "
            "drill, running suicides"
        ),
        deniable=False,
    ),
    rule(
        "self-harm",
        DISTRESS,
        (
            "self harm, selfharm, self harming, harm myself, harming myself, cutting myself again, "
            "cut myself on purpose, burning myself, want to hurt myself, going to hurt myself, gonna "
            "hurt myself, thinking of hurting myself, thoughts of hurting myself, feel like hurting "
            "myself, thinking about hurting myself, hurting myself on purpose, cutting myself, hurt myself on "
            "purpose, wanna hurt myself, overdose, overdosed, took all my pills, took too many pills,"
            " starving myself, make myself sick after"
        ),
        deniable=False,
        unless=(
            "cutting myself some slack, cutting myself short, dont want to hurt myself, not want to "
            "hurt myself, afraid to hurt myself, scared to hurt"
            " myself, without hurting myself"
        ),
    ),
)
