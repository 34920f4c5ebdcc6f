"""For a while the platform answers everybody with "too many requests", in the morning, when every card is due.

1. Nothing is lost and nothing comes twice; in each chat what was queued first comes first.
2. A chat is asked again no sooner than the platform said, and while two chats are told to wait so is everybody.
3. When it opens again safety goes first, and the rest at its pace.
"""

import shutil
from collections import Counter
from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path

import pytest
from faults.crew import MARIT, ORLA, Street, go_on, open_house, settle_down, street
from sqlalchemy import func, select

from bot.localchat.faults import Fault, Kind
from bot.store.engine import make_engine
from bot.store.tables import outbox
from bot.store.units import Units

SECOND = timedelta(seconds=1)
CREWS = [
    ("Marit", MARIT, [("Ada", 1), ("Liv", 2), ("Runa", 3), ("Tor", 4)]),
    ("Orla", ORLA, [("Ben", 901), ("Cleo", 902), ("Dara", 903), ("Finn", 904)]),
]
CLIENTS = [user_id for _, _, clients in CREWS for _, user_id in clients]
PEOPLE = [(coach_id, coach) for coach, coach_id, _ in CREWS] + [(user_id, "") for user_id in CLIENTS]
ADA, LIV, BEN = 1, 2, 901
RETRY_AFTER = 20
AGAIN = timedelta(seconds=RETRY_AFTER + 0.5)


@pytest.fixture(scope="module")
def joined(sqlite_files, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database in which eight clients wait for their first session, all at the same hour."""
    path = tmp_path_factory.mktemp("crowd") / "joined.db"
    engine = make_engine(sqlite_files.copy(path))
    settle_down(Units(engine), CREWS)
    engine.dispose()
    return path


@pytest.fixture
async def place(joined: Path, tmp_path: Path):
    shutil.copyfile(joined, tmp_path / "plimsoll.db")
    async with street(f"sqlite:///{tmp_path / 'plimsoll.db'}", people=PEOPLE) as found:
        yield found


async def flooded(place: Street, seconds: int) -> datetime:
    """A morning on which the platform takes nothing for so long; returns when it opened again."""
    async with open_house(place) as house:
        place.network.faults.plan(
            Fault(Kind.TOO_MANY, method="sendMessage", times=10_000, retry_after=RETRY_AFTER)
        )
        await house.tick.run()
        await go_on(place, house, 10 * SECOND)
        for user_id, text in ((LIV, "/help"), (LIV, "slept badly"), (MARIT, "/help")):
            place.phone(user_id).type(text)
        await go_on(place, house, 3 * SECOND)
        place.phone(ADA).type("my chest feels tight")
        await go_on(place, house, (seconds - 13) * SECOND)
        opened = place.clock.now()
        place.network.faults.planned.clear()
        await go_on(place, house, timedelta(minutes=5))
    return opened


def firsts(place: Street, user_id: int) -> list[str]:
    return [text.splitlines()[0] for text in place.texts(user_id)]


@pytest.mark.parametrize("seconds", [15, 45, 130])
async def test_after_a_flood_everything_has_come_once_and_in_order(place, seconds):
    await flooded(place, seconds)

    card = "Lower A · week 1 of 4 · Tue 7 April"
    for user_id in set(CLIENTS) - {ADA, LIV}:
        assert firsts(place, user_id) == [card]
    stop, held = place.texts(ADA)
    assert stop.startswith("Stop now. This may be an emergency.")
    assert held == f"{card}\n\nYour plan is on hold. Only your coach can take it up again."
    assert firsts(place, LIV) == [card, "In a session", "Passed on to your coach."]
    assert Counter(place.texts(MARIT)).most_common(1)[0][1] == 1
    assert len(place.texts(MARIT)) == 3
    assert place.texts(ORLA) == []
    states = place.rows(select(outbox.c.state, func.count()).group_by(outbox.c.state))
    assert dict(states).keys() <= {"sent", "cancelled"}


@pytest.mark.parametrize("seconds", [15, 45, 130])
async def test_in_a_flood_nobody_is_asked_again_before_the_platform_said(place, seconds):
    opened = await flooded(place, seconds)

    tried = [(at, chat) for at, method, chat in place.calls if method == "sendMessage" and at < opened]
    for each in {chat for _, chat in tried}:
        instants = [at for at, chat in tried if chat == each]
        assert all(later - at >= AGAIN for at, later in pairwise(instants))
    # Of eight chats two find out for all, and safety tries for itself.
    turns = 1 + seconds // RETRY_AFTER
    assert len(tried) <= 6 * turns


@pytest.mark.parametrize("seconds", [15, 45, 130])
async def test_when_it_opens_safety_goes_first_and_the_rest_at_its_pace(place, seconds):
    opened = await flooded(place, seconds)

    came = [each for each in place.network.record if each.sender == "bot" and each.kind == "text"]
    assert all(each.at >= opened for each in came)
    assert {each.chat_id for each in came[:2]} == {ADA, MARIT}
    assert all("emergency" in each.text or "stop sign" in each.text for each in came[:2])
    assert came[-1].at <= opened + 3 * AGAIN
    for chat in {each.chat_id for each in came}:
        instants = [each.at for each in came if each.chat_id == chat]
        assert all(later - at >= SECOND for at, later in zip(instants, instants[3:], strict=False))
