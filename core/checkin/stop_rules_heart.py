"""Stop signs of chest and heart."""

from core.checkin.stop_lists import AT_WORK, HIGH_PULSE, PAIN, SWOLLEN
from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW = Urgency.EMERGENCY_NOW
TODAY = Urgency.DOCTOR_TODAY
FIRST = Urgency.DOCTOR_FIRST

_CHEST_FEELS = (
    f"{PAIN}, tight, tightness, tightening, tightens, tightened, pressure, squeezing, squeezed, "
    "heavy, heaviness, crushing, crushed, pinching, constricted, squeeze, squeezes, weight on, "
    "band around, elephant, sitting on, standing on, funny, weird, strange, odd"
)
_CHEST_IN_GYM = (
    "stretch, stretched, stretching, pump, pumped, sore, soreness, doms, muscle, muscles, "
    "pecs, bench, press, presses, pressing, bar, barbell, cue, working, work, train, training, "
    "trained, contraction, rep, reps, set, sets, volume, tension, push ups, pushups, press "
    "ups, dips, fly, flyes, flys, flies, hair, congested, cough, cold, session, day, workout, "
    "row, rows, strap, good, great, strong, stronger, bigger, grow, growing, growth, up, high, "
    "tall, open, position, form, cant feel, dont feel, feel it in, touch, touches, touched, "
    "depth, tattoo, shirt, exercise, lift, nice"
)

