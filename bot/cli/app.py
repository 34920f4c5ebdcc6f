"""The command line.

Each command imports what it runs when it runs: whoever asks for help, or has a reply read, need not wait until the chat
platform's library, the pictures and the spreadsheets are there.
"""

import json
import sys
from enum import StrEnum
from io import TextIOWrapper
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console

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

READ_HELP = """Show as JSON how a reply is understood.

With --batch one JSON object a line is read from standard input: {"text", "exercise", "planned", "unit"}, all but the
text optional. Each is answered with one line, in order and at once; a line that cannot be taken is answered with
{"error"}, and the exit status is then 1. Empty lines are passed over.

A reading has: sets, each with load (a decimal as text, bw, bw+5 or bw-10), unit, reps or seconds, side (L, R or null),
and rir or rpe where said for that set; effort, {"rpe": n} or {"rir": n}, where said once; pain and soreness, each with
site, side and score; as_written, skip and undo; note, for the coach; ask, null or the readings to choose from: then
nothing is kept before one is chosen; stop_sign.
"""


class ServiceKind(StrEnum):
    """What keeps services running."""

    SYSTEMD = "systemd"
    COMPOSE = "compose"


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
    from bot.cli import demo as play

    raise typer.Exit(play.demo(out, console, play.SEASON if season else play.STORY))


@app.command("try")
def try_out(
    keep: Annotated[
        Path | None, typer.Option(help="A new or empty folder that keeps the database; else it is removed.")
    ] = None,
    block: Annotated[
        Path | None, typer.Option(help="Your own block in xlsx, csv or yaml, with a fresh coach.")
    ] = None,
    port: Annotated[int, typer.Option(min=0, max=65535, help="Port; 0 for a free one.")] = 0,
) -> None:
    """Try it in a browser: be the coach and any client of an invented story, with a clock that you move."""
    from bot.cli import trying

    raise typer.Exit(trying.try_out(keep, block, port, console, errors))


@app.command()
def serve(
    webhook: Annotated[
        str | None,
        typer.Option(
            metavar="URL",
            help="Have the platform bring messages to this address, instead of fetching them. "
            "The same as PLIMSOLL_WEBHOOK_URL.",
        ),
    ] = None,
) -> None:
    """Run the bot."""
    from bot.cli.given_settings import settings_or_none

    settings = settings_or_none(errors, token=True, webhook_url=webhook)
    if settings is None:
        raise typer.Exit(2)

    from bot.cli import serving

    raise typer.Exit(serving.serve(settings, errors))


@app.command()
def migrate() -> None:
    """Bring the database to this program's schema."""
    from bot.cli import serving

    raise typer.Exit(serving.migrate(console, errors))


@app.command()
def doctor() -> None:
    """Look at everything the bot needs; say what is wrong, and what to do. Status 1 when something is."""
    from bot.cli.doctor import doctor as look_at_all

    raise typer.Exit(look_at_all(console))


@app.command("service-file")
def service_file(
    kind: Annotated[ServiceKind, typer.Argument(help="For systemd, or for compose with PostgreSQL.")],
) -> None:
    """Print what has the machine keep the bot running: a systemd unit, or a compose file."""
    from bot.cli import service_files

    sys.stdout.write(service_files.text_of(kind.value))


@app.command()
def backup(
    to: Annotated[
        Path | None, typer.Option(help="Folder, in place of PLIMSOLL_BACKUP_DIR; nothing there is deleted.")
    ] = None,
) -> None:
    """Copy the database while the bot runs, and check the copy. SQLite alone."""
    from bot.cli import keeping

    raise typer.Exit(keeping.backup_now(to, console, errors))


@app.command()
def restore(file: Annotated[Path, typer.Argument(help="A backup.")]) -> None:
    """Put a backup in the place of the database, which is kept aside; the bot must be stopped. SQLite alone."""
    from bot.cli import keeping

    raise typer.Exit(keeping.restore_from(file, console, errors))


@app.command()
def move(
    to: Annotated[str, typer.Option(help="Address of an empty database: postgresql://… or sqlite:///FILE.")],
) -> None:
    """Move everything to an empty database of the other kind, SQLite or PostgreSQL; the bot must be stopped."""
    from bot.cli import transfer

    raise typer.Exit(transfer.move(to, console, errors))


@app.command()
def export(
    file: Annotated[Path, typer.Argument(help="A new file that ends in .zip.")],
    coach: Annotated[str, typer.Option(help="The coach's name.")],
    client: Annotated[str, typer.Option(help="The client's name.")],
) -> None:
    """Write all that is kept about one client into a zip: JSON, csv, and an index."""
    from bot.cli import privacy

    raise typer.Exit(privacy.export(coach, client, file, console, errors))


@app.command()
def erase(
    coach: Annotated[str, typer.Option(help="The coach's name.")],
    client: Annotated[str, typer.Option(help="The client's name.")],
    sure: Annotated[bool, typer.Option("--sure", help="Do it: it cannot come back.")] = False,
) -> None:
    """Delete all that is kept about one client; a count without a name stays."""
    from bot.cli import privacy

    raise typer.Exit(privacy.erase(coach, client, console, errors, sure=sure))


@inbox_app.command("replay")
def inbox_replay(
    reference: Annotated[str, typer.Argument(help="As the log and the answer to the sender give it.")],
) -> None:
    """Take up again a message that the bot failed on."""
    from bot.cli import keeping

    raise typer.Exit(keeping.replay(reference, console, errors))


@coach_app.command("add")
def coach_add(
    name: Annotated[str, typer.Argument(help="As clients will see it.")],
    zone: Annotated[str, typer.Option(help="IANA time zone, such as Europe/Lisbon.")] = "UTC",
) -> None:
    """Add a coach, and print the one-time code that binds her own account."""
    from bot.cli import serving

    raise typer.Exit(serving.add_coach(name, zone, console, errors))


@block_app.command("check")
def block_check(file: Annotated[Path, typer.Argument(help="A file in xlsx, csv or yaml.")]) -> None:
    """Read a block; print what is in it, or every problem with its place."""
    from bot.cli import blocks

    raise typer.Exit(blocks.check_block(file, console, errors))


@block_app.command("template")
def block_template(file: Annotated[Path, typer.Argument(help="A new file that ends in .xlsx.")]) -> None:
    """Write a form to fill in: examples, lists to choose from, notes, and how to fill it in."""
    from bot.cli import blocks

    raise typer.Exit(blocks.write_template(file, console, errors))


@block_app.command("copy")
def block_copy(
    file: Annotated[Path, typer.Argument(help="A file in xlsx, csv or yaml.")],
    to: Annotated[Path, typer.Argument(help="A new file that ends in .xlsx, .csv or .yaml.")],
) -> None:
    """Write a block once more as another kind of file; it says the same."""
    from bot.cli import blocks

    raise typer.Exit(blocks.copy_block(file, to, console, errors))


@decision_app.command("show")
def decision_show(
    decision_id: Annotated[int, typer.Argument(metavar="ID", help="Its number.")],
) -> None:
    """Print a decision with all that it rests on, and make it once more from that."""
    from bot.cli import decisions

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
    from bot.cli.rehearsing import rehearse as rehearse_block

    raise typer.Exit(rehearse_block(file, clients, weeks, seed, out, console, errors))


@app.command(help=READ_HELP)
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
    from bot.cli import reading

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
