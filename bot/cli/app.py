"""The command line."""

import json
import sys
from io import TextIOWrapper
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console

from bot.cli import blocks, decisions, keeping, privacy, reading, serving
from bot.cli import demo as demo_command
from bot.cli import doctor as doctor_command
from bot.cli.rehearsing import rehearse as rehearse_block

app = typer.Typer(
    help="Client check-ins over a messaging platform, for a strength coach.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)
coach_app = typer.Typer(help="Coaches.", no_args_is_help=True)
block_app = typer.Typer(help="Blocks in files: xlsx, csv, yaml.", no_args_is_help=True)
app.add_typer(coach_app, name="coach")
app.add_typer(block_app, name="block")
decision_app = typer.Typer(help="What was decided, and why.", no_args_is_help=True)
app.add_typer(decision_app, name="decision")
inbox_app = typer.Typer(help="Incoming messages.", no_args_is_help=True)
app.add_typer(inbox_app, name="inbox")

console = Console()
errors = Console(stderr=True)


@app.command()
def demo(
    out: Annotated[Path, typer.Option(help="Folder for messages.jsonl and plimsoll.db.")] = Path(
        "plimsoll-demo"
    ),
    season: Annotated[bool, typer.Option(help="Play a coach's season instead, with its reports.")] = False,
) -> None:
    """Play weeks of an invented story through the real bot, on this machine alone."""
    told = demo_command.SEASON if season else demo_command.STORY
    raise typer.Exit(demo_command.demo(out, console, told))


@app.command()
def serve() -> None:
    """Run the bot."""
    raise typer.Exit(serving.serve(errors))


@app.command()
def migrate() -> None:
    """Bring the database to this program's schema."""
    raise typer.Exit(serving.migrate(console, errors))


@app.command()
def doctor() -> None:
    """Look at everything the bot needs; say what is wrong, and what to do. Status 1 when something is."""
    raise typer.Exit(doctor_command.doctor(console))


@app.command()
def backup(
    to: Annotated[
        Path | None, typer.Option(help="Folder, in place of PLIMSOLL_BACKUP_DIR; nothing there is deleted.")
    ] = None,
) -> None:
    """Copy the database while the bot runs, and check the copy. SQLite alone."""
    raise typer.Exit(keeping.backup_now(to, console, errors))


@app.command()
def restore(file: Annotated[Path, typer.Argument(help="A backup.")]) -> None:
    """Put a backup in the place of the database, which is kept aside; the bot must be stopped. SQLite alone."""
    raise typer.Exit(keeping.restore_from(file, console, errors))


@app.command()
def export(
    file: Annotated[Path, typer.Argument(help="A new file that ends in .zip.")],
    coach: Annotated[str, typer.Option(help="The coach's name.")],
    client: Annotated[str, typer.Option(help="The client's name.")],
) -> None:
    """Write all that is kept about one client into a zip: JSON, csv, and an index."""
    raise typer.Exit(privacy.export(coach, client, file, console, errors))


@app.command()
def erase(
    coach: Annotated[str, typer.Option(help="The coach's name.")],
    client: Annotated[str, typer.Option(help="The client's name.")],
    sure: Annotated[bool, typer.Option("--sure", help="Do it: it cannot come back.")] = False,
) -> None:
    """Delete all that is kept about one client; a count without a name stays."""
    raise typer.Exit(privacy.erase(coach, client, console, errors, sure=sure))


@inbox_app.command("replay")
def inbox_replay(
    reference: Annotated[str, typer.Argument(help="As the log and the answer to the sender give it.")],
) -> None:
    """Take up again a message that the bot failed on."""
    raise typer.Exit(keeping.replay(reference, console, errors))


@coach_app.command("add")
def coach_add(
    name: Annotated[str, typer.Argument(help="As clients will see it.")],
    zone: Annotated[str, typer.Option(help="IANA time zone, such as Europe/Lisbon.")] = "UTC",
) -> None:
    """Add a coach, and print the one-time code that binds her own account."""
    raise typer.Exit(serving.add_coach(name, zone, console, errors))


@block_app.command("check")
def block_check(file: Annotated[Path, typer.Argument(help="A file in xlsx, csv or yaml.")]) -> None:
    """Read a block; print what is in it, or every problem with its place."""
    raise typer.Exit(blocks.check_block(file, console, errors))


@block_app.command("template")
def block_template(file: Annotated[Path, typer.Argument(help="A new file that ends in .xlsx.")]) -> None:
    """Write a form to fill in: examples, lists to choose from, notes, and how to fill it in."""
    raise typer.Exit(blocks.write_template(file, console, errors))


@block_app.command("copy")
def block_copy(
    file: Annotated[Path, typer.Argument(help="A file in xlsx, csv or yaml.")],
    to: Annotated[Path, typer.Argument(help="A new file that ends in .xlsx, .csv or .yaml.")],
) -> None:
    """Write a block once more as another kind of file; it says the same."""
    raise typer.Exit(blocks.copy_block(file, to, console, errors))


@decision_app.command("show")
def decision_show(
    decision_id: Annotated[int, typer.Argument(metavar="ID", help="Its number.")],
) -> None:
    """Print a decision with all that it rests on, and make it once more from that."""
    raise typer.Exit(decisions.show(decision_id, console, errors))


@app.command()
def rehearse(
    file: Annotated[Path, typer.Argument(help="A block in xlsx, csv or yaml.")],
    clients: Annotated[int, typer.Option(min=1, max=2000, help="Simulated clients.")] = 200,
    weeks: Annotated[int | None, typer.Option(min=1, help="First weeks of the block; else all.")] = None,
    seed: Annotated[int, typer.Option(min=0, help="The same seed gives the same rehearsal.")] = 1,
    out: Annotated[Path, typer.Option(help="Folder for the picture, rehearsal.png.")] = Path(),
) -> None:
    """Play a block against simulated clients before anyone is sent it: loads by week, rules that spoke, a picture."""
    raise typer.Exit(rehearse_block(file, clients, weeks, seed, out, console, errors))


@app.command(help=reading.HELP)
def read(
    text: Annotated[str | None, typer.Argument(help="The reply, as a client would type it.")] = None,
    exercise: Annotated[str | None, typer.Option(help="Exercise at the cursor.")] = None,
    planned: Annotated[str | None, typer.Option(help="What was asked for: '5x8 @ 92.5 kg'.")] = None,
    unit: Annotated[
        str | None, typer.Option(help="The client's unit: kg or lb; else that of --planned.")
    ] = None,
    batch: Annotated[bool, typer.Option("--batch", help="Read JSON lines from standard input.")] = False,
) -> None:
    """Show as JSON how a reply is understood."""
    if batch:
        if isinstance(sys.stdin, TextIOWrapper):
            sys.stdin.reconfigure(encoding="utf-8", errors="replace")
        raise typer.Exit(reading.read_batch(sys.stdin, sys.stdout, errors))
    if text is None:
        errors.print("Give the reply to read, or --batch with JSON lines on standard input.")
        raise typer.Exit(2)
    status, answer = reading.read_one(text, exercise, planned, unit)
    if status:
        errors.print(answer, markup=False)
    else:
        sys.stdout.write(json.dumps(answer, ensure_ascii=False) + "\n")
    raise typer.Exit(status)
