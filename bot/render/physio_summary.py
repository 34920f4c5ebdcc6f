"""A summary for a practitioner, in words: asked of the client first, then given to her coach. No diagnosis in it."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from html import escape

from bot.messages import Action, Message
from bot.render.dates import day_words
from bot.render.progress import kept_words
from bot.render.setting_up import Buttons
from core.oversight.misses import Tally
from core.oversight.progress import SiteFelt
from core.policy import Policy

LONGEST = 3500
"""Characters of the text, under the platform's 4096."""
MOST_FELT = 12
"""Reports of a place that are written out."""


@dataclass(frozen=True, slots=True)
class Hurt:
    """An exercise in which it hurt.

    Attributes:
        exercise: Its name.
        place: Where it hurt, in words.
        score: 0-10; None where no number was given.
        on: The client's local date.
        load: Heaviest load of that exercise in that session, in words; empty where none was logged.
    """

    exercise: str
    place: str
    score: int | None
    on: date
    load: str = ""


@dataclass(frozen=True, slots=True)
class Summary:
    """What a summary says.

    Attributes:
        client: Her name.
        coach: Who wrote it.
        first: First day that it looks at.
        today: Its date.
        sites: What was said of each place that hurt.
        hurts: Exercises in which it hurt, the latest first.
        limits: Limits that stand, a line each.
        kept: Sessions kept of due since `first`.
        policy: The coach's, for a percentage.
    """

    client: str
    coach: str
    first: date
    today: date
    sites: tuple[SiteFelt, ...] = ()
    hurts: tuple[Hurt, ...] = ()
    limits: tuple[str, ...] = ()
    kept: Tally = field(default_factory=Tally)
    policy: Policy = field(default_factory=Policy)


def ask(coach: str, to: str, buttons: Buttons) -> Message:
    """Ask a client whether a summary of hers may be handed on, and say what is in it."""
    return Message(
        f"{escape(coach)} asks you for a yes or a no.\n"
        f"It is about a summary to hand on to {escape(to)} whom you see.\n\n"
        "In it, for the last twelve weeks: where it hurt, when and how much from 0 to 10; the exercises in which it "
        "hurt, with their loads; limits that a clinician has set; sessions kept. Your name, and who wrote it. "
        "Nothing else: no messages, no pictures, no health answers.\n\n"
        f"With a yes {escape(coach)} gets it at once, this one time. You may say no; your training goes on as before. "
        "A yes can be taken back at any time.",
        rows=(
            (buttons.one(f"Yes, {coach} may hand it on", Action.CONFIRM),),
            (buttons.one("No", Action.CANCEL),),
        ),
    )


def agreed(coach: str, buttons: Buttons, *, has_it: bool) -> Message:
    """Say back a yes, with the way to take it back."""
    name = escape(coach)
    lines = [
        f"You said yes: {name} gets the summary as of today, and may hand it on."
        if has_it
        else f"You said yes: {name} may have the summary, and hand it on.",
        "It goes to no one else, and for another one I ask you again.",
        "What was handed on cannot be called back by me.",
        "To take it back, tap or type <code>take back my yes</code>.",
    ]
    return Message("\n".join(lines), rows=((buttons.one("Take back my yes", Action.DROP),),), silent=True)


def refused(coach: str) -> Message:
    """Say back a no."""
    return Message(f"Noted: no. {escape(coach)} gets no summary, and is told so.", silent=True)


def withdrawn(coach: str) -> Message:
    """Say back that a yes is taken back."""
    return Message(
        f"Taken back. {escape(coach)} is told not to hand the summary on, and to delete it. "
        "To have one that was handed on destroyed, ask whoever has it.",
        silent=True,
    )


def over() -> Message:
    """Say of an old question that it is asked no more."""
    return Message("That question is over. Nothing was handed on by it.", silent=True)


def asked_already(client: str, on: date) -> Message:
    """Tell a coach that an answer is still open."""
    return Message(
        f"<b>{escape(client)}</b> was asked on {day_words(on)} and has not answered yet. "
        "Without a yes there is no summary.",
        silent=True,
    )


