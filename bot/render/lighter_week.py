"""Words about a planned lighter week that follows a week that was light already."""

from html import escape

from bot.messages import Message


def after_light_week(name: str, week: int, *, days: int | None, kept: int, due: int) -> Message:
    """Tell a coach of it, and how she takes the lighter week out.

    Args:
        name: The client's.
        week: Of the block.
        days: Days without training before it; None where there was some.
        kept: Sessions kept in the seven days before.
        due: Of so many that were due.
    """
    before = f"there was no training for {days} days" if days is not None else f"{kept} of {due} were kept"
    who = escape(name)
    return Message(
        f"<b>{who}</b>: week {week} is planned lighter, and before it {before}. It stays lighter.\n"
        f"To take it out, with the usual sets and nothing heavier: <code>{who}: no lighter week</code>"
    )
