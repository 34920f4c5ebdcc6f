"""Log lines: a constant event name and fields from a closed list.

A line carries ids and numbers: no names, no words of anybody, nothing about health, no token.
"""

import json
import logging
import re
import sys
import traceback
from collections import Counter
from datetime import UTC, datetime
from typing import Any, Literal, TextIO

FIELDS = frozenset(
    {
        "attempt",
        "cause",
        "chat_id",
        "client_id",
        "coach_id",
        "count",
        "decision_id",
        "late_s",
        "method",
        "outbox_id",
        "outcome",
        "part",
        "reference",
        "session_id",
        "took_s",
        "update_id",
        "usecase",
        "wait_s",
    }
)
"""What a line may carry. `cause` and `outcome` are words of our own, never words of an error."""

_STANDARD = frozenset(vars(logging.makeLogRecord({}))) | {"message", "asctime"}
_OURS = ("bot", "core", "migrations")
_TOKEN = re.compile(r"\d+:[A-Za-z0-9_-]{16,}")
_PASSWORD = re.compile(r"(?<=://)[^/@\s]*:[^/\s]*@")
"""Name and password in an address, such as a database's."""
_CHATTY = ("alembic", "apscheduler", "asyncio", "httpcore", "httpx", "telegram", "uvicorn")

Format = Literal["auto", "text", "json"]


class StrayField(Exception):
    """A line of ours carries a field off the list."""


class ClosedList(logging.Filter):
    """Keeps fields off the list out of the lines.

    Attributes:
        dropped: How often each stray field was dropped.
    """

    def __init__(self, *, strict: bool) -> None:
        super().__init__()
        self.strict = strict
        self.dropped: Counter[str] = Counter()

    def filter(self, record: logging.LogRecord) -> bool:
        """Drop and count stray fields; always lets the line pass.

        Raises:
            StrayField: In strict mode, for a line of ours. A leak must fail loudly in the tests.
        """
        stray = sorted(vars(record).keys() - _STANDARD - FIELDS)
        if stray and self.strict and record.name.partition(".")[0] in _OURS:
            raise StrayField(f"{record.name}, {record.msg}: {', '.join(stray)}")
        for name in stray:
            delattr(record, name)
        self.dropped.update(stray)
        return True


class JsonLines(logging.Formatter):
    """One JSON object a line."""

    def format(self, record: logging.LogRecord) -> str:
        """Return the line."""
        line: dict[str, Any] = {
            "at": _instant(record).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
            "event": _event(record),
            **_fields(record),
        }
        if record.exc_info and record.exc_info[1] is not None:
            line["trace"] = trace(record.exc_info[1])
        return json.dumps(line, ensure_ascii=False, default=str)


class TextLines(logging.Formatter):
    """Lines for somebody who watches."""

    def format(self, record: logging.LogRecord) -> str:
        """Return the line, and under it where an error came from."""
        fields = "".join(f" {name}={value}" for name, value in _fields(record).items())
        line = f"{_instant(record):%Y-%m-%d %H:%M:%S} {record.levelname.lower():8} {_event(record)}{fields}"
        if record.exc_info and record.exc_info[1] is not None:
            line += "".join(f"\n    {each}" for each in trace(record.exc_info[1]))
        return line


def trace(error: BaseException) -> list[str]:
    """Return where an error came from, the outermost call first.

    Without any error's own words: they may quote a client or a row of the database.
    """
    lines: list[str] = []
    each: BaseException | None = error
    told: list[BaseException] = []
    while each is not None and each not in told:
        told.append(each)
        lines.append(type(each).__qualname__)
        for frame, line_no in traceback.walk_tb(each.__traceback__):
            lines.append(f"{frame.f_code.co_filename}:{line_no} {frame.f_code.co_name}")
        each = each.__cause__ or (None if each.__suppress_context__ else each.__context__)
    return lines


def configure(
    log_format: Format = "auto", *, strict: bool = False, stream: TextIO | None = None
) -> ClosedList:
    """Send all log lines to `stream` (standard output unless given), replacing what was configured before.

    Returns:
        The filter that counts what it drops.
    """
    out = sys.stdout if stream is None else stream
    as_text = log_format == "text" or (log_format == "auto" and out.isatty())
    handler = logging.StreamHandler(out)
    handler.setFormatter(TextLines() if as_text else JsonLines())
    closed = ClosedList(strict=strict)
    handler.addFilter(closed)
    logging.basicConfig(handlers=[handler], level=logging.INFO, force=True)
    quieten_libraries()
    return closed


def quieten_libraries() -> None:
    """Hush the libraries. httpx would log the address of each request, and the token is in it."""
    for name in _CHATTY:
        logging.getLogger(name).setLevel(logging.WARNING)


def _instant(record: logging.LogRecord) -> datetime:
    return datetime.fromtimestamp(record.created, UTC)


def _event(record: logging.LogRecord) -> str:
    said = record.getMessage()
    if record.name.partition(".")[0] not in _OURS:
        # What asyncio says of a task that failed goes on, below, in the error's own words.
        said = said.partition("\n")[0]
    return _TOKEN.sub("[token]", _PASSWORD.sub("[password]@", said))


def _fields(record: logging.LogRecord) -> dict[str, Any]:
    return {name: value for name, value in vars(record).items() if name in FIELDS}
