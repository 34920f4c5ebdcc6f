"""What a coach reads of a lift, of what waits too long and of a block that ends; and of a matter that stays unseen."""

from collections.abc import Sequence
from datetime import date, datetime
from html import escape
from zoneinfo import ZoneInfo

from bot.messages import Button, Message, Rows
from bot.render.dates import day_words
from bot.render.loads import load_words
from core.oversight.alerts import LeftUnder, OverLine, Unanswered
from core.programme.exercises import Exercise
from core.programme.prescription import Load
from core.units import Mass

NOT_SEEN = "<b>Not seen yet.</b>"
MATTERS = {
    "stop": "a stop sign. The plan is on hold, and the text for it was sent",
    "pain": "pain that cannot wait. What loads it is locked",
    "doubt": "a safety message that may not have arrived",
}
"""What the second person is told of a matter, by how its key begins: no word of what was said."""
ANY_MATTER = "something that cannot wait"
LONGEST = 3000
"""Characters of an alert's list of clients, under the platform's 4096; who is past it is counted."""
NAMED_A_LINE = 20
"""Clients named on one line."""


def over_line(name: str, exercise: Exercise, found: OverLine, on: date) -> Message:
    """Tell of a set far over the load line, without blame: the line may have been wrong, or the number."""
    lifted, line = (_mass_words(each, exercise) for each in (found.load, found.line))
    return Message(
        f"<b>{escape(name)}</b>: {escape(exercise.name)} at {lifted}, the load line was {line} "
        f"({day_words(on)}).\n"
        "I kept it as logged. The next load is worked out anew, with every ceiling. A slip of the finger can be "
        f"corrected under /client {escape(name)}."
    )


def left_under(name: str, exercise: Exercise, found: LeftUnder) -> Message:
    """Tell of sets that ended with none left where some were asked for."""
    return Message(
        f"<b>{escape(name)}</b>: {escape(exercise.name)}, 0 reps left where {found.asked} were asked, "
        f"{found.times} times running since {day_words(found.first)}.\n"
        "I kept it as logged. The next load follows your rules."
    )


def lift_matter(name: str, exercise: Exercise) -> Message:
    """Say of a lift that it stands in the digest; only kept, never sent by itself."""
    return Message(f"<b>{escape(name)}</b>: {escape(exercise.name)}, a lift to look at. It is in the digest.")


def video_waits(name: str, count: int, days: int) -> Message:
    """Tell of videos that nobody has answered."""
    many = "a video has" if count == 1 else f"{count} videos have"
    oldest = "" if count == 1 else ", the oldest"
    return Message(
        f"<b>{escape(name)}</b>: {many} had no answer{oldest} for {days} days.\n"
        "I told them that it went to you, and nothing since."
    )


def check_ins_unanswered(name: str, found: Unanswered) -> Message:
    """Tell of check-ins that were not answered."""
    return Message(
        f"<b>{escape(name)}</b>: no answer to the last {found.times} check-ins, since {day_words(found.first)}.\n"
        "I go on asking on your day. /checkin turns it off for one client."
    )


def block_ends(name: str, block: str, ends: date) -> Message:
    """Tell that a block ends and none follows it."""
    return Message(
        f"<b>{escape(name)}</b>: {escape(block)} ends {day_words(ends)}, and no block follows it.\n"
        "No card goes out after that. /assign puts them on the next one."
    )


def blocks_end(ending: Sequence[tuple[str, str, date]]) -> Message:
    """Tell in one message of several clients whose blocks end and whom none follows: name, block, last day."""
    if len(ending) == 1:
        return block_ends(*ending[0])
    by_block: dict[tuple[date, str], list[str]] = {}
    for name, block, ends in ending:
        by_block.setdefault((ends, block), []).append(f"<b>{escape(name)}</b>")
    told, room = [], LONGEST
    left = len(ending)
    for (ends, block), names in sorted(by_block.items()):
        for part in (names[at : at + NAMED_A_LINE] for at in range(0, len(names), NAMED_A_LINE)):
            line = f"{escape(block)} ends {day_words(ends)}: {_listed(part)}."
            room -= len(line)
            if room > 0:
                told.append(line)
                left -= len(part)
    more = [f"And {left} more."] if left else []
    last = (
        "No card goes out after that. /assign puts one of them on the next one; /blocks lists who runs out."
    )
    head = f"{len(ending)} clients have no block after the one that ends."
    return Message("\n".join([head, *told, *more, last]))


def _listed(names: Sequence[str]) -> str:
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else names[0]


def not_seen(html: str, told_at: datetime, zone: str, rows: Rows) -> Message:
    """Tell a matter again that nobody has seen, with the date and clock at which it was told first."""
    at = told_at.astimezone(ZoneInfo(zone))
    return Message(f"{NOT_SEEN} First told {day_words(at.date())}, {at:%H:%M}.\n{html}", rows=rows)


def as_told(html: str) -> str:
    """Return a matter's text without the line that it was not seen."""
    return html.partition("\n")[2] if html.startswith(NOT_SEEN) else html


def for_second(coach: str, name: str, key: str, rows: Rows) -> Message:
    """Tell the second person: whom, and what kind of matter, and nothing else of her."""
    matter = MATTERS.get(key.partition(":")[0], ANY_MATTER)
    return Message(
        f"{escape(coach)} has not seen this for over an hour. <b>{escape(name)}</b>: {matter}.\n"
        f"Please reach {escape(coach)}. In an emergency call your local emergency number.",
        rows=rows,
    )


def second_saw(message: str, rows: Rows = ()) -> Message:
    """Show the second person's message once she has seen it."""
    return Message(f"{message}\n\nSeen. Thank you.", rows=rows)


def seen_by_second(second: str, name: str, at: datetime, zone: str) -> Message:
    """Tell the coach that her second person has seen a matter."""
    local = at.astimezone(ZoneInfo(zone))
    return Message(
        f"{escape(second)} has seen the alert about <b>{escape(name)}</b> at {local:%H:%M}. It is still yours to do."
    )


def seen_button(data: str) -> Rows:
    """Return the one button that the second person has."""
    return ((Button("Seen", data),),)


def _mass_words(mass: Mass, exercise: Exercise) -> str:
    return load_words(Load.of(mass.value, mass.unit), exercise.basis)
