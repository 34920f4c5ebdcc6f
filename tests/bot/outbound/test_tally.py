from types import SimpleNamespace
from typing import Any, get_args

from bot.messages import Lane
from bot.outbound.policy import Delivered, Outcome, TooFast
from bot.outbound.tally import WORDS, Tally


async def test_what_became_of_calls_is_counted_by_lane() -> None:
    outcomes: list[Outcome] = [Delivered(7), TooFast(3), Delivered(8), Delivered(9)]

    async def deliver(_: Any) -> Outcome:
        return outcomes.pop(0)

    tally = Tally(SimpleNamespace(deliver=deliver))
    lanes = (Lane.BULK, Lane.BULK, Lane.BULK, Lane.SAFETY)
    given = [await tally.deliver(SimpleNamespace(lane=lane)) for lane in lanes]  # type: ignore[arg-type]

    assert given == [Delivered(7), TooFast(3), Delivered(8), Delivered(9)]
    assert tally.outcomes == {
        (Lane.BULK, "delivered"): 2,
        (Lane.BULK, "too_fast"): 1,
        (Lane.SAFETY, "delivered"): 1,
    }


def test_every_outcome_has_a_word_of_its_own() -> None:
    assert set(WORDS) == set(get_args(Outcome))
    assert len(set(WORDS.values())) == len(WORDS)
