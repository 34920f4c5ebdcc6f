"""Kill the sender at each step it takes; after a restart its promises still hold.

1. Every message arrives, and at most twice; or nobody knows, and then it is shown as doubtful.
2. One death makes no more duplicates than there were calls in flight.
3. In a chat messages first arrive in the order in which they were queued; safety passes them.
4. Safety goes before everything that was queued with it.
5. A card ends up showing its newest content.
"""

from collections import Counter
from datetime import timedelta

import pytest
from mailroom import (
    BULK,
    CHAT,
    KEEPER,
    NOW,
    OTHER_CHAT,
    SAFETY,
    Killed,
    Post,
    Rig,
    Steps,
    populate,
    send,
    untroubled,
)
from sqlalchemy import Engine, select, update

from bot.clock import StoryClock
from bot.messages import EditCard, Message
from bot.outbound.policy import Blocked, InDoubt, Outcome
from bot.store.outbox import OutboxRow
from bot.store.tables import card, outbox

HOURS = timedelta(hours=2)
IN_FLIGHT = 5
CARD = "session:7"
NEWEST = "card, newest"


def queue_everything(rig: Rig) -> None:
    rig.queue(*[send(f"bulk {number}", 1000 + number, lane=BULK) for number in range(3)])
    rig.queue(send("card", card=CARD), send("one"), send("two"), send("hers", OTHER_CHAT))
    rig.queue(send("stop sign", lane=SAFETY))


ALL = ("bulk 0", "bulk 1", "bulk 2", "one", "two", "hers", "stop sign")


def show_newest(rig: Rig) -> None:
    edit = EditCard(CARD, CHAT, Message(NEWEST), moved=True)
    rig.change(lambda unit: unit.cards.show(edit, NOW))


async def live(engine: Engine, post: Post, kill_at: int | None, *, begins: bool = False) -> Rig:
    """One life of the process; it ends by itself after two hours of the story, or is killed at a step."""
    post.steps = Steps(kill_at)
    rig = Rig(engine, post.clock, post)
    if begins:
        queue_everything(rig)
    try:
        await rig.go_on(HOURS)
        if begins:
            show_newest(rig)
            await rig.go_on(HOURS)
    except Killed:
        assert post.steps.dead
    await rig.stop()
    return rig


async def steps_of_a_life(engine: Engine) -> int:
    post = Post(StoryClock(NOW))
    await live(engine, post, None, begins=True)
    return post.steps.taken


STEPS = 48
"""Steps of an undisturbed life, counted below: a claim, a call and a settlement of each message, and looks."""


async def test_every_step_is_one_at_which_it_is_killed(engine):
    populate(engine)
    assert await steps_of_a_life(engine) == STEPS


def first_arrivals(post: Post, chat_id: int) -> list[str]:
    return list(dict.fromkeys(post.texts(chat_id)))


def check_promises(rig: Rig, post: Post, deaths: int) -> None:
    counts, states = Counter(post.texts()), rig.states()
    for text in ALL:
        assert counts[text] <= 2, text
        assert counts[text] >= 1 or states[text] == "doubtful", text
    assert sum(max(0, count - 1) for count in counts.values()) <= deaths * IN_FLIGHT
    assert set(states.values()) <= {"sent", "doubtful", "cancelled"}
    order = [text for text in first_arrivals(post, CHAT) if text in {"card", "one", "two"}]
    assert order == [text for text in ("card", "one", "two") if text in order]


async def mend_and_check(engine: Engine, post: Post, deaths: int) -> None:
    rig = await live(engine, post, None)
    show_newest(rig)
    rig = await live(engine, post, None)
    check_promises(rig, post, deaths)
    shown = [each for each in post.arrived if each.chat_id == CHAT and each.op in {"send", "move", "edit"}]
    with engine.connect() as connection:
        wanted, shows, message_id = connection.execute(
            select(card.c.wanted, card.c.shown, card.c.message_id)
        ).one()
    known = [each.text for each in shown if each.message_id == message_id]
    assert (shows, known[-1:]) == (wanted, [NEWEST])


@pytest.mark.parametrize("kill_at", range(1, STEPS + 1))
async def test_killed_at_any_step_and_started_again(engine, kill_at):
    populate(engine)
    post = Post(StoryClock(NOW))
    await live(engine, post, kill_at, begins=True)
    assert post.steps.dead
    await mend_and_check(engine, post, deaths=1)


@pytest.mark.parametrize("kill_again_at", range(2, 40, 5))
@pytest.mark.parametrize("kill_at", range(3, 60, 5))
async def test_killed_and_killed_again(engine, kill_at, kill_again_at):
    populate(engine)
    post = Post(StoryClock(NOW))
    await live(engine, post, kill_at, begins=True)
    await live(engine, post, kill_again_at)
    await mend_and_check(engine, post, deaths=2)


async def test_killed_in_the_same_call_twice_it_is_shown_as_doubtful(engine):
    populate(engine)
    post, rig = Post(StoryClock(NOW)), None
    for _ in range(2):
        post.steps = Steps()
        rig = Rig(engine, post.clock, post)
        rig.queue(send("only"))

        def dies(row: OutboxRow, post: Post = post) -> Outcome | None:
            post.steps.dead = True
            return InDoubt("killed")

        post.plan = dies
        with pytest.raises(Killed):
            await rig.go_on(HOURS)
        await rig.stop()
    post.plan, post.steps = untroubled, Steps()
    rig = Rig(engine, post.clock, post)
    await rig.go_on(HOURS)
    await rig.stop()
    assert (post.texts(), rig.doubtful, rig.states()) == ([], ["only"], {"only": "doubtful"})


@pytest.mark.parametrize("kill_at", range(1, 30))
async def test_safety_goes_before_everything_else_in_the_next_life_too(engine, kill_at):
    populate(engine)
    post = Post(StoryClock(NOW))
    await live(engine, post, kill_at, begins=True)
    arrived_before = len(post.arrived)
    rig = Rig(engine, post.clock, post)
    post.steps = Steps()
    rig.queue(send("second stop sign", OTHER_CHAT, lane=SAFETY))
    await rig.go_on(HOURS)
    await rig.stop()
    after = post.texts()[arrived_before:]
    assert "stop sign" in after[0]


async def test_a_blocked_chat_is_told_even_when_the_process_dies_before_it_is_written_down(engine):
    populate(engine)
    told: list[int] = []
    for kill_at in range(1, 20):
        with engine.begin() as connection:
            connection.execute(update(outbox).values(state="cancelled"))
        post = Post(StoryClock(NOW), plan=lambda _: Blocked("bot was blocked by the user"))
        post.steps = Steps(kill_at)
        for life in range(2):
            rig = Rig(engine, post.clock, post)
            if not life:
                rig.queue(send(f"one {kill_at}", 900 + kill_at), coach_id=KEEPER)
            try:
                await rig.go_on(HOURS)
            except Killed:
                post.steps = Steps()
            await rig.stop()
            told += rig.blocked
        assert 900 + kill_at in told
