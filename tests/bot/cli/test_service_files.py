import configparser
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from typer.testing import CliRunner

from bot.cli.app import app
from bot.cli.service_files import text_of
from bot.settings import PREFIX, read_settings

HOME = "/home"
VERIFIER = shutil.which("systemd-analyze")


def unit_of(text: str) -> configparser.ConfigParser:
    """The sections of a unit; a key that comes twice, or is of no section, is an error."""
    parser = configparser.ConfigParser(interpolation=None, delimiters=("=",), comment_prefixes=("#",))
    parser.optionxform = str  # type: ignore[assignment,method-assign]
    parser.read_string(text)
    return parser


def printed(kind: str) -> str:
    done = CliRunner().invoke(app, ["service-file", kind])
    assert done.exit_code == 0
    return done.stdout


def test_the_unit_runs_the_program_under_a_user_of_its_own_and_starts_no_refused_one_again() -> None:
    service = unit_of(printed("systemd"))["Service"]

    assert service["ExecStart"] == f"{Path(sys.executable).with_name('plimsoll')} serve"
    expected = {
        "User": "plimsoll",
        "EnvironmentFile": "/etc/plimsoll.env",
        "ProtectSystem": "strict",
        "StateDirectory": "plimsoll",
        "WorkingDirectory": "/var/lib/plimsoll",
        "Restart": "on-failure",
        "RestartPreventExitStatus": "2",
        "NoNewPrivileges": "yes",
        "CapabilityBoundingSet": "",
        "UMask": "0077",
    }
    assert {name: service.get(name) for name in expected} == expected
    assert "WatchdogSec" not in service, "the program does not tell systemd that it lives"


@pytest.mark.parametrize(
    ("program", "command", "home"),
    [
        ("/srv/plimsoll/bin/plimsoll", "/srv/plimsoll/bin/plimsoll serve", "yes"),
        (f"{HOME}/orla/plimsoll", f"{HOME}/orla/plimsoll serve", "read-only"),
        ("/srv/our bots/50%/plimsoll", '"/srv/our bots/50%%/plimsoll" serve', "yes"),
    ],
)
def test_the_unit_names_the_program_where_it_lies(program: str, command: str, home: str) -> None:
    service = unit_of(text_of("systemd", Path(program)))["Service"]

    assert (service["ExecStart"], service["ProtectHome"]) == (command, home)


def test_systemd_reads_the_unit_or_else_the_machine_has_none(tmp_path: Path) -> None:
    unit = tmp_path / "plimsoll.service"
    unit.write_text(text_of("systemd", Path("/bin/true")))
    if VERIFIER is None:
        assert not Path("/run/systemd/system").exists(), "systemd runs here, and its verifier is missing"
        assert set(unit_of(unit.read_text()).sections()) == {"Unit", "Service", "Install"}
        return
    done = subprocess.run(  # noqa: S603  (systemd's own)
        [VERIFIER, "verify", "--man=no", str(unit)], capture_output=True, text=True, timeout=60, check=False
    )

    assert (done.returncode, [line for line in done.stderr.splitlines() if unit.name in line]) == (0, [])


def test_the_compose_file_waits_for_the_database_and_keeps_both_off_the_network() -> None:
    services = yaml.safe_load(printed("compose"))["services"]

    assert set(services) == {"plimsoll", "database"}
    assert not any("ports" in each for each in services.values())
    plimsoll = services["plimsoll"]
    assert plimsoll["command"] == ["plimsoll", "serve"]
    assert plimsoll["depends_on"] == {"database": {"condition": "service_healthy"}}
    assert (plimsoll["read_only"], plimsoll["cap_drop"]) == (True, ["ALL"])
    named = {each.partition(":")[0] for service in services.values() for each in service["volumes"]}
    assert named == set(yaml.safe_load(text_of("compose"))["volumes"])


@pytest.mark.parametrize("kind", ["systemd", "compose"])
def test_what_a_file_sets_is_taken_by_the_program(kind: str) -> None:
    if kind == "compose":
        given = yaml.safe_load(text_of(kind))["services"]["plimsoll"]["environment"]
    else:
        given = dict([unit_of(text_of(kind))["Service"]["Environment"].split("=", 1)])
    settings = read_settings(given | {f"{PREFIX}TOKEN": "4100:story"}, env_file=None)

    assert settings.log_format == "json"
    assert (settings.monitoring_port is not None) is (kind == "compose")


def test_another_kind_is_refused() -> None:
    assert CliRunner().invoke(app, ["service-file", "cron"]).exit_code == 2
