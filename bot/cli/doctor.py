"""`plimsoll doctor`: looks at everything the program needs, and says what is wrong and what to do."""

import os
import stat
from collections.abc import Callable, Mapping
from datetime import datetime
from pathlib import Path

from rich.console import Console
from rich.text import Text

from bot.cli.findings import Finding, State, good, told, wrong
from bot.cli.machine_findings import machine_findings
from bot.cli.monitoring_findings import monitoring_findings, webhook_door_findings
from bot.cli.platform_findings import platform_findings
from bot.cli.store_findings import serving_findings, store_findings, waiting_findings
from bot.clock import WallClock
from bot.logs import quieten_libraries
from bot.settings import Settings, SettingsProblem, read_settings
from bot.store.condition import Standing, condition_of
from bot.store.engine import is_served
from bot.store.heartbeat import Heartbeat

WALL = WallClock()

COLOURS = {State.GOOD: "green", State.TOLD: "yellow", State.WRONG: "bold red"}

OTHERS = stat.S_IRWXG | stat.S_IRWXO

UNASKABLE = frozenset({Standing.UNREACHABLE, Standing.NO_DRIVER})


def doctor(
    console: Console,
    environ: Mapping[str, str] = os.environ,
    now: Callable[[], datetime] = WALL.now,
    env_file: Path | None = Path(".env"),
) -> int:
    """Print a line for each thing looked at; 1 when something is wrong."""
    quieten_libraries()
    findings = look(environ, now, env_file)
    for finding in findings:
        console.print(_line(finding), soft_wrap=True)
    bad = sum(finding.state is State.WRONG for finding in findings)
    console.print(f"{bad} to mend." if bad else "Nothing is wrong.")
    return 1 if bad else 0


def look(environ: Mapping[str, str], now: Callable[[], datetime], env_file: Path | None) -> list[Finding]:
    """Look at everything. Without settings there is nothing more to look at."""
    try:
        settings = read_settings(environ, env_file=env_file, token_needed=False)
    except SettingsProblem as problem:
        return [wrong("settings", str(problem))]
    except (OSError, UnicodeError):
        return [
            wrong("settings", "the file .env cannot be read. Mend its owner or mode; it is text in UTF-8.")
        ]
    heartbeat = Heartbeat(settings.database_url)
    return [
        good("settings"),
        *_readable(env_file),
        *platform_findings(settings, now),
        *_of_the_database(settings, heartbeat, now()),
        *machine_findings(settings, heartbeat, now()),
    ]


def _readable(env_file: Path | None) -> list[Finding]:
    """Return that others on the machine can read the token, where they can."""
    if env_file is None or not env_file.is_file() or not env_file.stat().st_mode & OTHERS:
        return []
    return [told("file of settings", "others on this machine can read it. Run chmod 600 .env.")]


def _of_the_database(settings: Settings, heartbeat: Heartbeat, now: datetime) -> list[Finding]:
    condition = condition_of(settings.database_url)
    found = store_findings(condition)
    if condition.standing in UNASKABLE:
        return [*found, told("serving", "not looked at: the database cannot be reached.")]
    served = is_served(settings.database_url)
    return [
        *found,
        *waiting_findings(is_served=served, since=condition.waits_since, now=now),
        *serving_findings(served, heartbeat, settings, now),
        *monitoring_findings(settings, is_served=served),
        *webhook_door_findings(settings, is_served=served),
    ]


def _line(finding: Finding) -> Text:
    line = Text(f"{finding.name}: ")
    if finding.state is State.GOOD:
        line.append("good", style=COLOURS[State.GOOD])
        if finding.said:
            line.append(f" ({finding.said})")
    else:
        line.append(finding.said, style=COLOURS[finding.state])
    return line
