"""`plimsoll export` and `plimsoll erase`: one client's data handed out, or deleted, by whoever runs the bot."""

from pathlib import Path

from rich.console import Console

from bot.assembly.refusals import REFUSALS
from bot.cli.given_settings import settings_or_none
from bot.cli.serving import prepare
from bot.clock import WallClock
from bot.store.engine import forget_log, make_engine
from bot.store.people import Client
from bot.store.units import Units
from bot.usecases.own_data import packed
from core.programme.folding import folded


def export(coach: str, client: str, file: Path, console: Console, errors: Console) -> int:
    """Write all that is kept about a client into a new zip."""
    units = _units(errors)
    if units is None:
        return 2
    found = _client(units, coach, client, errors)
    if found is None:
        return 1
    coach_id, who = found
    with units.read(coach_id) as unit:
        content = packed(who.id, unit, WallClock().now())
    try:
        with file.open("xb") as target:
            file.chmod(0o600)
            target.write(content)
    except FileExistsError:
        return _refused(errors, f"{file} is there already, and is left as it is. Give another name.")
    except OSError as error:
        return _refused(errors, f"Cannot write {file}: {error.strerror}.")
    _say(console, f"{file} holds all that is kept about {who.name}. It is health data: only you can read it.")
    return 0


def erase(coach: str, client: str, console: Console, errors: Console, *, sure: bool) -> int:
    """Delete all that is kept about a client, once it is said twice."""
    units = _units(errors)
    if units is None:
        return 2
    found = _client(units, coach, client, errors)
    if found is None:
        return 1
    coach_id, who = found
    if not sure:
        return _refused(
            errors,
            f"This deletes all that is kept about {who.name}, and it cannot come back. "
            "Say it once more with --sure. plimsoll export makes a copy first.",
        )
    with units.open(coach_id) as unit:
        done = unit.erasing.erase(who.id, WallClock().now())
    forget_log(units.engine)
    _say(console, f"Deleted: {done.rows} rows. Backups lose them as they are replaced.")
    return 0


def _units(errors: Console) -> Units | None:
    settings = settings_or_none(errors, token=False)
    if settings is None:
        return None
    try:
        prepare(settings)
    except REFUSALS as refusal:
        _refused(errors, str(refusal))
        return None
    return Units(make_engine(settings.database_url))


def _client(units: Units, coach: str, client: str, errors: Console) -> tuple[int, Client] | None:
    """Return the client of a coach, both by name; says what stands against it."""
    with units.read(None) as house:
        coaches = [house.coaches.get(row) for row in house.coaches.ids()]
        named = [one for one in coaches if folded(one.name) == folded(coach)]
        if len(named) != 1:
            known = ", ".join(sorted(one.name for one in coaches)) or "none"
            _refused(errors, f"{len(named)} coaches are called {coach}. There are: {known}.")
            return None
        clients = house.of(named[0].id).clients.everybody()
    found = [one for one in clients if folded(one.name) == folded(client)]
    if len(found) != 1:
        _refused(errors, f"{len(found)} clients of {coach} are called {client}.")
        return None
    return named[0].id, found[0]


def _say(console: Console, words: str) -> None:
    console.print(words, markup=False, highlight=False, soft_wrap=True)


def _refused(errors: Console, words: str) -> int:
    errors.print(words, markup=False, highlight=False, soft_wrap=True)
    return 2
