"""Looks at the doors of this machine, where they are asked for: of the monitoring, and of the webhook."""

import socket

import httpx

from bot.cli.findings import Finding, good, wrong
from bot.settings import Settings

PATIENCE_S = 5.0
"""How long an answer may take. [s]"""

EVERY = {"0.0.0.0": "127.0.0.1", "::": "::1"}  # noqa: S104  (asked on loopback, and never listened on here)
"""Where to ask a door that is open on every address."""


def monitoring_findings(settings: Settings, *, is_served: bool) -> list[Finding]:
    """Look at the port: somebody else's program may hold it, or ours may not answer there."""
    port, address = settings.monitoring_port, str(settings.monitoring_address)
    if port is None:
        return []
    if not is_served:
        return [port_finding("monitoring", address, port)]
    try:
        # What the machine's own settings send through a proxy must not go there.
        with httpx.Client(timeout=PATIENCE_S, trust_env=False) as client:
            answer = client.get(f"{_root(address, port)}/healthz")
    except httpx.HTTPError as error:
        return [
            wrong(
                "monitoring",
                f"nobody answers on port {port} ({type(error).__name__}), and plimsoll serve runs. It may have been "
                "started before PLIMSOLL_MONITORING_PORT was set: stop it and start it again.",
            )
        ]
    if answer.status_code == httpx.codes.OK:
        return [good("monitoring", f"port {port}")]
    return [
        wrong(
            "monitoring",
            f"on port {port} the answer is HTTP {answer.status_code}: a part of plimsoll serve has ended, or another "
            "program answers there. See the log.",
        )
    ]


def webhook_door_findings(settings: Settings, *, is_served: bool) -> list[Finding]:
    """Look at the port that messages are brought to: whoever comes without the secret must be turned away there."""
    url, port, address = settings.webhook_url, settings.webhook_port, str(settings.webhook_address)
    if url is None:
        return []
    if not is_served:
        return [port_finding("webhook door", address, port)]
    try:
        with httpx.Client(timeout=PATIENCE_S, trust_env=False) as client:
            status = client.post(f"{_root(address, port)}{url.path or '/'}").status_code
    except httpx.HTTPError as error:
        status, cause = None, f"nobody answers on port {port} ({type(error).__name__})"
    else:
        cause = f"on port {port} the answer to a stranger is HTTP {status}"
    if status == httpx.codes.FORBIDDEN:
        return [good("webhook door", f"port {port}")]
    return [
        wrong(
            "webhook door",
            f"{cause}, and plimsoll serve runs. It may have been started before PLIMSOLL_WEBHOOK_URL was set, or "
            "another program answers there: stop it and start it again.",
        )
    ]


def _root(address: str, port: int) -> str:
    asked = EVERY.get(address, address)
    host = f"[{asked}]" if ":" in asked else asked
    return f"http://{host}:{port}"


def port_finding(name: str, address: str, port: int) -> Finding:
    """Return whether a port of this machine is free for what is not served now: the monitoring, or the webhook."""
    of = f"PLIMSOLL_{name.split(maxsplit=1)[0].upper()}"
    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    try:
        socket.create_server((address, port), family=family).close()
    except OSError:
        return wrong(
            name,
            f"port {port} cannot be listened on: another program may hold it. plimsoll serve would not start. Set "
            f"{of}_PORT to a free one, and {of}_ADDRESS to an address of this machine.",
        )
    return good(name, f"port {port} is free")
