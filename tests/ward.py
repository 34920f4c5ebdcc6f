"""A program in good health to plant faults in, and what doctor says of it."""

import asyncio
from datetime import datetime, timedelta
from io import StringIO
from pathlib import Path

from rich.console import Console
from sqlalchemy import text

from bot.cli.doctor import doctor
from bot.clock import WallClock
from bot.localchat.network import Network
from bot.localchat.server import Server
from bot.store.backup import back_up_into
from bot.store.engine import make_engine

TOKEN = "4100:anchor-watch"


class Ward:
    """A program in good health, to plant faults in."""

    def __init__(self, folder: Path, url: str, network: Network, server: Server) -> None:
        self.folder, self.url, self.network, self.server = folder, url, network, server
        self.ahead = timedelta(0)
        self.backups = folder / "backups"
        self.backups.mkdir()
        back_up_into(url, self.backups, self.now(), 7)
        self.environ = {
            "PLIMSOLL_TOKEN": TOKEN,
            "PLIMSOLL_DATABASE_URL": url,
            "PLIMSOLL_API_URL": server.url,
            "PLIMSOLL_BACKUP_DIR": str(self.backups),
        }

    def now(self) -> datetime:
        return WallClock().now() + self.ahead

    def run(self, *statements: object) -> None:
        engine = make_engine(self.url)
        with engine.begin() as connection:
            for each in statements:
                connection.execute(text(each) if isinstance(each, str) else each)  # type: ignore[call-overload]
        engine.dispose()


def say_the_time(server: Server, time: str) -> None:
    """Have the service say in its answers what time it is, as the real one does."""
    server._service.server_state.default_headers = [(b"date", time.encode())]


async def examined(ward: Ward) -> tuple[int, dict[str, str]]:
    """Doctor's status, and what it says by what it looked at; from another thread, as from another process."""
    out = StringIO()
    console = Console(file=out, width=60)
    status = await asyncio.to_thread(doctor, console, ward.environ, ward.now, None)
    assert "anchor-watch" not in out.getvalue()
    lines = out.getvalue().splitlines()
    return status, dict(line.split(": ", 1) for line in lines[:-1]) | {"": lines[-1]}
