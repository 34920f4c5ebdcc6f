"""`plimsoll move`: everything to an empty database of the other kind. No address is printed: it may hold a password."""

from rich.console import Console

from bot.assembly.refusals import REFUSALS
from bot.cli.given_settings import settings_or_none
from bot.store.condition import Standing
from bot.store.heartbeat import Heartbeat, Mark
from bot.store.transfer import SOURCE, TARGET, NotTransferred, Transferred, transfer

SIDES = {SOURCE: "The database of PLIMSOLL_DATABASE_URL", TARGET: "The database of --to"}
OF_THEIR_OWN = {
    "sqlite": "Both are SQLite. To copy one use plimsoll backup and plimsoll restore.",
    "postgresql": "Both are PostgreSQL. To copy one use pg_dump and pg_restore.",
}
STANDINGS = {
    Standing.BEHIND: "has an earlier schema. Bring it to this one with plimsoll migrate first.",
    Standing.EMPTY: "is empty: there is nothing to move.",
    Standing.NEWER: "has a schema that this version of Plimsoll does not know.",
    Standing.ABSENT: "is not there: there is nothing to move.",
    Standing.UNREACHABLE: "cannot be reached. See that its server runs and that the address is right.",
    Standing.DAMAGED: "is damaged. Run plimsoll doctor.",
    Standing.NO_DRIVER: "needs the driver for PostgreSQL. Install plimsoll with its extra postgres.",
}
OTHER_TARGET = "has another schema than this version of Plimsoll. Give an empty one."
UNCHANGED = "Nothing was changed."


def move(to: str, console: Console, errors: Console) -> int:
    """Move everything to the database at `to`, and say what to set next."""
    settings = settings_or_none(errors, token=False)
    if settings is None:
        return 2
    try:
        with console.status("Looking at both databases") as status:
            done = transfer(
                settings.database_url, to, lambda what, table: status.update(f"{what} {table.name}")
            )
    except NotTransferred as problem:
        _say(errors, _words(problem))
        return 1
    except REFUSALS as refusal:
        _say(errors, f"{refusal} {UNCHANGED}")
        return 2
    # When the platform was last heard: the next start counts from it whom it kept waiting.
    Heartbeat(to).set(Mark.FETCHED, Heartbeat(settings.database_url).at(Mark.FETCHED))
    _tell(done, console)
    return 0


def _tell(done: Transferred, console: Console) -> None:
    _say(console, f"Moved, and compared row by row: {done.rows} rows of {done.tables} tables.")
    _say(console, "Now set PLIMSOLL_DATABASE_URL to the address that you gave with --to, and start the bot.")
    _say(
        console,
        "The database of before is as it was. Never start the bot on it again: what is waiting there would go out "
        "twice. Delete it, with its backups, when you no longer need it: it holds health data.",
    )


def _words(problem: NotTransferred) -> str:
    where = problem.where
    if problem.cause == "standing" and problem.standing is not None:
        is_other = where == TARGET and problem.standing in {Standing.BEHIND, Standing.NEWER}
        return f"{SIDES[where]} {OTHER_TARGET if is_other else STANDINGS[problem.standing]} {UNCHANGED}"
    said = {
        "address": f"{SIDES.get(where)} has no address that can be used: sqlite:///FILE, or postgresql://USER@HOST/NAME.",
        "same_kind": OF_THEIR_OWN.get(where),
        "no_folder": f"{SIDES.get(where)} is to lie in a folder that is not there. Make it first.",
        "unwritable": f"{SIDES.get(where)} cannot be written. See to the folder's owner and mode.",
        "not_empty": f"{SIDES[TARGET]} is not empty: there is something in its table {where}. Give an empty one.",
        "unfit": f"A row of the table {where} cannot be read, or does not fit into the other kind of database.",
        "differs": f"After copying, the table {where} was not the same on both sides.",
        "broken": "One of the databases stopped answering, or has no room. See that both work, and try again.",
    }
    if problem.cause == "in_doubt":
        return (
            "The connection broke at the very end: the database of --to is now whole or empty, and nobody knows which. "
            "Empty it, and move again. The database of before is as it was."
        )
    return f"{said[problem.cause]} {UNCHANGED}"


def _say(console: Console, words: str) -> None:
    console.print(words, markup=False, highlight=False, soft_wrap=True)
