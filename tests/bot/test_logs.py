import ast
import io
import json
import logging
import re
from collections.abc import Callable, Iterator
from datetime import UTC, datetime

import pytest
from house.tree import modules

from bot.logs import FIELDS, ClosedList, JsonLines, StrayField, TextLines, configure, quieten_libraries, trace

AT = datetime(2026, 4, 6, 7, 30, 1, 250_000, tzinfo=UTC).timestamp()
log = logging.getLogger("bot.test")


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture(autouse=True)
def _as_before() -> Iterator[None]:
    root = logging.getLogger()
    handlers, level = root.handlers[:], root.level
    yield
    for each in root.handlers:
        if each not in handlers:
            each.close()
    root.handlers[:] = handlers
    root.setLevel(level)


def record(
    message: str = "outbox_sent", *args: object, name: str = "bot.outbound.sender", **fields: object
) -> logging.LogRecord:
    made = logging.LogRecord(name, logging.INFO, "sender.py", 1, message, args, None)
    made.created = AT
    vars(made).update(fields)
    return made


def raised(fail: Callable[[], object]) -> BaseException:
    with pytest.raises(Exception) as info:  # noqa: PT011  (any)
        fail()
    return info.value


def test_a_line_is_one_json_object() -> None:
    line = JsonLines().format(record(outbox_id=7, attempt=2, wait_s=0.5))

    assert json.loads(line) == {
        "at": "2026-04-06T07:30:01.250+00:00",
        "level": "info",
        "logger": "bot.outbound.sender",
        "event": "outbox_sent",
        "outbox_id": 7,
        "attempt": 2,
        "wait_s": 0.5,
    }
    assert "\n" not in line


def test_a_line_for_somebody_who_watches() -> None:
    line = TextLines().format(record(outbox_id=7, attempt=2))

    assert line == "2026-04-06 07:30:01 info     outbox_sent outbox_id=7 attempt=2"


@pytest.mark.parametrize("formatter", [JsonLines(), TextLines()])
def test_the_token_is_in_no_line(formatter: logging.Formatter) -> None:
    line = formatter.format(
        record(
            "HTTP Request: POST %s",
            "https://api.example.org/bot4100200300:AAEhBOweik6ad9r_QXMENQjcrGbqCr4K-bc/getMe",
        )
    )

    assert "AAEhBOweik6ad9r" not in line
    assert "bot[token]/getMe" in line


def fails_with_a_name() -> None:
    raise ValueError("Ada's knee hurts")


@pytest.mark.parametrize("formatter", [JsonLines(), TextLines()])
def test_a_library_that_goes_on_in_an_error_s_words_is_cut_short(formatter: logging.Formatter) -> None:
    error = raised(fails_with_a_name)
    made = record(f"Task exception was never retrieved\nfuture: <Task exception={error!r}>", name="asyncio")
    made.exc_info = (type(error), error, error.__traceback__)
    line = formatter.format(made)

    assert "Task exception was never retrieved" in line
    assert "Ada" not in line


def fails_after_another() -> None:
    try:
        fails_with_a_name()
    except ValueError as error:
        raise LookupError("no client Ada") from error


@pytest.mark.parametrize("formatter", [JsonLines(), TextLines()])
def test_an_error_is_told_by_its_kind_and_place_and_never_in_its_words(formatter: logging.Formatter) -> None:
    error = raised(fails_after_another)
    made = record("usecase_failed", reference="qv3kx7ab")
    made.exc_info = (type(error), error, error.__traceback__)
    line = formatter.format(made)

    assert "Ada" not in line
    for word in (
        "qv3kx7ab",
        "LookupError",
        "ValueError",
        "fails_after_another",
        "fails_with_a_name",
        "test_logs.py",
    ):
        assert word in line


def test_a_trace_ends_where_the_cause_is_kept_quiet() -> None:
    def quiet() -> None:
        try:
            fails_with_a_name()
        except ValueError:
            raise LookupError from None

    def loud() -> None:
        try:
            fails_with_a_name()
        except ValueError:
            raise LookupError  # noqa: B904  (that is the point)

    kinds = [[line for line in trace(raised(fail)) if line.endswith("Error")] for fail in (quiet, loud)]

    assert kinds == [["LookupError"], ["LookupError", "ValueError"]]


