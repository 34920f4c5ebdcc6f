"""The ten commonest things that a coach does, and three that are rare, are played and counted: taps, lines, characters.

A button is a tap, and so are picking the message that one replies to and picking a file; what the chat's own program
asks besides, such as the arrow that sends, is not counted. A coach types one line at most, and taps four times at most.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from databases import SqliteFiles
from dialogs.talks import Talk

from bot.store.engine import make_engine
from bot.store.units import Units

MOST_TAPS, MOST_LINES = 4, 1
PAPER = Path(__file__).parents[2] / "DEVELOPERS.md"
HEAD = "| what | a week | taps | lines | characters | how |"

SESSION = ("Ada [All done as written]", "Ada [Nothing hurts]", "Ada [2]")


@dataclass(frozen=True)
class Thing:
    """One thing that is done: what goes before it, what the coach does, and the words that she is then shown.

    `a_week`: our estimate of how often with 50 clients, no source; 0 for what is rare.
    """

    what: str
    a_week: int
    before: tuple[str, ...]
    does: tuple[str, ...]
    shown: str


PLAYED = (
    Thing(
        "change a rule, by buttons",
        0,
        (),
        ("/rules", "[Loads]", "[Raises wait over]", "[1 %]", "[Set it]"),
        "Set. Raises wait over, for all: 1 %.",
    ),
    Thing(
        "answer a video so that it becomes a cue",
        15,
        ("tick 2026-04-07 07:00", "Ada [Start]", "Ada sends a video: is this deep enough?"),
        (
            "replies to “is this deep enough?”: Push the floor away and keep the ribs down.",
            "[Keep as Ada's cue for hip thrust]",
        ),
        "It stands on the card from now on",
    ),
    Thing(
        "agree to the raises that wait",
        7,
        (
            "Ada: 90 8 8 8 8",
            "Ada [Done as written]",
            "Ada [Done as written]",
            "Ada [Done as written]",
            "Ada: 40 12 12 12",
            *SESSION[1:],
            "tick 2026-04-14 07:00",
            *SESSION,
            "tick 2026-04-21 07:00",
        ),
        ("/raises", "[Agree to all 3]"),
        "Agreed. Ada: hip thrust 90 kg to 92.5 kg (+2.8 %).",
    ),
    Thing("look at one client", 25, (), ("/client Ada",), "Ada · Harbour strength, week 3 of 4"),
    Thing(
        "give a load",
        10,
        (),
        ("Ada: hip thrust 90 from next week", "[Hold it]"),
        "Holds. Ada: hip thrust 90 kg from Mon 27 April",
    ),
    Thing(
        "swap an exercise",
        5,
        (),
        ("Ada: swap B1 for step-up", "[Step-down]", "[Hold it]"),
        "Holds. Ada: step-up in place of step-down",
    ),
    Thing(
        "write to several",
        2,
        (),
        ("/tell all: The gym is closed on Friday.", "[Send]"),
        "Goes out at",
    ),
    Thing(
        "answer an alert by button",
        10,
        ("Ada [Start]", "Ada: pain left knee 5"),
        ("[Ease next session]", "[For the knee −10 %]", "[Seen]"),
        "Next session eased: 10 % less and one set fewer",
    ),
    Thing(
        "take a plan up again after a stop sign",
        0,
        ("Ada: my chest feels tight and my left arm hurts",),
        ("[Release the plan]", "[Yes, release]"),
        "Released. Ada gets cards again",
    ),
    Thing("ask for a block's report", 12, (), ("/report Ada",), "Report, Ada: Harbour strength"),
    Thing(
        "send the next block and put a client on it",
        12,
        (),
        ("sends the file slipway-full-body.xlsx", "/assign Ada, Slipway full body, 2026-05-05", "[Start it]"),
        "Slipway full body",
    ),
    Thing(
        "pause a client for a holiday", 3, (), ("/pause Ada until 3 May",), "Ada is paused until Sun 3 May."
    ),
    Thing("invite a client", 0, (), ("/invite Cleo",), "Forward the next message to Cleo."),
)


@dataclass(frozen=True)
class Counted:
    """What a thing took."""

    taps: int = 0
    lines: int = 0
    characters: int = 0


def counted(does: tuple[str, ...]) -> Counted:
    """Count the taps, lines and characters of what a coach does."""
    taps = lines = characters = 0
    for each in does:
        found = re.fullmatch(
            r"(?P<tap>\[.+\]|sends the file .+)|(?P<reply>replies to “.+”: )?(?P<typed>.+)", each
        )
        assert found is not None
        taps += found["tap"] is not None or found["reply"] is not None
        lines += found["typed"] is not None
        characters += len(found["typed"] or "")
    return Counted(taps, lines, characters)


def step(does: str) -> str:
    """Write what a coach does as the step of a talk."""
    return f"Marit {does}" if does.startswith(("[", "sends ", "replies ")) else f"Marit: {does}"


@pytest.fixture(scope="module")
def brought(sqlite_files: SqliteFiles, tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, str]]:
    """What the last step of each thing brought, all in one talk."""
    engine = make_engine(sqlite_files.copy(tmp_path_factory.mktemp("ten") / "ten.db"))
    play = Talk(Units(engine))
    found: dict[str, str] = {}
    for thing in PLAYED:
        for each in thing.before:
            play.take(each)
        for each in thing.does:
            found[thing.what] = "\n".join(play.take(step(each)))
    yield found
    engine.dispose()


def table() -> str:
    """What was counted, as it stands in the paper: the commonest first."""
    rows = [HEAD, "|---|---|---|---|---|---|"]
    for thing in sorted(PLAYED, key=lambda each: -each.a_week):
        took = counted(thing.does)
        how = ", ".join(f"`{each}`" for each in thing.does)
        often = thing.a_week or "rare"
        rows.append(f"| {thing.what} | {often} | {took.taps} | {took.lines} | {took.characters} | {how} |")
    return "\n".join(rows)


@pytest.mark.parametrize("thing", PLAYED, ids=[each.what for each in PLAYED])
def test_a_common_thing_is_done_in_four_taps_and_one_line_at_most(
    brought: dict[str, str], thing: Thing
) -> None:
    took = counted(thing.does)

    assert thing.shown in brought[thing.what]
    assert took.taps + took.lines > 0
    assert took.taps <= MOST_TAPS
    assert took.lines <= MOST_LINES


def test_ten_are_common() -> None:
    assert sum(each.a_week > 0 for each in PLAYED) == 10


@pytest.mark.parametrize(
    ("does", "took"),
    [
        (("/client Ada",), Counted(0, 1, 11)),
        (("[Seen]",), Counted(1)),
        (("replies to “deep enough?”: yes", "[Keep]"), Counted(2, 1, 3)),
        (("sends the file block.xlsx", "/assign", "[Ada]", "[Start it]"), Counted(3, 1, 7)),
    ],
)
def test_what_is_tapped_and_typed_is_counted(does: tuple[str, ...], took: Counted) -> None:
    assert counted(does) == took


def test_the_paper_lists_what_was_counted() -> None:
    paper = PAPER.read_text(encoding="utf-8")
    written = HEAD + paper.partition(HEAD)[2].partition("\n\n")[0]

    assert written == table(), f"the table to paste:\n{table()}"
