"""Words around a stop sign: what denies it, whose it is, figures of speech, slips of the finger.

All are common practice, no source. A second language adds to each list.
"""

from collections.abc import Sequence

_FILLERS = (
    "tf af rn fr ngl tbh lowkey literally totally kinda sorta uh um er really very quite completely "
    "actually basically honestly pretty extremely absolutely super fully"
)
FILLERS = frozenset(_FILLERS.split())
"""Words that change nothing of what is said; they are left out of texts and of phrases."""


_STEM_FROM = 5
"""Shorter words have no ending that is taken off. [letters] Our proposal."""
_ENDINGS = ("ing", "ed", "es", "s", "e")
_KEPT = (
    "during morning evening nothing something anything boss less "
    "unless across press because fainted killing killed"
)
_WHOLE = frozenset(_KEPT.split())
"""Words that mean something else with their ending off."""


def stem(word: str) -> str:
    """Return a word without the ending of its form: "burns", "burning" and "burned" are one word."""
    if len(word) < _STEM_FROM or word in _WHOLE:
        return word
    for ending in _ENDINGS:
        left = word.removesuffix(ending)
        if left != word and len(left) > 2 and not (ending == "s" and left[-1] in "su"):
            doubled = ending in ("ing", "ed") and left[-1] == left[-2] and left[-1] not in "aeiou"
            return left[:-1] if doubled else left
    return word


_FULL = {("can", "not"): "cant", ("do", "not"): "dont", ("does", "not"): "doesnt", ("did", "not"): "didnt"}


def contracted(words: Sequence[str]) -> list[str]:
    """Return words with "cannot" and "do not" in the one form that the rules know, "cant" and "dont"."""
    left: list[str] = []
    for word in words:
        short = _FULL.get((left[-1], word)) if left else None
        if short:
            left[-1] = short
        else:
            left.append("cant" if word == "cannot" else word)
    return left


def phrases(listed: str) -> frozenset[tuple[str, ...]]:
    """Return phrases set apart by commas, each as the stems of its words, without fillers."""
    split = (
        tuple(stem(word) for word in contracted(phrase.split()) if word not in FILLERS)
        for phrase in listed.split(",")
    )
    return frozenset(words for words in split if words)


NEGATORS = phrases(
    "no, not, without, never, none, nothing, isnt, wasnt, arent, dont have, didnt, doesnt, dont, "
    "havent, hasnt, free of, no more, no longer, neither, nor, rather than, instead of, rule out,"
    " ruled out, zero, sin, kein, keine, keinen, keinerlei, nicht, ohne, pas, sans, aucune, aucun, sem, nao, "
    "ningun, nenhuma, nenhum"
)
"""What takes back the phrase that follows within a few words."""

NOT_DENYING = phrases(
    "not only, not just, not sure, not good, not great, not ok, not okay, not well, not right, "
    "no idea, no doubt, no joke, no lie, not feeling, not lying, no warning, dont know, do not "
    "know, dont feel well, dont feel right, dont feel good, dont feel my, not better, not "
    "normal, not going away, wont go away, doesnt go, not stopping, dont like, no rest, not "
    "able to, not nice, no good, no way, not gone, didnt go, not getting better, not "
    "improving, not settling, no better, nao aguento, no aguanto, nao passa, no se me pasa, "
    "supporte pas, passe pas, nicht aus, nicht weg"
)
"""Denials that deny nothing about the sign."""

NEARLY = phrases("nearly, almost")
"""Right before a sign: it did not happen."""

LIKE_THIS = phrases("like this, like that, this bad, so bad, before, this strong, as bad")
"""With these "never" denies nothing: "never had chest pain like this"."""

OTHERS = phrases(
    "dad, mum, mom, mother, father, wife, husband, partner, girlfriend, boyfriend, brother, "
    "sister, son, daughter, kid, kids, friend, mate, crewmate, boss, colleague, dog, cat, "
    "neighbour, neighbor, grandma, grandad, grandfather, grandmother, nan, uncle, aunt, "
    "cousin, a guy, someone, somebody, a bloke, gran, granny, grandma, grandpa, nana, stepdad, "
    "stepmum, stepmom, niece, nephew, buddy, coworker, housemate, a lady, a girl, a boy, a "
    "client, teacher, mi padre, mi madre, mein vater, meine mutter, mon pere, ma mere, meu "
    "pai, minha mae, a bloke, a woman, a man, casualty, patient, victim, teammate, flatmate, "
    "roommate, training partner, gym partner, he, she, they, his, her, their, the skipper, "
    "trainee"
)
"""Whose sign it is when it is not the writer's own."""

HELP_THEM = phrases(
    "is having, are having, is not breathing, isnt breathing, not breathing, stopped "
    "breathing, just collapsed, has collapsed, just fainted, just passed out, has passed out, "
    "just dropped, right now, is unconscious, wont wake up, isnt waking up, is not waking up, "
    "not responding, ambulance, lying on the floor, just now, help me, help us, help him, help "
    "her, please help, need help, what do i do"
)
"""With these an emergency of somebody else is one that goes on now, and gets the text that calls for help."""

WHEN_EVER = phrases(
    "if i get, if i feel, if i have, if i ever, if i had, if you feel, if you get, if you have, if there is, "
    "if theres, if anyone, if someone, in case of, in case i get, should i get, should i feel"
)
ADVICE = phrases(
    "what should i do, what do i do, what would i do, what shall i do, stop if, stop when, stop training if, "
    "you wrote, you said, you told, told me, the plan says, your note, your text, it says, the card says, "
    "ill stop, i will stop, id stop, i would stop, ill tell you, i will tell you, ill call, i will call, "
    "who do i call, who should i call, will do, got it, understood"
)
"""A sign that follows one of the first, in a sentence with one of the second, "
"is a rule that is talked about."""

