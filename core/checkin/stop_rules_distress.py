"""Words of distress."""

from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

DISTRESS = Urgency.DISTRESS

_EXERCISES = (
    "squats lunges burpees sets set thrusters deadlifts presses session workout finisher sled intervals circuit "
    "block planks rower bike ups rows reps week"
)
_OF_EXERCISES = ", ".join(
    f"{each} {verb}" for each in _EXERCISES.split() for verb in ("make", "makes", "made")
)
"""What makes somebody "want to die" as gyms say it."""

DISTRESS_WORDS: tuple[Rule, ...] = (
    rule(
        "wants-to-die",
        DISTRESS,
        (
            "want to die, life has no point, life is pointless, life has no meaning, wanna die, wish i "
            "was dead, wish i were dead, wish i wasnt here, want to be dead, better off dead, better "
            "off without me, rather be dead, ending it all, ended it all, end everything, point of "
            "living, point of going on, point in going on, point of being alive, rather not be alive, "
            "rather not wake up, kill myself, killing myself, killed myself, end my life, ending my "
            "life, end it all, want to end it, wanna end it, disappear forever, take my life, take my "
            "own life, taking my own life, suicide, suicidal, unalive, kms, not want to live, dont "
            "want to live, no reason to live, dont want to be alive, dont want to be here anymore, not "
            "want to be here anymore, dont want to be here any more, not "
            "want to be here any more, dont want to exist, dont want to wake up, nothing to live for, "
            "cant go on living, cant go on anymore, cant go on any more, no point in living, no point "
            "living, done with life, tired of living, life is not worth, life isnt worth"
        ),
        unless=(
            "suicide squeeze, suicide runs, suicide sprints, suicide grip, did suicides, suicides "
            "drill, running suicides, "
            f"{_OF_EXERCISES}"
        ),
        deniable=False,
    ),
    rule(
        "cannot-go-on",
        DISTRESS,
        "cant go on, cannot go on, cant carry on, cannot carry on, had enough of, sick of, so tired of",
        "life, living, being alive, anymore, any more, like this",
        near=5,
        unless="set, sets, rep, reps, exercise, diet, with this, plan, block, programme, squats, weather, job",
        deniable=False,
    ),
    rule(
        "ending-it",
        DISTRESS,
        "thinking about, thinking of, think about, thoughts of, thoughts about, planning on, feel like, want to, wanna",
        "ending it, end it",
        near=3,
        unless=(
            "set, session, block, workout, week, plan, contract, subscription, membership, here, there, early, "
            "today, with him, with her, relationship, marriage, job, cut, diet, run"
        ),
        deniable=False,
    ),
    rule(
        "no-point",
        DISTRESS,
        "point, reason, purpose",
        "living, to live, being alive, going on, go on, carry on, being here, being around, "
        "anything anymore, anything any more, of life, in life, to my life",
        near=4,
        unless="goal, goals, block, programme, program, exercise, diet, with, dream",
        deniable=False,
    ),
    rule(
        "not-waking",
        DISTRESS,
        "wish, hope, want, rather, pray, if only",
        (
            "not wake up, never wake up, dont wake up, wouldnt wake up, didnt wake up, never woke up, "
            "could disappear"
        ),
        near=6,
        unless="sore, late, alarm, stiff, at five, at six, too early",
        deniable=False,
    ),
    rule(
        "not-missed",
        DISTRESS,
        (
            "would miss me, notice if i was gone, care if i was gone, care if i died, notice if i "
            "died, if i was dead, if i were dead, if i wasnt alive"
        ),
        deniable=False,
    ),
    rule(
        "self-harm",
        DISTRESS,
        (
            "self harm, selfharm, self harming, harm myself, harming myself, cutting myself again, cut "
            "myself on purpose, burning myself, want to hurt myself, going to hurt myself, gonna hurt "
            "myself, thinking of hurting myself, thoughts of hurting myself, feel like hurting myself, "
            "thinking about hurting myself, hurting myself on purpose, cutting myself, hurt myself on "
            "purpose, wanna hurt myself, hurting myself again, been hurting myself, started cutting, "
            "cut myself again, overdose, overdosed, took all my pills, took too many pills, starving "
            "myself, make myself sick after"
        ),
        deniable=False,
        unless=(
            "cutting myself some slack, cutting myself short, dont want to hurt myself, not want to "
            "hurt myself, afraid to hurt myself, scared to hurt"
            " myself, without hurting myself"
        ),
    ),
)
