"""The commands as the platform's menu shows them: what each does, and who is shown it."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum


class Audience(StrEnum):
    """Who is shown commands."""

    ANYBODY = "anybody"
    JOINING = "joining"
    CLIENT = "client"
    COACH = "coach"


@dataclass(frozen=True, slots=True)
class CommandName:
    """A command.

    Attributes:
        client: What it does for a client, 1 to 256 characters; None where it is not hers.
        coach: The same for a coach.
    """

    client: str | None = None
    coach: str | None = None


COMMAND_NAMES: Mapping[str, CommandName] = {
    "today": CommandName(client="Today's card again, or what comes next"),
    "week": CommandName(client="This week's sessions"),
    "plan": CommandName(client="Move the days of this week"),
    "progress": CommandName(
        client="Your lifts, sessions and pain over time",
        coach="A client's lifts, sessions and pain over time",
    ),
    "records": CommandName(client="Your best sets so far", coach="A client's best sets so far"),
    "checkin": CommandName(client="The weekly questions", coach="The weekly questions to your clients"),
    "other": CommandName(client="Note a run, a match or other training"),
    "away": CommandName(client="Say when you are away, and with what kit"),
    "back": CommandName(client="Say that you are back"),
    "ill": CommandName(client="Say that you are ill, or well again"),
    "goals": CommandName(client="What you train for"),
    "roster": CommandName(coach="Everybody, who needs a look first"),
    "client": CommandName(coach="One client: what was done, what comes next"),
    "second": CommandName(coach="Who is told when you do not see an alert"),
    "invite": CommandName(coach="A link for a new client"),
    "invites": CommandName(coach="Open links"),
    "assign": CommandName(coach="Put a client on a block"),
    "block": CommandName(coach="A block as a file"),
    "blocks": CommandName(coach="What runs for whom, who runs out"),
    "season": CommandName(coach="Blocks, holidays and events in time"),
    "holiday": CommandName(coach="A holiday of yours or of a client"),
    "event": CommandName(coach="What somebody trains for, with its day"),
    "report": CommandName(coach="A client's block as pages and tables"),
    "logfile": CommandName(coach="A client's whole log as a file"),
    "why": CommandName(coach="Why a load, back to the sets"),
    "change": CommandName(coach="Change a week for one client"),
    "template": CommandName(coach="A form for a block"),
    "exercises": CommandName(coach="Your own exercises"),
    "lastloads": CommandName(coach="A form for what people lifted last"),
    "preview": CommandName(coach="A day as a client gets it"),
    "rules": CommandName(coach="Your thresholds, caps and hours"),
    "limits": CommandName(coach="What a client must not do"),
    "limit": CommandName(coach="A limit that a clinician has set"),
    "refer": CommandName(coach="Send a client on to a practitioner"),
    "referrals": CommandName(coach="Who is sent on, and what came of it"),
    "summary": CommandName(coach="A page for a practitioner, if the client agrees"),
    "remind": CommandName(coach="A reminder to yourself"),
    "contract": CommandName(coach="Until when, or for how many sessions"),
    "goal": CommandName(coach="A goal of a client"),
    "order": CommandName(coach="An order in one line, read back first"),
    "orders": CommandName(coach="What you have ordered for a client"),
    "raises": CommandName(coach="Raises that wait for your word"),
    "pause": CommandName(coach="Pause a client"),
    "resume": CommandName(coach="Take a client up again"),
    "end": CommandName(coach="End with a client"),
    "cue": CommandName(coach="A cue for an exercise or a site"),
    "cues": CommandName(coach="Your cues"),
    "tell": CommandName(coach="One message to several, or all"),
    "video": CommandName(coach="Ask a client for a video"),
    "phrase": CommandName(coach="Your saved phrases"),
    "note": CommandName(coach="Your voice on a week of a block"),
    "office": CommandName(coach="When you usually answer"),
    "absent": CommandName(coach="When you are away, and who covers"),
    "prep": CommandName(coach="A few minutes for every day"),
    "clip": CommandName(coach="Your clip of a prep drill"),
    "kit": CommandName(client="What you have to lift", coach="What a client has to lift"),
    "settings": CommandName(client="Your hour, days, clock and unit", coach="Your settings"),
    "mydata": CommandName(client="All that is kept about you"),
    "forget": CommandName(client="Delete what is kept about you"),
    "stop": CommandName(client="End it"),
    "start": CommandName(),
    "help": CommandName(client="What you can do here", coach="What you can do here"),
}
"""By name, in the order of the menu."""

FOR_ANYBODY = (("start", "Begin, with your coach's link"), ("help", "What this is"))
FOR_JOINING = (("start", "Go on with joining"), ("stop", "End it"), ("help", "What this is"))


def shown_to(audience: Audience, known: frozenset[str]) -> tuple[tuple[str, str], ...]:
    """Return name and description of each command that somebody is shown.

    Args:
        audience: Who.
        known: Commands that there are.
    """
    match audience:
        case Audience.ANYBODY:
            return FOR_ANYBODY
        case Audience.JOINING:
            return FOR_JOINING
        case Audience.CLIENT:
            found = ((name, each.client) for name, each in COMMAND_NAMES.items())
        case Audience.COACH:
            found = ((name, each.coach) for name, each in COMMAND_NAMES.items())
    return tuple((name, words) for name, words in found if words is not None and name in known)
