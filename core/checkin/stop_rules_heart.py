"""Stop signs of chest, heart and breath, and of faintness."""

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
_CHEST_FEELS = (
    f"{_PAIN}, tight, tightness, tightening, pressure, squeezing, squeezed, heavy, heaviness, "
    "crushing, weight on, band around, elephant, sitting on, standing on, funny, weird, strange, odd"
)
_SWOLLEN = "swollen, swelling, swelled, swells, swell, swole up, puffy, puffed up, blown up, ballooned"
_CANT = (
    "cant, cannot, can not, couldnt, could not, unable to, not able to, wasnt able to, impossible to, "
    "havent been able to, not been able to, have not been able to"
)

HEART: tuple[Rule, ...] = (
    rule(
        "chest",
        NOW,
        "chest, breastbone, sternum, behind my ribs",
        _CHEST_FEELS,
        near=6,
        unless="chest muscle, chest muscles, pec, pecs, chest infection, doms",
    ),
    rule("chest-typed", NOW, "chestpain, chestpains, angina"),
    rule(
        "heart-attack",
        NOW,
        "heart attack, cardiac arrest",
        unless=("gave me a, nearly gave, almost gave, gives me a, giving me a, give me a"),
    ),
    rule(
        "heart-hurts",
        NOW,
        "heart",
        f"{_PAIN}, stopped, stopping",
        near=4,
        unless=("heart rate, heart was, heart out, by heart, broken heart, heartbroken"),
    ),
    rule(
        "arm-spread",
        NOW,
        "left arm, both arms, jaw",
        (
            "spreading, radiating, radiates, shooting, going down, goes down, went down, running "
            "down, down my, down the, into my, pain in"
        ),
        ("pain, ache, aching, numb, numbness, tingling, heavy, heaviness, pressure"),
        near=9,
    ),
    rule(
        "left-arm-numb",
        NOW,
        "left arm",
        "numb, went numb, gone numb, numbness, heavy and",
        near=4,
        unless="slept on, pump, pumped",
    ),
    rule(
        "jaw",
        NOW,
        "jaw",
        "pain, ache, aching, hurts, tight, pressure",
        near=4,
        unless="tooth, teeth, dentist, clenching, clench, clenched, chewing",
    ),
    rule(
        "cant-breathe",
        NOW,
        f"{_CANT}",
        ("breathe, breath, breathing, get air, get any air, catch my breath, get my breath"),
        near=3,
        unless=("through my nose, blocked nose, stuffy, hold my breath, held my breath"),
        deniable=False,
    ),
    rule(
        "struggling-breath",
        NOW,
        (
            "trouble, difficulty, difficult, struggling, struggle, struggled, hard, gasping, "
            "fighting, problems, suffocating, choking"
        ),
        "breathe, breathing, breath, for air, to get air",
        near=4,
        unless=(
            "through my nose, hold my breath, breathe out on, on the last set, last set, finisher, "
            "belly breathing, bracing, timing"
        ),
    ),
    rule(
        "gasping",
        NOW,
        (
            "gasping for air, suffocating, cant get enough air, not enough air, not getting air, not "
            "getting enough air, lungs wont fill"
        ),
    ),
    rule(
        "breathless-rest",
        NOW,
        ("short of breath, shortness of breath, breathless, out of breath, winded, panting"),
        (
            "rest, resting, lying, lying down, sitting, sat, sitting down, in bed, at night, doing "
            "nothing, talking, standing still, wakes me, woke me, on the sofa, on the couch, all the "
            "time"
        ),
        near=9,
        unless=("between sets, rested, rest between, short rest, rests, rest times, rest time"),
    ),
    rule(
        "short-of-breath",
        TODAY,
        ("short of breath, shortness of breath, wheezing, wheezy, wheeze"),
        unless="asthma as usual, always do",
    ),
    rule(
        "breathless-mild",
        TODAY,
        "breathless, out of breath, winded",
        (
            "walking, stairs, for no reason, mild, easy, usual, unusually, barely, strange, scary, "
            "warm up, warmup"
        ),
        near=8,
    ),
    rule(
        "palpitations",
        TODAY,
        (
            "palpitations, palpitation, heart palpitations, skipped beats, skipping beats, irregular "
            "heartbeat, irregular heart, heart flutter, heart fluttering, heart flutters, heart "
            "skipping, fluttering heart, arrhythmia"
        ),
    ),
    rule(
        "racing-heart",
        TODAY,
        "heart",
        (
            "racing, races, raced, pounding, thumping, fluttering, irregular, jumping, skipped, "
            "skipping, going crazy, out of rhythm, wont slow down, wont settle"
        ),
        near=4,
        unless="jumping jacks, skipping rope, skipping drill, race",
    ),
    rule(
        "fainted",
        NOW,
        (
            "woke up on the floor, came to on the floor, knocked myself out, "
            "fainted, passed out, blacked out, black out, blackout, lost consciousness, unconscious, "
            "unresponsive, knocked out, out cold, syncope, collapsed"
        ),
        unless=(
            "on the couch, on the sofa, in bed, on my bed, into bed, asleep, slept, blackout blinds, "
            "blackout curtains, tent "
            "collapsed, collapsed arch, collapsed arches, knees collapsed, knee collapsed, hip "
            "collapsed, chair collapsed, laughing"
        ),
    ),
    rule(
        "near-faint",
        TODAY,
        (
            "nearly fainted, almost fainted, nearly passed out, almost passed out, nearly blacked "
            "out, almost blacked out, nearly collapsed, almost collapsed, faint, fainting, pass out, "
            "passing out, blacking out, black out, keel over, going grey, grey out, greying out, "
            "greyed out, tunnel vision, vision went"
        ),
        unless=(
            "faint smell, faint hope, faint praise, faint line, faint hearted, laughing, on the "
            "couch, on the sofa, asleep"
        ),
    ),
    rule(
        "dizzy",
        FIRST,
        (
            "dizzy, dizziness, dizzyness, lightheaded, light headed, light headedness, woozy, "
            "vertigo, room spinning, head spinning, head is spinning, room is spinning, unsteady on "
            "my feet"
        ),
    ),
    rule(
        "clammy",
        NOW,
        (
            "clammy, cold sweat, cold sweats, grey and sweaty, pale and sweaty, sweaty and pale, blue"
            " lips, lips are blue, lips blue, lips went blue, lips turned blue"
        ),
    ),
    rule("ankle-swelling", FIRST, "ankle, ankles, feet, lower legs, both legs, legs", _SWOLLEN, near=5),
    rule("murmur", FIRST, "heart murmur, murmur in my heart, murmur on my heart"),
    rule(
        "unusual-fatigue",
        FIRST,
        (
            "unusual fatigue, unusually tired, unusually breathless, unexplained fatigue, exhausted "
            "for no reason, tired for no reason, unexplained weight loss, losing weight without "
            "trying, lost weight without trying"
        ),
    ),
    rule(
        "calf-walking",
        FIRST,
        "calf, calves",
        "pain, cramp, cramps, cramping, hurts",
        "walking, i walk, walk",
        near=8,
        unless="stairs, doms, raises, leg day, sore",
    ),
)
