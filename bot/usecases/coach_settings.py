"""`/settings` of a coach: how sessions that are not done go on, and when the week's questions come.

A client's own are in `bot.usecases.own_settings`.
"""

import re
from collections.abc import Sequence
from datetime import datetime, time

from bot.messages import Action, EditCard, Effect, Person, Send, Tap
from bot.render import coach_settings as say
from bot.render.dates import WEEKDAYS
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import own_settings, week_clock
from core.programme.replanning import Style

KIND = "coach settings"
_DAY = re.compile(r"(check-?in|plan)(?: my week)?(?: on)? ([a-z]{3,9})")
STALE = "That button was from before. This is how things stand."


def settings(command: own_settings.Settings, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show a coach her settings, with a button for each choice; anybody else their own."""
    if person.role != "coach":
        return own_settings.settings(command, person, unit, now)
    unit.prompts.close_kind(KIND, unit.tenant, now)
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, subject=unit.tenant, expects_text=True
    )
    key = f"coach-settings:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    message = say.menu(prompt.id, prompt.revision, _style(unit), _days(unit), at=_at(unit))
    return [Send(person.chat_id, message, key=f"{key}:card", card=key)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the coach's choice."""
    if person.role != "coach":
        return []
    if tap.action is Action.CHANGE and tap.argument < len(say.ASKS):
        revised = unit.prompts.revise(prompt.id)
        asked = say.which_day(revised.id, revised.revision, tap.argument, _at(unit))
        return [EditCard(_key(prompt), prompt.chat_id, asked)]
    if tap.action is Action.MOVE and tap.argument < len(say.ASKS) * len(WEEKDAYS):
        _keep_day(*divmod(tap.argument, len(WEEKDAYS)), unit, now)
        return [_shown(prompt, unit, say.SET)]
    if tap.action is Action.BACK:
        return [_shown(prompt, unit, "")]
    if tap.action is not Action.PICK or tap.argument >= len(say.ORDER):
        return refreshed(prompt, person, unit, now)
    _keep(say.ORDER[tap.argument], person, unit, now)
    return [_shown(prompt, unit, say.SET)]


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the coach's choice, typed."""
    words = " ".join(text.casefold().strip(" .!").split())
    meant = {name.lower(): style for style, name in say.NAMES.items()}
    meant |= {"calendar": Style.CALENDAR, "in line": Style.IN_LINE, "next": Style.IN_LINE}
    day = _day_said(words)
    if day is not None:
        _keep_day(*day, unit, now)
        return [_shown(prompt, unit, say.SET, moved=True)]
    if words not in meant:
        return [_shown(prompt, unit, say.NOT_READ, moved=True)]
    _keep(meant[words], person, unit, now)
    return [_shown(prompt, unit, say.SET, moved=True)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the settings as they stand, after a tap on a button that is no longer good."""
    if person.role != "coach":
        return []
    if prompt.closed_at is not None:
        return [EditCard(_key(prompt), prompt.chat_id, say.closed())]
    return [_shown(prompt, unit, STALE)]


def _keep(style: Style, person: Person, unit: Unit, now: datetime) -> None:
    """Keep the choice. What was not done before it stays as it is: no debt comes back with a change of style."""
    unit.prompts.expect_no_text(person.user_id)
    if style is not _style(unit):
        since = now if style is Style.IN_LINE else None
        unit.coaches.change(unit.tenant, missed_style=style.value, in_line_since=since)


def _day_said(words: str) -> tuple[int, int] | None:
    """Return what is asked on which weekday: `check-in friday`, `plan sun`."""
    found = _DAY.fullmatch(words)
    if found is None:
        return None
    days = [place for place, day in enumerate(WEEKDAYS) if day.lower().startswith(found[2])]
    return (0 if found[1].startswith("check") else 1, days[0]) if len(days) == 1 else None


def _keep_day(what: int, weekday: int, unit: Unit, now: datetime) -> None:
    """Keep on which day the check-in, or the plan, comes; what waits moves there."""
    name = ("check_in_weekday", "plan_weekday")[what]
    unit.coaches.change(unit.tenant, **{name: weekday})
    week_clock.planned_for_all(unit, now)


def _days(unit: Unit) -> tuple[int, int]:
    coach = unit.coaches.get(unit.tenant)
    return coach.check_in_weekday, coach.plan_weekday


def _at(unit: Unit) -> time:
    return unit.rules.policy().week_asked_at


def _style(unit: Unit) -> Style:
    return Style(unit.coaches.get(unit.tenant).missed_style)


def _shown(prompt: Prompt, unit: Unit, note: str, *, moved: bool = False) -> EditCard:
    revised = unit.prompts.revise(prompt.id)
    message = say.menu(revised.id, revised.revision, _style(unit), _days(unit), note, _at(unit))
    return EditCard(_key(prompt), prompt.chat_id, message, moved=moved)


def _key(prompt: Prompt) -> str:
    return prompt.card_key or f"coach-settings:{prompt.id}"
