"""What a client must not do, in words for her coach."""

from collections.abc import Iterable, Mapping, Sequence
from html import escape

from bot.messages import Message
from bot.render.personalise import change_line
from core.loads.personalise import Change
from core.programme.exercises import Exercise
from core.programme.restrictions import Restriction


def how_to() -> Message:
    """Say how limits are given, and which there are."""
    return Message(
        "Whose limits? <code>/limits Ada: no overhead, no deep knee bend</code>\n"
        "<code>/limits Ada</code> shows them, <code>/limits Ada: none</code> takes them out.\n\n" + _known(),
        silent=True,
    )


def standing(client: str, restrictions: Iterable[Restriction]) -> Message:
    """Say what a client must not do."""
    given = listed(restrictions)
    text = f"<b>{escape(client)}</b>: {given}." if given else f"<b>{escape(client)}</b> has no limits."
    return Message(text, silent=True)


def unread(parts: Sequence[str]) -> Message:
    """Say what was not understood, so that nothing was kept."""
    said = ", ".join(f"“{escape(part[:60])}”" for part in parts)
    return Message(f"I do not know {said} as a limit, so nothing was kept.\n\n{_known()}", silent=True)


def kept(
    client: str,
    restrictions: Iterable[Restriction],
    before: Iterable[Restriction],
    changes: Sequence[Change],
    catalogue: Mapping[str, Exercise],
    *,
    card_out: bool,
) -> Message:
    """Read back what was kept, what it replaces, and what of the block changes."""
    name, earlier = escape(client), listed(before)
    lines = [standing(client, restrictions).html]
    if earlier:
        lines.append(f"Before: {earlier}.")
    if changes:
        lines += ["", "From the next card on:", *(_line(one, catalogue) for one in changes)]
    if card_out:
        lines.append(f"\nThe card that {name} has now stays as it is. Write to them if it must not be done.")
    return Message("\n".join(lines), silent=True)


def listed(restrictions: Iterable[Restriction]) -> str:
    """Return restrictions in the order of the list: `no arms overhead, no hanging`; empty for none."""
    given = frozenset(restrictions)
    return ", ".join(each.value for each in Restriction if each in given)


def _line(change: Change, catalogue: Mapping[str, Exercise]) -> str:
    if change.open:
        return f"{escape(catalogue[change.exercise].name)}: nothing near it fits, left out"
    return change_line(change, catalogue)


def _known() -> str:
    return "I know: " + "; ".join(each.value for each in Restriction) + "."
