"""The roster: who needs a look first, in words, on as many messages as it takes."""

from datetime import date

import pytest
from dialogs.talks import Talk
from setting_out import plain_text

from bot.render.roster import Buttons, Row, Standing, pages
from bot.store.units import Units

CALM = {
    "on_hold": False,
    "now": False,
    "today": False,
    "unreachable": False,
    "paused": False,
    "paused_until": None,
    "missed": False,
    "no_block": False,
    "joining": False,
}


def row(name: str, number: int = 1, **standing: object) -> Row:
    return Row(
        number,
        name,
        "Harbour",
        2,
        4,
        (date(2026, 4, 7), "done"),
        date(2026, 4, 9),
        Standing(**(CALM | standing)),
    )


@pytest.mark.parametrize(
    ("standing", "rank", "words"),
    [
        ({"on_hold": True, "missed": True}, 0, ["plan on hold", "last session missed"]),
        ({"now": True}, 0, ["alert not seen"]),
        ({"today": True}, 1, ["alert of today not seen"]),
        ({"unreachable": True}, 2, ["has blocked me"]),
        ({"paused": True, "paused_until": date(2026, 4, 20)}, 3, ["paused until Mon 20 April"]),
        ({"missed": True}, 4, ["last session missed"]),
        ({"no_block": True}, 5, ["no block"]),
        ({"joining": True}, 6, ["still joining"]),
        ({}, 7, []),
    ],
)
def test_how_a_client_stands_is_said_in_words(standing: dict, rank: int, words: list[str]) -> None:
    found = Standing(**(CALM | standing))

    assert (found.rank, found.words()) == (rank, words)


def test_many_clients_stand_on_several_messages_none_too_long() -> None:
    rows = [row(f"Crew <{number}>", number) for number in range(60)]

    shown = pages(rows, Buttons(1, 0))

    assert len(shown) == 3
    assert all(len(page.html) <= 4096 for page in shown)
    assert [label.label for page in shown for line in page.rows for label in line] == [
        f"Crew <{number}>" for number in range(60)
    ]
    assert plain_text(shown[0]).splitlines()[2] == (
        "Crew <0> · Harbour, week 2 of 4 · last Tue 7 April, done · next Thu 9 April"
    )


def test_who_needs_a_look_comes_first(units: Units) -> None:
    play = Talk(units)
    marit = play.someone("Marit")
    play.house.invited(marit, "Aldo", 71)
    play.typed(play.someone("Ada"), "chest pain and my left arm is numb")

    play.commanded(marit, "roster", None)

    assert [line.split(" · ")[0] for line in marit.sees.splitlines()[2:]] == ["Ada", "Aldo"]


def test_a_name_is_matched_kindly_and_asked_when_unclear(units: Units) -> None:
    play = Talk(units)
    marit = play.someone("Marit")
    for name, number in (("Adam", 71), ("Béla Kovács", 72)):
        play.house.invited(marit, name, number)

    said = {}
    for text in ("ada", "ad", "kovacs", "adan", "zz"):
        play.commanded(marit, "client", text)
        said[text] = (
            marit.sees.splitlines()[0].split(" · ")[0],
            marit.buttons if "Which" in marit.sees else [],
        )

    assert said == {
        "ada": ("Ada", []),
        "ad": ("Which client?", ["Ada", "Adam"]),
        "kovacs": ("Béla Kovács", []),
        "adan": ("Which client?", ["Ada", "Adam"]),
        "zz": ("Nobody of yours is called zz. Which client?", ["Ada", "Adam", "Béla Kovács"]),
    }


def test_a_client_who_has_left_since_is_said_so(units: Units) -> None:
    play = Talk(units)
    marit, ada = play.someone("Marit"), play.someone("Ada")
    play.commanded(marit, "roster", None)
    ada.stop()
    ada.tap("Stop")

    marit.tap("Ada")
    assert marit.sees == "That client has left."
    play.commanded(marit, "roster", None)
    assert marit.sees == "You have no clients yet. /invite Ada makes a link."