def test_a_field_off_the_list_fails_loudly_in_tests() -> None:
    with pytest.raises(StrayField, match=r"bot\.outbound\.sender, outbox_sent: called, text"):
        ClosedList(strict=True).filter(_stray())


def _stray() -> logging.LogRecord:
    return record(text="my knee", outbox_id=1, called="Ada")


def test_a_field_off_the_list_is_dropped_and_counted_in_production() -> None:
    closed = ClosedList(strict=False)
    kept = [closed.filter(each) for each in (_stray(), _stray(), record(text="again"), record(outbox_id=1))]
    stray = _stray()
    closed.filter(stray)

    assert kept == [True, True, True, True]
    assert closed.dropped == {"text": 4, "called": 3}
    assert not hasattr(stray, "text")
    assert "my knee" not in JsonLines().format(stray)
    assert "Ada" not in JsonLines().format(stray)


def test_fields_of_libraries_are_dropped_and_never_fail() -> None:
    closed = ClosedList(strict=True)

    assert closed.filter(record(name="uvicorn.error", color_message="hello"))
    assert closed.dropped == {"color_message": 1}


@pytest.mark.parametrize(
    "name", ["name", "text", "note", "site", "score", "html", "payload", "token", "zone"]
)
def test_nobodys_words_are_on_the_list(name: str) -> None:
    assert name not in FIELDS


def test_this_very_run_of_the_tests_refuses_stray_fields() -> None:
    with pytest.raises(StrayField):
        log.debug("something", extra={"text": "my knee"})


@pytest.mark.parametrize(
    ("log_format", "stream", "is_json"),
    [
        ("auto", io.StringIO, True),
        ("auto", Terminal, False),
        ("text", io.StringIO, False),
        ("json", Terminal, True),
    ],
)
def test_the_format_follows_the_setting_and_the_stream(
    log_format: str, stream: Callable[[], io.StringIO], is_json: bool
) -> None:
    out = stream()
    configure(log_format, stream=out)  # type: ignore[arg-type]
    log.info("outbox_sent", extra={"outbox_id": 7})

    assert out.getvalue().startswith("{") is is_json
    assert out.getvalue().count("\n") == 1


def test_lines_go_to_standard_output_and_stray_fields_are_counted(capsys: pytest.CaptureFixture[str]) -> None:
    closed = configure("json")
    log.info("outbox_sent", extra={"text": "my knee"})

    assert json.loads(capsys.readouterr().out)["event"] == "outbox_sent"
    assert closed.dropped == {"text": 1}


def test_libraries_are_hushed() -> None:
    out = io.StringIO()
    configure("json", stream=out)
    for name in ("httpx", "httpcore.http11", "telegram.ext.Application", "apscheduler.executors.default"):
        logging.getLogger(name).info("a line with the token in it")
    quieten_libraries()
    logging.getLogger("httpx").warning("a_warning")

    assert [json.loads(line)["event"] for line in out.getvalue().splitlines()] == ["a_warning"]


LEVELS = {"debug", "info", "warning", "error", "exception", "critical"}


def events_in(text: str) -> list[ast.expr]:
    """What every line of a module's log says first."""
    return [
        node.args[0]
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr in LEVELS
        and isinstance(node.func.value, ast.Name)
        and node.func.value.id == "log"
    ]


def is_constant(event: ast.expr) -> bool:
    """Whether an event is a constant name, or one of two."""
    if isinstance(event, ast.IfExp):
        return is_constant(event.body) and is_constant(event.orelse)
    return isinstance(event, ast.Constant) and re.fullmatch("[a-z_]+", str(event.value)) is not None


def test_every_event_is_a_constant_name() -> None:
    said = {path: events_in(text) for path, text in modules("bot").items() if "getLogger" in text}

    assert sum(map(len, said.values())) > 20
    assert [path for path, events in said.items() if not all(map(is_constant, events))] == []
    assert [is_constant(each) for each in events_in('log.info(f"hello {name}")\nlog.error("late")')] == [
        False,
        True,
    ]
