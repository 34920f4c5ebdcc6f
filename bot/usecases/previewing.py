"""A coach looks at a day of a block as a client would get it. Nothing of it goes to anybody."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import previewing as say
from bot.render.session_views import ItemView, SessionView
from bot.render.week_changes import for_alone
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.assigning import blocks_of
from bot.usecases.block_files import only_for_coaches
from core.checkin.cues import exercise_cue
from core.checkin.training_log import Item
from core.local_time import local_date
from core.programme.block import Block
from core.programme.daily_prep import written_steps
from core.programme.lighter_weeks import deloaded
from core.programme.prescription import Dose


@dataclass(frozen=True, slots=True)
class Preview:
    """`/preview`."""


def preview(command: Preview, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask which block, day and week; with one block only, which day."""
    if person.role != "coach":
        return only_for_coaches(person)
    blocks = blocks_of(unit)
    facts = {"version": blocks[0][0]} if len(blocks) == 1 else {}
    prompt = unit.prompts.open("preview", person.user_id, person.chat_id, now, facts=facts)
    unit.prompts.set_card(prompt.id, _key(prompt))
    return [Send(person.chat_id, _message(prompt, unit, now), key=f"{_key(prompt)}:ask", card=_key(prompt))]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take what was chosen, one step on or one back."""
    if person.role != "coach":
        return []
    facts = dict(prompt.facts)
    if tap.action is Action.BACK and (last := _last(facts)) is not None:
        facts.pop(last)
    elif tap.action is Action.PICK and (chosen := _chosen(tap.argument, facts, unit)) is not None:
        facts |= chosen
    else:
        return refreshed(prompt, person, unit, now)
    revised = unit.prompts.revise(prompt.id, facts=facts)
    return [EditCard(_key(prompt), prompt.chat_id, _message(revised, unit, now))]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the step it is on, after a tap on an old button."""
    if person.role != "coach":
        return []
    return [EditCard(_key(prompt), prompt.chat_id, _message(prompt, unit, now, say.OLD))]


STEPS = ("version", "day", "week", "item")


def _last(facts: dict[str, Any]) -> str | None:
    return next((name for name in reversed(STEPS) if name in facts), None)


def _chosen(argument: int, facts: dict[str, Any], unit: Unit) -> dict[str, Any] | None:
    """Return what a button chose; None when it is not among what can be chosen."""
    if "version" not in facts:
        return {"version": argument} if argument in {row for row, _, _ in blocks_of(unit)} else None
    block = unit.blocks.version(facts["version"])
    if "day" not in facts:
        return {"day": argument} if argument < len(block.days) else None
    if "week" not in facts:
        return {"week": argument} if 1 <= argument <= block.weeks else None
    asked = block.days[facts["day"]].in_week(facts["week"])
    return {"item": argument} if 1 <= argument <= len(asked) else None


def _message(prompt: Prompt, unit: Unit, now: datetime, note: str | None = None) -> Message:
    facts, buttons = prompt.facts, say.Buttons(prompt.id, prompt.revision)
    if "version" not in facts:
        return say.which_block([(row, name) for row, name, _ in blocks_of(unit)], buttons, note)
    block = unit.blocks.version(facts["version"])
    if "day" not in facts:
        return say.which_day(block, buttons, note)
    if "week" not in facts:
        return say.which_week(block, block.days[facts["day"]], buttons, note)
    today = local_date(now, unit.coaches.get(unit.tenant).zone)
    note = note or _changed_for(facts["version"], facts["week"], unit)
    return say.as_the_client_sees(_view(block, facts, today, prompt, unit), buttons, note)


def _changed_for(version: int, week: int, unit: Unit) -> str | None:
    """Say for whom a week is changed alone; None where it is so for nobody."""
    changed = [
        unit.clients.get(each.client_id).name
        for each in unit.versions.runners(version)
        if any(kept.week_no == week for kept in unit.versions.weeks(each.id))
    ]
    return for_alone(sorted(changed), week) if changed else None


def _view(block: Block, facts: dict[str, Any], today: date, prompt: Prompt, unit: Unit) -> SessionView:
    """Return a day as a session whose card was just made, with the loads as written."""
    day, week = block.days[facts["day"]], facts["week"]
    cues = [kept.value for kept in unit.cues.standing() if kept.client_id is None]
    items = tuple(
        ItemView(
            Item(number, 0, number, asked.exercise, asked, _shown(asked.dose), None, "open", None, None),
            unit.exercises.get(asked.exercise),
            None,
            (),
            (),
            coach_cue=exercise_cue(cues, asked.exercise, for_one=False),
        )
        for number, asked in enumerate(day.in_week(week), 1)
    )
    return SessionView(
        day=day.name,
        week_no=week,
        weeks=block.weeks,
        local_on=today,
        late=False,
        state="started" if "item" in facts else "sent",
        screen="item" if "item" in facts else "overview",
        items=items,
        cursor=facts.get("item"),
        prompt_id=prompt.id,
        revision=prompt.revision,
        prep=written_steps(day.prep or ()),
        catalogue=unit.exercises.catalogue(),
    )


def _shown(dose: Dose) -> Dose:
    return deloaded(dose) if dose.lighter else dose


def _key(prompt: Prompt) -> str:
    return f"preview:{prompt.id}"
