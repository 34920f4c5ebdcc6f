"""Stop signs of head, sight, speech and one side of the body."""

from core.checkin.stop_lists import CANT
from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW = Urgency.EMERGENCY_NOW

_HIT = (
    "hit, hitting, banged, banging, bumped, knocked, smacked, cracked, whacked, bashed, "
    "struck, slammed, landed on, fell on, falling on, fell onto, falling onto, landing on, "
    "dropped, smashed, clocked, swung into, went into, caught"
)
_ONE_SIDE = (
    "one side, left side, right side, half of my body, half my body, half my face, half of my "
    "face, side of my face, side of my body, left half, right half"
)

HEAD: tuple[Rule, ...] = (
    rule(
        "head-injury",
        NOW,
        _HIT,
        "my head, head, skull, my face, my temple, temple, forehead",
        near=6,
        unless=(
            "nail on the head, head over, headband, personal best, head of, hit a new, overhead, head"
            " first into the"
        ),
    ),
    rule(
        "head-struck",
        NOW,
        "bar, barbell, plate, dumbbell, kettlebell, weight, ball, rack, bell, pin, bench, rig, door",
        "on the head, on my head, to the head, to my head, in the head, in the face, in my face, to the face",
        near=5,
        unless="hold, holding, balance, balancing, overhead, gets in my, music, over",
    ),
    rule(
        "headache-stiff",
        NOW,
        "headache, migraine, head hurts, head pain",
        (
            "stiff neck, neck is stiff, neck stiff, cant bend my neck, rash, look at light, at the light, "
            "light hurts, bright light, lights hurt"
        ),
        near=12,
    ),
    rule(
        "sight-flashes",
        NOW,
        "flashes, flashing, flashing lights, floaters, curtain, shadow",
        "eye, eyes, sight, vision",
        near=9,
        unless="camera, flash on, curtain rail",
    ),
    rule(
        "head-injury-named",
        NOW,
        ("head injury, concussion, concussed, head trauma, seeing double, double vision"),
    ),
    rule(
        "bar-on-neck",
        NOW,
        "bar, barbell, plate, dumbbell, kettlebell, weight",
        "fell, dropped, landed, crushed, came down",
        "neck, throat, head, chest, face",
        near=9,
    ),
    rule(
        "headache",
        NOW,
        (
            "sudden, suddenly, worst, thunderclap, explosive, severe, exploded, exploding, blinding, "
            "excruciating, unbearable"
        ),
        ("headache, head pain, pain in my head, migraine, my head hurts, head hurts"),
        near=5,
    ),
    rule(
        "head-burst",
        NOW,
        "burst, popped, pop, bang, exploded, snapped, gave, went",
        "in my head, inside my head, in my skull",
        near=3,
        unless="song, idea, thought, voice, numbers",
    ),
    rule(
        "headache-hit",
        NOW,
        "headache, head hurts, head is pounding, head pounding, dizzy, blurry, memory, sick",
        "knock, knocked, hit, hitting, bang, banged, bump, bumped, fall, fell, landed, whacked, concussed",
        "head, knock, fall, headache, ground, floor, ice, bike",
        near=10,
        unless="sick of, fell asleep, fall asleep, hit a, hit the gym, hit my, headache from",
    ),
    rule(
        "headache-sudden",
        NOW,
        "headache, head pain, migraine, skull, pain in my head, head hurts, head splitting",
        (
            "in a second, in seconds, from hell, out of nowhere, from nowhere, instantly, all of a "
            "sudden, at once, came on like, vomiting"
        ),
        near=8,
    ),
    rule(
        "eye",
        NOW,
        "couldnt see, cant see, cannot see, could not see, blind, lost sight",
        "on the left, on the right, left eye, right eye, one eye, my eye, left side, right side",
        near=5,
        unless="mirror, video, camera, screen",
        deniable=False,
    ),
    rule(
        "vision",
        NOW,
        "vision, eyesight, sight",
        "double, blurred, blurry, gone, lost, grey, gray, black, dark, strange, patchy, half",
        near=5,
        unless="contact lenses, glasses, optician, lost sight of, in sight, television",
    ),
    rule(
        "sight-part",
        NOW,
        "half, part, one side, bits",
        "what i see, i see, my view, my sight, the picture",
        "missing, gone, dark, blank, black",
        near=7,
        unless="video, photo, screen, card, app, message",
    ),
    rule("pupils", NOW, "pupil, pupils", "bigger, larger, different, uneven, huge, unequal, wide"),
    rule(
        "stroke",
        NOW,
        (
            "blurred vision, vision is blurred, vision went blurry, slurred, face drooping, face is "
            "drooping, face droops, face dropped, mouth drooping, slurred "
            "speech, slurring, slurring my words, cant speak, cannot speak, lost my speech, speech is"
            " slurred, having a stroke, had a stroke, lost vision, lost my vision, lost sight, cant "
            "see, cannot see, gone blind, went blind, one side is numb, numb on one side, numb down "
            "one side, one side went numb, one side of my face, one side of my body"
        ),
        unless=(
            "stroke of luck, cant see the, cannot see the, cant see my, cant see a, cant see it, "
            "cant see how, cant "
            "see why, cant see what, cant see where, cant see any, cant see myself, cant see that, "
            "cant see you, cannot see how"
        ),
        deniable=False,
    ),
    rule(
        "one-side",
        NOW,
        _ONE_SIDE,
        (
            "numb, numbness, paralysed, paralyzed, drooping, droops, drooped, hanging down, suddenly "
            "weak, sudden weakness"
        ),
        near=6,
        unless="slept on, lay on, dentist, dumbbell, ramp",
    ),
    rule(
        "one-side-lost",
        NOW,
        _ONE_SIDE,
        "no feeling, cant move, cannot move, cant lift, cannot lift, cant feel, cannot feel, not mine, isnt mine",
        near=9,
        unless="slept on, lay on, dentist, dumbbell, ramp, glute, glutes, lat, lats, working",
        deniable=False,
    ),
    rule(
        "face",
        NOW,
        "face, mouth, smile, eyelid",
        (
            "lopsided, drooping, droopy, droops, drooped, hanging, hangs, sagging, twisted, falling "
            "down, numb, wont move, cant move, cannot move"
        ),
        near=4,
        unless="face pull, face pulls, face down, dentist, cold, towel",
    ),
    rule(
        "speech",
        NOW,
        "words, speech, talking, sentences, speaking",
        (
            "jumbled, slurred, garbled, muddled, mixed up, dont make sense, wont come, came out wrong, "
            "come out wrong, out wrong, all wrong, dont come out, wont come out, make no sense, "
            "not making sense"
        ),
        near=5,
        unless="cue, instructions, your, app, voice typing, autocorrect",
    ),
    rule(
        "words-lost",
        NOW,
        CANT,
        (
            "words out, find words, find the words, find my words, form words, get my words, form a "
            "sentence, speak, talk"
        ),
        near=4,
        unless=(
            "talk now, talk on, talk today, talk later, in a meeting, speak english, speak german, "
            "losing my voice, sore throat, lost my voice, on the card, video, cue, app"
        ),
        deniable=False,
    ),
    rule(
        "sudden",
        NOW,
        "sudden, suddenly, all at once, out of nowhere, out of the blue",
        (
            "numb, numbness, weak, weakness, clumsy, confused, confusion, blind, cant see, cannot see, "
            "cant speak, cannot speak, paralysed, tingling"
        ),
        near=6,
    ),
    rule(
        "shook-all-over",
        NOW,
        "shook all over, shaking all over, jerking, jerked, twitching all over, shook",
        "dont remember, no memory, bit my tongue, wet myself, came round, eyes rolled",
        near=14,
        deniable=False,
    ),
    rule(
        "fell-no-memory",
        NOW,
        "went down, fell, collapsed, keeled over, hit the floor, hit the deck, dropped to the floor",
        "dont remember, didnt remember, cant remember, no memory, remember nothing, next thing, came round",
        near=14,
        unless="dont remember which, cant remember which, cant remember what, cant remember how many, asleep",
        deniable=False,
    ),
    rule(
        "limb-sudden",
        NOW,
        CANT,
        "lift, raise, move, hold up, use",
        "arm, leg, hand, foot",
        "all of a sudden, suddenly, out of nowhere, out of the blue, since i woke, when i woke",
        near=14,
        unless="set, sets, rep, reps, doms, sore, machine, weight",
        deniable=False,
    ),
    rule("seizure", NOW, ("seizure, seizures, convulsion, convulsions, convulsing, had a fit, having a fit")),
)
