"""Words that a text about one's health is likely to have. Pure.

The stop signs (`core/checkin/stop_signs.py`) know many phrases and not every one. What they miss is passed on to the
coach, who may look hours later; so a text with one of these words is answered with a caution as well. Wide on purpose:
it is one line more, and gym talk gets it now and then. Common practice, no source.
"""

from core.checkin.stop_phrases import phrases
from core.checkin.stop_signs import sentences

_WORDS = phrases(
    # what is felt
    "numb, numbness, tingling, tingly, pins, electric, shocks, dizzy, dizziness, faint, fainting, woozy, wobbly, "
    "giddy, lightheaded, headache, migraine, hurt, hurts, pain, pains, painful, ache, aches, aching, agony, burning, "
    "pressure, tightness, cramping, cramps, weak, weakness, clammy, shivering, chills, trembling, shaking, shaky, "
    "confused, unwell, ill, poorly, queasy, nausea, nauseous, vomit, vomiting, vomited, puke, puking, chucking, "
    "choking, swallow, gasping, wheezing, breathless, breath, breathe, breathing, air, sweats, sweaty, spinning, "
    "horrible, unbearable, excruciating, severe, "
    # what is seen
    "blood, bleeding, bleed, nosebleed, bruise, bruised, bruising, swollen, swelling, lump, bulge, dent, rash, "
    "blotchy, hives, drooping, lopsided, wonky, crooked, bone, blue, pale, puffy, yellow, pus, wound, "
    # what does not work
    "collapsed, fainted, unconscious, blackout, keeled, seizure, convulsion, fit, slurred, speech, tongue, vision, "
    "blind, sight, eye, eyes, dribble, dribbling, paralysed, gone to sleep, wont hold me, wont wake, cant walk, cant "
    "stand, cant feel, cant see, cant speak, cant move, no feeling, not like mine, not mine, next thing, tunnelled, "
    # where
    "heart, chest, pulse, jaw, throat, lung, lungs, kidney, belly, stomach, bowel, bowels, bladder, pee, peeing, wee, "
    "urine, poo, stool, groin, saddle, private, bits, genitals, testicle, breast, skull, "
    # what befalls
    "snapped, tore, torn, ripped, popped, dislocated, fracture, fractured, crushed, pinned, knocked, sting, stung, "
    "allergic, allergy, overheated, heatstroke, pregnant, pregnancy, miscarriage, baby, contractions, waters, "
    "overdose, pills, tablets, medication, sugar, diabetic, insulin, epilepsy, asthma, inhaler, "
    # who wants no more
    "die, dying, dead, suicide, suicidal, disappear, alive, living, hopeless, pointless, harm, cutting myself, "
    "hurting myself, cant go on, cant cope, end it, "
    # whom one asks
    "doctor, hospital, ambulance, paramedic, a and e, emergency, nurse, surgery"
)
_BY_FIRST: dict[str, tuple[tuple[str, ...], ...]] = {
    first: tuple(phrase for phrase in _WORDS if phrase[0] == first)
    for first in {phrase[0] for phrase in _WORDS}
}


def may_be_health(text: str) -> bool:
    """Return whether a text may be about the writer's health. Never raises."""
    return any(
        tuple(words[at : at + len(phrase)]) == phrase
        for words in sentences(text)
        for at, word in enumerate(words)
        for phrase in _BY_FIRST.get(word, ())
    )
