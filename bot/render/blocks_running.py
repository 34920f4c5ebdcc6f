"""What runs for whom, in words."""

from html import escape

from bot.messages import Action, Message
from bot.render.dates import day_words
from bot.render.roster import week_words
from bot.render.setting_up import Buttons
from core.oversight.season import Running, Runs

__all__ = ["Buttons", "cut", "pages"]

PAGE = 3500
"""Most characters of a message. The platform takes 4096."""


def pages(found: Running, ends_within: int, buttons: Buttons) -> list[Message]:
    """Say what runs, who runs out within so many days, and who has no block; the buttons stand under the last page."""
    parts = [f"<b>What runs</b>, {day_words(found.today)}"]
    if not (found.blocks or found.without):
        parts.append("You have no clients yet. <code>/invite Ada</code> makes a link.")
    for name, runs in found.blocks:
        parts.append(_part(f"<b>{escape(name)}</b>", [_runs(each) for each in runs]))
    if found.ending:
        head = f"<b>Runs out within {ends_within} days</b>"
        parts.append(_part(head, [_ending(each) for each in found.ending]))
    if found.without:
        lines = [_without(each) for each in found.without]
        parts.append(_part("<b>No block</b>", [*lines, "/assign puts somebody on one."]))
    texts = cut(parts)
    rows = ((buttons.one("Preview", Action.PREP), buttons.one("Season", Action.CHART)),)
    last = len(texts) - 1
    return [
        Message(text, rows=rows if number == last else (), silent=True) for number, text in enumerate(texts)
    ]


def _part(head: str, lines: list[str]) -> str:
    return "\n".join([head, *lines])


def _runs(each: Runs) -> str:
    return f"{escape(each.name)} · {week_words(each.week, each.weeks)}{_day(each, ' · until ')}"


def _ending(each: Runs) -> str:
    return f"{escape(each.name)}: {escape(each.block or '')}{_day(each, ' until ')}"


def _without(each: Runs) -> str:
    return (
        f"{escape(each.name)}: {escape(each.block)}{_day(each, ' ended ')}"
        if each.block
        else escape(each.name)
    )


def _day(each: Runs, words: str) -> str:
    return f"{words}{day_words(each.last)}" if each.last is not None else ""


def cut(parts: list[str]) -> list[str]:
    """Cut a text into messages, between its lines alone."""
    found = [""]
    for part in parts:
        for number, line in enumerate(part.split("\n")):
            space = "" if not found[-1] else "\n\n" if number == 0 else "\n"
            if len(found[-1]) + len(space) + len(line) > PAGE:
                found.append(line)
            else:
                found[-1] += space + line
    return found
