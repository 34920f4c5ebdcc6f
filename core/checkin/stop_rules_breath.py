"""Stop signs of breath, faintness and dizziness, and calls for help."""

from core.checkin.stop_lists import CANT, PAIN
from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW = Urgency.EMERGENCY_NOW
TODAY = Urgency.DOCTOR_TODAY
FIRST = Urgency.DOCTOR_FIRST

BREATH: tuple[Rule, ...] = (
    rule(
        "cant-breathe",
        NOW,
        f"{CANT}",
        ("breathe, breath, breathing, fill my lungs, get air, get any air, catch my breath, get my breath"),
        near=6,
        unless=(
            "through my nose, blocked nose, stuffy, brace, my breathing right, breathing pattern, "
            "breathing technique, breathing and bracing, hold my breath, held my breath"
        ),
        deniable=False,
    ),
    rule(
        "struggling-breath",
        NOW,
        (
            "trouble, difficulty, difficult, struggling, struggle, struggled, gasping, "
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
        "hard-breath",
        NOW,
        (
            "breathing hurts, getting no air, get no air, no air, hard to breathe, breathing is hard, "
            "breathing is really hard, breathing is so hard, breathing is very hard, breathing feels "
            "hard, breathing got hard, hard to get air, hard to catch my breath, hard to take a "
            "breath, hard to get my breath, hard time breathing, still breathing hard, breathing hard "
            "lying, breathing hard sitting, breathing hard for no reason, harder to breathe, breathing "
            "gets harder, breathing is getting harder, breathing gets worse, breathing is getting "
            "worse, breathing is bad, breathing feels wrong, breathing is shallow, breathing feels "
            "tight, breathing worse, painful to breathe, hurts to breathe, hurts when i breathe, pain "
            "when i breathe, hurts to take a breath"
        ),
        unless="through my nose, bracing, finisher, last set, breathe out on, breathe in on",
        deniable=False,
    ),
    rule(
        "breath-pain",
        TODAY,
        PAIN,
        (
            "when i breathe, when i breathe in, breathing in, deep breath, deep breaths, with every "
            "breath, each breath, every breath, to breathe in, when breathing"
        ),
        near=9,
        unless="stitch, cough, sore throat, nose, teeth",
    ),
    rule(
        "not-breathing",
        NOW,
        (
            "not breathing, isnt breathing, stopped breathing, no pulse on, has no pulse, cant wake "
            "him, cant wake her, wont wake up, isnt waking up, not waking up, not responding"
        ),
        unless="through my nose, bracing, brace, technique, reps, rep, squats, alarm, app, my phone, the bot",
        deniable=False,
    ),
    rule(
        "ambulance-number",
        NOW,
        (
            "call 911, call 999, call 112, call 000, call 111, dial 911, dial 999, dial 112, calling "
            "911, calling 999"
        ),
        unless="you wrote, you said, you told, it says, the card says, got it, understood, should i",
        deniable=False,
    ),
    rule(
        "ambulance",
        NOW,
        ("an ambulance, the ambulance, emergency room, gone to a and e, going to a and e"),
        "need, call, calling, send, get, fetch, waiting, coming, help, going to, on the way, dial",
        near=6,
        unless="driver, drive, drove, work on, sirens, last year, years ago, traffic, passed me",
        deniable=False,
    ),
    rule(
        "gasping",
        NOW,
        (
            "gasping for air, through a straw, ran out of air, running out of air, suffocating, cant "
            "get enough air, not enough air, not getting air, not getting enough air, lungs wont fill"
        ),
    ),
    rule(
        "breathless-rest",
        NOW,
        ("short of breath, shortness of breath, breathless, out of breath, winded, panting, puffed"),
        (
            "rest, resting, lying, lying down, sitting, sat, sitting down, in bed, at night, doing "
            "nothing, talking, standing still, wakes me, woke me, on the sofa, on the couch, all the "
            "time, lie flat, lying flat, lie down, finish a sentence, finish sentences, hold a "
            "conversation, cant talk, cant speak, getting dressed, brushing my teeth"
        ),
        near=9,
        unless=("between sets, rest between, short rest, rest times, rest time"),
    ),
    rule(
        "breath-upright",
        NOW,
        "pillows, propped up, sitting up, upright, in a chair, in the chair, flat, lying down, lie down",
        f"{CANT}, struggle, hard, gasping, gasp, no",
        "breathe, breath, breathing, air",
        near=9,
        unless="bench, press, exercise, drill, belly breathing, dead bug, brace, bracing",
        deniable=False,
    ),
    rule(
        "breath-sentence",
        NOW,
        f"{CANT}",
        "sentence, sentences, speak, talk",
        "breath, air, gasping, stopping for, puffed",
        near=9,
        deniable=False,
    ),
    rule(
        "air-at-night",
        NOW,
        "sit up, get up, wake, wakes, woke, stand up",
        "get air, get my breath, catch my breath, for air, for breath",
        near=8,
    ),
    rule("asthma", NOW, "asthma attack, inhaler isnt, inhaler doesnt, inhaler not, inhaler is not"),
    rule(
        "short-of-breath",
        TODAY,
        ("short of breath, shortness of breath, wheezing, wheezy, wheeze"),
        unless="asthma as usual, always do",
    ),
    rule(
        "breathless-mild",
        TODAY,
        "breathless, out of breath, winded, gasping, gasp",
        (
            "walking, stairs, for no reason, mild, easy, usual, unusually, barely, strange, scary, "
            "warm up, warmup, steps, one flight, kitchen, shower, shopping, putting, shoes, socks, dressed, "
            "making the bed, hoovering, cleaning, cooking, eating, bath, bending, tying, across the room, "
            "few "
            "metres, to the car, to the loo, to the toilet, bags, doing the dishes, slow walk"
        ),
        near=8,
        unless="sprint, sprints, sled, intervals, finisher, step ups, fun, loved it",
    ),
    rule(
        "fainted",
        NOW,
        (
            "black before my eyes, black before the eyes, black in front of my eyes, "
            "legs went from under me, "
            "woke up on the floor, came to on the floor, woke up on the ground, came round on, came to "
            "on, keeled over, had to wake me, out for a second, out for a couple of seconds, out for a "
            "few seconds, out for a minute, woke on the floor, woke on the mat, woke up on the mat, "
            "knocked myself out, fainted, passed out, blacked out, black out, blackout, lost "
            "consciousness, unconscious, unresponsive, knocked out, out cold, syncope, collapsed"
        ),
        unless=(
            "on the couch, on the sofa, in bed, on my bed, into bed, asleep, slept, blackout blinds, "
            "blackout curtains, tent "
            "collapsed, collapsed arch, collapsed arches, knees collapsed, knee collapsed, hip "
            "collapsed, chair collapsed, laughing"
        ),
    ),
    rule(
        "woke-down",
        NOW,
        "woke up, woke, came to, came round, waking up",
        (
            "on the floor, on the gym floor, on the ground, on the mat, bathroom floor, kitchen floor, "
            "on the tiles"
        ),
        near=5,
        unless="slept, tent, camping, mattress, bed broke",
    ),
    rule("was-out", NOW, "i was out, was out", "secs, sec, second, seconds, minute, people, cold", near=7),
    rule(
        "came-round",
        NOW,
        "woke up, woke, came to, came round, came back",
        "looking at me, standing over me, people around, over me, paramedic, paramedics",
        near=7,
    ),
    rule(
        "consciousness",
        NOW,
        "lost, lose, losing, loss, lack of, without",
        "consciousness, conscious",
        near=4,
    ),
    rule(
        "near-faint",
        TODAY,
        (
            "nearly fainted, almost fainted, nearly passed out, almost passed out, nearly blacked out, "
            "almost blacked out, nearly collapsed, almost collapsed, faint, fainting, pass out, "
            "passing out, blacking out, black out, keel over, going grey, grey out, greying out, "
            "greyed out, tunnel vision, vision went, everything went black, everything went dark, it "
            "all went black, all went black, went black for, world went black, everything goes black, "
            "seeing stars, saw stars, saw black, seeing black, black spots"
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
            "dizzy, dizziness, dizzyness, lightheaded, light headed, light headedness, woozy, vertigo, "
            "room spinning, head spinning, head is spinning, room is spinning, head turns, head is "
            "turning, everything is spinning, everything spins, head spins, unsteady on my feet, feel "
            "unsteady, felt unsteady, giddy, giddiness, head is swimming, head swims, swimmy, "
            "off balance all"
        ),
    ),
    rule(
        "spinning",
        FIRST,
        "room, everything, head, world",
        "spinning, spins, turning round",
        near=4,
        unless="spinning class, spin bike, heads up",
    ),
    rule(
        "clammy",
        NOW,
        (
            "clammy, cold sweat, cold sweats, grey and sweaty, pale and sweaty, sweaty and pale, blue"
            " lips, lips are blue, lips blue, lips went blue, lips turned blue"
        ),
    ),
    rule(
        "blue-lips",
        NOW,
        "lips, tongue, mouth",
        "blue, purple, grey, gray",
        near=4,
        unless="lipstick, ice cream, lolly, drink, raspberries, blueberries",
    ),
)
