"""What the story plays at least once: each feature of the client's side, and words that it alone prints."""

from dataclasses import dataclass

MARIT, OWEN, BETH = 4101, 4102, 5201
INGRID, TOM, NUNO, LARS, ASTRID, JONAS, MAYA = 5101, 5102, 5103, 5104, 5105, 5106, 5107
ERIK, SUNNIVA, JONAS_NEW = 5108, 5109, 5110


@dataclass(frozen=True)
class Feature:
    """A feature: what it is, in whose chat it shows, what the bot says there and nowhere else."""

    name: str
    chat: int
    words: str


JOINING = (
    Feature(
        "consent is asked for before anything of health",
        SUNNIVA,
        "Do you agree that I keep and use this data",
    ),
    Feature(
        "what the coach filled in is only confirmed", SUNNIVA, "has filled this in for you. Is it right?"
    ),
    Feature("joining is taken up again another day", SUNNIVA, "When was the birth? Type the date"),
    Feature("a birth holds the plan", SUNNIVA, "Please see a doctor before you train with this plan."),
    Feature("the coach hears of it at once", MARIT, "Sunniva gave birth on Mon 20 October 2025"),
    Feature(
        "an old injury is said in her own words", SUNNIVA, "So far: knee. left one, twisted on ice in 2021"
    ),
    Feature("the coach's release", SUNNIVA, "Your coach has taken your plan up again."),
    Feature("loads are looked for anew after it", SUNNIVA, "Back squat  3 × 5, find the load"),
    Feature("a shared location gives the clock", ERIK, "Your clock: Oslo, 15:04 now."),
    Feature(
        "a new account is the same person", JONAS_NEW, "Your plan, your log and your settings are all here"
    ),
    Feature("the coach hears of the new account", MARIT, "Jonas is here on a new account."),
    Feature("consent is taken back", ERIK, "Your consent is taken back, and nothing new is kept."),
    Feature("all that is kept is sent", ERIK, "Everything kept about you, as JSON and csv in one zip."),
    Feature("all that is kept is deleted", ERIK, "Everything kept about you here is deleted."),
)
SESSION = (
    Feature("the prep, a drill at a time", INGRID, "Prep 2 of "),
    Feature(
        "the rest of the prep left out", INGRID, "Prep left out. Tap Prep, and it goes on where you were."
    ),
    Feature(
        "the ramp and the plates",
        INGRID,
        "Ramp: 27.5 kg × 8, 40 × 5, 52.5 × 3, 62.5 × 1\nPlates a side: 25 kg",
    ),
    Feature("two exercises in turn", INGRID, "In turn with B1 Split squat"),
    Feature("a reminder of the rest", INGRID, "I write when 1:30 min are over."),
    Feature("another place today", INGRID, "Set for today at home."),
    Feature("an exercise fitted to that place", INGRID, "(instead of bench press)"),
    Feature("short on time", INGRID, "What stays takes about 30 min by my estimate"),
    Feature("a swap", INGRID, "Dumbbell bench press (instead of bench press)  done: 24 kg"),
    Feature("a descending set", INGRID, "Lateral raise 6 kg × 15, 5 kg × 10, 4 kg × 8"),
    Feature("sets that get heavier", TOM, "heavier each set up to 35 lb a hand"),
    Feature("not today, another day", INGRID, "Moved from Fri 24 April."),
    Feature("not today, with the next session", JONAS, "With deadlift from Full B (Wed 6 May)."),
)
REPLIES = (
    Feature("numbers as they are spoken", TOM, "Noted: Dumbbell Romanian deadlift 35 lb × 11 11 11 11."),
    Feature("a correction in the same line", TOM, "Noted: Step-up 10 lb × 8 8 8 each side."),
    Feature("effort of each set", TOM, "Noted: Chest-supported row 25 lb × 12 12 12, RPE 7 8 8."),
    Feature("sets and pain in one line", TOM, "Noted: Band pull-apart 17 17."),
    Feature("left and right", INGRID, "Noted: Split squat 12 kg × left 10 10 9, 12 kg × right 9 9 9."),
    Feature("a load far off is asked about", TOM, "350 11 11 11 11: taken as 35 lb × 11 11 11 11."),
    Feature("two readings are asked about", SUNNIVA, "That can be read in more than one way. Which is it?"),
    Feature("an edited message corrects", INGRID, "Corrected: Barbell row 50 kg × 8 8 8 8."),
    Feature("soreness of muscles", TOM, "Noted as sore muscle: thigh, 6 of 10. No load changes for it."),
)
BODY = (
    Feature("whether something was taken", TOM, "Did you take something for it?"),
    Feature("when it was felt", TOM, "Left knee: when did you feel it?"),
    Feature("what it feels like", SUNNIVA, "Low back: is it one of these? Tap the first that fits."),
    Feature(
        "a painkiller reads one band higher", MARIT, "Took something for it, so it is read one band higher."
    ),
    Feature("the morning question", TOM, "how is it this morning, from 0 to 10?"),
    Feature("its answer", TOM, "Noted: left knee, 1 of 10, in the morning."),
    Feature(
        "steady pain of 1 to 3, and the way out", MARIT, "Nuno, right elbow: raises go on, from the next card"
    ),
    Feature("ill, with a fever", NUNO, "Noted: ill since Wed 6 May. No training now."),
    Feature("still ill", NUNO, "Get well. No card comes today."),
    Feature("free of it since", NUNO, "Free of it since Fri 8 May, so training goes on from Sun 10 May."),
    Feature("a head cold", JONAS, "Noted: a head cold, no fever. What about today?"),
    Feature("an easy day", JONAS, "An easy day: half the sets, and lighter."),
    Feature("a stop sign", LARS, "Stop now. This may be an emergency."),
)
WEEK_AND_LIFE = (
    Feature(
        "the week in one line", INGRID, "Last 7 days: 4 of 4 sessions kept. Main lifts: 1 up, 4 the same."
    ),
    Feature("the length of that line", SUNNIVA, "Your weekly line: all of it."),
    Feature("the line in full", SUNNIVA, "Back squat 50 kg (first time)"),
    Feature("the check-in with the coach's own question", INGRID, "What went well, on land or at sea?"),
    Feature(
        "a check-in that is answered",
        MARIT,
        "Ingrid: about right; sleep good, stress low; nothing; Four times",
    ),
    Feature("a check-in that is not", MARIT, "Not answered: "),
    Feature("the plan of the week kept", INGRID, "It stands. /plan opens it again."),
    Feature("a session moved in it", INGRID, "Pull moved to Sat 16 May."),
    Feature("other training, typed", INGRID, "Kept: a run, 30 min, easy, Sun 3 May."),
    Feature("other training, tapped", TOM, "Kept: a match, 90 min, hard, Tue 5 May."),
    Feature("a goal", INGRID, "1. ten pull-ups in a row, by 1 July 2026"),
    Feature("a goal reached", INGRID, "Noted: reached."),
    Feature("away without training", ASTRID, "Noted: away from Wed 6 May to Sun 10 May.\nNo training."),
    Feature("back, with what comes lighter", ASTRID, "Good to have you back. Next: Lower A, Mon 11 May"),
    Feature("away, with what there is to lift", JONAS_NEW, "Today where you are while away."),
    Feature("away, with another clock", BETH, "Your sessions go by the clock of Madrid meanwhile."),
    Feature("another clock for good", NUNO, "Your clock: Lisbon"),
    Feature(
        "gone quiet", MAYA, "I have not heard from you on the last three sessions, so I send no more for now."
    ),
    Feature("a week's pause", ASTRID, "Paused. Your sessions come again from Fri 8 May."),
    Feature("the end of a block", INGRID, "Harbour strength is over. Sessions kept: "),
    Feature("its four questions", TOM, "The end of your block · 4 of 4"),
    Feature("what the coach hears of it", MARIT, "Tom has ended Home dumbbells."),
)
SEEING = (
    Feature("progress", INGRID, "Main lifts, estimated for one rep"),
    Feature("its pictures", INGRID, "Sessions kept of due, by week."),
    Feature("a record, told once", INGRID, "Best so far: back squat 80 kg × 5"),
    Feature("and taken back", INGRID, "No longer the best so far: back squat 80 kg × 5."),
    Feature("records so far", INGRID, "Best so far\n\n"),
)
ANYTHING_ELSE = (
    Feature("a video with sets under it", MARIT, "Ingrid sends a video during split squat"),
    Feature("her answer to it", INGRID, "Good depth. Elbows a little more under the bar."),
    Feature("a voice message", MARIT, "Ingrid sends a voice message.\nCheck-in: What went well"),
    Feature("a photo", MARIT, "Lars sends a photo"),
    Feature("a document", MARIT, "Lars sends a file (doctors-letter.pdf)."),
    Feature("her answer to that", LARS, "Thank you, I have read it. We begin easy on Monday."),
    Feature("too many", BETH, "I pass on 20 pictures, voices, videos and files an hour."),
    Feature("too large", MARIT, "The file has 2600 kB"),
)
FEATURES = (*JOINING, *SESSION, *REPLIES, *BODY, *WEEK_AND_LIFE, *SEEING, *ANYTHING_ELSE)
