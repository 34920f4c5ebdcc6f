"""How every kind of question opens that Orla is asked about Ben, in one talk, and most that Ben is asked."""

from collections.abc import Callable

from dialogs.talks import BLOCKS, Talk

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import report, setting_up, way_out
from bot.usecases.block_files import FileSent
from core.programme.exercises import Site

Step = str | Callable[[Talk], object]


def of_ben(name: str) -> Step:
    """Send a file that names Ada, with Ben in her place."""

    def send(play: Talk) -> None:
        content = (BLOCKS / name).read_bytes().replace(b"Ada", b"Ben")
        orla = play.someone("Orla")
        catalogue = play.house.reading(orla, lambda unit: unit.exercises.catalogue())
        orla.does(
            setting_up.file_sent, setting_up.opened(FileSent("file", name, len(content)), content, catalogue)
        )

    return send


def asked(ask: Callable[[Client, Unit, Talk], object]) -> Step:
    """Have Orla be asked what otherwise takes weeks to fall due."""

    def do(play: Talk) -> None:
        orla = play.someone("Orla")
        ben = play.house.client_of(orla, play.someone("Ben"))
        play.house.reading(orla, lambda unit: ask(ben, unit, play))

    return do


def _report(ben: Client, unit: Unit, play: Talk) -> None:
    running = unit.blocks.running(ben.id)
    assert running is not None
    report.offered(ben, running.id, unit, play.house.now)


def _way_out(ben: Client, unit: Unit, play: Talk) -> None:
    row = unit.go_aheads.ask(ben.id, Site.KNEE, "L", 2, 900, play.house.now)
    unit.prompts.open(way_out.KIND, 900, 900, play.house.now, client_id=ben.id, subject=row)


MARITS = (
    "Marit: /cue Ada, hip thrust: Zanzibar cue",
    "Marit: /phrase knee: Zanzibar phrase",
    "Marit: /goal Ada Zanzibar goal",
    "Marit: /note Harbour strength week 1: Zanzibar note",
    "Marit: /video Ada hip thrust from the Zanzibar side",
    "Marit: /absent 3-10 May, cover Zanzibar Jo",
    "Marit: /refer Ada physiotherapist: Zanzibar knee",
    "Marit: /remind Ada 3 weeks: Zanzibar hip",
    "Marit: /event Ada: Zanzibar row 14 June",
    "Marit: /contract Ada 12 sessions",
    "Marit: /prep Ada: hips",
    "Marit: /invite Zanzibar Zed",
    "Marit: /limit Ada: deadlift at most 60 kg, doctor, review 10 May",
    "Marit [Let it hold]",
    "Marit: /order Ada: hip thrust 80 from next week",
    "Marit [Hold it]",
    "tick 2026-04-07 07:00",
    "Ada: Zanzibar words",
    "Ada: pain left knee 5",
)
"""What Marit does, so that there is something of hers in most tables."""

DONE = ("Ben [All done as written]", "Ben [Nothing hurts]", "Ben [2]")

OPENINGS: tuple[tuple[str, tuple[Step, ...]], ...] = (
    ("order", ("Orla: /order Ben: hip thrust 80 from next week",)),
    ("orders", ("Orla [Hold it]", "Orla: /orders Ben")),
    ("roster", ("Orla: /roster",)),
    ("client", ("Orla: /client Ben",)),
    ("invites", ("Orla: /invite Zed", "Orla: /invites")),
    ("assign", ("Orla: /assign",)),
    ("assign", ("Orla: /assign Ben",)),
    ("assign", ("Orla: /assign Ben, Harbour strength",)),
    ("assign", ("Orla: /assign Ben, Harbour strength, 2026-05-04",)),
    ("preview", ("Orla: /preview",)),
    ("block", ("Orla sends the file slipway-full-body.xlsx",)),
    ("checkin list", ("Orla: /checkin",)),
    ("coach settings", ("Orla: /settings",)),
    ("cue", ("Orla: /cue hip thrust: low",)),
    ("cues", ("Orla: /cues",)),
    ("kit", ("Orla: /kit Ben: dumbbells 2-30 by 2",)),
    ("prep set", ("Orla: /prep Ben: hips",)),
    ("which week", ("Orla: /change Ben",)),
    ("week", (of_ben("ada-week-3.csv"),)),
    ("last loads", (of_ben("last-loads.csv"),)),
    ("version", ("Orla sends the file harbour-strength-2.yaml",)),
    ("tell", ("Orla: /tell all: hello",)),
    ("video ask", ("Orla: /video Ben",)),
    ("week note", ("Orla: /note Harbour strength week 1: hello",)),
    ("coach away", ("Orla: /absent 3-10 May",)),
    ("limit", ("Orla: /limit Ben: deadlift at most 60 kg, doctor, review 10 May",)),
    ("referral", ("Orla: /refer Ben physiotherapist: left knee since March",)),
    ("referrals", ("Orla: /referrals",)),
    ("reminder", ("Orla: /remind Ben 3 weeks: ask about the hip",)),
    ("pausing", ("Orla: /end Ben",)),
    ("blocks", ("Orla: /blocks",)),
    ("season", ("Orla: /holiday Ben 3-10 May",)),
    ("progress", ("Orla: /progress Ben",)),
    ("rules", ("Orla: /rules",)),
    ("rules", ("Orla: /rules quiet from 22:00",)),
    ("report", (asked(_report),)),
    ("raises", (asked(_way_out),)),
    ("settings", ("Ben: /settings",)),
    ("goals", ("Ben: /goals squat",)),
    ("away", ("Ben: /away 9-13 May",)),
    ("illness", ("Ben: /ill",)),
    ("other", ("Ben: /other run",)),
    ("plan", ("Ben: /plan",)),
    ("forget", ("Ben: /forget",)),
    ("session", ("Orla: /rules raises wait over 1%", "Orla [Set it]", "tick 2026-04-07 07:00")),
    ("why", ("Orla: /why Ben",)),
    ("video cue", ("Ben [Start]", "Ben sends a video: deep enough?", "Orla replies to “deep enough?”: yes")),
    (
        "correct",
        (*["Ben: done"] * 4, "Ben: 40 12 12 12", *DONE[1:], "Orla: /client Ben", "Orla [Correct a set]"),
    ),
    ("whom", ("Orla replies to “Forward the next message to Zed”: well done",)),
    ("raises waiting", ("tick 2026-04-14 07:00", *DONE, "tick 2026-04-21 07:00", "Orla: /raises")),
    ("alert", ("Ben: pain left knee 5",)),
    ("write", ("Orla [Write to them]",)),
    ("pain", ("Ben: right elbow hurts",)),
    ("release", ("Ben: my chest feels tight and my left arm hurts", "Orla [Release the plan]")),
    ("stopped", ()),
)
"""Each kind, and the steps that open it where the one before it has come to."""

ELSEWHERE = frozenset(
    {
        "join",
        "join kit",
        "reading",
        "missed",
        "silence",
        "checkin",
        "blockend",
        "daily prep",
        "summary",
        "second",
    }
)
"""What a coach is never asked, and a client only when more has fallen due; Ada is asked all of it elsewhere."""