def said_no(client: str, on: date) -> Message:
    """Tell a coach that her client said no lately, so that she is not asked again yet."""
    return Message(
        f"<b>{escape(client)}</b> said no on {day_words(on)}. I ask again only after seven days; "
        "talk about it first.",
        silent=True,
    )


def is_asked(client: str) -> Message:
    """Tell a coach that her client is asked."""
    return Message(
        f"I have asked <b>{escape(client)}</b> whether a summary may be handed on. "
        "With a yes you get it at once; a no I tell you too.",
        silent=True,
    )


def not_reached(client: str) -> Message:
    """Tell a coach that her client cannot be asked."""
    return Message(f"<b>{escape(client)}</b> cannot be asked here now. Nothing was made.", silent=True)


def coach_hears(client: str, what: str) -> Message:
    """Tell a coach what her client said of handing on."""
    name = escape(client)
    said = {
        "given": f"<b>{name}</b> agrees that you hand a summary on. <code>/summary {name}</code> gives it.",
        "handed": f"<b>{name}</b> agrees that you hand a summary on, this one time. Here it is, as of today.",
        "refused": f"<b>{name}</b> does not want a summary to be handed on. None is made.",
        "withdrawn": f"<b>{name}</b> has taken back the yes to the summary. "
        "Do not hand it on, and delete it where you have it.",
    }
    return Message(said[what])


def how_to() -> Message:
    """Say how a summary is asked for."""
    return Message(
        "For whom? <code>/summary Ada</code> asks Ada first; with a yes you get a page.", silent=True
    )


def caption(client: str) -> str:
    """Say what the file is."""
    return (
        f"One page for a practitioner, about {escape(client)}. It holds health data: hand it to nobody else."
    )


def summary_lines(summary: Summary) -> list[str]:
    """Write a summary as plain lines; those that end with a colon are headings."""
    return [
        f"{summary.client}: training summary",
        f"{_dated(summary.first)} to {_dated(summary.today)}.",
        f"Written by {summary.coach}, strength coach, on {_dated(summary.today)}.",
        "As the client said and logged it. No diagnosis.",
        "Pain by place, 0 to 10:",
        *([_site(each) for each in summary.sites] or ["none was said"]),
        "Exercises in which it hurt:",
        *([_hurt(each) for each in summary.hurts] or ["none was said"]),
        "Limits set by clinicians:",
        *(summary.limits or ("none noted",)),
        "Sessions:",
        kept_words(summary.kept, summary.policy),
    ]


def text(summary: Summary) -> Message:
    """Write a summary as a message."""
    lines = [
        f"<b>{escape(line)}</b>" if line.endswith(":") or number == 0 else escape(line)
        for number, line in enumerate(summary_lines(summary))
    ]
    cut = "\n".join(lines)
    return Message(cut if len(cut) <= LONGEST else _cut(lines), silent=True)


def _cut(lines: Sequence[str]) -> str:
    kept: list[str] = []
    for line in lines:
        if sum(len(each) + 1 for each in kept) + len(line) > LONGEST:
            return "\n".join([*kept, "The page has the rest."])
        kept.append(line)
    return "\n".join(kept)


def _site(site: SiteFelt) -> str:
    shown = site.felt[-MOST_FELT:]
    felt = ", ".join(f"{'?' if score is None else score} ({on.day}.{on.month}.)" for on, score in shown)
    earlier = len(site.felt) - len(shown)
    return f"{site.place}: {f'{earlier} earlier, then ' if earlier else ''}{felt}"


def _hurt(hurt: Hurt) -> str:
    load = f" at {hurt.load}" if hurt.load else ""
    score = "no number" if hurt.score is None else f"{hurt.score} of 10"
    return f"{hurt.exercise}{load}: {hurt.place}, {score}, {_dated(hurt.on)}"


def _dated(on: date) -> str:
    return f"{day_words(on)} {on.year}"
