"""What a coach is sent from a client's card: her progress in pictures, the report of her block, her log as a file."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from bot.files.report_xlsx import tables_xlsx
from bot.messages import Effect, Message, Person, Send, Tap
from bot.render import client_papers as say
from bot.render.whose import which
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit, Units
from bot.usecases import progress, report
from bot.usecases.block_copies import file_name
from bot.usecases.block_files import only_for_coaches
from bot.usecases.finding_clients import clients_meant, is_clear
from bot.usecases.leaving import answer

CARD = "client"
PROGRESS, REPORT, LOG = range(3)
"""What its button with `Action.CHART` asks for."""


@dataclass(frozen=True, slots=True)
class LogAsked:
    """`/logfile`, with a name after it.

    Attributes:
        text: The name.
        content: The file; None before it is made.
    """

    text: str = ""
    content: bytes | None = None


def tapped(
    tap: Tap,
    prompt: Prompt,
    person: Person,
    unit: Unit,
    now: datetime,
    files: tuple[tuple[str, bytes], ...],
    made: report.Made | None,
) -> list[Effect]:
    """Send what a button of the card asks for; every button stays good."""
    if person.role != "coach":
        return []
    client = unit.clients.get(prompt.subject or 0)
    unit.prompts.note(prompt.id, {**prompt.facts, "last": None})
    if tap.argument == REPORT:
        return report.sent(client, made, person, unit, now)
    if tap.argument == LOG:
        return [_log(client, content, person, unit, now) for _, content in files]
    return progress.shown(client, "", files, person, unit, now)


def log_asked(command: LogAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Send a client's whole training log as a file."""
    if person.role != "coach":
        return only_for_coaches(person)
    found = clients_meant(command.text, unit)
    if not is_clear(command.text, found) or command.content is None:
        return [answer(person, "logfile", which("logfile", command.text, [each.name for each in found]))]
    return [_log(found[0], command.content, person, unit, now)]


def prepared(units: Units, user_id: int, command: LogAsked, now: datetime) -> LogAsked:
    """Return the command with its file; for a thread of its own."""
    del now
    with units.read(None) as house:
        account = house.accounts.find(user_id)
        if account is None or account.role != "coach":
            return command
        unit = house.of(account.coach_id)
        found = clients_meant(command.text, unit)
        if not is_clear(command.text, found):
            return command
        tables = report.log_gathered(found[0], unit)
    return replace(command, content=tables_xlsx(tables))


def _log(client: Client, content: bytes, person: Person, unit: Unit, now: datetime) -> Send:
    name = file_name(f"{client.name} log")
    picture_id = unit.oversight.add_picture(name, content, now, client_id=client.id)
    message = Message(say.log_file(client.name), silent=True, media_kind="document", picture_id=picture_id)
    update_id = person.arrival.update_id if person.arrival else 0
    return Send(person.chat_id, message, key=f"logfile:{update_id}", client_id=client.id)
