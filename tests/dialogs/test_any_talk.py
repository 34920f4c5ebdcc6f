"""Whatever anybody does, in any order: nothing breaks, nothing leaks, and what is kept holds together."""

from collections import defaultdict
from collections.abc import Sequence
from pathlib import Path
from random import Random

import pytest
from databases import SqliteFiles
from dialogs.moments import Moment
from dialogs.talks import DAYS, JOINING, Talk
from dialogs.walk_checks import words_of, wrong_in
from dialogs.walks import Walk
from examples import spread

from bot.messages import Action, Button, EditCard, Effect, Message, Send, Tap, encode
from bot.store.engine import make_engine
from bot.store.units import Units

STEPS = 45
SEEDS = spread(range(8))
"""Few here, each from the beginning; the same walks go on for thousands of steps outside of the suite."""


@pytest.mark.parametrize("seed", SEEDS)
def test_a_walk_breaks_nothing(units: Units, seed: int) -> None:
    Walk(units, seed).go(STEPS)


@pytest.mark.parametrize(
    ("block", "seed"), [("Quay_forms", 101), ("Slipway full body", 102), ("Quay_tables", 103)]
)
def test_a_walk_through_other_blocks_breaks_nothing(units: Units, block: str, seed: int) -> None:
    Walk(units, seed, block=block).go(STEPS)


def test_the_same_seed_takes_the_same_walk(units: Units, sqlite_files: SqliteFiles, tmp_path: Path) -> None:
    walks = [Walk(units, 5), Walk(Units(make_engine(sqlite_files.copy(tmp_path / "again.db"))), 5)]
    for walk in walks:
        walk.go(12)

    assert walks[0].journal == walks[1].journal
    assert len(walks[0].journal) >= 10


HERS = (words_of((1,), "Adalind"),)
LONG = Button("x" * 41, encode(Tap(1, 0, Action.DONE)))
WRONG = [
    (Message("<b>Adalind</b> writes"), 2, "says another tenant's words"),
    (Message(" "), 1, "has no text"),
    (Message("a" * 4097), 1, "is too long"),
    (Message("a" * 1025, media_kind="photo"), 1, "is too long"),
    (Message("<b>open"), 1, "leaves b open"),
    (Message("<script>x</script>"), 1, "has a tag script"),
    (Message("<b><i>x</b></i>"), 1, "ends b where it is not open"),
    (Message("a < b"), 1, "is not escaped"),
    (Message("a & b"), 1, "is not escaped"),
    (Message("x", rows=((LONG,),)), 1, "has a label of 41 letters"),
    (Message("x", rows=((Button("Go", "1:zz"),),)), 1, "has a button that cannot be read"),
    (Message("x", rows=((Button("Go"),),)), 1, "has a button that does nothing"),
]


@pytest.mark.parametrize(("message", "chat_id", "what"), WRONG, ids=[each[2] for each in WRONG])
def test_the_checks_see_what_is_wrong(message: Message, chat_id: int, what: str) -> None:
    assert any(each.startswith(what) for each in wrong_in(message, chat_id, HERS))


def test_the_checks_let_a_good_message_be() -> None:
    rows = ((Button("Done", encode(Tap(1, 0, Action.DONE))),),)
    assert not wrong_in(Message("<b>Adalind</b> &lt;3 &amp; more", rows=rows), 1, HERS)


DUE = ("tick 2026-04-07 07:00", "tick 2026-04-08 08:00")
SAID = (
    ("{} [Start]", "{}: 90 8 8 8 7", "{}: left knee 3", "{}: skip", "{}: undo", "{}: see you", "{}: /today"),
    (
        "{}: 90 8 8 8 8",
        "{}: pain right elbow 5",
        "{}: skip",
        "{}: done",
        "{}: ran 5 km",
        "{}: /week",
        "{}: ill",
    ),
)


def second_client(play: Talk) -> None:
    """Cleo trains with Marit too."""
    marit = play.someone("Marit")
    cleo = play.house.invited(marit, "Cleo", 7)
    for label in JOINING:
        for each in play.days.split(",") if label == DAYS else (label,):
            cleo.tap(each)
    marit.assign(f"Cleo, {play.block}, {play.starts}")
    marit.tap("Start it")


def told(play: Talk, steps: Sequence[str]) -> dict[int, list[str]]:
    """What each is told in the course of steps."""
    found: dict[int, list[str]] = defaultdict(list)
    show = play.house.show

    def shown(effects: Sequence[Effect], user_id: int) -> None:
        for each in effects:
            if isinstance(each, Send | EditCard):
                found[each.chat_id].append(each.message.html)
        show(effects, user_id)

    play.house.show = shown  # type: ignore[method-assign]
    for step in steps:
        play.take(step)
    return found


def mixed(rows: Sequence[Sequence[str]], chance: Random) -> list[str]:
    """Rows of steps at once, each in its own order."""
    left = [list(each) for each in rows]
    found = []
    while any(left):
        found.append(chance.choice([each for each in left if each]).pop(0))
    return found


def test_three_clients_at_once_are_each_told_the_same_as_alone(units: Units) -> None:
    rows = {
        chat_id: [each.format(name) for each in said]
        for name, chat_id, said in (("Ada", 1, SAID[0]), ("Ben", 901, SAID[1]), ("Cleo", 7, SAID[1]))
    }
    play = Talk(units)
    second_client(play)
    play.take(DUE[0])
    begun = Moment.of(play)
    alone = {chat_id: told(begun.again(units), [*steps, DUE[1]]) for chat_id, steps in rows.items()}

    for seed in range(2):
        together = [*mixed(list(rows.values()), Random(seed)), DUE[1]]  # noqa: S311
        all_told = told(begun.again(units), together)
        for chat_id, steps in rows.items():
            assert all_told[chat_id] == alone[chat_id][chat_id]
            assert len(all_told[chat_id]) >= len(steps)
