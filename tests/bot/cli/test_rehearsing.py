import io
from pathlib import Path

import pytest
from rich.console import Console

from bot.cli.rehearsing import rehearse
from bot.clock import seeded_chance
from bot.render.rehearsal import SOUND
from core.loads.decision import Decision, Inputs, LoadLine, next_decision
from core.units import Mass

BLOCKS = Path(__file__).parents[3] / "demo_scenario" / "blocks"
HARBOUR = BLOCKS / "harbour-strength.xlsx"


class Heard:
    """What a command prints, and where."""

    def __init__(self, *, terminal: bool = False) -> None:
        self.out, self.wrong = io.StringIO(), io.StringIO()
        self.console = Console(file=self.out, width=120, force_terminal=terminal)
        self.errors = Console(file=self.wrong, width=120)

    def rehearse(
        self, file: Path, out: Path, *, clients: int = 2, weeks: int | None = 1, seed: int = 1, **more: object
    ) -> int:
        return rehearse(file, clients, weeks, seed, out, self.console, self.errors, **more)  # type: ignore[arg-type]


@pytest.fixture
def heard() -> Heard:
    return Heard()


@pytest.mark.parametrize("name", ["harbour-strength", "home-dumbbells", "home-dumbbells-2", "watch-strength"])
def test_a_block_is_played_and_its_picture_written(tmp_path: Path, heard: Heard, name: str) -> None:
    assert heard.rehearse(BLOCKS / f"{name}.xlsx", tmp_path / "new folder") == 0
    printed = heard.out.getvalue()
    assert "1 week, 2 simulated clients, seed 1" in printed
    assert "How often each rule spoke" in printed
    assert "Hard sets a muscle, by week" in printed
    assert " ".join(SOUND.split()) in " ".join(printed.split())
    assert (tmp_path / "new folder" / "rehearsal.png").read_bytes().startswith(b"\x89PNG")
    assert heard.wrong.getvalue() == ""


def test_the_same_seed_says_the_same_and_another_seed_does_not(tmp_path: Path) -> None:
    said, drawn = [], []
    for name, seed in (("a", 1), ("b", 1), ("c", 2)):
        heard = Heard()
        heard.rehearse(HARBOUR, tmp_path / name, seed=seed)
        said.append(heard.out.getvalue().partition("The picture")[0].replace(f"seed {seed}", ""))
        drawn.append((tmp_path / name / "rehearsal.png").read_bytes())

    assert said[0] == said[1] != said[2]
    assert drawn[0] == drawn[1] != drawn[2]


def test_all_weeks_are_played_where_none_are_said(tmp_path: Path, heard: Heard) -> None:
    assert heard.rehearse(BLOCKS / "home-dumbbells.xlsx", tmp_path, clients=1, weeks=None) == 0
    assert "Home dumbbells: 4 weeks, 1 simulated client, seed 1" in heard.out.getvalue()


def test_a_picture_that_is_there_is_left_and_said(tmp_path: Path, heard: Heard) -> None:
    (tmp_path / "rehearsal.png").write_bytes(b"hers")
    (tmp_path / "rehearsal-2.png").write_bytes(b"hers too")

    assert heard.rehearse(HARBOUR, tmp_path) == 0
    assert (tmp_path / "rehearsal.png").read_bytes() == b"hers"
    assert (tmp_path / "rehearsal-3.png").read_bytes().startswith(b"\x89PNG")
    said = " ".join(heard.out.getvalue().split())
    assert "rehearsal-3.png" in said
    assert "was there already, and is left as it is.)" in said


@pytest.mark.parametrize(
    ("weeks", "said"), [(7, "The block has 6 weeks; --weeks can be 1 to 6."), (52, "can be 1 to 6.")]
)
def test_more_weeks_than_the_block_has_are_refused(
    tmp_path: Path, heard: Heard, weeks: int, said: str
) -> None:
    assert heard.rehearse(HARBOUR, tmp_path, weeks=weeks) == 2
    assert said in heard.wrong.getvalue()
    assert list(tmp_path.iterdir()) == []


def test_a_block_with_problems_is_told_each_of_them_and_not_played(tmp_path: Path, heard: Heard) -> None:
    assert heard.rehearse(BLOCKS / "broken.xlsx", tmp_path) == 1
    assert heard.wrong.getvalue().rstrip().endswith("to mend. Nothing is stored.")
    assert heard.out.getvalue() == ""


def test_a_file_or_folder_that_cannot_be_had_is_told(tmp_path: Path, heard: Heard) -> None:
    (tmp_path / "file").write_bytes(b"")

    assert heard.rehearse(tmp_path / "no.csv", tmp_path) == 2
    assert "Cannot read" in heard.wrong.getvalue()
    assert heard.rehearse(HARBOUR, tmp_path / "file") == 2
    assert "it is no folder." in heard.wrong.getvalue()
    assert heard.rehearse(HARBOUR, tmp_path / "file" / "below") == 2
    assert "Cannot write" in heard.wrong.getvalue()


def test_a_decision_that_breaks_a_rule_ends_with_status_1_and_is_printed(
    tmp_path: Path, heard: Heard
) -> None:
    def broken(given: Inputs) -> Decision:
        decision = next_decision(given)
        return decision.model_copy(update={"line": LoadLine(mass=Mass.of(-100), ceilings=())})

    assert heard.rehearse(HARBOUR, tmp_path, clients=1, decide=broken) == 1
    printed = heard.out.getvalue()
    assert "BROKE A RULE" in printed
    assert "Client 1: over the load line" in printed
    assert "Load line: -100 kg" in printed
    assert "Why, by authority:" in printed
    assert (tmp_path / "rehearsal.png").exists()


def test_a_terminal_shows_how_far_it_is(tmp_path: Path) -> None:
    watched, unwatched = Heard(terminal=True), Heard()

    watched.rehearse(HARBOUR, tmp_path)
    unwatched.rehearse(HARBOUR, tmp_path)
    assert "Simulated clients" in watched.out.getvalue()
    assert "Simulated clients" not in unwatched.out.getvalue()


def test_the_stream_of_a_client_is_that_of_her_number() -> None:
    first = [seeded_chance(1, number).random() for number in range(5)]

    assert first == [seeded_chance(1, number).random() for number in range(5)]
    assert len(set(first)) == 5
    assert seeded_chance(2, 0).random() != first[0]