HEART: tuple[Rule, ...] = (
    rule(
        "chest",
        NOW,
        "chest, sternum, behind my ribs, left breast, rib cage",
        _CHEST_FEELS,
        near=6,
        unless=(
            "chest muscle, chest muscles, pec, pecs, chest infection, doms, shirt, bra, hoodie, "
            "jacket, bigger"
        ),
    ),
    rule(
        "chest-feeling",
        NOW,
        "chest, sternum, ribcage",
        (
            "feeling, feels, felt, sensation, something, thing, issue, problem, trouble, wrong, worse, "
            "acting up, playing up, squashing, squashed, gripping, clenching, clamping, clamped, knot, "
            "lump, fluttering, flutters"
        ),
        near=4,
        unless=_CHEST_IN_GYM,
    ),
    rule(
        "chest-named",
        NOW,
        (
            "my chest, inside my chest, in the chest, across the chest, around the chest, middle of "
            "the chest, centre of the chest, center of the chest, over the chest"
        ),
        unless=_CHEST_IN_GYM,
    ),
    rule("chest-press", NOW, "sternum", "pressing, pushing, feeling, funny", near=4),
    rule("chest-typed", NOW, "chestpain, chestpains, angina"),
    rule(
        "chest-wrong",
        NOW,
        "chest, heart",
        (
            "doesnt feel right, does not feel right, dont feel right, not feeling right, feels wrong, "
            "feels off, not right, isnt right, doesnt feel good, feels bad, not good, is bad"
        ),
        near=4,
        unless="form, technique, pump, stretch, activation, connection, position",
        deniable=False,
    ),
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
        f"{PAIN}, stopped, stopping",
        near=4,
        unless=("heart rate, heart out, by heart, broken heart, heartbroken"),
    ),
    rule(
        "heart-wrong",
        TODAY,
        "heart",
        (
            "thing, problem, problems, issue, issues, trouble, acting up, playing up, weird, strange, "
            "fluttery, funny, feels odd, condition is"
        ),
        near=3,
        unless="heart of, broken, by heart, funny bone, at heart",
    ),
    rule(
        "both-arms",
        NOW,
        "both arms, left arm, left shoulder, jaw, throat, neck, shoulder blades, upper back",
        "ache, aches, aching, pain, heavy, pressure, tight, tightness",
        (
            "pressure, clammy, sick, nausea, nauseous, queasy, sweating, sweaty, cold sweat, breathless, short "
            "of breath, faint"
        ),
        near=9,
        unless="sick of, pressure cuff, pillow, slept, a cold, sore throat, tooth",
    ),
    rule(
        "arm-spread",
        NOW,
        "left arm, both arms, jaw",
        (
            "spreading, radiating, radiates, shooting, going down, goes down, went down, across the front, "
            "had to stop, running "
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
        "jaw-at-work",
        NOW,
        "jaw, throat, lower teeth, breast, ribs, heartburn, indigestion, shoulder blades, across the front",
        f"{PAIN}, tight, pressure, feeling, hand, band, like",
        AT_WORK,
        near=10,
        unless="sore throat, a cold, dry, clenching, clench, clenched, gritting, grit, bra, stitch, form, stretch",
    ),
    rule(
        "palpitations",
        TODAY,
        (
            "palpitations, palpitation, afib, atrial fibrillation, heart stops, heart stopped, "
            "heart palpitations, skipped beats, skipping beats, irregular "
            "heartbeat, irregular heart, heart flutter, heart fluttering, heart flutters, heart "
            "skipping, fluttering heart, arrhythmia"
        ),
    ),
    rule(
        "racing-heart",
        TODAY,
        "heart",
        (
            "fluttering, irregular, irregularly, jumping, jumps, skipped, skipping, skips, flutters, "
            "flutter, going crazy, out of rhythm, wont slow down, wont settle, wont calm down, missing "
            "beats, misses beats, missed a beat, flip flops, flip over, flips over, flipped, "
            "turned over, turns over, lurched, lurches, stuttering, all over the place, erratic, "
            "uneven, beats weird, beating weird, beats funny"
        ),
        near=4,
        unless="jumping jacks, skipping rope, skipping drill, race",
    ),
    rule(
        "racing-at-rest",
        TODAY,
        "heart",
        "racing, races, raced, pounding, thumping, pounds, thumps, beating fast, beating so fast, "
        "beating too fast, going like mad, going mad, going nuts, going wild, hammering, hammers, "
        "galloping, banging, bangs, thudding, "
        "nineteen to the dozen, going bonkers, going crazy, doing somersaults",
        near=4,
        unless=(
            "sprint, sprints, interval, intervals, finisher, sled, hill, hills, burpees, circuit, "
            "hiit, emom, loved it, good session, great session, last round, that set, the last set, "
            "the bike, race"
        ),
    ),
    rule(
        "beating-fast",
        TODAY,
        "heart",
        "beating, beats, beat",
        "fast, faster, quick, quickly, hard, strong, too, much, wild, irregular, weird, funny, strange",
        near=6,
        unless=(
            "sprint, sprints, interval, intervals, finisher, sled, hill, hills, burpees, circuit, "
            "hiit, emom, loved it, per minute, bpm"
        ),
    ),
    rule(
        "racing-still",
        TODAY,
        "heart",
        "racing, races, raced, pounding, thumping, pounds, beating fast",
        (
            "still, wont, keeps, hours, hour, lying, sitting, in bed, no reason, at rest, all night, "
            "all day, minutes after, ages, not stopping, doesnt stop, not slowing"
        ),
        near=9,
    ),
    rule(
        "pulse",
        TODAY,
        "pulse",
        (
            "stuck, wont come down, wont go down, wont drop, not coming down, doesnt come down, didnt "
            "come down, irregular, erratic, uneven, skipping, skips, missing, all over the place, no "
            "reason, still racing, going crazy, racing in bed, racing at rest, wont settle, jumping "
            "around"
        ),
        near=12,
        unless="monitor, watch is, strap, sensor, battery",
        deniable=False,
    ),
    rule(
        "pulse-at-rest",
        TODAY,
        "pulse, hr, bpm, heart, heart rate",
        HIGH_PULSE,
        (
            "sat, sitting, sat down, lying, in bed, doing nothing, at rest, resting, on the sofa, on the "
            "couch, watching tv, not doing anything, not even moving, standing still, no reason"
        ),
        near=12,
        unless="between sets, max, monitor broken, monitor says error, battery",
        deniable=False,
    ),
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
        "weight-lost",
        FIRST,
        "lost, losing, loss, dropped",
        "weight, kilos, kg, lb, lbs, pounds, stone",
        (
            "without trying, not trying, no reason, unexplained, no idea why, dont know why, not dieting, "
            "without dieting, eating the same"
        ),
        near=10,
        unless="bar, grip, set, sets",
        deniable=False,
    ),
    rule(
        "calf-walking",
        FIRST,
        "calf, calves",
        f"{PAIN}, cramps",
        "walking, i walk, walk",
        near=8,
        unless="stairs, doms, raises, leg day, sore",
    ),
    rule(
        ("ankle-swelling"),
        FIRST,
        ("ankle, ankles, feet, lower legs, both legs, legs, leg"),
        SWOLLEN,
        near=5,
        unless=("swelling is gone, swelling has gone, swelling went down, no longer swollen"),
    ),
)
