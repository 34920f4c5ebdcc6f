"""Every reason has words: true, one line, made from the documented facts alone."""

from examples import examples
from hypothesis import given
from rows import each_row

from bot.render.reasons import WORDS, reason_line, why_line
from core.loads.decision import Inputs, Reason, next_decision
from core.loads.reasons import ReasonCode as Code
from tests.bot.render.said_reasons import OF_HEALTH, OF_TABLES
from tests.core.loads.test_properties import cases

LONGEST = 140

PAIN = {"site": "left upper arm", "date": "2026-09-16"}
SCORED = {**PAIN, "score": "6"}
BEFORE = {"load": "102.5 kg", "next": "105 kg"}

SAID = [
    (Code.TAKEN_UP, {}, "Not heavier the first time after your plan was on hold."),
    (Code.FROZEN, {}, "Your plan is on hold until your coach takes it up again."),
    (
        Code.PAIN_LOCKED,
        PAIN,
        "Locked until your coach has looked: left upper arm (no number given, Wed 16 September).",
    ),
    (
        Code.PAIN_LOCKED,
        SCORED,
        "Locked until your coach has looked: left upper arm (6 of 10, Wed 16 September).",
    ),
    (
        Code.PAIN_SUDDEN,
        SCORED,
        "Locked until your coach has looked: left upper arm (6 of 10, Wed 16 September), sudden.",
    ),
    (
        Code.PAIN_SPREADING,
        SCORED,
        (
            "Left out until your coach has looked: left upper arm (6 of 10, Wed 16 September), "
            "spreading, numb or tingling."
        ),
    ),
    (
        Code.PAIN_NO_FINDING,
        PAIN,
        "No new load is looked for while it hurts: left upper arm (no number given, Wed 16 September).",
    ),
    (
        Code.PAIN_DROP,
        {**PAIN, "percent": "20", "load": "72 kg"},
        (
            "20 % less because of left upper arm (no number given, Wed 16 September), at most 72 kg, "
            "until two sessions at 2 or less."
        ),
    ),
    (
        Code.PAIN_DROP,
        {**SCORED, "percent": "20", "reps": "8"},
        "20 % less because of left upper arm (6 of 10, Wed 16 September), 8 reps, until two sessions at 2 or less.",
    ),
    (
        Code.PAIN_DROP,
        {**SCORED, "percent": "20", "seconds": "24"},
        "20 % less because of left upper arm (6 of 10, Wed 16 September), 24 s, until two sessions at 2 or less.",
    ),
    (
        Code.PAIN_RELEASED,
        {**SCORED, "percent": "80", "load": "72 kg"},
        (
            "Your coach released it after left upper arm (6 of 10, Wed 16 September): "
            "80 % of the last without pain, at most 72 kg."
        ),
    ),
    (
        Code.PAIN_RELEASED,
        {**SCORED, "percent": "80"},
        "Your coach released it after left upper arm (6 of 10, Wed 16 September): 80 % of the last without pain.",
    ),
    (Code.PAIN_NO_RAISE, SCORED, "Not heavier because of left upper arm (6 of 10, Wed 16 September)."),
    (
        Code.PAIN_WAY_BACK,
        {"site": "left upper arm", "percent": "90", "load": "bw+22.5 kg", "until": "2026-09-30"},
        (
            "On the way back after left upper arm: at most 90 % of the last without pain, at most bw+22.5 kg, "
            "small steps until Wed 30 September."
        ),
    ),
    (
        Code.PAIN_WAY_BACK,
        {"site": "left upper arm", "percent": "90", "until": "2026-09-30"},
        (
            "On the way back after left upper arm: at most 90 % of the last without pain, "
            "small steps until Wed 30 September."
        ),
    ),
    (
        Code.PAIN_HOLD,
        {**PAIN, "score": "2", "sessions": "2"},
        "The same again because of left upper arm (2 of 10, Wed 16 September); 2 more to see that it is calm.",
    ),
    (Code.COACH_PAUSED, {}, "Paused by your coach, who takes it up again."),
    (Code.COACH_EASED, {"sets": "1"}, "Your coach eased it: one set fewer."),
    (
        Code.COACH_EASED,
        {"sets": "1", "percent": "10", "load": "80 kg"},
        "Your coach eased it: 10 % less, at most 80 kg, and one set fewer.",
    ),
    (Code.COACH_LIGHTER, {"sets": "1"}, "A lighter week by your coach: one set."),
    (
        Code.COACH_LIGHTER,
        {"sets": "2", "percent": "95", "load": "80 kg"},
        "A lighter week by your coach: 2 sets at 95 %.",
    ),
    (
        Code.COACH_FULL,
        {"load": "90 kg"},
        "Your coach has taken the lighter week out: at most 90 kg.",
    ),
    (Code.COACH_FULL, {}, "Your coach has taken the lighter week out: nothing heavier."),
    (Code.COACH_LOAD, {"load": "90 kg"}, "Your coach set 90 kg."),
    (Code.COACH_HELD, {"load": "90 kg"}, "Your coach wants nothing heavier: 90 kg again."),
    (
        Code.COACH_HELD,
        {"load": "90 kg", "until": "2026-04-20"},
        "Your coach wants nothing heavier: 90 kg again. Until Mon 20 April.",
    ),
    (
        Code.RAISE_WAITS,
        {"load": "90 kg", "next": "92.5 kg", "percent": "2.8"},
        "90 kg again: 92.5 kg waits for your coach's word.",
    ),
    (
        Code.EASE_OVER,
        {"load": "90 kg"},
        "90 kg again, as before the session that your coach eased.",
    ),
    (
        Code.LIGHTER_OVER,
        {"load": "92.5 kg", "date": "2026-09-16"},
        "The lighter week is over: on from 92.5 kg, the load of Wed 16 September.",
    ),
    (Code.COACH_LOWER, {"load": "80 kg", "log": "92.5 kg"}, "Your coach wrote 80 kg."),
    (
        Code.COMEBACK_HOLD,
        {"days": "9", "load": "90 kg"},
        "9 days since you last moved this: 90 kg again, with one more left.",
    ),
    (
        Code.COMEBACK,
        {"days": "20", "percent": "90", "load": "90 kg", "step": "1", "steps": "3"},
        "20 days away: 90 % of 90 kg, step 1 of 3 back.",
    ),
    (
        Code.COMEBACK,
        {"days": "20", "percent": "90", "load": "bw", "step": "1", "steps": "3"},
        "20 days away: step 1 of 3 back.",
    ),
    (
        Code.COMEBACK_COACH,
        {"days": "70", "percent": "80", "load": "90 kg"},
        "70 days away: at most 80 % of 90 kg until your coach sets the way back.",
    ),
    (Code.DELOAD, {"percent": "90", "sets": "2"}, "A lighter week: 2 sets at 90 %."),
    (Code.ALONE_UNDER_BAR, {"left": "2"}, "Alone without safety arms: always keep 2 or more left."),
    (Code.AGE, {"left": "2"}, "Smaller steps from 60 on, and 2 or more left."),
    (Code.CAP, {"load": "100 kg", "cap": "105 kg"}, "At most 105 kg now."),
    (
        Code.CAP,
        {"load": "16 kg", "cap": "16.8 kg", "next": "18 kg", "percent": "12.5", "reps": "12"},
        "At most 16.8 kg now. The step to 18 kg is 12.5 % more. Do 12 reps in every set to earn it.",
    ),
    (
        Code.CAP_FOUR_WEEKS,
        {"load": "100 kg", "percent": "10", "cap": "102 kg", "date": "2026-09-16"},
        "Enough rise for four weeks, since Wed 16 September; at most 102 kg now.",
    ),
    (Code.START_WRITTEN, {"load": "90 kg"}, "First time: 90 kg, as your coach wrote it."),
    (
        Code.START_FIND,
        {"reps": "8", "left": "3", "sets": "5", "low": "5", "high": "10", "first": "20 kg"},
        "First time: find the load, from 20 kg up, and stop with 3 left.",
    ),
    (Code.START_BODYWEIGHT, {"reps": "8"}, "First time, with bodyweight."),
    (Code.START_NO_LOAD, {"seconds": "30"}, "First time, as your coach wrote it."),
    (
        Code.RAISE_DONE_TWICE,
        {**BEFORE, "sets": "5", "reps": "8", "sessions": "2"},
        "From 102.5 kg to 105 kg: all 5 sets of 8 reps done in 2 sessions running.",
    ),
    (
        Code.RAISE_TOP,
        {**BEFORE, "sets": "3", "seconds": "45"},
        "From 102.5 kg to 105 kg: all 3 sets reached 45 s.",
    ),
    (
        Code.RAISE_EARNED,
        {**BEFORE, "percent": "12.5", "reps": "15", "earned": "14"},
        "From 102.5 kg to 105 kg: you did 15 reps in every set; 14 earn this step.",
    ),
    (
        Code.RAISE_WRITTEN,
        {**BEFORE, "written": "110 kg"},
        "From 102.5 kg to 105 kg: your coach wrote 110 kg, and the last session was done.",
    ),
    (
        Code.REPS_CHANGED,
        {**BEFORE, "before": "8-12", "now": "5", "percent": "+5.0"},
        "Reps go from 8-12 to 5, so the load goes from 102.5 kg to 105 kg (+5.0 %).",
    ),
    (Code.WORK_CHANGED, {"load": "24 kg"}, "The block counts differently now; the load stays at 24 kg."),
    (Code.ADD_REP, {"reps": "9", "load": "40 lb"}, "Same load, 9 reps in every set now."),
    (Code.ADD_REP, {"reps": "9", "load": "bodyweight"}, "9 reps in every set now."),
    (Code.ADD_SECONDS, {"seconds": "35"}, "35 s in every set now."),
    (Code.ADD_SECONDS, {"seconds": "35", "load": "24 kg"}, "Same load, 35 s in every set now."),
    (
        Code.DONE_ONCE,
        {"load": "90 kg", "reps": "8"},
        "Every set of 8 reps done once. Once more, and it goes up.",
    ),
    (
        Code.BRIDGE,
        {"seconds": "60", "load": "bodyweight"},
        "60 s in every set. Now a heavier first set, a slow way down, or a harder variant.",
    ),
    (Code.TOP_OF_KIT, {"load": "24 kg", "reps": "12"}, "There is nothing heavier in your kit."),
    (
        Code.FEW_LEFT,
        {"left": "0", "asked": "2"},
        "All done, but with 0 left where 2 were asked: the same again.",
    ),
    (Code.HARD_SESSION, {"effort": "5"}, "All done, but the session was very hard: the same again."),
    (
        Code.TAPS_ALONE,
        {"load": "90 kg"},
        "The same again until you tell me once how many more you could have done, like 2 left.",
    ),
    (
        Code.NOT_ALL_DONE,
        {"load": "90 kg", "done": "3", "sets": "4"},
        "3 of 4 sets done: the same again.",
    ),
    (
        Code.LIGHTER_CHOSEN,
        {"load": "85 kg", "asked": "90 kg"},
        "You took 85 kg instead of 90 kg: that again.",
    ),
    (Code.FOUND, {"load": "40 kg", "reps": "12"}, "The load that you found."),
    (
        Code.MISS_FIRST,
        {"load": "90 kg", "reps": "6", "asked": "8"},
        "6 reps where 8 were asked: the same again.",
    ),
    (
        Code.MISS_SECOND,
        {**BEFORE, "next": "97.5 kg", "percent": "5"},
        "Fewer than asked, twice running: 5 % less, 97.5 kg.",
    ),
    (
        Code.MISS_THIRD,
        {"load": "90 kg", "times": "3"},
        "Fewer than asked, 3 times running: your coach decides.",
    ),
    (Code.ROUNDED_DOWN, {"wanted": "72 kg", "load": "70 kg"}, "72 kg cannot be loaded here; 70 kg can."),
    (
        Code.NOTHING_LIGHT_ENOUGH,
        {"lightest": "20 kg", "line": "16 kg"},
        "The lightest here, 20 kg, is over 16 kg, the most that is allowed now.",
    ),
    (Code.NO_KIT, {"place": "home"}, "There is nothing here to load it with."),
    (
        Code.RAISE_STEP,
        {**BEFORE, "sets": "3", "reps": "8"},
        "From 102.5 kg to 105 kg, as your coach wrote it; last time every set was done.",
    ),
    (
        Code.RAISE_WEEK,
        {**BEFORE, "sets": "3", "metres": "40"},
        "From 102.5 kg to 105 kg: every set was done, and a week is over.",
    ),
    (
        Code.RAISE_LEFT,
        {**BEFORE, "sets": "3", "reps": "8", "left": "4", "asked": "2"},
        "From 102.5 kg to 105 kg: 4 left where 2 were asked.",
    ),
    (
        Code.RAISE_LAST_SET,
        {**BEFORE, "sets": "3", "reps": "8", "done": "11"},
        "From 102.5 kg to 105 kg: two over in the last set, in two sessions running; 11 last time.",
    ),
    (Code.AS_WRITTEN, {}, "As your coach wrote it."),
    (
        Code.PERCENT,
        {"percent": "72.5", "of": "estimate", "maximum": "120 kg"},
        "72.5 % of 120 kg, the most your sets say you could lift once.",
    ),
    (
        Code.PERCENT,
        {"percent": "80", "of": "max", "maximum": "120 kg"},
        "80 % of 120 kg, your heaviest single.",
    ),
    (
        Code.NO_MAXIMUM,
        {"percent": "80", "of": "max"},
        "80 % was asked, and there is no single at the limit yet: the load stays.",
    ),
    (
        Code.NO_MAXIMUM,
        {"percent": "70", "of": "estimate"},
        "70 % was asked, and there is no set that it can be reckoned from yet: the load stays.",
    ),
    (Code.UNCHANGED, {"load": "60 kg"}, "The same again, as your coach wrote it."),
    (
        Code.WEEK_HOLD,
        {"load": "60 kg", "date": "2026-04-16"},
        "The same again: it rises once a week, and this load began on Thu 16 April.",
    ),
    (
        Code.LEFT_UNKNOWN,
        {"load": "60 kg"},
        "The same again: it rises by how many more you could have done. Tell me, like 2 left.",
    ),
    (
        Code.LEFT_HOLD,
        {"load": "60 kg", "left": "2", "asked": "2"},
        "The same again: 2 left, and it rises with more than 2.",
    ),
    (
        Code.LAST_SET_HOLD,
        {"load": "60 kg", "done": "9", "goal": "10"},
        "9 in the last set. 10 there, twice running, and it goes up.",
    ),
    (
        Code.VARIANT_NEXT,
        {"load": "bw", "next": "ring row", "reps": "12"},
        "12 reps in every set: ring row is next, once your coach writes it.",
    ),
    (
        Code.VARIANT_LAST,
        {"load": "bw", "seconds": "40"},
        "40 s in every set, and it is the hardest on your coach's path.",
    ),
    (Code.MERGED, {"load": "80 kg"}, "Not heavier, for two sessions were put into one."),
    (Code.NO_LIMIT, {"left": "2"}, "Not to the limit now: always keep 2 or more left."),
    *OF_HEALTH,
    *OF_TABLES,
]
"""Facts as `core.loads.reasons` documents them, with and without those that may be left out, and what is said."""