TOPIC = phrases(
    "course about, course on, film about, movie about, book about, reading about, read about, "
    "article about, article on, podcast about, podcast on, talk about, talk on, lesson about, "
    "class about, documentary about, documentary on, news about, quiz about, exam on"
)
"""What is only read or heard of, where the writer does not stand between it and the sign."""

_SAYING = "said say says saying think thinks thought told tell reckon reckons noticed saw found called call"
SAYING = frozenset(stem(word) for word in _SAYING.split())
"""After somebody: "they said it was" tells of the writer."""

AFTER_ALL = phrases("but almost, but nearly, almost did, nearly did, but i came close, came close to it")
"""After a denied sign these say that it came near all the same."""

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
    "chest workout, chest session, chest work, chest exercise, chest exercises, chest supported row, "
    "chest supported rows, chest supported, chest to bar, chest to floor, chest up, chest tall, "
    "chest high, chest height, chest strap, heart rate strap, chest pump, chest and triceps, "
    "chest to the bar, chest to the floor, chest opener, chest stretch, chest out, chest forward, "
    "chest down, chest freezer, blacking out dates, big chest, upper chest, chest volume, "
    "touch my chest, touched my chest, off my chest, off the chest, to my chest, bar to chest, "
    "proud chest, chest proud, medicine chest, chest dips, chest dip, head day, killer session, "
    "killer workout, dead hang, dead hangs, dead bug, dead bugs, deadlift, dead lift, dead stop, "
    "dead tired, killing it, killed it, killed me, kill me, heart out, in my heart, by heart, "
    "with all my heart, heart was in it, heart wasnt in it, take heart, sweetheart, breast stroke, "
    "rowing stroke, back stroke, heart set, heart rate monitor, not suicidal, no suicidal, "
    "heart attack when i saw, heart attack when i heard, heart attack when i looked, "
    "heart attack when i opened, heart attack when i got the, knocked out all, knocked out the, "
    "knocked out some, knocked out a few, knocked out three, knocked out four, knocked out five, "
    "knocked out six, knocked out ten, dizzy heights, set was suicide, workout was suicide, "
    "session was suicide, finisher was suicide, circuit was suicide, hill was suicide, blacked out the, "
    "leg press, leg presses, leg curl, leg curls, leg extension, leg extensions, leg raise, leg raises, "
    "single leg, arm day, arm curl, hand over hand, back squat, back squats, broke a sweat, "
    "broke my record, broke my pr, broke my pb, head height, head position, overhead, head up, "
    "head down, foot of the bed, on foot, by hand, hand grip, knocked out of my sails, wind knocked out, "
    "nobody fainted, no one fainted, not the muscle, not a muscle, not muscle, not the muscles, "
    "not muscular, sick of, nice squeeze in the chest, good squeeze in the chest, "
    "great squeeze in the chest, "
    "nice squeeze in my chest, good squeeze in my chest, great squeeze in my chest, "
    "squeeze at the top, dizzy with joy, dizzy with happiness, dizzy with excitement, "
    "spinning with all these, spinning with all the, "
    "spinning with ideas, fit of giggles, "
    "fit of the giggles, fit of laughter, laughing fit, coughing fit, sneezing fit"
)
"""Words that belong to the gym or to a figure of speech; they are taken out before a rule is tried."""

AS_ONE = {("heart", "rate"): stem("pulse"), ("of", "mine"): "_", ("breast", "bone"): "sternum"}
"""Two words that are one: "heart rate" is mostly a number, and "a friend of mine" is not the writer."""

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
    " control temperature struggling testicle testicles erection irregular coughing vomiting wheezing "
    "slurring confusion drooping droopy privates pillows weaker floppy shoulders unconsciousness dislocation"
    " shortness dislocated racing passed blacked ankle wrist elbow shoulder broken throat vision stomach "
    "consciousness ambulance"
)
"""Words that are known with a slip in them."""

NOT_SLIPS = frozenset(
    word
    for phrase in phrases(
        "chess cheat cheats quest chase chaste crest chests breast breasts breathed breather "
        "breaths bread breadth breach painted tainted feinted painting fainter faints fancied "
        "dizzying breeding blending bleating pleading fracturing facture leading reading beading "
        "heading headaches braking tracing bracing placing pacing raising facing packed blocked "
        "backed stacked cracked slacked lacked hacked blackened passes paused posed parsed tossed "
        "massed dressed pressed passer passe swollen spelling dwelling smelling selling telling "
        "welling sweating swearing pleasure measure pressures bowels bowl bowls towel vowel bower "
        "batter ladder badder sadder blander fewer never lever refer feeder ferver confuse "
        "confuses confusing refused infused excused accused defused buddy ditzy busy crashing "
        "brushing rushing crunching weariness wellness meekness bleakness weaknesses lightness "
        "brightness tight tightens rightness sweetness fitness thing tingle mingling single urging "
        "marine purine fracas heathen himself itself pregnancy relapsed collapse collapses "
        "colllapse slammed slurped blurred dissolved breathable christ cheer cheers wheat cheap "
        "chased threat threats wrest angle angles angled broker spoken visions conscience "
        "conscious shoulders smoulder chose closest guest nest rest best west test jest pest vest "
        "lest zest"
    )
    for word in phrase
)
"""Common words that are never taken for one of those with a slip."""
