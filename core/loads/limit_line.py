"""What clinicians' limits leave of an exercise today: nothing, or a most load."""

from core.loads.asked import Asked, hands, load_text
from core.loads.limits import Limit
from core.loads.outcome import Ceiling, Reason
from core.loads.past import Inputs
from core.loads.proposals import reason
from core.loads.reasons import ReasonCode


def standing_limits(inputs: Inputs) -> tuple[Limit, ...]:
    """Return the limits that hold today and are about this exercise, by row, so that their order does not matter."""
    today = inputs.moment.today
    mine = (one for one in inputs.limits if one.stands(today) and one.bears_on(inputs.exercise))
    return tuple(sorted(mine, key=lambda one: one.row_id))


def limit_stop(inputs: Inputs) -> Reason | None:
    """Return the limit that leaves nothing of this exercise; None where none does."""
    first = next((one for one in standing_limits(inputs) if one.forbids), None)
    return None if first is None else reason(ReasonCode.LIMIT_FORBIDS, **_facts(first, inputs))


def limit_ceilings(inputs: Inputs, asked: Asked) -> tuple[Ceiling, ...]:
    """Return a ceiling for each most load, counted as the exercise is: half of it for each hand or side.

    Of bodyweight it is what is added. The bar of a load that is counted a side is not known, and not taken off.
    """
    return tuple(
        Ceiling(
            reason=reason(ReasonCode.LIMIT_LOAD, load=load_text(mass, asked.exercise), **_facts(one, inputs)),
            mass=mass,
        )
        for one in standing_limits(inputs)
        if one.mass is not None
        for mass in (one.mass / hands(asked.exercise),)
    )


def _facts(limit: Limit, inputs: Inputs) -> dict[str, str]:
    facts = {"by": limit.by.value}
    if limit.until is not None:
        facts["until"] = limit.until.isoformat()
    if limit.review_on is not None and limit.review_on <= inputs.moment.today:
        facts["review"] = limit.review_on.isoformat()
    return facts
