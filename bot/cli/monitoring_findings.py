"""Looks at the door of the monitoring, where one is asked for."""

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
        return [_free(address, port)]
    asked = EVERY.get(address, address)
    host = f"[{asked}]" if ":" in asked else asked
    try:
        # What the machine's own settings send through a proxy must not go there.
        with httpx.Client(timeout=PATIENCE_S, trust_env=False) as client:
            answer = client.get(f"http://{host}:{port}/healthz")
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


def _free(address: str, port: int) -> Finding:
    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    try:
        socket.create_server((address, port), family=family).close()
    except OSError:
        return wrong(
            "monitoring",
            f"port {port} cannot be listened on: another program may hold it. plimsoll serve would not start. Set "
            "PLIMSOLL_MONITORING_PORT to a free one, and PLIMSOLL_MONITORING_ADDRESS to an address of this machine.",
        )
    return good("monitoring", f"port {port} is free")
