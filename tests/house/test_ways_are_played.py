"""Every way up, and every kind of sets, plays in a talk or in the story."""

from pathlib import Path

from house.tree import ROOT

from bot.files.block_file import read_block
from core.programme.rows import BlockFile
from core.programme.set_styles import StyleKind
from core.programme.ways_up import WayKind

TALKS = "\n".join(path.read_text(encoding="utf-8") for path in (ROOT / "tests" / "dialogs").glob("*.talk"))
STORY = (ROOT / "demo_scenario" / "script.yaml").read_text(encoding="utf-8")


def is_played(path: Path) -> bool:
    name = path.stem.replace("-", "_").capitalize()
    return path.stem == "harbour-strength" or f"block={name}" in TALKS or path.name in STORY


def test_every_way_up_and_every_kind_of_sets_is_played() -> None:
    ways: set[WayKind] = set()
    styles: set[StyleKind] = set()
    for folder in (ROOT / "tests" / "blocks", ROOT / "demo_scenario" / "blocks"):
        for path in folder.glob("*.xlsx"):
            found = read_block(path.read_bytes(), path.name)
            if not isinstance(found, BlockFile) or not is_played(path):
                continue
            rows = [line.prescription for day in found.block.days for line in day.lines]
            ways |= {row.way_up.kind for row in rows}
            styles |= {row.dose.style.kind for row in rows if row.dose.style is not None}

    assert ways == set(WayKind)
    assert styles == set(StyleKind)
