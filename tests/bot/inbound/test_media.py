"""Each kind of message over HTTP: to the coach, back to the client, and what is said of the rest."""

import pytest
from faults.crew import ADA, MARIT, go_on, open_house, street, two_crews

from bot.localchat.screen import Shown
from bot.store.engine import make_engine
from bot.store.units import Units

PIXEL = b"\x89PNG\r\n\x1a\n" + bytes(8) + (16).to_bytes(4, "big") * 2
KINDS = ("photo", "voice", "video", "video_note", "audio", "animation", "sticker", "document")
BARE = ("video_note", "sticker")


class Bench:
    def __init__(self, place, house) -> None:
        self.place, self.house = place, house
        self.seen: dict[int, int] = {}

    def phone(self, user_id: int):
        return self.place.network.phone(user_id, "Somebody")

    async def brings(self, user_id: int) -> list[Shown]:
        await go_on(self.place, self.house)
        screen = [shown for shown in self.phone(user_id).screen if not shown.mine]
        new = screen[self.seen.get(user_id, 0) :]
        self.seen[user_id] = len(screen)
        return new


@pytest.fixture
async def bench(database_url: str):
    engine = make_engine(database_url)
    two_crews(Units(engine))
    engine.dispose()
    async with street(database_url) as place, open_house(place) as house:
        await house.tick.run()
        found = Bench(place, house)
        await found.brings(ADA)
        await found.brings(MARIT)
        yield found


async def test_every_kind_goes_to_the_coach_and_back_with_its_words(bench):
    for kind in KINDS:
        caption = "" if kind in BARE else f"my {kind}"
        bench.phone(ADA).send_media(kind, PIXEL, caption)

        came = await bench.brings(MARIT)

        assert [shown.kind for shown in came] == (["text", kind] if kind in BARE else [kind])
        assert caption in came[0].text
        bench.phone(MARIT).type("/client Ada")
        await go_on(bench.place, bench.house)
        bench.phone(MARIT).tap("Write to them")
        await bench.brings(MARIT)
        bench.phone(MARIT).send_media(kind, PIXEL, caption)

        back = await bench.brings(ADA)

        assert [shown.kind for shown in back if shown.kind != "text"] == [kind], kind
        await bench.brings(MARIT)


async def test_a_contact_goes_on_as_words_and_a_changed_caption_as_a_correction(bench):
    bench.phone(ADA).share_contact("Dr Lindqvist", "+351 900 000 000")
    (contact,) = await bench.brings(MARIT)
    photo = bench.phone(ADA).send_photo(PIXEL, "my shoes")
    await bench.brings(MARIT)
    bench.phone(ADA).edit_caption(photo, "my new shoes")
    (corrected,) = await bench.brings(MARIT)
    await bench.brings(ADA)
    bench.phone(ADA).edit_caption(photo, "")
    (gone,) = await bench.brings(ADA)

    assert contact.text.startswith("Ada sends a contact")
    assert "Dr Lindqvist +351 900 000 000" in contact.text
    assert corrected.text == "Ada corrects:\nmy new shoes"
    assert gone.text == "A picture or file that you change stays as it was. Please send it anew."


async def test_an_album_is_known_by_its_name(bench):
    for _ in range(2):
        bench.phone(ADA).send_media("photo", PIXEL, album="13 37")

    first, second = await bench.brings(MARIT)

    assert first.text.startswith("Ada sends a photo")
    assert second.text == "Ada, the same album."


async def test_progress_comes_with_pictures_and_a_lift_by_its_button(bench):
    for said in ("90 8 8 8 8", "skip", "skip", "skip", "skip", "nothing hurts", "2"):
        bench.phone(ADA).type(said)
        await bench.brings(ADA)
    bench.phone(ADA).type("/progress")
    whole = await bench.brings(ADA)
    bench.phone(ADA).tap("Hip thrust")
    lift = await bench.brings(ADA)

    assert [shown.kind for shown in whole] == ["text", "photo", "photo"]
    assert whole[0].text.startswith("Your progress")
    assert [shown.kind for shown in lift] == ["text", "photo"]
