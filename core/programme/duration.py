"""How long work takes, and what to leave out when time is short.

The figures are our proposal: a rep as long as its tempo says, or 4 s; 90 s of rest where none is written; 5 min to warm
up. They are an estimate for choosing, never a rule about how fast to train.
"""

from collections.abc import Sequence

from core.programme.block import session_order
from core.programme.prescription import Dose
from core.programme.set_styles import StyleKind
from core.programme.tempo import rep_seconds
from core.value import Value

WARM_UP_S = 300
"""Kept free for warming up before the first exercise. [s] Our proposal."""
REP_S = 4
"""One rep where no tempo is written. [s] Our proposal."""
OPEN_REPS = 12
"""Reps of a set whose reps are open. Our proposal."""
METRE_S = 1
"""One metre with a load. [s] Our proposal: an easy walk."""
REST_PAUSES = 2
"""Pauses in a rest-pause set. Our proposal."""
REST_S = 90
"""Rest after a set where none is written. [s] Our proposal."""


class Timed(Value):
    """An exercise and the time it takes.

    Attributes:
        order: Letter and number in the session: `A`, `B1`.
        seconds: Time it takes, rests included. [s]
        main: True for a lift that carries the block.
    """

    order: str
    seconds: int
    main: bool = False


def seconds_needed(dose: Dose, *, sides: int = 1, rest_s: int | None = None, tempo: str | None = None) -> int:
    """Return the time that sets and their rests take. [s]

    Args:
        dose: Sets of reps or seconds; of a range the top is reckoned.
        sides: 2 where a set is done a side at a time, otherwise 1.
        rest_s: Rest after each set. [s]
        tempo: Trade notation; `X` counts as 1 s.
    """
    work = _set_s(dose, tempo) * sides
    down = dose.style.steps * work if dose.style is not None else 0
    pauses = dose.sets * _pauses(dose) * (dose.style.pause if dose.style is not None else 0)
    return dose.sets * (work + (REST_S if rest_s is None else rest_s)) + down + pauses


def _set_s(dose: Dose, tempo: str | None) -> int:
    if dose.seconds is not None:
        return dose.seconds.high
    if dose.metres is not None:
        return dose.metres.high * METRE_S
    return (OPEN_REPS if dose.reps is None else dose.reps.high) * (rep_seconds(tempo) if tempo else REP_S)


def _pauses(dose: Dose) -> int:
    """Return how many pauses a set has in it."""
    if dose.style is None or dose.style.kind not in (StyleKind.CLUSTER, StyleKind.REST_PAUSE):
        return 0
    return len(dose.style.parts) - 1 if dose.style.parts else REST_PAUSES


def left_out(asked: Sequence[Timed], seconds: int) -> tuple[int, ...]:
    """Return the places in `asked` of what to leave out so that the rest fits into `seconds`, in order.

    What comes last in the session goes first; the first main lift stays, or the first exercise where there is none. So
    something is always left, even where it takes longer.
    """
    stays = next((place for place, each in enumerate(asked) if each.main), 0)
    needed = sum(each.seconds for each in asked)
    gone: list[int] = []
    for place in sorted(range(len(asked)), key=lambda one: session_order(asked[one].order), reverse=True):
        if needed > seconds and place != stays:
            gone.append(place)
            needed -= asked[place].seconds
    return tuple(sorted(gone))
