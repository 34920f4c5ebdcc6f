"""What the season plays at least once: each feature of the coach's side, and words that it alone prints."""

from collections.abc import Mapping

from scenario.features import Feature

from core.checkin.order_words import Ordered

EDDA, JORUN, PIA, SVEN, KLARA, RAVI = 4301, 5300, 5301, 5302, 5303, 5304

ALERTS: Mapping[str, Feature] = {
    "stop:": Feature("a stop sign", EDDA, "Klara: stop sign."),
    "doubt:": Feature("a safety message in doubt", EDDA, "I cannot tell whether a message reached Klara"),
    "pain:": Feature("pain that cannot wait", EDDA, "Sven: left knee, 7 of 10, during back squat"),
    "misses:": Feature("sessions missed in a row", EDDA, "Ravi has missed 2 sessions in a row."),
    "talk:": Feature("who was silent wants to talk", EDDA, "Ravi has answered and wants to talk with you."),
    "ill:": Feature("ill, with a fever", EDDA, "Klara is ill since Mon 28 September"),
    "line:": Feature(
        "a set far over the load line", EDDA, "Klara: Back squat at 70 kg, the load line was 60 kg"
    ),
    "left:": Feature("none left, twice running", EDDA, "0 reps left where 2 were asked, 2 times running"),
    "falling:": Feature("a lift that falls", EDDA, "Pia: Back squat down 13 % over 3 sessions"),
    "stall:": Feature("a lift that stalls", EDDA, "Sven: Bench press no gain in "),
    "unreachable:": Feature(
        "somebody blocks the bot", EDDA, "Ravi has blocked me, so nothing reaches them here."
    ),
    "video:": Feature("a video without an answer", EDDA, "Pia: a video has had no answer for 5 days."),
    "checkin:": Feature("check-ins without an answer", EDDA, "Sven: no answer to the last 2 check-ins"),
    "block:": Feature(
        "a block that runs out",
        EDDA,
        "have no block after the one that ends.\nOrchard base ends Sun 13 September: ",
    ),
}
"""By how the key of a matter begins."""
MORE_OF_ALERTS = (
    Feature("pain that can wait till her day", EDDA, "Sven: left knee, 5 of 10, during split squat"),
    Feature("a little pain, in the digest", EDDA, "Sven: left knee on Thu 27 August: 5 of 10, last 3 of 10."),
    Feature("the fall of her own rule", EDDA, "Next time 30 % less where it hurt"),
    Feature(
        "pain that flares again, beside a referral",
        EDDA,
        "Flared 2 times in four weeks.\n"
        "A referral to a physiotherapist stands since Sun 30 August: not seen yet.",
    ),
    Feature(
        "one miss in the first weeks", EDDA, "Ravi is in the first three weeks and has missed a session."
    ),
    Feature("gone quiet", EDDA, "Ravi has not answered the last 3 cards."),
    Feature("an alert that was seen", EDDA, "corrected under /client Klara.\n\nSeen."),
    Feature("the next session to be eased", EDDA, "Ease the next session of Sven"),
    Feature(
        "an alert unseen, told again",
        EDDA,
        "Not seen yet. First told Thu 3 September, 13:00.\nKlara: stop sign.",
    ),
    Feature(
        "then the second person", JORUN, "Edda Ravn has not seen this for over an hour. Klara: a stop sign."
    ),
    Feature("the second person has seen it", EDDA, "Jorun has seen the alert about Klara"),
)
ORDERS: Mapping[Ordered, Feature] = {
    Ordered.LOAD: Feature("a load", EDDA, "Holds. Pia: bench press 42.5 kg from Mon 31 August"),
    Ordered.STEP: Feature("a step down", EDDA, "Holds. Klara: back squat 60 kg, next session only."),
    Ordered.PAUSE: Feature(
        "an exercise paused", EDDA, "Holds. Sven: split squat paused until Thu 1 October."
    ),
    Ordered.TAKE_UP: Feature("and taken up", EDDA, "Holds. Sven: split squat goes on from the next card."),
    Ordered.HOLD: Feature("no raises for a time", EDDA, "Holds. Sven: no raises until Sun 27 September."),
    Ordered.FULL: Feature(
        "a planned lighter week taken out", EDDA, "Holds. Sven: no lighter week from Mon 5 October"
    ),
    Ordered.LIGHTER: Feature("a lighter week", EDDA, "Holds. Pia: lighter from Mon 28 September"),
    Ordered.REST: Feature("a day of rest", EDDA, "Holds. Pia: no session on Thu 3 September"),
    Ordered.RESTRICT: Feature(
        "a limit until a date", EDDA, "Holds. Sven: no arms overhead until Thu 1 October."
    ),
    Ordered.SWAP: Feature("a swap", EDDA, "Holds. Pia: step-up in place of split squat"),
}
MORE_OF_ORDERS = (
    Feature("an order read back before it holds", EDDA, "Now 40 kg.\nMon 31 August: 42.5 kg."),
    Feature("an order taken back", EDDA, "Taken back. Pia: no session on Thu 3 September"),
    Feature(
        "what stands for one", EDDA, "2. split squat paused until Thu 1 October. Since Sun 20 September."
    ),
    Feature("what was taken back", EDDA, "Over or taken back\nno session on Thu 3 September"),
    Feature("her order on the card", PIA, "Bench press  3 × 6 at 42.5 kg"),
)
RULES = (
    Feature("a rule for all", EDDA, "Set. Raises wait over, for all: 1 %. Default: off."),
    Feature("a rule for one client", EDDA, "Set. Pain drop, for Sven: 30 %. Default: 20 %."),
    Feature(
        "a rule for one exercise", EDDA, "Set. Raise mass upper, for bench press: 1 kg. Default: 2.5 kg."
    ),
    Feature("whom a rule touches, before it holds", EDDA, "Touches Klara, Pia, Ravi, Sven."),
    Feature("a rule taken back", EDDA, "Taken back. Raise mass upper, for bench press: 2.5 kg."),
    Feature("a rule that was only looked at", EDDA, "Left as it is: pain drop, for Sven, 30 %."),
    Feature(
        "what differs, who set it and when",
        EDDA,
        "raises wait over, for all: 1 %, default off. You, 22 August.",
    ),
)
STEERING = (
    Feature(
        "raises that wait", EDDA, "1. Pia: Romanian deadlift 50 kg to 52.5 kg (+5 %), since Thu 3 September."
    ),
    Feature("a raise agreed to", EDDA, "Agreed. Pia: Romanian deadlift 50 kg to 52.5 kg (+5 %)."),
    Feature("a raise held", EDDA, "Held. Sven: Romanian deadlift 50 kg to 52.5 kg (+5 %)"),
    Feature("pause", EDDA, "Ravi is paused until Sun 13 September."),
    Feature("resume", EDDA, "Ravi goes on. The next session comes at its hour."),
    Feature("end", EDDA, "Ravi is ended, and was told."),
    Feature("what pain locked is released", EDDA, "Released. What was locked of Sven comes back lighter"),
    Feature("a plan is released", EDDA, "Released. Klara gets cards again from the next session on."),
    Feature("one week changed for one client", EDDA, "Week 3 of Orchard base is changed for Pia alone."),
    Feature("the changed week on her card", PIA, "Back squat  3 × 5 at "),
    Feature("a preview", EDDA, "Preview, loads as written. Nobody is sent this."),
    Feature(
        "why a load, back to the sets",
        EDDA,
        "At most 40 kg, a limit set by a physiotherapist. (limit load)",
    ),
    Feature("one client", EDDA, "left knee: 2 (24/8), 1 (25/8), 5 (27/8), 3 (28/8)"),
    Feature("everybody, who needs a look first", EDDA, "4 clients, who needs a look first"),
)
CARE = (
    Feature("sent on", EDDA, "Sven: physiotherapist, left knee, worse on ladders. Sent on Sun 30 August"),
    Feature(
        "and told so",
        SVEN,
        "Please see a physiotherapist about this: left knee, worse on ladders.",
    ),
    Feature("seen, with what came of it", EDDA, "seen Wed 2 September. Outcome: bend the knee only as far"),
    Feature("a review day", EDDA, "Review Sun 20 September."),
    Feature("a review that is due", EDDA, "Referrals to look at again\nSven: physiotherapist"),
    Feature("a referral closed", EDDA, "Review Sun 20 September. Closed."),
    Feature("a clinician's limit holds", EDDA, "It holds now.\n\nBack squat: at most 40 kg in all."),
    Feature("the limit binds the load", SVEN, "Back squat  3 × 5 at 40 kg"),
    Feature("the limit taken out", EDDA, "Taken out. The next card goes without it."),
    Feature(
        "a summary is asked for", SVEN, "It is about a summary to hand on to a physiotherapist whom you see."
    ),
    Feature("with consent", EDDA, "Sven agrees that you hand a summary on"),
    Feature("the summary", EDDA, "As the client said and logged it. No diagnosis."),
    Feature("a reminder to herself", EDDA, "Reminder. Sven: ask about the ladder work"),
    Feature("a contract that ends, to her alone", EDDA, "Klara: the contract ends soon"),
)
SEASON = (
    Feature("what runs for whom", EDDA, "What runs, Sun 6 September"),
    Feature("who runs out", EDDA, "Runs out within 14 days\nKlara: Orchard base until Sun 13 September"),
    Feature("a holiday", EDDA, "In the season of everybody: Holiday, 14 to 20 September."),
    Feature("an event", EDDA, "In the season of Pia: Event harvest run, Sat 17 October, in 8 weeks."),
    Feature("its countdown at the end", EDDA, "Event harvest run: Sat 17 October, in 6 days"),
    Feature(
        "two blocks in a client's season", EDDA, "Orchard strong: 21 September to 11 October, now week 3"
    ),
    Feature("the second block", PIA, "Edda Ravn has put you on a new block: Orchard strong."),
    Feature("the first block's report", EDDA, "Report, Pia: Orchard base"),
    Feature("what the client said at its end", EDDA, "What did not work? Squats after a day on the ladder"),
    Feature("three options, with the evidence", EDDA, "3. A lighter block. Our proposal."),
    Feature("a report that has pain in it", EDDA, "Left knee: 6 times, 7 of 10 at most"),
    Feature("the second block's report", EDDA, "Report, Pia: Orchard strong"),
    Feature("the log as a file", EDDA, "Pia, the whole training log: every set"),
    Feature(
        "a digest with no session due", EDDA, "Mon 14 September to Sun 20 September: no session was due."
    ),
)
TALK = (
    Feature("one message to several", EDDA, "Goes out at 20:12 to 4 people: Klara, Pia, Ravi, Sven."),
    Feature("and it comes", RAVI, "The cold store is open for training on Saturday too."),
    Feature("a phrase", SVEN, "Leave it out today. We look at it on Thursday."),
    Feature("a video asked for", PIA, "Edda Ravn asks for a video: bench press, set 3, from the side."),
    Feature("a video that was asked for", EDDA, "You asked for: bench press, set 3, from the side."),
    Feature("an answer that becomes a cue", EDDA, "Sent to Pia, and kept as the cue for bench press."),
    Feature("that cue on the card", PIA, "Wrists over the elbows, and pause on the chest."),
    Feature("her words on a week", KLARA, "Edda Ravn: From here every last set ends with two left. Not one."),
    Feature("when she answers", KLARA, "Edda Ravn usually answers Mon to Fri, 09:00 to 18:00."),
    Feature(
        "her absence, with cover", EDDA, "You are away from Thu 1 October to Sun 4 October. Jorun covers."
    ),
    Feature("her absence on the card", PIA, "Edda Ravn is away until Sun 4 October. Jorun covers."),
    Feature("her cue at a little pain", SVEN, "Your coach for this: slower down, hands on the rail"),
    Feature("who stands by for her", JORUN, "When Edda Ravn has not seen an alert for over an hour"),
)
FEATURES = (
    *ALERTS.values(),
    *MORE_OF_ALERTS,
    *ORDERS.values(),
    *MORE_OF_ORDERS,
    *RULES,
    *STEERING,
    *CARE,
    *SEASON,
    *TALK,
)
