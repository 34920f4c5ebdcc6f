"""One `plimsoll try` for all tests of the page: a newcomer goes her way in it first, and the others come after her."""

from collections.abc import Iterator

import pytest
from browser.desk import NEXT_MORNING, Desk, Opens, chromium, opened
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
        way = gone(browser, trial)
        desk = opened(browser, trial.url)
        for label in NEXT_MORNING:
            desk.moves(label)
        desk.context.close()
    return way


@pytest.fixture(scope="session")
def morning(first_way: FirstWay, trial: Trial) -> Trial:
    """The program on the morning after the digest, when some sessions are out."""
    return trial


@pytest.fixture(scope="module")
def browser(morning: Trial) -> Iterator[Browser]:
    """A browser, which is asked for after all that others have opened and closed."""
    with chromium() as opened_browser:
        yield opened_browser


@pytest.fixture
def opens(browser: Browser, morning: Trial) -> Iterator[Opens]:
    """Opens the page, and closes it after the test; all that it asked for came from this machine."""
    desks: list[Desk] = []

    def one(*args: object, **others: object) -> Desk:
        desks.append(opened(browser, morning.url, *args, **others))
        return desks[-1]

    yield one
    for desk in desks:
        desk.context.close()
        assert [
            each for each in desk.asked if not each.startswith((f"{morning.root}/", f"blob:{morning.root}/"))
        ] == []


@pytest.fixture
def desk(opens: Opens) -> Desk:
    return opens()
