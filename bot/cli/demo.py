"""`plimsoll demo`: the story, played on this machine alone."""

import asyncio
from dataclasses import dataclass
from importlib.resources import as_file, files
from pathlib import Path

from rich.console import Console
from rich.panel import Panel
from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn
from rich.text import Text

from bot.assembly.stage import staged
from bot.assembly.story import play_script, read_people, read_script
from bot.cli.highlights import Shown, highlights, last_picture

KEPT = ("messages.jsonl", "plimsoll.db", "digest.png")


@dataclass(frozen=True, slots=True)
class Played:
    """What a play leaves.

    Attributes:
        said: Every message both ways, as JSON lines.
        shown: What is worth printing.
        digest: The picture of the coach's last digest; None when there was none.
    """

    said: str
    shown: list[Shown]
    digest: bytes | None


def demo(out: Path, console: Console) -> int:
    """Play the story into a folder; returns the exit status."""
    out.mkdir(parents=True, exist_ok=True)
    for name in KEPT:
        for path in out.glob(f"{name}*"):
            path.unlink()
    played = asyncio.run(play(out, console))
    (out / "messages.jsonl").write_text(played.said, encoding="utf-8")
    if played.digest is not None:
        (out / "digest.png").write_bytes(played.digest)
    show(out, played.shown, console)
    return 0


async def play(out: Path, console: Console) -> Played:
    """Play the story."""
    console.print(
        "Playing six weeks of a lifeboat crew's coach: the real bot, a chat service on this machine, no account."
    )
    with as_file(files("demo_scenario")) as folder:
        people, script = read_people(folder), read_script(folder)
        columns = (TextColumn("{task.description}"), BarColumn(), TimeElapsedColumn())
        with Progress(*columns, console=console) as bar:
            task = bar.add_task("The story", total=None)
            async with staged(folder, people, f"sqlite:///{out / 'plimsoll.db'}") as stage:
                await play_script(
                    stage,
                    script,
                    lambda done, whole, at: bar.update(
                        task, completed=done, total=whole, description=f"{at:%a %d %b %H:%M}"
                    ),
                )
                return Played(stage.network.jsonl(), highlights(stage), last_picture(stage, "marit"))


def show(out: Path, shown: list[Shown], console: Console) -> None:
    """Print what is worth a newcomer's minute, and what to try next."""
    for each in shown:
        panel = Panel(Text(each.text), title=each.title, title_align="left", width=min(console.width, 84))
        console.print(panel)
    console.print(f"Everything that was said: {out / 'messages.jsonl'}", markup=False, soft_wrap=True)
    console.print(f"The coach's last picture: {out / 'digest.png'}", markup=False, soft_wrap=True)
    console.print(f"Everything that was kept: {out / 'plimsoll.db'}", markup=False, soft_wrap=True)
    console.print(
        'Next: plimsoll read "92,5 8 8 8 7 6" --exercise "Hip thrust" --planned "5x8 @ 92.5 kg", '
        "or plimsoll serve with a token of your own (README).",
        markup=False,
        soft_wrap=True,
    )
