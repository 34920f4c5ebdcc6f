"""`plimsoll service-file`: what has a machine keep `plimsoll serve` running, with as few rights as it needs."""

import sys
from pathlib import Path

SYSTEMD = """\
# Keep as /etc/systemd/system/plimsoll.service. Make the user first:
#   useradd --system --home-dir /var/lib/plimsoll --shell /usr/sbin/nologin plimsoll
# and /etc/plimsoll.env, readable by root alone, with the line PLIMSOLL_TOKEN=...
# Then: systemctl daemon-reload && systemctl enable --now plimsoll

[Unit]
Description=Plimsoll, client check-ins for a strength coach
Wants=network-online.target
After=network-online.target
StartLimitIntervalSec=600
StartLimitBurst=10
# A refused token cannot be told over the platform: name a unit of yours here that tells you.
#OnFailure=

[Service]
Type=exec
User=plimsoll
Group=plimsoll
StateDirectory=plimsoll
StateDirectoryMode=0700
WorkingDirectory=/var/lib/plimsoll
UMask=0077
EnvironmentFile=/etc/plimsoll.env
Environment=PLIMSOLL_LOG_FORMAT=json
ExecStart={program} serve
Restart=on-failure
RestartSec=15
# Status 2: a start would be refused again until somebody has mended what it says.
RestartPreventExitStatus=2
TimeoutStopSec=70
NoNewPrivileges=yes
CapabilityBoundingSet=
AmbientCapabilities=
ProtectSystem=strict
ProtectHome={home}
PrivateTmp=yes
PrivateDevices=yes
ProtectClock=yes
ProtectControlGroups=yes
ProtectHostname=yes
ProtectKernelLogs=yes
ProtectKernelModules=yes
ProtectKernelTunables=yes
ProtectProc=invisible
LockPersonality=yes
RestrictAddressFamilies=AF_UNIX AF_INET AF_INET6
RestrictNamespaces=yes
RestrictRealtime=yes
RestrictSUIDSGID=yes
RemoveIPC=yes
SystemCallArchitectures=native
SystemCallFilter=@system-service
SystemCallErrorNumber=EPERM

[Install]
WantedBy=multi-user.target
"""

COMPOSE = """\
# Keep as compose.yaml in the folder of Plimsoll's source, and beside it, readable by you alone:
#   plimsoll.env   PLIMSOLL_TOKEN=... and PGPASSWORD=... with a long word of your own
#   database.env   POSTGRES_PASSWORD=... with the same word
# Nothing of it is reached from other machines.
# Backups are yours to make: docker compose exec database pg_dump -U plimsoll plimsoll

services:
  plimsoll:
    build:
      context: .
      dockerfile_inline: |
        FROM python:3.11-slim
        COPY . /srv/plimsoll
        RUN pip install --no-cache-dir '/srv/plimsoll[postgres]'
        RUN useradd --system --create-home --home-dir /var/lib/plimsoll plimsoll
        USER plimsoll
        WORKDIR /var/lib/plimsoll
    command: [plimsoll, serve]
    env_file: plimsoll.env
    environment:
      PLIMSOLL_DATABASE_URL: postgresql://plimsoll@database/plimsoll
      PLIMSOLL_LOG_FORMAT: json
      PLIMSOLL_MONITORING_PORT: "9464"
    healthcheck:
      test:
        - CMD
        - python
        - -c
        - import urllib.request; urllib.request.urlopen("http://127.0.0.1:9464/healthz", timeout=5)
      interval: 30s
      timeout: 10s
      start_period: 60s
    depends_on:
      database:
        condition: service_healthy
    restart: on-failure:10
    stop_grace_period: 70s
    init: true
    read_only: true
    tmpfs: [/tmp]
    volumes:
      - state:/var/lib/plimsoll
    cap_drop: [ALL]
    security_opt: ["no-new-privileges:true"]

  database:
    image: postgres:15
    env_file: database.env
    environment:
      POSTGRES_USER: plimsoll
      POSTGRES_DB: plimsoll
    volumes:
      - database:/var/lib/postgresql/data
    healthcheck:
      test: ["CMD", "pg_isready", "-U", "plimsoll", "-d", "plimsoll"]
      interval: 5s
      timeout: 5s
      retries: 12
    restart: unless-stopped

volumes:
  database:
  state:
"""


def text_of(kind: str, program: Path | None = None) -> str:
    """Return the file.

    Args:
        kind: `systemd` or `compose`.
        program: Where the command lies; beside the running Python unless given.
    """
    if kind == "compose":
        return COMPOSE
    path = program if program is not None else Path(sys.executable).with_name("plimsoll")
    # A program that lies in somebody's home must at least be readable there.
    home = "read-only" if path.is_relative_to("/home") or path.is_relative_to("/root") else "yes"
    # A percent sign begins a name of systemd's own, and a blank would end the path.
    written = str(path).replace("%", "%%")
    return SYSTEMD.format(program=f'"{written}"' if " " in written else written, home=home)
