"""The roster's picture: small, legible on a phone, told apart without colour, and the same every time."""

import ast
from datetime import date
from io import BytesIO

import matplotlib as mpl
import pytest
from house.tree import modules
from PIL import Image
from rows import each_row

from bot.render.charts import ROWS, WIDTH, drawable, roster_pictures
from core.oversight.misses import Tally

FIRST, LAST = date(2026, 3, 23), date(2026, 4, 19)


def roster(count: int, kept: int = 3, due: int = 16) -> list[tuple[str, Tally]]:
    return [(f"Wollongong {number}", Tally(kept=kept, due=due)) for number in range(count)]


def drawn(content: bytes) -> Image.Image:
    return Image.open(BytesIO(content)).convert("L")


@pytest.mark.parametrize("count", [1, 3, ROWS])
def test_a_picture_fits_a_phone(count: int) -> None:
    (content,) = roster_pictures(roster(count), FIRST, LAST)
    image = drawn(content)

    assert content.startswith(b"\x89PNG")
    assert len(content) < 100_000
    assert image.width == WIDTH == 900
    assert image.height <= 1280


@pytest.mark.parametrize(("count", "pictures"), [(0, 0), (ROWS, 1), (ROWS + 1, 2), (60, 3)])
def test_a_long_roster_takes_more_pictures(count: int, pictures: int) -> None:
    assert len(roster_pictures(roster(count), FIRST, LAST)) == pictures


def test_what_was_kept_is_dark_and_as_long_as_its_share() -> None:
    def dark(kept: int) -> int:
        (content,) = roster_pictures(roster(1, kept, 10), FIRST, LAST)
        image = drawn(content)
        # A line through the bar, beside the outline.
        return sum(image.getpixel((x, 126)) < 80 for x in range(250, 741))

    # 490 px are ten sessions; the strokes of the hatch are lighter than that.
    assert [round(dark(kept) / 49) for kept in (0, 3, 10)] == [0, 3, 10]


def test_kept_and_not_kept_differ_in_grey_and_by_strokes() -> None:
    (content,) = roster_pictures(roster(1, 5, 10), FIRST, LAST)
    row = [drawn(content).getpixel((x, 138)) for x in range(250, 741)]
    kept, lost = row[20:220], row[270:470]

    assert max(kept) < 90
    assert sum(grey > 200 for grey in lost) > 120
    assert sum(grey < 200 for grey in lost) > 10


def test_the_same_roster_is_the_same_bytes() -> None:
    assert roster_pictures(roster(4), FIRST, LAST) == roster_pictures(roster(4), FIRST, LAST)


def test_nothing_is_set_for_the_whole_program() -> None:
    before = dict(mpl.rcParams)
    roster_pictures(roster(2), FIRST, LAST)

    assert dict(mpl.rcParams) == before


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("Åse", "Åse"),
        ("Aleksandra Wiśniewska", "Aleksandra Wiś…"),
        ("李明", "??"),
        ("Tom\n", "Tom?"),
        ("Beth $x$", "Beth $x$"),
        ("Maximilian van Dyk", "Maximilian van…"),
    ],
)
def test_a_name_is_drawn_as_far_as_it_can_be(name: str, expected: str) -> None:
    assert drawable(name) == expected
    roster_pictures([(name, Tally(kept=1, due=2))], FIRST, LAST)


@each_row("path", modules("bot"))
def test_no_module_takes_the_library_with_a_state(path: str) -> None:
    names = [
        name
        for node in ast.walk(ast.parse(modules("bot")[path]))
        for name in (
            [each.name for each in node.names]
            if isinstance(node, ast.Import)
            else [f"{node.module}.{each.name}" for each in node.names]
            if isinstance(node, ast.ImportFrom)
            else []
        )
    ]

    assert [name for name in names if "pyplot" in name or "pylab" in name] == []
