"""Stop signs in odd words: a part of the body beside any word for strange, huge, or out of shape."""

from core.checkin.stop_lists import AT_WORK, CANT
from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW = Urgency.EMERGENCY_NOW
TODAY = Urgency.DOCTOR_TODAY
DISTRESS = Urgency.DISTRESS

_STRANGE = (
    "funny, weird, odd, oddly, strange, strangely, wonky, wrong, not right, off, mental, crazy, mad, haywire, "
    "bonkers, berserk, nuts, wild, all over the place, not normal, abnormal"
)
_JOINTS = "ankle, knee, wrist, elbow, shoulder, finger, toe, thumb, foot, hand, leg, arm"
_HUGE = (
    "size of a, size of an, like a balloon, like a melon, like a football, like a grapefruit, like a tennis ball, "
    "like an orange, like an egg, twice its size, twice its normal size, double its size"
)
_SHAPE = "odd shape, funny shape, weird shape, strange shape, wrong shape, different shape, out of shape, misshapen"

STRANGE: tuple[Rule, ...] = (
    rule(
        "heart-strange",
        TODAY,
        "heart, pulse",
        f"went, going, goes, gone, feels, felt, feeling, beats, beating, {_STRANGE}",
        f"{_STRANGE}, uneven, irregular, jumpy",
        near=5,
        unless="heart set on, by heart, heart of, watch battery, strap, app, rate monitor, off the bike, signed off",
    ),
    rule(
        "speech-strange",
        NOW,
        "speech, words, voice, talking, smile, mouth, face",
        "gone, went, looks, look, looked, sounds, sound, sounded, feels, felt, come out, coming out",
        f"{_STRANGE}, lopsided, uneven",
        near=6,
        unless=(
            "face pull, face pulls, video, selfie, photo, mirror, voice note, voice message, voice typing, sore "
            "throat, a cold, words on, face off, autocorrect, read wrong"
        ),
    ),
    rule(
        "keeled-over",
        NOW,
        (
            "keeled over, keel over, nearly keeled over, almost keeled over, nearly went down, nearly went over, "
            "almost went down, legs went from under"
        ),
        unless="laughing, lol, haha",
    ),
    rule(
        "head-never-so",
        NOW,
        "head, headache",
        "pounding, splitting, throbbing, exploding, hurts, bursting, banging, headache",
        (
            "like never before, never had anything like, never like this, never this bad, worst ever, mid rep, "
            "mid set, during the set, during the rep, in the middle of the set, at the top of the rep"
        ),
        near=14,
        deniable=False,
    ),
    rule(
        "headache-never-so",
        NOW,
        "headache, migraine, head pain",
        "most horrible, ever had, like never before, never had anything like, never this bad, worst ever",
        near=6,
        unless="never had a headache, hardly ever had",
        deniable=False,
    ),
    rule(
        "dribbles",
        NOW,
        "dribble, dribbles, dribbling, leak, leaking, leaks",
        "cant control, cant hold, cant stop it, no control, without noticing, dont notice, since my back, back went",
        near=12,
        unless="bottle, ball, shaker, when i jump, jumping, skipping",
        deniable=False,
    ),
    rule("joint-huge", TODAY, _JOINTS, _HUGE, near=7, unless="pump, pumped, muscle, goal, want"),
    rule(
        "joint-bent",
        TODAY,
        _JOINTS,
        "bent, went, gave, buckled, twisted, folded, popped, slipped",
        "sideways, backwards, wrong way, inwards and, horrible noise, awful noise, horrible sound, nasty noise",
        near=9,
        unless="lunge, lunges, walks, steps, band, drill, cue, video, roll, bar went",
    ),
    rule(
        "out-of-shape",
        NOW,
        _JOINTS + ", collarbone, nose",
        _SHAPE,
        near=6,
        unless="i am out of shape, im out of shape",
    ),
    rule(
        "pinned",
        NOW,
        "bar, barbell, weight",
        "pinned, pinning, trapped, rolled onto, stuck on",
        "neck, throat, chest, face, windpipe",
        near=7,
    ),
    rule(
        "waters",
        TODAY,
        "fluid, water, waters, liquid",
        "leaking, leaked, leak, gush, gushed, trickle, trickling, came out, coming out",
        "weeks, wks, due date, bump, baby",
        near=9,
        unless="bottle, shaker, tap, roof",
    ),
    rule(
        "grip-overnight",
        TODAY,
        "grip, hand, arm, leg, foot",
        "strength, weak, weaker, weakness, power, floppy",
        "overnight, woke up, this morning, all of a sudden, out of nowhere, for no reason",
        near=10,
        unless="session, sets, trainer, workout, slept on",
        deniable=False,
    ),
    rule(
        "indigestion-at-work",
        NOW,
        "indigestion, heartburn",
        (
            f"{AT_WORK}, got worse, gets worse, had to sit, had to stop, sweaty, sweating, clammy, short of breath, "
            "arm, jaw"
        ),
        near=12,
    ),
    rule(
        "no-way-out",
        DISTRESS,
        f"{CANT}, no, dont",
        "see a way out, way out of this, way out any more, way out anymore, see a future, see any future, do this life",
        near=5,
        unless="gym, car park, building, exit, squat, rack",
        deniable=False,
    ),
    rule(
        "emergency-said",
        NOW,
        "emergency, need an ambulance, call an ambulance, get an ambulance, ambulance please, need help now",
        unless=(
            "emergency number, emergency at work, family emergency, emergency meeting, emergency exit, work emergency, "
            "emergency contact, emergency stop, emergency room, emergency food, emergency snack"
        ),
    ),
    rule(
        "want-it-over",
        DISTRESS,
        "want, wish, need, make",
        "it all to stop, everything to stop, it all stop, it all to end, it all to be over, it all over",
        near=4,
        unless="pain to stop, doms, set, session, block, week, diet, planks",
        deniable=False,
    ),
    rule(
        "better-off",
        DISTRESS,
        "everyone, everybody, family, kids, they, people, you, world, nobody",
        "better off, better, happier",
        "without me, if i wasnt around, if i was gone, if i wasnt here, if i were gone, if i disappeared",
        near=10,
        deniable=False,
    ),
    rule(
        "numb-for-days",
        TODAY,
        "numb, numbness, tingling, pins and needles, gone to sleep, fallen asleep, no feeling",
        f"{_JOINTS}, fingers, toes, hands, feet, legs, arms, thigh, shin",
        "for days, two days, three days, four days, for a week, for weeks, two weeks, since yesterday, all week",
        near=9,
        unless="cold, gloves, chilblains",
        deniable=False,
    ),
    rule(
        "next-thing-floor",
        NOW,
        "next thing i knew, next thing i know, next i knew",
        "floor, ground, people, ambulance, staff, someone, deck",
        near=9,
        unless="on the floor laughing, lol, haha",
    ),
    rule(
        "rash-and-throat",
        NOW,
        "blotchy, hives, rash, stung, nuts, allergic, itchy",
        "hard to swallow, cant swallow, hard to breathe, throat, tongue, lips, eyes swollen",
        near=12,
        unless="sore throat",
    ),
    rule(
        "bleeds-on",
        TODAY,
        "nosebleed, nose bleed, nose bleeding, bleeding",
        "for an hour, for hours, half an hour, wont stop, doesnt stop, not stopping, keeps coming",
        near=6,
        deniable=False,
    ),
    rule("bone-showing", NOW, "bone showing, bone is showing, see the bone, can see bone, bone through"),
    rule(
        "tongue-numb",
        NOW,
        "tongue, lips, cheek",
        "numb, numbness, tingling, drooping, heavy",
        near=4,
        unless="dentist, cold, chilli, creatine, beta alanine, pre workout, preworkout",
    ),
    rule(
        "muscle-tore",
        TODAY,
        "hamstring, quad, calf, pec, bicep, biceps, tricep, triceps, groin, achilles, tendon, muscle, adductor, lat",
        "tore, torn, ripped, ruptured",
        near=3,
        unless="shorts, trousers, leggings, strap, years ago, last year, as a kid, look, looks",
    ),
    rule(
        "shocks-on-looking",
        TODAY,
        "electric, shock, shocks, zap, zaps, lightning",
        "arm, arms, legs, spine, back, body",
        "look down, bend my neck, bend my head, chin to chest, tuck my chin",
        near=9,
    ),
    rule(
        "wont-hold-me",
        NOW,
        "legs, both legs",
        "wont hold me, wont hold me up, dont hold me, wont carry me, cant hold me, cant carry me",
        near=9,
        unless="lol, haha, doms, love, leg day",
        deniable=False,
    ),
    rule(
        "sight-narrows",
        NOW,
        "vision, sight, eyes",
        "tunnel, tunnelled, tunneled, tunnelling, narrowed, went, going, closing in",
        "dropped, fell, down, ringing, black, dark, grey, gray, faint, floor",
        near=9,
        unless="eyes on, eyes down, eyes up, look down",
    ),
    rule(
        "disappear",
        DISTRESS,
        (
            "want to disappear, wanna disappear, wish i could disappear, keep living like, go on living like, "
            "live like this"
        ),
        unless="fat, belly, weight, gut",
        deniable=False,
    ),
)
