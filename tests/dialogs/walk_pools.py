"""What people on a walk type: `{word}` is a word of their side, `{client}` a coach's client."""

from random import Random

SETS = (
    "90 8 8 8 7", "8 8 8", "60x8", "16 10/10 10/9", "bw 12 12 10", "bw+5 8 8", "45s 45s 40s", "92,5kg 3x8",
    "100x5x3, 95x5x2", "1) 60x8 2) 60x7", "done", "skip", "undo", "all done as written", "rir 2", "2 left",
    "rpe 8", "all 5s", "900 8 8 8", "9 8 8", "8@8 8@9", "L10 9 8 R10 10 10", "80 lb 8 8", "hip thrust 90 8 8",
    "start", "next", "rest 90", "remind me every time", "no reminder", "swap", "show me", "back", "why",
    "short on time", "not today", "end here", "all good", "nothing", "no idea", "gym", "home", "prep",
)  # fmt: skip
PAIN = (
    "pain left knee 4", "left knee 7", "knee 3", "low back 5", "right shoulder 2", "sore quads 6", "hurts",
    "something hurts", "pain", "left knee 4 and low back 6", "gone", "4/10", "sudden", "numb", "before training",
    "80 8 8 left knee 5", "neck 8", "my elbow is sore", "no pain", "none of these", "i did", "hip 10",
)  # fmt: skip
LIFE = (
    "ill", "sick", "fever", "better", "a cold", "away until sunday", "away tomorrow", "back", "i'm back", "keep",
    "mon wed fri", "move monday to tuesday", "ran 5 km", "football 60 min hard", "my goal is 100 kg squat",
    "fine", "good week", "slept badly", "nothing worries me", "a win: {word}", "none", "stop", "yes", "no",
    "2", "skip it", "not sure", "lb", "kg", "7:30", "home", "i am pregnant", "Lisbon", "Tokyo",
)  # fmt: skip
NUMBERS = ("0", "3", "4", "7", "10", "11", "60", "2.5", "100", "-5", "7/10", "08:00")
NONSENSE = (
    "{word} {word}", "<b>{word}", "a & b < c {word}", "🙂", "{word} &amp; co", "?", ".", " ", "x" * 4000,
    "שלום {word}", "{word}\n\n60 8 8", "thanks {word}", "can I swap {word} for tea", "'; drop table {word}",
    "&lt;i&gt; {word}", "😀" * 1500, "only had 20 minutes {word}", "{word}" + " yes" * 900,
)  # fmt: skip
STOPS = ("my chest hurts and my arm is numb", "I fainted", "I want to die")
POOLS = (SETS, PAIN, LIFE, NUMBERS, NONSENSE, STOPS)
WEIGHTS = (36, 16, 20, 12, 12, 1)

CLIENT_COMMANDS = (
    "/today", "/week", "/plan", "/checkin", "/other", "/other run 30 min", "/goals", "/goals squat 120",
    "/settings", "/settings days", "/settings hour", "/kit", "/kit plates 20 10 5", "/ill", "/ill fever", "/away",
    "/away until sunday", "/away tomorrow to friday", "/away 3 days", "/back", "/records", "/mydata", "/help",
    "/nothing {word}", "/start", "/log 90 8 8 8", "/pain left knee 4", "/sore quads 6", "/skip", "/undo",
    "/roster", "/client Bencivenni", "/client Adalind", "/assign {client}, Harbour strength, today",
    "/forget", "/settings clock",
)  # fmt: skip
COACH_COMMANDS = (
    "/roster", "/client {client}", "/client bencivenni", "/client adalind", "/preview", "/invites", "/today",
    "/week", "/settings",
    "/cue hip thrust: {word} tall", "/cues", "/cue {client}, hip thrust: {word}", "/limits {client}: no overhead",
    "/limits {client}: none", "/assign {client}, Harbour strength, tomorrow", "/assign", "/change {client}, 2",
    "/prep {client}: hips 5 min", "/prep {client}: off", "/checkin", "/goal {client} squat 120 {word}", "/help",
    "/records {client}", "/exercises", "/invite {word}", "/start", "/mydata", "/forget", "/plan", "/settings 18:00",
    "/nothing {word}", "/away until sunday", "/back", "/kit {client}", "/assign {client}, tomorrow",
)  # fmt: skip
COACH_WORDS = (
    "well done {word}", "{client}", "90 8 8 8", "tomorrow", "next monday", "yes", "no", "undo", "7", "60",
    "how are you {word}?", "<i>{word}", "hip thrust 90 from next week", "sleep?\nstress? {word}", "back", "2",
    "mon 18:00", "{word} & more", "x" * 4000, "remove", "none", "30", "skip",
)  # fmt: skip


def client_words(chance: Random) -> str:
    """What a client types."""
    return chance.choice(chance.choices(POOLS, weights=WEIGHTS)[0])


def coach_words(chance: Random) -> str:
    """What a coach types."""
    return chance.choice(COACH_WORDS)
