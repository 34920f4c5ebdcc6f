"""One `plimsoll try` for all tests of the page: a newcomer goes her way in it first, and the others come after her."""

import re
from collections.abc import Iterator, Sequence
from typing import Any

import pytest
from browser.desk import NEXT_MORNING, WIDE, Desk, Opens, chromium, opened
from browser.first_way import FirstWay, gone
from browser.trial import Trial
from browsers import CHROMIUM
from playwright.sync_api import Browser

collect_ignore_glob = [] if CHROMIUM else ["test_*.py"]


@pytest.fixture(scope="session")
def trial(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Trial]:
    running = Trial(tmp_path_factory.mktemp("trial"))
    yield running
    status, seconds = running.interrupted()
    assert (status, running.said.count("Traceback")) == (0, 0), running.said
    assert seconds < 3


@pytest.fixture(scope="session")
def first_way(trial: Trial) -> FirstWay:
    """What a newcomer finds; then the clock goes on to the next morning, for those who come after her."""
    with chromium() as browser:
        return gone(browser, trial, then=NEXT_MORNING)


@pytest.fixture(scope="session")
def morning(first_way: FirstWay, trial: Trial) -> Trial:
    """The program on the morning after the digest, when some sessions are out."""
    return trial


@pytest.fixture(scope="module")
def browser(morning: Trial) -> Iterator[Browser]:
    """A browser, which is asked for after all that others have opened and closed."""
    with chromium() as opened_browser:
        yield opened_browser


@pytest.fixture(scope="module")
def opens(browser: Browser, morning: Trial) -> Iterator[Opens]:
    """Opens the page, and closes it in the end; all that it asked for came from this machine."""
    desks: list[Desk] = []

    def one(size: Sequence[int] = WIDE, *, at: str = morning.url, **others: Any) -> Desk:
        desks.append(opened(browser, at, size, **others))
        return desks[-1]

    yield one
    asked = [each for desk in desks for each in desk.asked]
    for desk in desks:
        desk.context.close()
    ours = re.compile(rf"(blob:)?http://(127\.0\.0\.1|localhost):{morning.port}/")
    assert [each for each in asked if not ours.match(each)] == []


@pytest.fixture(scope="module")
def wide_desk(opens: Opens) -> Desk:
    return opens()


@pytest.fixture
def desk(wide_desk: Desk) -> Iterator[Desk]:
    """The page on a wide screen, with nobody's panel open."""
    yield wide_desk.stands()
    wide_desk.clears()
