"""Limits and past injuries as a client says them: places by name, and a line in her own words. Nothing here clears."""

from core.programme.exercises import Site

LIMIT_SITES: tuple[str, ...] = tuple(
    each.value
    for each in (
        Site.NECK,
        Site.SHOULDER,
        Site.ELBOW,
        Site.WRIST,
        Site.LOW_BACK,
        Site.HIP,
        Site.KNEE,
        Site.ANKLE,
    )
)
"""Places that are offered, from the top down; any other is typed. Our proposal."""

LONGEST_LINE = 300
"""Longest line that is kept. [characters] Our proposal: with every place beside it, it fits where it is kept."""


def line_added(before: str | None, text: str) -> str | None:
    """Return what was said so far with one more line to it; None where that is longer than is kept."""
    said = " ".join(text.split())
    line = said if not before else f"{before}; {said}"
    return line if len(line) <= LONGEST_LINE else None
