"""`plimsoll rehearse`: a block played against simulated clients, as tables and a picture."""

from collections.abc import Sequence
from pathlib import Path

from rich import box
from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn
from rich.table import Table
from rich.text import Text

from bot.cli.blocks import read_file
from bot.clock import seeded_chance
from bot.render.decision import decision_lines
from bot.render.rehearsal import Grid, breach_lines, closing, grids, heading
from bot.render.rehearsal_chart import rehearsal_picture
from core.loads.decision import next_decision
from core.oversight.rehearsal import rehearsal
from core.oversight.rehearsal_log import Decide
from core.oversight.rehearsal_result import Rehearsal
from core.oversight.simulated_client import Played, played
from core.programme.block import Block

PICTURE = "rehearsal"
SHOWN = 3
"""Breaches printed in full."""


def rehearse(
    file: Path,
    clients: int,
    weeks: int | None,
    seed: int,
    out: Path,
    console: Console,
    errors: Console,
    decide: Decide = next_decision,
) -> int:
    """Play a block against simulated clients; print what came of it, and write the picture.

    Args:
        file: The block.
        clients: How many. [1..]
        weeks: Its first weeks; None for all.
        seed: The same seed gives the same rehearsal.
        out: Folder for the picture.
        console: For what came of it.
        errors: For what went wrong.
        decide: What decides loads; for tests, another.

    Returns:
        0; 1 for a block with problems, and where a decision broke a rule; 2 for what cannot be read or written.
    """
    read = read_file(file, errors)
    if isinstance(read, int):
        return read
    block = read.block
    if weeks is not None and weeks > block.weeks:
        length = "1 week" if block.weeks == 1 else f"{block.weeks} weeks"
        return _refused(errors, f"The block has {length}; --weeks can be 1 to {block.weeks}.")
    runs = _runs(block, block.weeks if weeks is None else weeks, clients, seed, console, decide)
    found = rehearsal(block, block.weeks if weeks is None else weeks, runs, read.warnings)
    _say(heading(found, seed), console)
    for grid in grids(found):
        console.print(Text(f"\n{grid.title}", style="bold"), _table(grid))
        _say(grid.notes, console)
    _say(["", *closing(found), "", *breach_lines(found)], console)
    _say(_breaches(found), console)
    status = _written(rehearsal_picture(found, seed), out, console, errors)
    return status or (1 if found.breaches else 0)


def _runs(
    block: Block, weeks: int, clients: int, seed: int, console: Console, decide: Decide
) -> list[Played]:
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeElapsedColumn())
    with Progress(*columns, console=console, transient=True, disable=not console.is_terminal) as bar:
        task = bar.add_task("Simulated clients", total=clients)
        runs = []
        for number in range(1, clients + 1):
            runs.append(played(block, weeks, number, seeded_chance(seed, number), decide=decide))
            bar.advance(task)
    return runs


def _table(grid: Grid) -> Table:
    table = Table(box=box.SIMPLE_HEAD)
    for place, name in enumerate(grid.headings):
        table.add_column(name, justify="right" if place else "left", no_wrap=True)
    for row in grid.rows:
        table.add_row(*row)
    return table


def _breaches(found: Rehearsal) -> list[str]:
    lines = []
    for one in found.breaches[:SHOWN]:
        lines += ["", f"Client {one.client}: {one.rule}", *decision_lines(one.inputs, one.decision)]
    return lines


def _written(picture: bytes, out: Path, console: Console, errors: Console) -> int:
    """Write the picture under the first name that is free; what is there already is left as it is."""
    taken = 0
    while True:
        name = f"{PICTURE}.png" if not taken else f"{PICTURE}-{taken + 1}.png"
        try:
            out.mkdir(parents=True, exist_ok=True)
            with (out / name).open("xb") as target:
                target.write(picture)
        except FileExistsError:
            if not out.is_dir():
                return _refused(errors, f"Cannot write into {out}: it is no folder.")
            taken += 1
            continue
        except OSError as error:
            return _refused(errors, f"Cannot write {out / name}: {error.strerror}.")
        there = f" ({out / PICTURE}.png was there already, and is left as it is.)" if taken else ""
        _say(["", f"The picture: {out / name}{there}"], console)
        return 0


def _say(lines: Sequence[str], console: Console) -> None:
    if lines:
        console.print("\n".join(lines), markup=False, highlight=False)


def _refused(errors: Console, words: str) -> int:
    errors.print(words, markup=False, highlight=False, soft_wrap=True)
    return 2
