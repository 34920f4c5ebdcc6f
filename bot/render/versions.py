"""A new version of a block that clients run: from when it holds, and what changes for whom."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Action, Message, Rows
from bot.render.dates import day_words
from bot.render.differences import some_lines, weeks_words
from bot.render.setting_up import Buttons, pages
from core.programme.versions import Stays

NEXT_WEEK, TODAY, A_DATE, NEW_CLIENTS, SEE_ALL = 1, 2, 3, 4, 5
"""What the buttons choose."""
MOST_NAMES = 8
MOST_CLIENTS = 8
MOST_LINES = 10
MOST_APPLIED = 20
"""Most names, clients and differences on a card; the rest is a tap away. Our proposal."""
STALE = "That button was from before. This is how things stand."
NOT_READ = "I could not read that."


@dataclass(frozen=True, slots=True)
class ForClient:
    """What a version changes for one client.

    Attributes:
        name: Hers.
        number: Of the version that she runs until then.
        from_on: First date on which the new one holds for her.
        week: Week of the block on that date; 0 where nothing comes from then on.
        weeks: Length of the block before and after. [weeks]
        changed: Sessions not sent yet whose content changes.
        added: Days that come anew in weeks that the block had before, each with how many sessions.
        gone: Days that come no more in weeks that it still has, each with how many sessions.
        alone: Weeks changed for her alone that are still to come, and what becomes of them.
        paused: She gets no sessions now.
        on_hold: A stop sign or a health question holds her plan.
        too_few: Sessions a week of the version and the days she trains on, where those are too few.
    """

    name: str
    number: int
    from_on: date
    week: int = 0
    weeks: tuple[int, int] = (0, 0)
    changed: int = 0
    added: tuple[tuple[str, int], ...] = ()
    gone: tuple[tuple[str, int], ...] = ()
    alone: tuple[Stays, ...] = ()
    paused: bool = False
    on_hold: bool = False
    too_few: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Group:
    """Clients who run the same version until then, and what is different for them, in lines of HTML."""

    number: int
    lines: tuple[str, ...]
    clients: tuple[ForClient, ...]


@dataclass(frozen=True, slots=True)
class Preview:
    """What a version changes, for whom, and from when."""

    block: str
    number: int
    when: str
    groups: tuple[Group, ...]


def ask(
    block: str,
    number: int,
    names: Sequence[str],
    example: date,
    buttons: Buttons,
    note: str | None = None,
) -> Message:
    """Ask from when a new version holds for those who run an earlier one."""
    verb = "runs" if len(names) == 1 else "run"
    text = (
        f"<b>{escape(block)}</b>: {_names(names)} {verb} an earlier version. From when does version {number} "
        "hold? What was sent stays as it was.\n"
        f"Tap, or type <code>next week</code>, <code>today</code>, a date like <code>{example.isoformat()}</code>, or "
        "<code>new clients</code>."
    )
    rows: Rows = (
        (
            buttons.one("From next week", Action.PICK, NEXT_WEEK),
            buttons.one("From today on", Action.PICK, TODAY),
        ),
        (
            buttons.one("From a date", Action.PICK, A_DATE),
            buttons.one("Only for new clients", Action.PICK, NEW_CLIENTS),
        ),
    )
    return _noted(text, note, rows)


def ask_date(block: str, example: date, buttons: Buttons, note: str | None = None) -> Message:
    """Ask for a date."""
    text = f"<b>{escape(block)}</b>: from which date? Type it, like <code>{example.isoformat()}</code>."
    return _noted(text, note, (buttons.back,))


def when_words(kind: str) -> str:
    """Write from when a version holds: `from each client's next week`, `from Mon 20 April`."""
    if kind == "week":
        return "from each client's next week"
    return "from today on" if kind == "today" else f"from {day_words(date.fromisoformat(kind))}"


def summary(preview: Preview, buttons: Buttons, note: str | None = None) -> Message:
    """Show what changes for whom before it does."""
    clients = [each for group in preview.groups for each in group.clients]
    is_cut = len(clients) > MOST_CLIENTS or any(len(group.lines) > MOST_LINES for group in preview.groups)
    lines = [_head(preview)]
    left = MOST_CLIENTS
    for group in preview.groups:
        lines += [
            "",
            *_title(group, preview),
            *(f"• {each}" for each in some_lines([*group.lines], MOST_LINES)),
        ]
        lines += ["", *(client_line(each) for each in group.clients[: max(left, 0)])]
        left -= len(group.clients)
    if left < 0:
        lines.append(f"… and {-left} more.")
    lines += ["", "What was sent stays as it was."]
    can = any(each.too_few is None for each in clients)
    rows: Rows = (
        ((buttons.one("Apply", Action.CONFIRM),) if can else ()) + (buttons.one("Leave it", Action.CANCEL),),
        *(((buttons.one("See all", Action.PICK, SEE_ALL),),) if is_cut else ()),
        buttons.back,
    )
    return _noted("\n".join(lines), note, rows)


def all_of_it(preview: Preview) -> list[Message]:
    """Show all that changes, for everybody, on as many messages as it takes."""
    lines: list[str] = []
    for group in preview.groups:
        lines += [f"\n\n{each}" for each in _title(group, preview)]
        lines += [f"\n• {each}" for each in group.lines]
        lines += [f"\n\n{client_line(each)}" for each in group.clients]
    return pages(_head(preview), lines)


def _head(preview: Preview) -> str:
    return f"<b>{escape(preview.block)}, version {preview.number}</b>, {when_words(preview.when)}"


def _title(group: Group, preview: Preview) -> list[str]:
    if not group.lines:
        return [f"Nothing is different from version {group.number} in what is still to come."]
    which = f" from version {group.number}" if len(preview.groups) > 1 else ""
    return [f"<b>What is different{which}</b>"]


def client_line(client: ForClient) -> str:
    """Write what changes for one client."""
    name = f"<b>{escape(client.name)}</b>{' (paused)' * client.paused}{' (on hold)' * client.on_hold}"
    if client.too_few is not None:
        needed, given = client.too_few
        return (
            f"{name} trains on {given} day{'s' * (given != 1)}, and this version has {needed} sessions a week: "
            f"stays on version {client.number}."
        )
    begins = f"{name}: from {day_words(client.from_on)}"
    before, after = client.weeks
    if not client.week:
        is_short = f"Nothing comes from then on: {after} week{'s' * (after != 1)} instead of {before}."
        said = is_short if after < before else "Nothing of the block is left to change."
        return " ".join([f"{begins}.", said, *_alone(client)])
    length = f" of {after}" if before == after else f" of {after} instead of {before}"
    parts = [f"{begins}, week {client.week}{length}.", *_counts(client), *_alone(client)]
    return " ".join(parts)


def _counts(client: ForClient) -> list[str]:
    changed, parts = client.changed, []
    if changed:
        parts.append(f"{_sessions(changed)} change{'s' * (changed == 1)}.")
    if client.added:
        parts.append(f"New: {_days(client.added)}.")
    if client.gone:
        parts.append(f"Gone: {_days(client.gone)}.")
    if not parts and client.weeks[0] == client.weeks[1]:
        parts.append("Nothing that is still to come changes.")
    return parts


def _days(days: Sequence[tuple[str, int]]) -> str:
    return ", ".join(f"{escape(name)} ({_sessions(count)})" for name, count in days)


def _sessions(count: int) -> str:
    return "1 session" if count == 1 else f"{count} sessions"


def _alone(client: ForClient) -> list[str]:
    """Write what becomes of the weeks that are changed for her alone."""
    name = escape(client.name)
    stay = [each.week for each in client.alone if not each.gone and not each.days_gone]
    parts = []
    if stay:
        parts.append(
            f"{weeks_words(stay).capitalize()} stay{'s' * (len(stay) == 1)} as changed for {name} alone."
        )
    for each in client.alone:
        if each.gone:
            parts.append(f"Week {each.week}, changed for {name} alone, is gone: the version is shorter.")
        elif each.days_gone:
            days = escape(", ".join(each.days_gone))
            parts.append(f"Week {each.week} stays as changed for {name} alone; gone from it: {days}.")
    return parts


def applied(
    block: str,
    number: int,
    done: Sequence[tuple[str, date]],
    buttons: Buttons,
    stay: Sequence[ForClient] = (),
    note: str | None = None,
) -> Message:
    """Say for whom it holds from when, and who stays on an earlier one, with the way back."""
    lines = [f"<b>{escape(block)}</b>, version {number}, holds:"]
    lines += some_lines([f"{escape(name)} from {day_words(from_on)}" for name, from_on in done], MOST_APPLIED)
    lines += some_lines([client_line(each) for each in stay], MOST_CLIENTS)
    rows: Rows = ((buttons.one("Take it back", Action.UNDO),),)
    return _noted("\n".join(lines), note, rows)


def taken_back(block: str, number: int, back: Sequence[str], stay: Sequence[str]) -> Message:
    """Say for whom it was taken back, and for whom it was too late."""
    lines = []
    if back:
        lines.append(
            f"Taken back. <b>{escape(block)}</b> is for {_names(back)} as it was before version {number}."
        )
    if stay:
        lines.append(f"For {_names(stay)} version {number} stays: something of it was sent.")
    return Message("\n".join(lines), silent=True)


def only_new(block: str, number: int) -> Message:
    """Say that nothing changes for those who run an earlier version."""
    return Message(
        f"<b>{escape(block)}</b>, version {number}, is for new clients only. Who runs an earlier one stays on it. "
        "Send the file again to be asked again.",
        silent=True,
    )


def closed() -> Message:
    """Say that the card is over."""
    return Message(
        "This is settled, or can no longer be done. Send the file again to be asked again.", silent=True
    )


def _names(names: Sequence[str]) -> str:
    shown = [escape(name) for name in names[:MOST_NAMES]]
    if len(names) > MOST_NAMES:
        return f"{', '.join(shown)} and {len(names) - MOST_NAMES} more"
    return " and ".join([", ".join(shown[:-1]), shown[-1]] if len(shown) > 1 else shown)


def _noted(text: str, note: str | None, rows: Rows) -> Message:
    return Message(f"{note}\n\n{text}" if note else text, rows=rows, silent=True)
