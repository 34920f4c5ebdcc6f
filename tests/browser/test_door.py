"""Who gets in, what goes out, and how it ends."""

from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from browser.desk import Desk
from browser.trial import Trial
from playwright.sync_api import Browser, expect

TRIED = """async (root) => {
    const came = {}, said = JSON.stringify({text: "from elsewhere", reply_to: null});
    const own = {"Content-Type": "application/json", "X-Plimsoll-Try": "1"};
    const attempt = async (what, path, options) => {
        try {
            const answer = await fetch(root + path, {credentials: "include", ...options});
            came[what] = `${answer.type} ${answer.status}`;
        } catch {
            came[what] = "refused";
        }
    };
    await attempt("look", "/state", {});
    await attempt("say, as a form would", "/people/ingrid/say", {method: "POST", mode: "no-cors", body: said});
    await attempt("say, as our page does", "/people/ingrid/say", {method: "POST", headers: own, body: said});
    await attempt("move the clock", "/clock", {method: "POST", mode: "no-cors", body: '{"to": "digest"}'});
    return came;
}"""
FRAMED = """(root) => new Promise((loaded) => {
    document.body.append(Object.assign(document.createElement("iframe"), {src: root, onload: () => loaded()}));
})"""


class Elsewhere(BaseHTTPRequestHandler):
    """A page of somebody else on this machine."""

    def do_GET(self) -> None:
        self.send_response(200)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.end_headers()
        self.wfile.write(b"<!doctype html><title>Elsewhere</title>")

    def log_message(self, format: str, *args: Any) -> None:  # noqa: A002  (its name in the base class)
        """Say nothing."""


@pytest.fixture
def elsewhere() -> Iterator[str]:
    """The address of another page, on another port."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), Elsewhere)
    serving = Thread(target=server.serve_forever)
    serving.start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    serving.join()
    server.server_close()


def test_a_page_of_another_origin_neither_reads_nor_writes(
    desk: Desk, elsewhere: str, morning: Trial
) -> None:
    told = desk.clock.get_by_role("status").inner_text()
    other = desk.context.new_page()
    other.goto(elsewhere)

    assert other.evaluate(TRIED, morning.root) == {
        "look": "refused",
        "say, as a form would": "refused",
        "say, as our page does": "refused",
        "move the clock": "refused",
    }
    ingrid = desk.panel("Ingrid")
    assert ingrid.articles.last.inner_text()
    assert ingrid.newest("from elsewhere").count() == 0
    assert desk.clock.get_by_role("status").inner_text() == told


def test_the_page_stands_in_no_frame_of_anothers(desk: Desk, elsewhere: str, morning: Trial) -> None:
    other = desk.context.new_page()
    other.goto(elsewhere)
    other.evaluate(FRAMED, morning.root)
    framed = other.frame_locator("iframe")

    expect(framed.get_by_role("heading", name="Plimsoll, tried out here")).to_have_count(0)


@pytest.mark.parametrize("path", ["/", "/?key=guessed", "/state", "/page.js", "/people/ingrid/messages"])
def test_who_has_not_the_address_gets_nothing(path: str, browser: Browser, morning: Trial) -> None:
    context = browser.new_context()
    answer = context.request.get(f"{morning.root}{path}")

    assert answer.status == 403
    assert "Marit" not in answer.text()
    context.close()


def test_ctrl_c_ends_all_of_it_within_three_seconds_with_a_page_open_and_leaves_nothing(
    browser: Browser, tmp_path: Path
) -> None:
    trial = Trial(tmp_path)
    context = browser.new_context()
    page = context.new_page()
    page.goto(trial.url)
    expect(page.get_by_role("progressbar")).to_be_visible()
    status, seconds = trial.interrupted()
    context.close()

    assert status == 0
    assert seconds < 3
    assert "Traceback" not in trial.said
    assert list(tmp_path.iterdir()) == []
