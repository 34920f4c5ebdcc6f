import pytest
from mailroom import COXSWAIN, NOW, OTHER_CHAT, send


class Fence:
    """Whether this process leads, by its own clock and by the store."""

    def __init__(self, *, by_clock: bool = True, by_store: bool = True) -> None:
        self.by_clock, self.by_store = by_clock, by_store

    def is_safe(self) -> bool:
        return self.by_clock

    def may_claim(self, _: object) -> bool:
        return self.by_clock and self.by_store


@pytest.mark.parametrize("fence", [Fence(by_clock=False), Fence(by_store=False)])
async def test_a_process_that_leads_no_more_neither_claims_nor_sends_nor_rescues(rig, fence):
    rig.queue(send("first"))
    with rig.units.open(None) as house:
        assert house.outbox.claim(1, "another", NOW)
    rig.queue(send("second", OTHER_CHAT), coach_id=COXSWAIN)
    rig.sender.lead = fence
    await rig.go_on()

    assert (rig.post.calls, rig.states()) == ([], {"first": "sending", "second": "queued"})
    fence.by_clock = fence.by_store = True
    rig.wake.set()
    await rig.idle()
    assert rig.post.texts() == ["second"]


async def test_what_was_claimed_before_a_halt_is_given_back_after_it(rig):
    fence = rig.sender.lead = Fence()
    fence.may_claim = lambda _: True  # type: ignore[method-assign]
    rig.queue(send("first"))
    fill = rig.sender._fill

    async def halted_after_the_claim() -> object:
        found = await fill()
        fence.by_clock, fence.may_claim = False, lambda _: False
        return found

    rig.sender._fill = halted_after_the_claim
    await rig.idle()

    assert (rig.post.calls, rig.states()) == ([], {"first": "queued"})


async def test_who_comes_back_after_another_took_over_settles_nothing_of_the_other_s(rig):
    rig.queue(send("first"))
    with rig.units.open(None) as house:
        assert house.outbox.claim(1, "halted", NOW)
        late = house.outbox.get(1)
        house.outbox.rescue(None, NOW)
        assert house.outbox.claim(1, "another", NOW)
        house.outbox.again(late, NOW, "late")
        house.outbox.sent(late, 7, NOW)
        assert house.outbox.get(1).claimed_by == "another"
    assert rig.states() == {"first": "sending"}
