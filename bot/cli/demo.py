"""`plimsoll demo`: the story or the season, played on this machine alone."""

import asyncio
from collections.abc import Callable
from dataclasses import dataclass
from importlib.resources import as_file, files
from pathlib import Path

from rich.console import Console
from rich.panel import Panel
from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn
from rich.text import Text

from bot.assembly.stage import staged
from bot.assembly.story import Stage, play_script, read_people, read_script
from bot.cli.highlights import Shown, documents, highlights, last_picture, season_highlights

KEPT = ("messages.jsonl", "plimsoll.db", "digest.png", "season.png")
FILES = "files"
"""Folder for what the coach was sent as files."""


@dataclass(frozen=True, slots=True)
class Told:
    """A story that can be played.

    Attributes:
        people: File of the cast.
        script: File of what happens.
        coach: Key of the coach whose pictures and files are kept.
        opening: What is said before it.
        highlights: What is worth printing of it.
    """

    people: str
    script: str
    coach: str
    opening: str
    highlights: Callable[[Stage], list[Shown]]


STORY = Told(
    "people.yaml",
    "script.yaml",
    "marit",
    "Playing six weeks of a lifeboat crew's coach: the real bot, a chat service on this machine, no account.",
    highlights,
)
SEASON = Told(
    "season_people.yaml",
    "season.yaml",
    "edda",
    "Playing a coach's season of two blocks: the real bot, a chat service on this machine, no account.",
    season_highlights,
)


@dataclass(frozen=True, slots=True)
class Played:
    """What a play leaves.

    Attributes:
        said: Every message both ways, as JSON lines.
        shown: What is worth printing.
        pictures: Pictures by name: the coach's last digest, her season.
        files: What she was sent as files, by name.
    """

    said: str
    shown: list[Shown]
    pictures: dict[str, bytes]
    files: dict[str, bytes]


def demo(out: Path, console: Console, told: Told = STORY) -> int:
    """Play a story into a folder; returns the exit status."""
    out.mkdir(parents=True, exist_ok=True)
    for name in KEPT:
        for path in out.glob(f"{name}*"):
            path.unlink()
    played = asyncio.run(play(out, console, told))
    (out / "messages.jsonl").write_text(played.said, encoding="utf-8")
    for name, picture in played.pictures.items():
        (out / name).write_bytes(picture)
    (out / FILES).mkdir(exist_ok=True)
    for name, content in played.files.items():
        (out / FILES / name).write_bytes(content)
    show(out, played, console)
    return 0


async def play(out: Path, console: Console, told: Told) -> Played:
    """Play a story."""
    console.print(told.opening)
    with as_file(files("demo_scenario")) as folder:
        people, script = read_people(folder, told.people), read_script(folder, told.script)
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
                pictures = {
                    "digest.png": last_picture(stage, told.coach, "by client"),
                    "season.png": last_picture(stage, told.coach, "The season in weeks"),
                }
                return Played(
                    stage.network.jsonl(),
                    told.highlights(stage),
                    {name: picture for name, picture in pictures.items() if picture is not None},
                    documents(stage, told.coach),
                )


def show(out: Path, played: Played, console: Console) -> None:
    """Print what is worth a newcomer's minute, and what to try next."""
    for each in played.shown:
        panel = Panel(Text(each.text), title=each.title, title_align="left", width=min(console.width, 84))
        console.print(panel)
    console.print(f"Everything that was said: {out / 'messages.jsonl'}", markup=False, soft_wrap=True)
    console.print(f"The coach's last picture: {out / 'digest.png'}", markup=False, soft_wrap=True)
    if played.files:
        console.print(f"The files that she was sent: {out / FILES}", markup=False, soft_wrap=True)
    console.print(f"Everything that was kept: {out / 'plimsoll.db'}", markup=False, soft_wrap=True)
    console.print(
        'Next: plimsoll try, in a browser; plimsoll read "92,5 8 8 8 7 6" --exercise "Hip thrust" '
        '--planned "5x8 @ 92.5 kg"; '
        "or plimsoll serve with a token of your own (README).",
        markup=False,
        soft_wrap=True,
    )
