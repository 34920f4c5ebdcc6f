"""What a tap asks for that is drawn or written before its transaction: pictures, pages, tables."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.files.report_xlsx import tables_xlsx
from bot.messages import Action, Effect, Person, Tap
from bot.store.prompts import Prompt
from bot.store.units import Unit, Units
from bot.usecases import blocks_running, client_papers, physio_summary, progress, report

Pictures = tuple[tuple[str, bytes], ...]


@dataclass(frozen=True, slots=True)
class Drawn:
    """What was drawn for a tap.

    Attributes:
        files: Pictures or files, each with its name.
        made: A report.
        summary: What a client's yes hands on.
    """

    files: Pictures = ()
    made: report.Made | None = None
    summary: physio_summary.Made | None = None


NOTHING = Drawn()
Finish = Callable[[], Drawn]


def may_draw(tap: Tap) -> bool:
    """Return whether something may have to be drawn for a tap; a look at its prompt then says so."""
    return tap.action in (Action.CHART, Action.CONFIRM)


def drawn_for(units: Units, user_id: int, tap: Tap | None, now: datetime) -> Drawn:
    """Return what a tap asks for; nothing where it asks for none, or is not hers. For a thread of its own."""
    if tap is None or not may_draw(tap):
        return NOTHING
    with units.read(None) as house:
        account = house.accounts.find(user_id)
        if account is None:
            return NOTHING
        unit = house.of(account.coach_id)
        prompt = unit.prompts.get(tap.prompt)
        if prompt is None or prompt.user_id != user_id:
            return NOTHING
        is_hers = account.role == "coach" and prompt.kind != progress.KIND and tap.action is Action.CHART
        finish = _gathered(tap, prompt, unit, now) if is_hers else None
    if prompt.kind == physio_summary.KIND and tap.action is Action.CONFIRM:
        return Drawn(summary=physio_summary.made_for_yes(units, user_id, now))
    if tap.action is not Action.CHART:
        return NOTHING
    if prompt.kind == progress.KIND:
        return Drawn(progress.tap_drawn(units, user_id, tap))
    return finish() if finish is not None else NOTHING


def _gathered(tap: Tap, prompt: Prompt, unit: Unit, now: datetime) -> Finish | None:
    """Read what is needed, and return what draws it when the transaction is over; None where nothing is to be drawn."""
    if prompt.kind == blocks_running.KIND:
        season = blocks_running.season_of_all(unit, now)
        return lambda: Drawn(blocks_running.drawn_of(season))
    if prompt.kind == report.KIND:
        return _report(report.gathered_tap(prompt, unit, now))
    if prompt.kind != client_papers.CARD:
        return None
    client = unit.clients.get(prompt.subject or 0)
    if tap.argument == client_papers.REPORT:
        return _report(report.gathered_for(client, unit, now))
    if tap.argument == client_papers.LOG:
        tables = report.log_gathered(client, unit)
        return lambda: Drawn((("log", tables_xlsx(tables)),))
    seen = progress.gathered(client, unit, now)
    return lambda: Drawn(progress.pictured(seen))


def _report(gathered: report.Gathered | None) -> Finish | None:
    return None if gathered is None else lambda: Drawn(made=report.finished(*gathered))


def answered(
    tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime, drawn: Drawn
) -> Sequence[Effect] | None:
    """Do what a tap asks with what was drawn for it; None where it asks for nothing of the kind."""
    if prompt.kind == progress.KIND:
        return progress.tapped(tap, prompt, person, unit, now, drawn.files)
    if prompt.kind == physio_summary.KIND:
        return physio_summary.tapped(tap, prompt, person, unit, now, drawn.summary)
    if tap.action is not Action.CHART:
        return None
    if prompt.kind == blocks_running.KIND:
        return blocks_running.tapped(tap, prompt, person, unit, now, drawn.files)
    if prompt.kind == report.KIND:
        return report.tapped(tap, prompt, person, unit, now, drawn.made)
    if prompt.kind == client_papers.CARD:
        return client_papers.tapped(tap, prompt, person, unit, now, drawn.files, drawn.made)
    return None
