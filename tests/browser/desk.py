"""The page of `plimsoll try` as somebody uses it who knows roles and names: nothing is found by its markup."""

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from browsers import CHROMIUM, arguments
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect, sync_playwright
from playwright.sync_api import TimeoutError as OutOfTime

WIDE = (1280, 900)
PHONE = (390, 780)
NARROW = (320, 640)
NEXT_MORNING = ("Tomorrow's session", "Next thing due")
"""From the digest to when sessions are out."""
PATIENCE_MS = 20_000
"""How long the page may take for anything, on a machine with other things to do."""
PLAYED_MS = 240_000
"""How long a week of the story may take there."""
PRESSED_MS = 10_000
"""How long a press may take until the page asks for something."""
TRIES = 3


@contextmanager
def chromium() -> Iterator[Browser]:
    """Open the browser and close it again. Between the two no coroutine runs in this thread."""
    expect.set_options(timeout=PATIENCE_MS)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=arguments())
        try:
            yield browser
        finally:
            browser.close()


class Desk:
    """An open page.

    Attributes:
        page: The page.
        pressed: What was pressed or typed so far, in order.
        asked: Addresses of all that the page has asked for.
    """

    def __init__(self, context: BrowserContext, url: str) -> None:
        self.context = context
        self.page: Page = context.new_page()
        self.pressed: list[str] = []
        self.asked: list[str] = []
        self.broken: list[str] = []
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.on("pageerror", lambda error: self.broken.append(str(error)))
        self.page.on("console", lambda line: self._noted(line.type, line.text))
        self.page.goto(url)

    def _noted(self, kind: str, text: str) -> None:
        if kind in {"error", "warning"}:
            self.broken.append(text)

    @property
    def clock(self) -> Locator:
        return self.page.get_by_role("region", name="Clock", exact=True)

    @property
    def people(self) -> Locator:
        return self.page.get_by_role("navigation", name="People", exact=True)

    def stands(self) -> "Desk":
        """Wait until the clock stands still."""
        expect(self.clock.get_by_role("button", name="One hour on")).to_be_enabled(timeout=PLAYED_MS)
        return self

    def moves(self, to: str) -> None:
        """Move the clock by one of its buttons, and wait until it stands again."""
        button, status = (
            self.clock.get_by_role("button", name=to, exact=True),
            self.clock.get_by_role("status"),
        )
        for _ in range(TRIES):
            before = self.stands().clock.get_by_role("status").inner_text()
            if self._is_taken(button):
                self.pressed.append(to)
                expect(status).not_to_have_text(before, timeout=PLAYED_MS)
                self.stands()
                return
        raise AssertionError(f"{to} was pressed {TRIES} times and nothing came of it")

    def _is_taken(self, button: Locator) -> bool:
        """Press a button of the clock. Half a minute may still go by for the last answer: nothing comes of it then."""
        try:
            with self.page.expect_response("**/clock", timeout=PRESSED_MS) as answer:
                button.click()
        except OutOfTime:
            return False
        return answer.value.ok

    def toggle(self, name: str) -> Locator:
        """The button that opens and closes somebody's panel."""
        return self.people.get_by_role("button", name=re.compile(rf"^{name}, (coach|client|stranger)\b"))

    def panel(self, name: str) -> "Panel":
        """Somebody's panel, opened if it is not."""
        region = self.page.get_by_role("region", name=name, exact=True)
        if not region.is_visible():
            self._press(self.toggle(name), name)
            region.wait_for()
        return Panel(self, name, region)

    def leaves(self, panel: "Panel") -> None:
        """Close a panel, where it would hide the rest."""
        close = panel.region.get_by_role("button", name=re.compile(rf"^(Close {panel.name}|Back to people)$"))
        close.click()
        panel.region.wait_for(state="hidden")

    def clears(self) -> None:
        """Close every panel."""
        for close in self.page.get_by_role("button", name=re.compile("^Close (?!these steps)")).all()[::-1]:
            close.click()
        expect(self.page.get_by_role("log")).to_have_count(0)

    def happened(self, subject: str) -> Locator:
        """What happened, of a kind; opened if it is not. Returns the table."""
        region = self.page.get_by_role("region", name="What happened", exact=True)
        if not region.is_visible():
            self.page.get_by_role("button", name="What happened", exact=True).click()
        choice = region.get_by_role("button", name=subject, exact=True)
        choice.click()
        expect(choice).to_have_attribute("aria-pressed", "true")
        expect(region.get_by_text("Looking.")).to_have_count(0)
        table = region.get_by_role("table")
        expect(table).to_be_visible()
        return table

    def _press(self, button: Locator, label: str) -> None:
        button.click()
        self.pressed.append(label)


class Panel:
    """Somebody's side of the page."""

    def __init__(self, desk: Desk, name: str, region: Locator) -> None:
        self.desk, self.name, self.region = desk, name, region

    @property
    def log(self) -> Locator:
        return self.region.get_by_role("log", name=f"Messages of {self.name}")

    @property
    def articles(self) -> Locator:
        return self.log.get_by_role("article")

    @property
    def box(self) -> Locator:
        return self.region.get_by_role("textbox", name=f"Write as {self.name}")

    def newest(self, *words: str) -> Locator:
        """The newest message that has all of these words."""
        found = self.articles
        for each in words:
            found = found.filter(has_text=each)
        return found.last

    def shows(self, *words: str) -> Locator:
        """Wait until a message has all of these words; returns it."""
        message = self.newest(*words)
        expect(message).to_be_visible()
        return message

    def taps(self, label: str, *of: str) -> None:
        """Tap a button of the newest message that has it, or of the newest with these words."""
        button = self.newest(*of).get_by_role("button", name=label, exact=True)
        if not of:
            button = self.log.get_by_role("button", name=label, exact=True).last
        self.desk._press(button, label)

    def says(self, text: str) -> None:
        """Type and send."""
        self.box.fill(text)
        self.desk._press(self.region.get_by_role("button", name="Send", exact=True), text)

    def opens(self, label: str) -> None:
        """Open a choice: "Attach" or "Commands"."""
        self.region.get_by_role("button", name=label, exact=True).click()

    def attaches(self, kind: str, file: Path, words: str = "") -> None:
        """Send a file, as "Photo", "Voice message" or "File"."""
        self.opens("Attach")
        with self.desk.page.expect_file_chooser() as chosen:
            self.region.get_by_role("button", name=kind, exact=True).click()
        chosen.value.set_files(file)
        self.says(words)


def opened(
    browser: Browser,
    url: str,
    size: Sequence[int] = WIDE,
    *,
    scale: float = 1,
) -> Desk:
    """Open the page in a context of its own, far from the people's own clocks; waits until the clock stands."""
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]},
        color_scheme="light",
        device_scale_factor=scale,
        locale="en-GB",
        timezone_id="Pacific/Chatham",
        reduced_motion="reduce",
    )
    return Desk(context, url).stands()


Opens = Callable[..., Desk]
"""Opens the page for a test, with what `opened` takes after the address."""
