"""`/blocks`: what runs for whom, who runs out soon, who has nothing; the way to a preview and to the season."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from bot.messages import Action, Effect, Person, Send, Tap
from bot.render import blocks_running as say
from bot.render.season_chart import season_pictures
from bot.store.blocks import Assignment
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import previewing, season
from bot.usecases.block_files import only_for_coaches
from bot.usecases.client_file import week_now
from bot.usecases.season_spans import last_of, season_seen
from core.local_time import local_date
from core.oversight.season import Runs, Season, running

KIND = "blocks"


@dataclass(frozen=True, slots=True)
class BlocksAsked:
    """`/blocks`."""


def blocks_asked(command: BlocksAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show what runs for whom."""
    if person.role != "coach":
        return only_for_coaches(person)
    today = local_date(now, unit.coaches.get(unit.tenant).zone)
    unit.versions.read_all()
    going, policy = unit.blocks.running_all(), unit.rules.policy()
    found = running(
        (
            _runs(each, going.get(each.id), unit, today)
            for each in unit.clients.roster()
            if each.state in ("active", "paused")
        ),
        today,
        policy,
    )
    prompt = unit.prompts.open(KIND, person.user_id, person.chat_id, now)
    pages = say.pages(found, policy.block_ends, say.Buttons(prompt.id, prompt.revision))
    return [
        Send(person.chat_id, page, key=f"{KIND}:{prompt.id}:{number}") for number, page in enumerate(pages)
    ]


def _runs(client: Client, going: Assignment | None, unit: Unit, today: date) -> Runs:
    if going is None:
        return Runs(name=client.name)
    block = unit.versions.block_for(going, today)
    return Runs(
        name=client.name,
        block=block.name,
        week=week_now(going, unit.sessions.next_planned(client.id), today),
        weeks=block.weeks,
        last=last_of(client, going, unit, today),
    )


def tapped(
    tap: Tap,
    prompt: Prompt,
    person: Person,
    unit: Unit,
    now: datetime,
    drawn: tuple[tuple[str, bytes], ...] = (),
) -> Sequence[Effect]:
    """Show a preview, or the season of all; every button stays good."""
    if person.role != "coach":
        return []
    unit.prompts.note(prompt.id, {})
    match tap.action:
        case Action.PREP:
            return previewing.preview(previewing.Preview(), person, unit, now)
        case Action.CHART:
            return season.shown(None, person, unit, now, drawn)
        case _:
            return []


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """What was shown is shown; `/blocks` shows it anew."""
    return []


def season_of_all(unit: Unit, now: datetime) -> Season:
    """Return the season of all, for its pictures."""
    return season_seen(None, unit, local_date(now, unit.coaches.get(unit.tenant).zone))


def drawn_of(seen: Season) -> tuple[tuple[str, bytes], ...]:
    """Return the pictures of a season; outside of every transaction."""
    return tuple((season.KIND, each) for each in season_pictures(seen))