@each_row(("code", "facts", "expected"), SAID)
def test_a_reason_is_said_in_one_line_from_its_documented_facts(code, facts, expected):
    assert reason_line(Reason(code=code, facts=facts)) == expected


@each_row(("code", "facts", "expected"), SAID)
def test_a_reason_is_short(code, facts, expected):
    assert len(reason_line(Reason(code=code, facts=facts))) <= LONGEST


def test_every_code_has_words_and_a_place_in_the_table():
    assert (set(WORDS), {code for code, _, _ in SAID}) == (set(Code), set(Code))


@given(cases())
@examples(300)
def test_every_reason_of_every_decision_has_words(inputs: Inputs):
    decision = next_decision(inputs)

    said = [reason_line(each) for each in decision.reasons]

    # That each rep count goes on from its own last time says whose load it is; why it is so comes with it.
    first = said[:2] if decision.reasons[0].code == Code.OWN_REPS else said[:1]
    assert why_line(decision) == " ".join(first)
    assert [line for line in said if not 0 < len(line) <= LONGEST or "{" in line or "None" in line] == []


def test_what_a_coach_wrote_cannot_break_the_markup():
    assert reason_line(Reason(code=Code.COACH_LOWER, facts={"load": "<b>"})) == "Your coach wrote &lt;b&gt;."
