"""Phrases of both kinds. Which text a sign gets is our proposal; the signs are those of [ACSM-Signs] and the red
flags of the low back, the rest from memory or common practice.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.checkin.stop_rules import RULES
from core.checkin.stop_signs import StopSign, Urgency, scan

EMERGENCY, TODAY, FIRST, DISTRESS = (
    Urgency.EMERGENCY_NOW,
    Urgency.DOCTOR_TODAY,
    Urgency.DOCTOR_FIRST,
    Urgency.DISTRESS,
)

SIGNS: dict[Urgency, tuple[str, ...]] = {
    EMERGENCY: (
        "I have chest pain",
        "chest pains since set 2",
        "my chest feels tight and I'm sweating",
        "pressure in my chest",
        "tightness in the chest",
        "cheast pain",
        "chset hurts",
        "chest pane",
        "crushing feeling in my chest",
        "pain in my chest going down my left arm",
        "it feels like an elephant on my chest",
        "I think I'm having a heart attack",
        "can't breathe",
        "i cant breath",
        "not able to breathe",
        "couldn't catch my breath even lying down",
        "struggling to breathe",
        "short of breath at rest",
        "I was out of breath just sitting on the sofa",
        "passed out after the last set",
        "I fainted",
        "faintd in the boathouse",
        "blacked out for a second",
        "lost consciousness",
        "collapsed on the floor after deadlifts",
        "jaw pain and sweating",
        "can't feel my legs",
        "cannot feel my left foot",
        "my legs went numb",
        "numb between my legs",
        "numbness around my groin and inner thighs",
        "my bum is numb and my back hurts",
        "can't pee since this morning",
        "lost control of my bladder",
        "I wet myself and my back is killing me",
        "both legs feel weak since the deadlift",
        "weakness in both legs",
        "my pee is dark brown and my arms are swollen",
        "cola coloured urine, arms swollen and weak",
        "hit my head on the rack",
        "banged my head hard",
        "think I have a concussion",
        "dropped the bar on my neck",
        "sudden severe headache",
        "worst headache of my life",
        "think I broke my wrist",
        "my finger is fractured",
        "heard a snap in my ankle",
        "shoulder popped out of place",
        "overheated and feeling confused",
        "heat stroke maybe",
        "my speech is slurred",
        "one side of my face is numb",
        "had a seizure",
        "coughing up blood",
        "my throat is closing up",
        "lips are blue",
        "cold sweat and feeling sick",
        "No pain in the knee but my chest hurts",
        "not only chest pain, also dizzy",
        "never felt chest pain like this",
        "no chest pain, can't breathe though",
    ),
    TODAY: (
        "heart palpitations",
        "my heart is racing and won't settle",
        "palpitatons again",
        "short of breath today",
        "nearly fainted on set 3",
        "about to pass out",
        "calf is swollen and red",
        "my left calf is swollen and painful",
        "calf swelling and warm",
        "my right leg gave way twice",
        "left arm suddenly weak",
        "new weakness in my leg",
        "back pain and a fever",
        "my back hurts and I have a temperature",
        "dark urine",
        "my pee looks like cola",
        "pregnant and bleeding",
        "12 weeks along and spotting",
        "cant lift my foot",
        "fell off a ladder and my back hurts",
        "breathless walking up the stairs",
    ),
    FIRST: (
        "dizzy after every set",
        "feeling lightheaded",
        "both ankles are swollen",
        "my calf cramps when walking",
        "heaviness since giving birth",
        "back pain wakes me every night",
    ),
    DISTRESS: (
        "I want to die",
        "I want to kill myself",
        "sometimes I think about suicide",
        "feeling suicidel",
        "better off dead",
        "I feel like hurting myself",
        "don't want to live anymore",
        "no reason to live",
        "going to hurt myself",
    ),
}

QUIET = (
    "no chest pain",
    "no chest pain, dizziness or palpitations",
    "no dizziness, no chest pain",
    "chest is sore from bench",
    "chest day was great",
    "heavy chest day today",
    "sore chest 6",
    "chest sore from yesterday",
    "chest press felt heavy",
    "bar to chest touched every rep",
    "killer session",
    "that killed me lol",
    "dying lol",
    "I'm dead",
    "this workout is killing me",
    "arm pump was crazy",
    "my heart was in it",
    "legs are dead",
    "numb bum from the bike",
    "out of breath after the last set, great session",
    "passed out on the sofa after dinner",
    "fell asleep",
    "broke my PR today",
    "broke a sweat",
    "pain left knee 4",
    "sore quads 6",
    "92.5 8 8 8 7 6",
    "done",
    "skip",
    "undo",
    "my dad had a heart attack",
    "my wife fainted yesterday",
    "a casualty with chest pain on the lifeboat last night",
    "had chest pain as a kid",
    "never had chest pain",
    "haven't had any chest pain",
    "knee hurts 4",
    "neck is tight 3",
    "shoulder pain right 5",
    "low back tight 2",
    "legs are shaking after squats",
    "arms feel like jelly",
    "hit my head position cue today",
    "hit the nail on the head",
    "hit a new best",
    "dead hang 45s",
    "dead bugs done",
    "calf raises 12 12 12",
    "calves are sore",
    "calf tight 3",
    "ankle sore 2",
    "rolled my ankle, pain 5",
    "headache today",
    "had a bit of a cold",
    "feeling tired",
    "slept badly",
    "heart rate was 150",
    "my heart rate was racing up fast",
    "can't do Thursday",
    "can't make it tomorrow",
    "couldn't finish the last set",
    "can't lift any more than that",
    "hard to breathe out on the brace",
    "hold my breath on heavy reps",
    "cheat day yesterday",
    "confused about the plan",
    "what load for chest fly?",
    "back from holiday",
    "back squat felt good",
    "left arm is weaker than the right one",
    "weak on the last set",
    "grip gave out",
    "fell off plan this week",
    "had to pee between sets",
    "drank a coke and had to pee",
    "leaking when I jump a bit",
    "pregnant? no",
    "the baby kept me up all night",
    "I hurt myself on the last set",
    "don't want to hurt myself",
    "suicide sprints 5 rounds",
    "bleeding shin from the box",
    "hands bleeding a bit",
    "it was hot in the gym",
    "sun was out, ran 5 km",
    "my legs were burning",
    "lungs burning on the bike",
    "sick pump in the chest",
    "pecs hurt",
    "pec pain 3",
    "chest muscle pain 3",
    "numb fingers after rowing? no",
    "stiff neck 2",
    "jaw clenching on heavy sets",
    "this exercise is a pain",
    "head cold no fever",
    "my friend passed out at the gym",
    "swelling in my knee 3",
    "skipped the last set",
    "racing tomorrow",
    "rowing race on Sunday",
    "rpe 9",
    "the bar dropped to the floor",
)


@pytest.mark.parametrize(
    ("urgency", "text"), [(each, text) for each, texts in SIGNS.items() for text in texts]
)
def test_a_stop_sign_is_found_with_its_urgency(urgency: Urgency, text: str) -> None:
    found = scan(text)

    assert found is not None
    assert found.urgency == urgency


@pytest.mark.parametrize("text", QUIET)
def test_what_is_no_stop_sign_is_left_alone(text: str) -> None:
    assert scan(text) is None


@pytest.mark.parametrize("text", [text for texts in SIGNS.values() for text in texts])
@pytest.mark.parametrize(
    "around", ["{}.", "{}!!", "  {} 😟", "8 8 8 7. {}", "{}\nsorry", "Hi coach. {}. What now?"]
)
def test_a_sign_is_found_in_the_middle_of_other_words(text: str, around: str) -> None:
    assert scan(around.format(text)) == scan(text)


@pytest.mark.parametrize("text", [text for texts in SIGNS.values() for text in texts])
def test_a_sign_in_capitals_is_the_same_sign(text: str) -> None:
    assert scan(text.upper()) == scan(text)


def test_the_most_urgent_sign_wins() -> None:
    assert scan("I feel dizzy. My calf is swollen. I have chest pain.") == StopSign(
        urgency=EMERGENCY, rule="chest"
    )


def test_an_emergency_comes_before_distress() -> None:
    assert scan("I want to die. I took the pills and can't breathe") == StopSign(
        urgency=EMERGENCY, rule="cant-breathe"
    )


def test_a_sign_late_in_a_long_sentence_is_found() -> None:
    assert scan("and then we went on " * 60 + "my chest hurts") == StopSign(urgency=EMERGENCY, rule="chest")


def test_codes_of_rules_are_unique() -> None:
    codes = [rule.code for rule in RULES]

    assert sorted(set(codes)) == sorted(codes)


@given(st.text(max_size=400))
def test_no_text_raises(text: str) -> None:
    assert scan(text) is None or isinstance(scan(text), StopSign)


@given(st.text(alphabet=st.characters(codec=None), max_size=60), st.sampled_from(sorted(SIGNS[EMERGENCY])))
def test_a_sign_stays_one_whatever_sentence_comes_before(before: str, sign: str) -> None:
    assert scan(f"{before}. {sign}") == scan(f"{before}. {sign}.")
    found = scan(f"{before}.\n{sign}")

    assert found is not None
    assert found.urgency == EMERGENCY


@given(st.lists(st.sampled_from(QUIET), max_size=4))
def test_quiet_sentences_stay_quiet_together(texts: list[str]) -> None:
    assert scan(".\n".join(texts)) is None
