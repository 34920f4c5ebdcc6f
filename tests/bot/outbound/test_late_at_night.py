"""What was to go out at a decent hour, and could not, does not go out in the night that follows."""

from datetime import timedelta

import pytest
from mailroom import BULK, CHAT, COACH_CHAT, NOW, SAFETY, first_time, send

from bot.messages import Message, Send
from bot.outbound.policy import InDoubt

HOUR = timedelta(hours=1)
EVENING = NOW.replace(hour=19, minute=0)
NIGHT = NOW.replace(hour=23, minute=0)
MORNING = NOW.replace(hour=7, minute=0) + 24 * HOUR
"""The end of quiet hours: everybody of the mailroom lives by UTC."""


async def away_until(rig, instant, *effects):
    """Queue, and have nobody send before an instant."""
    rig.queue(*effects)
    rig.clock.move_to(instant)
    await rig.idle()


HELD = [
    pytest.param(send("asked nobody", unasked=True), id="what nobody asked for"),
    pytest.param(send("later", due_at=EVENING), id="what was planned for the evening"),
    pytest.param(
        send("to the coach", COACH_CHAT, due_at=EVENING), id="what her coach was to hear in the evening"
    ),
    pytest.param(send("digest", COACH_CHAT, lane=BULK, due_at=EVENING), id="a digest"),
    pytest.param(send("answer"), id="an answer that nobody waits for any more"),
]


@pytest.mark.parametrize("effect", HELD)
async def test_what_had_a_decent_hour_and_missed_it_waits_for_the_morning(rig, effect):
    await away_until(rig, NIGHT, effect)
    assert rig.post.texts() == []

    await rig.go_on(10 * HOUR)

    assert [(each.text, each.at) for each in rig.post.arrived] == [(effect.message.html, MORNING)]


PASSING = [
    pytest.param(send("stop sign", lane=SAFETY), id="safety"),
    pytest.param(Send(CHAT, Message("quietly", silent=True), key="quietly"), id="what makes no sound"),
    pytest.param(send("night shift", due_at=NIGHT - HOUR), id="what was meant for the night"),
    pytest.param(send("to a stranger", 77), id="an answer to a stranger"),
]


@pytest.mark.parametrize("effect", PASSING)
async def test_what_may_come_at_night_goes_out(rig, effect):
    await away_until(rig, NIGHT, effect)

    assert rig.post.texts() == [effect.message.html]


async def test_what_is_late_by_day_goes_out(rig):
    await away_until(rig, NOW + 2 * HOUR, send("asked nobody", unasked=True), send("answer"))

    assert rig.post.texts() == ["asked nobody", "answer"]


async def test_an_answer_is_still_awaited_for_some_minutes(rig):
    rig.clock.move_to(NOW.replace(hour=20, minute=59))
    await away_until(rig, NOW.replace(hour=21, minute=9), send("answer"), send("unasked", unasked=True))

    assert rig.post.texts() == ["answer"]


async def test_what_was_in_flight_when_the_program_died_waits_too_and_holds_up_no_answer(rig):
    rig.queue(send("asked nobody", unasked=True))
    with rig.units.open(None) as house:
        (row,) = [house.outbox.next_row(NOW)]
        house.outbox.claim(row.id, "somebody", NOW)
    rig.clock.move_to(NIGHT)
    rig.queue(send("answer"))
    await rig.idle()
    assert rig.post.texts() == ["answer"]

    await rig.go_on(10 * HOUR)

    assert [each.at for each in rig.post.arrived] == [NIGHT, MORNING]


async def test_what_is_tried_again_at_night_has_its_hour_there(rig):
    rig.clock.move_to(NOW.replace(hour=20, minute=59))
    rig.post.plan = first_time(InDoubt("no answer"))
    rig.queue(send("answer"))
    await rig.go_on(timedelta(minutes=5))

    assert rig.post.texts() == ["answer"]
