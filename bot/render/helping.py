"""Help texts."""

from bot.messages import Message


def for_client() -> Message:
    """Say what a client can do."""
    return Message(
        "<b>In a session</b>\n"
        "Tap, or type in one line:\n"
        "<code>92.5 8 8 8 7</code>  load, then reps of each set\n"
        "<code>8 8 8 7</code>  reps, load as written\n"
        "<code>done</code>  <code>skip</code>  <code>undo</code>\n"
        "<code>2 left</code>  reps left in the last set\n"
        "<code>pain left knee 4</code>  <code>sore quads 6</code>\n"
        "<code>swap</code>  <code>short on time</code>  <code>show me</code>  <code>why</code>\n"
        "<code>go to B2</code>  <code>exercise 3</code>  another one first\n"
        "<code>prep</code>, then <code>next</code>  the warm-up, step by step\n"
        "<code>remind me</code>  <code>rest 90</code>  I write when the rest is over\n"
        "<code>at home</code>  <code>elsewhere</code>  another place today\n\n"
        "<b>Your week</b>\n"
        "/today the card again, or what comes next\n"
        "/week this week\n"
        "/plan move days of the coming week\n"
        "/checkin the week's questions\n"
        "/other a run, a match, other training\n"
        "/ill when you are ill, <code>better</code> when you are well\n"
        "/away 3-10 May when you are away, /back when you are back\n\n"
        "<b>How it goes</b>\n"
        "/progress your lifts, sessions and pain over time\n"
        "/records your best sets so far\n"
        "/goals what you want to reach\n\n"
        "<b>What is yours</b>\n"
        "/settings all that you answered: hour, days, limits, health, consent\n"
        "/kit what you have to lift\n"
        "/mydata all that is kept about you\n"
        "/forget deletes it\n"
        "/stop ends it\n\n"
        "Plain words, pictures, voice, videos and files go to your coach.\n\n"
        "I am a program and no doctor. Nobody watches this chat in real time. "
        "In an emergency call your local emergency number.",
        silent=True,
    )


COACH_BLOCKS = (
    "<b>Blocks</b>\n"
    "Send a block as a file (xlsx, csv or yaml) into this chat.\n"
    "/template sends a form to fill in, with examples.\n"
    "/block Harbour strength sends a block back as a file, Harbour strength as csv in that form.\n"
    "The same name with other content is a new version: I ask from when it holds, and show what changes for whom.\n"
    "/change Ada, 4 sends week 4 of Ada's block as a file, to be another for Ada alone.\n"
    "/exercises shows your own exercises and sends a form to add some.\n"
    "/blocks shows what runs for whom, and who runs out.\n"
    "/season shows it in time, /season Ada one client week by week.\n"
    "/holiday 20-31 July or /holiday Ada 3-10 May, /event Ada: 10k row 14 June put something into it.\n"
    "/report Ada sends a block as pages and tables, with options for what comes next.\n"
    "/preview shows a day as a client gets it.\n\n"
)
COACH_BEGINS = (
    "<b>A client begins</b>\n"
    "/invite Ada makes a link for a client. What you know can stand with it: "
    "/invite Ada: kg, 7:00, mon thu, Lisbon, home, dumbbells, 60 min, new.\n"
    "/invite again Ada moves a client to a new account.\n"
    "/invites lists open links.\n"
    "/assign puts a client on a block, and shows first what changes for that client.\n"
    "/limits Ada: no overhead says what a client must not do.\n"
    "/limit Ada: deadlift at most 60 kg, doctor, review 10 May keeps a clinician's limit.\n"
    "/kit Ada shows what Ada has to lift, and takes it: /kit Ada: dumbbells 2-30 by 2.\n"
    "/lastloads sends a form for what people lifted last, so that nobody has to find it.\n\n"
)
COACH_LOOKS_AFTER = (
    "<b>Look after people</b>\n"
    "/roster shows everybody, who needs a look first.\n"
    "/client Ada shows what was done and what comes next, and corrects a set.\n"
    "Ada: hip thrust 90 from next week is an order, read back before it holds. "
    "/order shows more, /orders Ada what stands.\n"
    "/raises shows raises that wait for you, if you have set a size.\n"
    "Ada: raises go on, or Ada: keep holding, answers whether they go on at a place that hurts a little.\n"
    "/pause Ada until 3 May, /resume Ada, /end Ada.\n"
    "/progress Ada shows lifts, sessions and pain over time, /progress Ada, bench one lift.\n"
    "/records Ada shows the best sets so far.\n"
    "/why Ada, hip thrust shows why a load, back to the sets.\n"
    "/logfile Ada sends the whole log as a file.\n"
    "/goal Ada deadlift 100 by 1 June puts a goal for a client.\n"
    "/refer Ada physiotherapist: left knee since March sends a client on. /referrals lists them.\n"
    "/summary Ada asks the client, then gives you a page for a practitioner.\n"
    "/remind Ada 3 weeks: ask about the hip reminds you. /contract Ada 12 sessions counts them for you alone.\n"
    "/prep Ada: hips, low back sets a few minutes for every day.\n"
    "/clip ankle rock and an address show your clip of a prep drill.\n"
    "/cue hip thrust: ribs down stands on the card. /cues lists your cues.\n"
    "/cue Ada, left knee: slower is said at pain of 1 to 3.\n"
    "/checkin shows what the weekly check-in asks, and changes it.\n"
    "/rules shows your thresholds, caps and hours, and changes them: /rules for Ada: pain drop 30%.\n"
    "/second Lena names who is told when you do not see an alert that cannot wait.\n"
    "/settings says how sessions that are not done go on, and on which days the week's questions come.\n\n"
)
COACH_TALKS = (
    "<b>Talk with people</b>\n"
    "A reply to a message or an alert goes to that client, words, pictures, voice and files.\n"
    "/tell all: words goes to all, after you have seen it. "
    "Also Ada, Ben or block Harbour strength or quiet or in pain or paused.\n"
    "/video Ada hip thrust set 3 from the side asks for a video on the card.\n"
    "/phrase knee: words saves them; phrase knee in a reply stands for them.\n"
    "/note Harbour strength week 3 puts your voice or words with that week.\n"
    "/office 9-18 mon-fri says when you usually answer.\n"
    "/absent 3-10 May, cover Jo while you are away: no load rises.\n\n"
    "Alerts about pain and stop signs come here by themselves. "
    "I am no doctor and clear nobody: that stays with you and the practitioners you send people to."
)


def for_coach() -> Message:
    """Say what a coach can do."""
    return Message(COACH_BLOCKS + COACH_BEGINS + COACH_LOOKS_AFTER + COACH_TALKS, silent=True)


def cannot_use() -> Message:
    """Say that this kind of message cannot be used."""
    return Message(
        "I cannot use that kind of message, and nothing was passed on. "
        "Words, photos, voice, videos, files, stickers and contacts I can.",
        silent=True,
    )
