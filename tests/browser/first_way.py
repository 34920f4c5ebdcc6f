"""A newcomer's first way: from the command to a logged set and the coach's digest, with a picture of each.

The pictures are the README's. Each carries the text that the page showed in it, so that a test can tell when the page
shows something else now, on a machine with other fonts too.
"""

from dataclasses import dataclass
from io import BytesIO
from time import monotonic

from browser.desk import opened
from browser.trial import Trial
from house.tree import ROOT
from PIL import Image
from PIL.PngImagePlugin import PngInfo
from playwright.sync_api import Browser, Locator

PICTURES = ROOT / "demo_scenario" / "pictures"
MAKE_ANEW = "PYTHONPATH=.:tests .venv/bin/python tests/browser/make_pictures.py"
MOST_BYTES = 150_000
_TEXT = "Description"
_COLOURS = 128


@dataclass(frozen=True)
class Picture:
    """What a part of the page showed.

    Attributes:
        png: How it looked.
        text: What it said.
    """

    png: bytes
    text: str


@dataclass(frozen=True)
class FirstWay:
    """How it went.

    Attributes:
        pressed: What was pressed, in order.
        seconds: From the command to the digest.
        logged: What the client's card says in the end.
        digest: What the coach's digest says.
        pictures: By the name of their file.
        broken: What the browser complained of.
    """

    pressed: tuple[str, ...]
    seconds: float
    logged: str
    digest: str
    pictures: dict[str, Picture]
    broken: tuple[str, ...]


def gone(browser: Browser, trial: Trial) -> FirstWay:
    """Go it."""
    desk = opened(browser, trial.url)
    maya = desk.panel("Maya")
    pictures = {"session.png": taken(maya.region)}
    maya.taps("All done as written")
    maya.taps("Nothing hurts", "Does anything hurt?")
    maya.taps("2", "how many more could you have done?")
    logged = maya.shows("All done. Logged.").inner_text()
    desk.toggle("Maya").click()
    desk.moves("Coach's digest")
    marit = desk.panel("Marit Halvorsen")
    digest = marit.shows("The week")
    pictures["digest.png"] = taken(marit.region)
    way = FirstWay(
        pressed=tuple(desk.pressed),
        seconds=monotonic() - trial.began,
        logged=logged,
        digest=digest.inner_text(),
        pictures=pictures,
        broken=tuple(desk.broken),
    )
    desk.context.close()
    return way


def taken(part: Locator) -> Picture:
    """A picture of a part of the page, small, with its text in it."""
    text = part.inner_text()
    shot = Image.open(BytesIO(part.screenshot(animations="disabled")))
    few = shot.convert("RGB").quantize(_COLOURS, dither=Image.Dither.NONE)
    out, said = BytesIO(), PngInfo()
    said.add_itxt(_TEXT, text)
    few.save(out, "PNG", optimize=True, pnginfo=said)
    return Picture(out.getvalue(), text)


def kept(name: str) -> Picture:
    """The README's picture of this name, and what the page showed when it was made."""
    png = (PICTURES / name).read_bytes()
    with Image.open(BytesIO(png)) as image:
        image.load()
        return Picture(png, str(image.info.get(_TEXT, "")))
