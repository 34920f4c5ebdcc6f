"""A newcomer's first way: from the command to a logged set and the coach's digest, with a picture of each.

The pictures are the README's. Each carries the words of the messages that it is of, so that a test can tell when the
page shows something else now, on a machine with other fonts too.
"""

from collections.abc import Sequence
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
_TALL = (440, 1600)
"""More than the pictures are, before they are doubled. [px]"""
_ABOVE = """(log, words) => {
    const messages = [...log.querySelectorAll("article")].filter((each) => each.innerText.includes(words));
    const first = messages.at(-1), day = first.previousElementSibling;
    const top = (day?.matches("article") ? first : day ?? first).getBoundingClientRect().top;
    return Math.max(0, Math.floor(top - log.getBoundingClientRect().top));
}"""
"""How much of a log stands above a message and the day over it. [px]"""


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


def gone(browser: Browser, trial: Trial, then: Sequence[str] = ()) -> FirstWay:
    """Go it, and then press these of the clock."""
    desk = opened(browser, trial.url)
    session = pictured(browser, trial, "Maya", "All done as written")
    desk.panel("Maya").taps("All done as written")
    desk.panel("Maya").taps("Nothing hurts", "Does anything hurt?")
    desk.panel("Maya").taps("2", "how many more could you have done?")
    logged = desk.panel("Maya").shows("Full B · week 1", "All done. Logged.").inner_text()
    desk.moves("Coach's digest")
    told = desk.panel("Marit Halvorsen").shows("sessions due.", "Doing well").inner_text()
    drawn(desk.panel("Marit Halvorsen").shows("Sessions kept of due, by client").get_by_role("img"))
    seconds = monotonic() - trial.began
    digest = pictured(browser, trial, "Marit Halvorsen", "sessions due.", "Sessions kept of due, by client")
    way = FirstWay(
        pressed=tuple(desk.pressed),
        seconds=seconds,
        logged=logged,
        digest=told,
        pictures={"session.png": session, "digest.png": digest},
        broken=tuple(desk.broken),
    )
    for label in then:
        desk.moves(label)
    desk.context.close()
    return way


def pictured(browser: Browser, trial: Trial, name: str, *words: str) -> Picture:
    """A picture of somebody's page, small, as high as these messages need on a phone; their words are in it."""
    desk = opened(browser, trial.url, _TALL, scale=2)
    panel = desk.panel(name)
    messages = [panel.shows(each) for each in words]
    for image in panel.newest(words[-1]).get_by_role("img").all():
        drawn(image)
    width, height = _TALL
    desk.page.set_viewport_size({"width": width, "height": height - panel.log.evaluate(_ABOVE, words[0])})
    desk.page.wait_for_function(
        "([log]) => log.scrollHeight - log.scrollTop - log.clientHeight < 2", arg=[panel.log.element_handle()]
    )
    shot = Image.open(BytesIO(desk.page.screenshot(animations="disabled")))
    text = "\n\n".join(each.inner_text() for each in messages)
    desk.context.close()
    few = shot.convert("RGB").quantize(_COLOURS, dither=Image.Dither.NONE)
    out, said = BytesIO(), PngInfo()
    said.add_itxt(_TEXT, text)
    few.save(out, "PNG", optimize=True, pnginfo=said)
    return Picture(out.getvalue(), text)


def drawn(image: Locator) -> None:
    """Wait until a picture on the page is there to see."""
    image.page.wait_for_function("each => each.complete && each.naturalWidth > 0", arg=image.element_handle())


def kept(name: str) -> Picture:
    """The README's picture of this name, and what the page showed when it was made."""
    png = (PICTURES / name).read_bytes()
    with Image.open(BytesIO(png)) as image:
        image.load()
        return Picture(png, str(image.info.get(_TEXT, "")))
