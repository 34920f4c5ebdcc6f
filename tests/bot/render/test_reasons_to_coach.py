"""Every reason is told to the coach in her own person, and to the client as it was."""

import re

from bot.render.reasons import NOTED, reason_line
from bot.render.reasons_to_coach import PHRASES
from core.loads.decision import Reason
from core.loads.reasons import ReasonCode as Code
from tests.bot.render.test_reasons import SAID

TOLD = [
    (Code.TAKEN_UP, "Not heavier the first time after the plan was on hold."),
    (Code.FROZEN, "The plan is on hold until you take it up again."),
    (Code.PAIN_LOCKED, "Locked until you have looked: left upper arm (no number given, Wed 16 September)."),
    (Code.PAIN_LOCKED, "Locked until you have looked: left upper arm (6 of 10, Wed 16 September)."),
    (Code.PAIN_SUDDEN, "Locked until you have looked: left upper arm (6 of 10, Wed 16 September), sudden."),
    (
        Code.PAIN_SPREADING,
        (
            "Left out until you have looked: left upper arm (6 of 10, Wed 16 September), spreading, "
            "numb or tingling."
        ),
    ),
    (
        Code.PAIN_RELEASED,
        (
            "You released it after left upper arm (6 of 10, Wed 16 September): 80 % of the last "
            "without pain, at most 72 kg."
        ),
    ),
    (
        Code.PAIN_RELEASED,
        "You released it after left upper arm (6 of 10, Wed 16 September): 80 % of the last without pain.",
    ),
    (Code.COACH_PAUSED, "Paused by you until you let it go on."),
    (Code.COACH_EASED, "You eased it: one set fewer."),
    (Code.COACH_EASED, "You eased it: 10 % less, at most 80 kg, and one set fewer."),
    (Code.COACH_LIGHTER, "A lighter week by your order: one set."),
    (Code.COACH_LIGHTER, "A lighter week by your order: 2 sets at 95 %."),
    (Code.COACH_FULL, "You have taken the lighter week out: at most 90 kg."),
    (Code.COACH_FULL, "You have taken the lighter week out: nothing heavier."),
    (Code.COACH_LOAD, "You set 90 kg."),
    (Code.COACH_HELD, "You want nothing heavier: 90 kg again."),
    (Code.COACH_HELD, "You want nothing heavier: 90 kg again. Until Mon 20 April."),
    (Code.RAISE_WAITS, "90 kg again: 92.5 kg waits for your word."),
    (Code.EASE_OVER, "90 kg again, as before the session that you eased."),
    (Code.COACH_LOWER, "You wrote 80 kg."),
    (Code.COMEBACK_HOLD, "9 days since this was last done: 90 kg again, with one more left."),
    (Code.COMEBACK_COACH, "70 days away: at most 80 % of 90 kg until you set the way back."),
    (Code.CAP, "At most 16.8 kg now. The step to 18 kg is 12.5 % more. 12 reps in every set earn it."),
    (Code.START_WRITTEN, "First time: 90 kg, as you wrote it."),
    (Code.START_FIND, "First time: the client finds the load, from 20 kg up, and stops with 3 left."),
    (Code.START_NO_LOAD, "First time, as you wrote it."),
    (Code.RAISE_EARNED, "From 102.5 kg to 105 kg: 15 reps in every set; 14 earn this step."),
    (Code.RAISE_WRITTEN, "From 102.5 kg to 105 kg: you wrote 110 kg, and the last session was done."),
    (Code.TOP_OF_KIT, "There is nothing heavier in the client's kit."),
    (Code.TAPS_ALONE, "The same again until the client says once how many more would have gone."),
    (Code.LIGHTER_CHOSEN, "The client took 85 kg instead of 90 kg: that again."),
    (Code.FOUND, "The load that the client found."),
    (Code.MISS_THIRD, "Fewer than asked, 3 times running: you decide."),
    (Code.RAISE_STEP, "From 102.5 kg to 105 kg, as you wrote it; last time every set was done."),
    (Code.AS_WRITTEN, "As you wrote it."),
    (Code.PERCENT, "72.5 % of 120 kg, the most that the sets say for one rep."),
    (Code.PERCENT, "80 % of 120 kg, the heaviest single."),
    (Code.UNCHANGED, "The same again, as you wrote it."),
    (
        Code.LEFT_UNKNOWN,
        "The same again: it rises by how many more would have gone, and the client has not said.",
    ),
    (Code.VARIANT_NEXT, "12 reps in every set: ring row is next, once you write it."),
    (Code.VARIANT_LAST, "40 s in every set, and it is the hardest on your path."),
    (Code.ILL_CLINICIAN, "A doctor first. You take the plan up again after that."),
    (Code.ILL, "Ill: no training until 2 days after the client is free of it."),
    (Code.ILL, "Ill: no training until a day after the client is free of it."),
    (Code.BIRTH_HELD, "A doctor or midwife first. You take the plan up after that."),
    (Code.ILL_COLD, "Not heavier with a cold. The client may make it an easy day."),
    (Code.ILL_OVER, "100 kg again, as before the illness."),
    (Code.LIMIT_FORBIDS, "Left out: a limit set by a doctor."),
    (Code.LIMIT_FORBIDS, "Left out: a limit set by a physiotherapist. Until Wed 16 September."),
    (
        Code.LIMIT_LOAD,
        "At most 40 kg, a limit set by a clinician. It was to be looked at on Wed 16 September.",
    ),
    (Code.PRESSURE, "No set to the limit with the client's blood pressure: keep 2 or more left."),
    (Code.START_ANEW, "The load is looked for as if new, not over 40 kg."),
    (
        Code.SETS_WEEK,
        (
            "3 here: 12.5 hard sets this week are enough for the client's spinal erectors, after 10.5 "
            "a week before."
        ),
    ),
    (
        Code.START_FIND,
        (
            "First time: the client finds the load, from 35 kg up, as the bench press says, and stops "
            "with 3 left."
        ),
    ),
    (Code.OWN_REPS, "For 8-10 it goes on from 60 kg, as on Tue 14 April."),
    (
        Code.TABLE_BELOW,
        "APRE 10: 3 in the last set at 100 kg is too heavy. 95 kg now. It is for you to look at.",
    ),
    (
        Code.SIDES_APART,
        "The client's left side was 3 or more behind, twice running: it goes first, the other does as many.",
    ),
]
REPS = {"load": "60 kg", "next": "50 kg", "before": "5", "now": "10"}
TO_A_CLIENT = re.compile(r"coach|set by your|tell me|you could", re.IGNORECASE)


def test_what_speaks_to_the_client_is_told_to_the_coach_in_her_own_person() -> None:
    said = [
        (code, told, reason_line(Reason(code=code, facts=facts), coach=True)) for code, facts, told in SAID
    ]

    assert [(code, hers) for code, told, hers in said if hers != told] == TOLD
    assert {code for code, _ in TOLD} | set(NOTED) == set(PHRASES)


def test_what_is_told_to_the_coach_never_speaks_of_her_coach_or_asks_her() -> None:
    said = [reason_line(Reason(code=code, facts=facts), coach=True) for code, facts, _ in SAID]

    assert [hers for hers in said if TO_A_CLIENT.search(hers)] == []


def test_what_rests_on_her_note_is_told_to_her_so() -> None:
    noted = [
        reason_line(Reason(code=code, facts=REPS), noted=True, coach=True)
        for code in (Code.FOUND, Code.REPS_CHANGED)
    ]

    assert noted == [
        "The load that you noted.",
        "You noted 60 kg for 5 reps; 10 are asked, so 50 kg.",
    ]
