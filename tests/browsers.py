"""The browser that opens our page, for tests: Debian's Chromium, or the one that `TEST_CHROMIUM` names.

Without it no test of the page runs, the summary says so, and `TEST_BROWSER_REQUIRED=1` makes it an error.
"""

import os
import shutil

CHROMIUM = os.environ.get("TEST_CHROMIUM") or shutil.which("chromium")
REQUIRES_BROWSER = os.environ.get("TEST_BROWSER_REQUIRED", "") not in {"", "0"}
BROWSER_ABSENT = "Chromium is not here: install chromium, or set TEST_CHROMIUM to its program"
ALONE = (
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP localhost 127.0.0.2",
)
"""It draws with the processor, and asks nobody outside for anything. By its other name our page is reached through a
line that can be cut (`tests/browser/line.py`).
"""
AS_ROOT = ("--no-sandbox",)
"""A sandbox within one that root has made is refused."""


def arguments() -> list[str]:
    """What it is started with."""
    return [*ALONE, *(AS_ROOT if os.geteuid() == 0 else ())]
