"""Stop signs of urine, swelling, heat, blood, belly and poison."""

from core.checkin.stop_lists import LOW_SUGAR, PAIN, PEE, SWOLLEN
from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW = Urgency.EMERGENCY_NOW
TODAY = Urgency.DOCTOR_TODAY
FIRST = Urgency.DOCTOR_FIRST

_BELLY_PAIN = "pain, pains, hurt, hurts, hurting, ache, aches, cramp, cramps, cramping, agony"
OTHER: tuple[Rule, ...] = (
    rule(
        "urine-swelling",
        NOW,
        ("dark, brown, cola, coke, black, tea coloured, tea colored, rust, red, bloody"),
        PEE,
        SWOLLEN
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
            "dark, brown, brownish, reddish, rusty, pinkish, like tea, like coffee, like rust, like "
            "blood, cola, black, tea coloured, tea colored, rust, blood in, bloody, coke coloured, "
            "like coke, like cola, red, pink, coca cola, colour of tea, colour of coffee, colour of rust, "
            "colour of blood, colour of wine, "
            "color of tea, color of coffee, color of rust, color of blood, colour of coke, color of coke, "
            "color of cola, colour of cola"
        ),
        PEE,
        near=7,
        unless=(
            "in the dark, dark outside, after dark, so dark, black coffee, beetroot, beets, red bull, "
            "pink drink"
        ),
    ),
    rule(
        "urine-blood",
        TODAY,
        (
            "pee blood, peeing blood, peed blood, pissing blood, piss blood, pissed blood, weeing "
            "blood, urinating blood, pissing cola, peeing cola, pissing coke, peeing coke, peeing "
            "brown, pissing brown, peed brown"
        ),
    ),
    rule(
        "muscle-swollen",
        TODAY,
        "arm, arms, biceps, triceps, forearm, forearms, thigh, thighs, quads, legs, muscles, leg",
        SWOLLEN,
        (
            "cant straighten, cannot straighten, cant bend, cannot bend, massively, hugely, huge, "
            "twice, double, extremely, badly, very, rock hard, cant touch, cant reach, cannot touch, "
            "cant move, barely move, hardly move, cant close, cant make a fist"
        ),
        near=10,
    ),
    rule(
        "limb-hot",
        TODAY,
        "leg, legs, thigh, arm, knee, ankle, foot, calf",
        f"{SWOLLEN}, fatter than, bigger than, thicker than",
        "hot, red, warm",
        near=10,
    ),
    rule(
        "calf",
        TODAY,
        "calf, calves, lower leg",
        SWOLLEN
        + (
            ", red and, warm and, hot and, red hot, red, blood clot, clot, twice the size, double the "
            "size, suddenly bigger, hard and, hot to touch"
        ),
        near=7,
    ),
    rule(
        "one-bigger",
        TODAY,
        "one leg, my leg, left leg, right leg, one calf, one arm, left arm, right arm, one thigh",
        "twice the size, double the size, bigger than the other, fatter than the other, thicker than the other",
        near=6,
        unless="stronger, muscle, muscles, trained, inch, measured, always been, always was",
    ),
    rule(
        "rash-stays",
        NOW,
        "rash, spots",
        "glass, doesnt fade, dont fade, wont fade, not fade, doesnt go white, stays when",
        near=12,
        deniable=False,
    ),
    rule(
        "calf-hot",
        TODAY,
        "calf, calves",
        "hot, warm, red",
        near=4,
        unless=(
            "hot day, warm up, warmup, warmed up, sun, sunburn, bath, shower, sauna, tub, weather, "
            "warm now, warm again"
        ),
    ),
    rule("clot", TODAY, "blood clot, deep vein thrombosis, dvt"),
    rule("heat-named", NOW, "heat stroke, heatstroke, sunstroke, sun stroke, heat exhaustion"),
    rule(
        "heat",
        NOW,
        ("heat, hot, sun, overheated, overheating, boiling, sauna, stopped sweating"),
        (
            "confused, confusion, disoriented, disorientated, delirious, dont know where, vomiting, "
            "throwing up, not making sense, stopped sweating, shivering, faint, talking rubbish, talking "
            "nonsense, babbling, rambling, cant think straight, making no sense, stopped making sense"
        ),
        near=14,
        unless="hot tub, hot chocolate, confused about, confused by",
    ),
    rule(
        "confused",
        NOW,
        (
            "dont know where i am, dont know what day, no idea what day, no idea where i am, disoriented, "
            "disorientated, delirious, "
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
        "blood-up",
        NOW,
        "blood",
        (
            "coughing, coughed, cough, coughs, vomiting, vomited, vomit, threw up, throwing up, puked, "
            "puking, been sick, was sick, sick, spat, spitting, pouring, gushing, spurting, everywhere, "
            "puddle"
        ),
        near=4,
        unless="sweat, nose, gums, toothbrush, brushing",
    ),
    rule(
        "bleeding-on",
        NOW,
        "bleeding, bleed, bleeds, blood",
        (
            "keeps, deep cut, still, wont stop, will not stop, doesnt stop, does not stop, cant stop, "
            "cannot stop, not stopping, keeps coming, heavily, badly, a lot, soaked, not slowing, "
            "hasnt stopped, through the bandage"
        ),
        near=5,
        unless="blood test, blood pressure, blood sugar, blood flow, bleeding edge",
        deniable=False,
    ),
    rule(
        "blood-stool",
        TODAY,
        "blood, bloody, bleeding, bled",
        "stool, stools, poo, poop, shit, toilet bowl, rectum, back passage, bum, bottom, anus, backside",
        near=5,
    ),
    rule(
        "blood-toilet",
        TODAY,
        "blood, bleeding",
        "toilet, loo, when i wipe, on the paper, when i go",
        near=5,
        unless="nose, gums, finger, period, blood test, pressure",
    ),
    rule(
        "black-stool",
        TODAY,
        "stool, stools, poo, poop, shit, bowel movement",
        "black, tar, tarry",
        near=4,
        unless="iron tablets",
    ),
    rule(
        "swelling-throat",
        NOW,
        "throat, tongue, lips, face",
        f"{SWOLLEN}, closing, closing up, tightening",
        near=5,
        unless="tonsils, sore throat, a cold, tooth, dentist",
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
        "overdose",
        NOW,
        "took, taken, swallowed, taking, had",
        (
            "too many, all my, all of my, a whole, whole box, whole pack, double dose, handful, bunch, "
            "overdose, ten, twelve, fifteen, sixteen, twenty, thirty, forty, fifty, 10, 12, 15, 16, "
            "20, 24, 30, 32, 40, 50"
        ),
        (
            "pills, tablets, painkillers, paracetamol, ibuprofen, medicine, meds, sleeping pills, "
            "insulin, tylenol"
        ),
        near=7,
        deniable=False,
    ),
    rule(
        "low-sugar",
        NOW,
        "sugar, glucose, hypo",
        f"low, dropped, crashed, falling, hypo, {LOW_SUGAR}",
        "confused, shaking, shaky, sweating, dizzy, faint, cant think, blurry, trembling",
        near=10,
        unless="low sugar diet, low sugar bar",
    ),
    rule(
        "diabetic",
        NOW,
        "diabetic, diabetes, insulin, type 1, type one",
        "shaking, shaky, sweating, cant think, dizzy, confused, wobbly, trembling, blurry",
        near=12,
    ),
    rule(
        "belly",
        TODAY,
        "stomach, belly, abdomen, tummy, abdominal, gut, side",
        f"{_BELLY_PAIN}",
        (
            "severe, worst, terrible, unbearable, agony, so bad, cant stand, cannot stand, doubled "
            "over, excruciating, sudden, suddenly, stabbing, wont go away, getting worse"
        ),
        near=9,
        unless="doms, sit ups, situps, laughing, ab workout, abs, stitch, planks",
        deniable=False,
    ),
    rule(
        "testicle",
        NOW,
        "testicle, testicles, scrotum, bollock, bollocks",
        f"{PAIN}, {SWOLLEN}, sudden, suddenly, twisted",
        near=7,
    ),
    rule(
        "bulge",
        TODAY,
        "bulge, lump, bulging",
        "groin, belly, stomach, abdomen, navel, belly button, tummy, testicle",
        near=7,
        unless="old, years, repaired, operated, checked, doctor knows",
    ),
)
