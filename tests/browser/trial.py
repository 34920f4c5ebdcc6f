"""`plimsoll try` as a process of its own, from its start to Ctrl-C."""

import os
import re
import signal
import subprocess
import sys
from pathlib import Path
from threading import Timer
from time import monotonic

from house.tree import ROOT

_ADDRESS = re.compile(r"http://127\.0\.0\.1:\d+/\?key=\S+")
_STARTS_S = 60
_ENDS_S = 20


class Trial:
    """A running one.

    Attributes:
        url: The address that it printed, with its key.
        root: The address alone.
        port: Where it listens.
        said: What it printed up to then.
        began: When its command was given. [s on the monotonic clock]
    """

    def __init__(self, folder: Path, *options: str) -> None:
        self.began = monotonic()
        self._process = subprocess.Popen(  # noqa: S603  (our own program)
            [sys.executable, "-c", "from bot.cli import app; app()", "try", *options],
            cwd=ROOT,
            env={**os.environ, "TMPDIR": str(folder), "NO_COLOR": "1"},
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        self.said = ""
        self.url = self._address()
        self.root = self.url.partition("/?")[0]
        self.port = int(self.root.rpartition(":")[2])

    def _address(self) -> str:
        """Read on until the address is printed."""
        late = Timer(_STARTS_S, self._process.kill)
        late.start()
        try:
            for line in self._process.stdout or ():
                self.said += line
                if found := _ADDRESS.search(line):
                    return found.group()
        finally:
            late.cancel()
        self._process.wait(_ENDS_S)
        raise RuntimeError(f"It ended with {self._process.returncode} and printed no address: {self.said!r}")

    def interrupted(self) -> tuple[int, float]:
        """End it by Ctrl-C; returns its status and how long that took. [s]"""
        asked = monotonic()
        self._process.send_signal(signal.SIGINT)
        try:
            rest, _ = self._process.communicate(timeout=_ENDS_S)
        except subprocess.TimeoutExpired:
            self._process.kill()
            rest, _ = self._process.communicate()
        self.said += rest
        return self._process.returncode, monotonic() - asked

    def ended(self) -> None:
        """End it if it still runs."""
        if self._process.poll() is None:
            self.interrupted()
