"""What is said of health, limits, caps, sides and tables; a part of the table of every reason."""

from core.loads.reasons import ReasonCode as Code

OF_HEALTH = [
    (Code.ILL_CLINICIAN, {}, "A doctor first. Your coach takes your plan up again after that."),
    (
        Code.ILL,
        {"days": "2"},
        "Ill: no training until 2 days after you are free of it. Tell me when you are.",
    ),
    (Code.ILL, {"days": "1"}, "Ill: no training until a day after you are free of it. Tell me when you are."),
    (Code.ILL, {"days": "2", "date": "2026-09-16"}, "Ill: no training before Wed 16 September."),
    (Code.BIRTH_HELD, {}, "A doctor or midwife first. Your coach takes your plan up after that."),
    (Code.PREGNANT, {}, "In pregnancy nothing gets heavier by itself."),
    (Code.ILL_COLD, {}, "Not heavier with a cold. Make it an easy day if you like."),
    (
        Code.ILL_EASY,
        {"percent": "20", "sets": "2", "load": "80 kg"},
        "An easy day with a cold: 20 % less, at most 80 kg, half the sets.",
    ),
    (
        Code.ILL_BACK,
        {"percent": "20", "sets": "2", "load": "80 kg"},
        "First time after being ill: 20 % less, at most 80 kg, half the sets.",
    ),
    (Code.ILL_BACK, {"percent": "20", "sets": "2"}, "First time after being ill: 20 % less, half the sets."),
    (Code.ILL_OVER, {"load": "100 kg"}, "100 kg again, as before you were ill."),
    (Code.LIMIT_FORBIDS, {"by": "doctor"}, "Left out: a limit set by your doctor."),
    (
        Code.LIMIT_FORBIDS,
        {"by": "physiotherapist", "until": "2026-09-16"},
        "Left out: a limit set by your physiotherapist. Until Wed 16 September.",
    ),
    (
        Code.LIMIT_LOAD,
        {"by": "clinician", "load": "40 kg", "until": "2026-12-01", "review": "2026-09-16"},
        "At most 40 kg, a limit set by your clinician. It was to be looked at on Wed 16 September.",
    ),
    (Code.PREGNANT_LEFT, {"left": "3"}, "In pregnancy: always keep 3 or more left."),
    (Code.PRESSURE, {"left": "2"}, "No set to the limit with your blood pressure: keep 2 or more left."),
    (Code.START_ANEW, {"load": "40 kg"}, "Find your load as if new, not over 40 kg."),
]
OF_TABLES = [
    (
        Code.CAP_WEEK,
        {"load": "62.5 kg", "percent": "5", "cap": "63 kg", "date": "2026-09-16"},
        "Enough rise for a week, since Wed 16 September; at most 63 kg now.",
    ),
    (
        Code.SETS_WEEK,
        {"sets": "3", "muscle": "spinal erectors", "before": "10.5", "most": "12.5"},
        "3 here: 12.5 hard sets this week are enough for your spinal erectors, after 10.5 a week before.",
    ),
    (
        Code.RAISE_TOTAL,
        {"load": "60 kg", "next": "62.5 kg", "sets": "3", "reps": "11", "done": "36", "goal": "36"},
        "From 60 kg to 62.5 kg: 36 reps in all sets together, 36 were asked.",
    ),
    (
        Code.TABLE_RAISE,
        {"table": "APRE 6", "reps": "9", "load": "102.5 kg", "next": "105 kg"},
        "APRE 6: 9 in the last set at 102.5 kg, so 105 kg now.",
    ),
    (
        Code.TABLE_SAME,
        {"table": "DAPRE", "reps": "4", "load": "100 kg", "next": "100 kg"},
        "DAPRE: 4 in the last set at 100 kg, so the same again.",
    ),
    (
        Code.TABLE_SAME,
        {"table": "DAPRE", "reps": "6", "load": "37.5 kg", "next": "40 kg"},
        "DAPRE: 6 in the last set at 37.5 kg, so 40 kg again.",
    ),
    (
        Code.START_FIND,
        {"first": "35 kg", "left": "3", "sister": "bench press"},
        "First time: find the load, from 35 kg up, as your bench press says, and stop with 3 left.",
    ),
    (
        Code.NOT_ALL_DONE,
        {"load": "60 kg", "done": "3", "sets": "3", "cause": "time"},
        "Fewer reps than asked, and strength was not why: the same again.",
    ),
    (
        Code.OWN_REPS,
        {"load": "60 kg", "date": "2026-04-14", "count": "8-10"},
        "For 8-10 you go on from 60 kg, as on Tue 14 April.",
    ),
    (
        Code.TABLE_LOWER,
        {"table": "APRE 3", "reps": "1", "load": "100 kg", "next": "95 kg"},
        "APRE 3: 1 in the last set at 100 kg, so 95 kg now.",
    ),
    (
        Code.TABLE_BELOW,
        {"table": "APRE 10", "reps": "3", "load": "100 kg", "next": "95 kg"},
        "APRE 10: 3 in the last set at 100 kg is too heavy. 95 kg now. Talk to your coach.",
    ),
    (
        Code.SIDES_APART,
        {"side": "left", "reps": "3"},
        "Your left side was 3 or more behind, twice running: it goes first, the other does as many.",
    ),
]
