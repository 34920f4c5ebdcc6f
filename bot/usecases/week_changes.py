"""One week of a block for one client alone: asked for as a file. What comes back is in `bot.usecases.week_files`."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from bot.files.to_xlsx import to_xlsx
from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import setting_up as setting_up_words
from bot.render import week_changes as say
from bot.render.setting_up import Buttons
from bot.store.blocks import Assignment
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.assigning import client_named
from bot.usecases.leaving import answer
from bot.usecases.version_effects import Runner, to_come
from core.programme.block import Block
from core.programme.versions import Course
from core.programme.week_sheets import week_sheets

KIND = "which week"
LONGEST_FILE_NAME = 40
"""Longest name of a client in a name of a file. [characters] Our proposal."""
_WEEK = re.compile(r"(?:week )?(\d{1,2})")


@dataclass(frozen=True, slots=True)
class ChangeAsked:
    """`/change NAME`, or `/change NAME, WEEK`."""

    text: str = ""


@dataclass(frozen=True, slots=True)
class Coming:
    """What of a block is still to come for a client: its weeks, each with its last date."""

    client: Client
    running: Assignment
    course: Course
    weeks: dict[int, date]

    def block(self, week: int) -> Block:
        """Return the block as it is for her in a week."""
        return self.course.block_on(self.weeks[week])


def coming_of(client: Client, running: Assignment, unit: Unit, now: datetime) -> Coming:
    """Return what of a block is still to come for a client.

    Raises:
        TooFewTrainingDays: She trains on fewer days than the block has.
    """
    course = unit.versions.course(running)
    weeks: dict[int, date] = {}
    for (week, _), on in to_come(Runner(client, running), course, unit, now).items():
        weeks[week] = max(on, weeks.get(week, on))
    return Coming(client, running, course, dict(sorted(weeks.items())))


def change_asked(command: ChangeAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Send a week as a file; ask which week, or whose, where that was not said.

    Raises:
        UnknownClient: Nobody has this name.
        NotJoinedYet: She has not ended joining.
        NobodyToAssign: There are no clients.
        TooFewTrainingDays: She trains on fewer days than the block has.
    """
    if person.role != "coach":
        return [answer(person, "coaches", setting_up_words.only_for_coaches())]
    name, week = _asked_for(command.text)
    if not name:
        running = unit.blocks.running_all()
        names = [each.name for each in unit.clients.roster() if each.id in running]
        return [answer(person, "change", say.whose(names))]
    client = client_named(name, unit)
    found = unit.blocks.running(client.id)
    if found is None:
        return [answer(person, "change", say.no_block(client.name))]
    coming = coming_of(client, found, unit, now)
    if not coming.weeks:
        return [answer(person, "change", say.nothing_to_come(client.name, coming.course.first.name))]
    if week is None:
        return [_which_week(coming, person, unit, now)]
    if week not in coming.weeks:
        return [answer(person, "change", say.not_to_come(client.name, week, list(coming.weeks)))]
    return [_file(coming, week, person, unit, now)]


def _asked_for(text: str) -> tuple[str, int | None]:
    """Read `Ada, 4`: the name, and the week where one is written. A name may hold commas."""
    name, comma, last = text.strip().rpartition(",")
    week = _WEEK.fullmatch(" ".join(last.casefold().split()))
    return (name.strip(), int(week[1])) if comma and week else (text.strip().rstrip(","), None)


def _which_week(coming: Coming, person: Person, unit: Unit, now: datetime) -> Send:
    prompt = unit.prompts.open(KIND, person.user_id, person.chat_id, now, subject=coming.client.id)
    key = f"change:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    return Send(person.chat_id, _weeks_card(coming, prompt, unit), key=f"{key}:ask", card=key)


def _weeks_card(coming: Coming, prompt: Prompt, unit: Unit, note: str | None = None) -> Message:
    changed = [each.week_no for each in unit.versions.weeks(coming.running.id)]
    buttons = Buttons(prompt.id, prompt.revision)
    name, block = coming.client.name, coming.course.first.name
    return say.which_week(name, block, list(coming.weeks), changed, buttons, note)


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Send the week that was tapped; the card stays, and each of its buttons stays good."""
    if person.role != "coach" or prompt.subject is None:
        return []
    unit.prompts.note(prompt.id, {})
    client, running = unit.clients.get(prompt.subject), unit.blocks.running(prompt.subject)
    coming = coming_of(client, running, unit, now) if running is not None else None
    if coming is None or tap.action is not Action.PICK or tap.argument not in coming.weeks:
        return refreshed(prompt, person, unit, now)
    return [_file(coming, tap.argument, person, unit, now)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the weeks that are still to come."""
    if person.role != "coach" or prompt.subject is None:
        return []
    client, running = unit.clients.get(prompt.subject), unit.blocks.running(prompt.subject)
    coming = coming_of(client, running, unit, now) if running is not None else None
    if coming is None or not coming.weeks:
        return [_edited(prompt, say.closed())]
    return [_edited(prompt, _weeks_card(coming, prompt, unit, say.STALE))]


def _file(coming: Coming, week: int, person: Person, unit: Unit, now: datetime) -> Send:
    name, block = coming.client.name, coming.block(week)
    content = to_xlsx(week_sheets(block, week, name, unit.exercises.catalogue()))
    words = "-".join(re.findall(r"\w+", name.lower()))[:LONGEST_FILE_NAME]
    file = f"{words or 'client'}-week-{week}.xlsx"
    picture_id = unit.oversight.add_picture(file, content, now)
    begun = any(
        each.week_no == week and each.sent_at is not None
        for each in unit.moves.of_assignment(coming.running.id)
    )
    caption = say.copy(name, block.name, week, begun=begun)
    message = Message(caption, silent=True, media_kind="document", picture_id=picture_id)
    key = f"week-file:{person.arrival.update_id if person.arrival else 0}"
    return Send(person.chat_id, message, key=key)


def _edited(prompt: Prompt, message: Message) -> EditCard:
    return EditCard(prompt.card_key or f"change:{prompt.id}", prompt.chat_id, message)
