"""`/report`: a block so far, or as it ended: in a message, as pages, and as tables. Offered when a block has ended.

All of it is gathered and drawn before the transaction, by what stood a moment before it.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from bot.files.report_xlsx import Table, tables_xlsx
from bot.messages import Action, Effect, Message, Person, Rows, Send, Tap
from bot.render import report as say
from bot.render.report_pages import report_pdf
from bot.render.report_tables import log_tables, report_tables
from bot.render.setting_up import Buttons
from bot.render.whose import which
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.seasons import Ran
from bot.store.units import Unit, Units
from bot.usecases.block_copies import file_name
from bot.usecases.block_files import only_for_coaches
from bot.usecases.client_log import ALL, done_in
from bot.usecases.finding_clients import clients_meant, is_clear
from bot.usecases.leaving import answer
from bot.usecases.report_seen import ran_last, report_of
from core.local_time import local_date
from core.oversight.report_parts import Report

KIND = "report"
EVER = date.min


@dataclass(frozen=True, slots=True)
class Made:
    """A report that was made.

    Attributes:
        client_id: Whose.
        value: What it says.
        files: Each with its name.
    """

    client_id: int
    value: Report
    files: tuple[tuple[str, bytes], ...]


@dataclass(frozen=True, slots=True)
class ReportAsked:
    """`/report`, with what stands after it.

    Attributes:
        text: A client's name.
        made: The report; None before, and where there is none.
    """

    text: str = ""
    made: Made | None = None


def report_asked(command: ReportAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Send the report of a client's block."""
    if person.role != "coach":
        return only_for_coaches(person)
    found = clients_meant(command.text, unit)
    if not is_clear(command.text, found):
        return [answer(person, KIND, which(KIND, command.text, [each.name for each in found]))]
    return sent(found[0], command.made, person, unit, now)


def sent(client: Client, made: Made | None, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Send a report that was made: what it says, then its files."""
    if made is None or made.client_id != client.id:
        return [answer(person, KIND, say.no_block(client.name))]
    effects: list[Effect] = [answer(person, KIND, say.report_text(made.value))]
    update_id = person.arrival.update_id if person.arrival else 0
    for name, content in made.files:
        ending = name.rpartition(".")[2]
        picture_id = unit.oversight.add_picture(name, content, now, client_id=client.id)
        message = Message(say.FILES[ending], silent=True, media_kind="document", picture_id=picture_id)
        effects.append(Send(person.chat_id, message, key=f"{KIND}:{update_id}:{ending}", client_id=client.id))
    return effects


def prepared(units: Units, user_id: int, command: ReportAsked, now: datetime) -> ReportAsked:
    """Return the command with its report; for a thread of its own, since it reads and draws."""
    with units.read(None) as house:
        account = house.accounts.find(user_id)
        if account is None or account.role != "coach":
            return command
        unit = house.of(account.coach_id)
        found = clients_meant(command.text, unit)
        gathered = gathered_for(found[0], unit, now) if is_clear(command.text, found) else None
    return command if gathered is None else replace(command, made=finished(*gathered))


Gathered = tuple[int, Report, list[Table]]


def gathered_for(client: Client, unit: Unit, now: datetime, ran: Ran | None = None) -> Gathered | None:
    """Return what a report says, with its tables, read in one transaction; None where there was no block."""
    mine = ran or ran_last(client, unit, local_date(now, client.zone or "UTC"))
    if mine is None:
        return None
    found = report_of(client, mine, unit, now)
    sessions = [done_in(each, unit) for each in unit.moves.of_assignment(mine.id) if each.state != "planned"]
    sets = log_tables(sorted(sessions, key=lambda each: each.on), (), unit.exercises.catalogue())[0]
    return client.id, found, [Table(*each) for each in (*report_tables(found), sets)]


def finished(client_id: int, found: Report, tables: list[Table]) -> Made:
    """Return a report with its files; outside of every transaction."""
    name = file_name(f"{found.name} {found.block}").rpartition(".")[0]
    files = ((f"{name}.pdf", report_pdf(found)), (f"{name}.xlsx", tables_xlsx(tables)))
    return Made(client_id, found, files)


def offered(client: Client, assignment_id: int, unit: Unit, now: datetime) -> Rows:
    """Return the button under the message that a block has ended; nothing where the coach has no account."""
    coach = unit.accounts.coach(unit.tenant)
    if coach is None:
        return ()
    prompt = unit.prompts.open(
        KIND, coach.user_id, coach.chat_id, now, client_id=client.id, subject=assignment_id
    )
    return ((Buttons(prompt.id, prompt.revision).one("Report", Action.CHART),),)


def tapped(
    tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime, drawn: Made | None = None
) -> list[Effect]:
    """Send the report of the block that ended; the button stays good."""
    if person.role != "coach" or tap.action is not Action.CHART:
        return []
    unit.prompts.note(prompt.id, {})
    return sent(unit.clients.get(prompt.client_id or 0), drawn, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """What was sent is sent; `/report` sends it anew."""
    return []


def gathered_tap(prompt: Prompt, unit: Unit, now: datetime) -> Gathered | None:
    """Return what the report of a block that ended says."""
    client = unit.clients.get(prompt.client_id or 0)
    ran = next((each for each in unit.seasons.ran(client.id) if each.id == prompt.subject), None)
    return None if ran is None else gathered_for(client, unit, now, ran)


def log_gathered(client: Client, unit: Unit) -> list[Table]:
    """Return a client's whole training log as tables."""
    sessions = [done_in(each, unit) for each in reversed(unit.sessions.of_client(client.id, ALL))]
    reports = [
        each for kind in ("pain", "soreness", "stop_sign") for each in unit.body.since(client.id, EVER, kind)
    ]
    catalogue = unit.exercises.catalogue()
    body = sorted(reports, key=lambda each: each.at)
    return [Table(*each) for each in log_tables(sessions, body, catalogue)]
