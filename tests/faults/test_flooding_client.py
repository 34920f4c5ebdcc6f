"""A client who sends without end: another client's answer waits for one of hers at most, and a stop sign for none."""

from datetime import timedelta

from faults.crew import ADA, BEN, go_on, open_house
from sqlalchemy import select

from bot.outbound.limits import CHAT_BURST
from bot.store.tables import inbox, outbox

FLOOD = 40
SECOND = timedelta(seconds=1)
HELP = "In a session\n"


async def test_who_floods_the_program_keeps_nobody_else_waiting(place):
    begun = place.rows(select(outbox.c.id).order_by(outbox.c.id.desc()))[0][0]
    for _ in range(FLOOD):
        place.phone(BEN).type("/help")
    place.phone(ADA).type("/help")
    place.phone(BEN).type("my chest feels tight")
    async with open_house(place) as house:
        await go_on(place, house, 2 * SECOND)
        early = place.texts(BEN)

        assert [text.startswith(HELP) for text in place.texts(ADA)][-1]
        assert sum(text.startswith(HELP) for text in early) <= CHAT_BURST + 2
        assert any(text.startswith("Stop now.") for text in early)
        await go_on(place, house, FLOOD * SECOND)

    # Ada wrote last but was worked on beside the flood: what is queued for her lies near its beginning.
    queued = place.rows(select(outbox.c.chat_id).where(outbox.c.id > begun).order_by(outbox.c.id))
    chats = [chat_id for (chat_id,) in queued]
    assert chats.count(BEN) > FLOOD
    assert chats.index(ADA) < FLOOD / 4
    assert place.rows(select(inbox.c.update_id).where(inbox.c.state == "new")) == []
