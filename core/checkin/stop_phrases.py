"""Words around a stop sign: what denies it, whose it is, figures of speech, slips of the finger.

All are common practice, no source. A second language adds to each list.
"""


def phrases(listed: str) -> frozenset[tuple[str, ...]]:
    """Return phrases set apart by commas, each as its words."""
    return frozenset(tuple(phrase.split()) for phrase in listed.split(","))


NEGATORS = phrases(
    "no, not, without, never, none, nothing, isnt, wasnt, arent, dont have, didnt, doesnt, dont, "
    "havent, hasnt, free of, no more, no longer, neither, nor, rather than, instead of, rule out,"
    " ruled out, zero"
)
"""What takes back the phrase that follows within a few words."""

NOT_DENYING = phrases(
    "not only, not just, not sure, not good, not great, not ok, not okay, not well, not right, no"
    " idea, no doubt, no joke, no lie, not feeling, not lying, no warning, dont know, do not "
    "know, dont feel, not better, not normal, not going away, wont go away, doesnt go, not "
    "stopping, dont like, no rest, not able to, not nice, no good, no way, not gone, didnt go, "
    "not getting better, not improving, not settling, no better"
)
"""Denials that deny nothing about the sign."""

NEARLY = phrases("nearly, almost")
"""Right before a sign: it did not happen."""

LIKE_THIS = phrases("like this, like that, this bad, so bad, before, this strong, as bad")
"""With these "never" denies nothing: "never had chest pain like this"."""

OTHERS = phrases(
    "dad, mum, mom, mother, father, wife, husband, partner, girlfriend, boyfriend, brother, "
    "sister, son, daughter, kid, kids, friend, mate, crewmate, boss, colleague, dog, cat, "
    "neighbour, neighbor, grandma, grandad, grandfather, grandmother, nan, uncle, aunt, cousin, a"
    " guy, someone, somebody, a bloke, a woman, a man, casualty, patient, victim, teammate, "
    "flatmate, roommate, he, she, they, his, her, their, the skipper, trainee"
)
"""Whose sign it is when it is not the writer's own."""

SELF = phrases("i, im, ive, me, my, id, myself, mine, we, our")
"""The writer; the nearest word before a sign tells whose it is."""

PAST = phrases(
    "years ago, year ago, last year, as a kid, as a child, when i was, months ago, back in "
    "school, in my twenties, decades ago, in 2010, in 2015, in 2018, in 2019, in 2020, in 2021, "
    "in 2022, in 2023"
)
"""What tells that a sign is long past."""

IDIOMS = phrases(
    "chest day, chest press, chest presses, chest fly, chest flies, chest flyes, chest flye, "
    "chest workout, chest session, chest work, chest exercise, chest exercises, chest supported "
    "row, chest supported rows, chest supported, chest to bar, chest to floor, chest up, chest "
    "tall, chest high, chest height, chest strap, heart rate strap, chest pump, chest and back, "
    "chest and arms, chest and triceps, back and chest, chest to the bar, chest to the floor, "
    "chest opener, chest stretch, chest out, chest forward, chest down, chest freezer, heavy "
    "chest, big chest, upper chest, chest volume, touch my chest, touched my chest, off my chest,"
    " off the chest, to my chest, bar to chest, proud chest, chest proud, medicine chest, chest "
    "dips, chest dip, head day, killer session, killer workout, dead hang, dead hangs, dead bug, "
    "dead bugs, deadlift, dead lift, dead stop, dead tired, killing it, killed it, killed me, "
    "kill me, heart out, in my heart, by heart, heart rate, with all my heart, heart was in it, "
    "heart wasnt in it, take heart, sweetheart, breast stroke, rowing stroke, back stroke, heart "
    "set, heart rate monitor, leg press, leg presses, leg curl, leg curls, leg extension, leg "
    "extensions, leg raise, leg raises, single leg, one leg, arm day, arm curl, hand over hand, "
    "back squat, back squats, broke a sweat, broke my record, broke my pr, broke my pb, head "
    "height, head position, overhead, head up, head down, foot of the bed, on foot, by hand, hand"
    " grip"
)
"""Words that belong to the gym or to a figure of speech; they are taken out before a rule is tried."""

PRESENT = phrases(
    "now, again, today, tonight, still, same, like, currently, right now, this morning, just now,"
    " started, keeps, back"
)
"""What tells that it is not past after all."""

SLIPPING = (
    "chest breathe breathing breath breathless palpitations fainted fainting dizzy dizziness "
    "numbness unconscious collapsed bladder bowel suicide suicidal concussion seizure headache "
    "swollen swelling fracture fractured urine tightness pressure crushing confused bleeding "
    "pregnant lightheaded fever paralysed tingling weakness myself incontinent slurred heatstroke"
    " shortness dislocated racing passed blacked"
)
"""Words that are known with a slip in them."""

NOT_SLIPS = frozenset(
    word
    for phrase in phrases(
        "chess cheat cheats quest chase chaste crest chests breast breasts breathed breather breaths "
        "bread breadth breach painted tainted feinted painting fainter faints fancied dizzying breeding "
        "blending bleating pleading fracturing facture leading reading beading heading headaches braking "
        "tracing bracing placing pacing raising facing packed blocked backed stacked cracked slacked "
        "lacked hacked blackened passes paused posed parsed tossed massed dressed pressed passer passe "
        "swollen spelling dwelling smelling selling telling welling sweating swearing pleasure measure "
        "pressures bowels bowl bowls towel vowel bower batter ladder badder sadder blander fewer never "
        "lever refer feeder ferver confuse confuses confusing refused infused excused accused defused "
        "buddy ditzy busy crashing brushing rushing crunching weariness wellness meekness bleakness "
        "weaknesses lightness brightness tight tightens rightness sweetness fitness thing tingle mingling"
        " single urging marine purine fracas heathen himself itself pregnancy relapsed collapse collapses"
        " colllapse slammed slurped blurred dissolved breathable christ cheer cheers wheat cheap chased "
        "chose closest guest nest rest best west test jest pest vest lest zest"
    )
    for word in phrase
)
"""Common words that are never taken for one of those with a slip."""
