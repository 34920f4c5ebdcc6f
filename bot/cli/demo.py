"""`plimsoll demo`: the story, played on this machine alone."""

import asyncio
from importlib.resources import as_file, files
from pathlib import Path

from rich.console import Console
from rich.panel import Panel
from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn
from rich.text import Text

from bot.assembly.stage import staged
from bot.assembly.story import play_script, read_people, read_script
from bot.cli.highlights import Shown, highlights

KEPT = ("messages.jsonl", "plimsoll.db")


def demo(out: Path, console: Console) -> int:
    """Play the story into a folder; returns the exit status."""
    out.mkdir(parents=True, exist_ok=True)
    for name in KEPT:
        for path in out.glob(f"{name}*"):
            path.unlink()
    said, shown = asyncio.run(play(out, console))
    (out / "messages.jsonl").write_text(said, encoding="utf-8")
    show(out, shown, console)
    return 0


async def play(out: Path, console: Console) -> tuple[str, list[Shown]]:
    """Play the story; returns every message as JSON lines, and what is worth printing."""
    console.print(
        "Playing two weeks of a lifeboat crew's coach: the real bot, a chat service on this machine, no account."
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
                return stage.network.jsonl(), highlights(stage)


def show(out: Path, shown: list[Shown], console: Console) -> None:
    """Print what is worth a newcomer's minute, and what to try next."""
    for each in shown:
        panel = Panel(Text(each.text), title=each.title, title_align="left", width=min(console.width, 84))
        console.print(panel)
    console.print(f"Everything that was said: {out / 'messages.jsonl'}", markup=False, soft_wrap=True)
    console.print(f"Everything that was kept: {out / 'plimsoll.db'}", markup=False, soft_wrap=True)
    console.print(
        'Next: plimsoll read "92,5 8 8 8 7 6" --exercise "Hip thrust" --planned "5x8 @ 92.5 kg", '
        "or plimsoll serve with a token of your own (README).",
        markup=False,
        soft_wrap=True,
    )
