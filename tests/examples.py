"""How many examples and cases what is slow is shown: in CI the same ones every time, so that a few of them do."""

import os
from collections.abc import Sequence
from typing import Any

from hypothesis import settings

IN_CI = 3
"""In CI one in so many."""


def examples(most: int, **others: Any) -> settings:
    """Show a property `most` examples; in CI, where they do not change from run to run, a third."""
    shown = max(most // IN_CI, 1) if os.environ.get("CI") else most
    return settings(max_examples=shown, deadline=None, **others)


def spread(cases: Sequence[Any]) -> Sequence[Any]:
    """Return the cases of a long row of like ones; in CI every third, from the first to the last."""
    return cases[::IN_CI] if os.environ.get("CI") else cases
