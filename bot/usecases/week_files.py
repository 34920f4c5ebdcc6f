"""A week of one client that was sent back: every problem of it, or what it changes; applied, and taken back."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from rapidfuzz import process

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import setting_up as setting_up_words
from bot.render import week_changes as say
from bot.render.differences import difference_lines
from bot.render.setting_up import Buttons
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.finding_clients import ALIKE
from bot.usecases.leaving import answer
from bot.usecases.week_changes import Coming, coming_of
from core.programme.differences import difference
from core.programme.folding import folded
from core.programme.problems import Code, Problem, Severity, problem
from core.programme.versions import ChangedWeek, changed_week
from core.programme.week_sheets import WeekFile

KIND = "week"
NEAR = 2
"""Names that are offered for one that nobody has. Our proposal."""
_TYPED = {
    "apply": Action.CONFIRM,
    "yes": Action.CONFIRM,
    "leave it": Action.CANCEL,
    "no": Action.CANCEL,
    "take it back": Action.UNDO,
    "undo": Action.UNDO,
}


def week_read(name: str, file: WeekFile, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show what a week that was sent back changes, or tell every problem of it.

    Args:
        name: What the coach calls the file.
        file: What was read in it.
    """
    coming, found = _checked(file, unit, now)
    problems = [*found, *file.problems]
    if coming is None or file.changed is None or any(each.severity is Severity.ERROR for each in problems):
        pages = setting_up_words.problem_pages(name, problems)
        return [answer(person, f"problems-{number}", page) for number, page in enumerate(pages)]
    week = file.changed.week
    plain = coming.course.with_week(None, week).block_on(coming.weeks[week])
    is_plain = _by_key(file.changed) == _by_key(changed_week(plain, week))
    if not _different(coming, file.changed, unit):
        return [answer(person, "week", say.nothing_different(coming.client.name, week))]
    facts = {
        "assignment": coming.running.id,
        "spec": file.changed.model_dump(mode="json"),
        "plain": is_plain,
        "warnings": [each.model_dump(mode="json") for each in problems],
    }
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, subject=coming.client.id, facts=facts
    )
    key = f"week:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    unit.prompts.expect_text(prompt)
    return [Send(person.chat_id, _card(prompt, unit, now), key=f"{key}:ask", card=key)]


def _by_key(changed: ChangedWeek) -> dict[str, object]:
    return {day.key: day.rows for day in changed.days}


def _different(coming: Coming, changed: ChangedWeek, unit: Unit) -> list[str]:
    week, on, catalogue = changed.week, coming.weeks[changed.week], unit.exercises.catalogue()
    after = coming.course.with_week(changed, week).block_on(on)
    return difference_lines(difference(coming.block(week), after, catalogue, [week]), catalogue)


def _checked(file: WeekFile, unit: Unit, now: datetime) -> tuple[Coming | None, list[Problem]]:
    """Return whose week a file is, and what does not go with what she runs."""
    if file.client is None:
        return None, []
    roster = unit.clients.roster()
    client = next((each for each in roster if folded(each.name) == folded(file.client)), None)
    if client is None:
        near = process.extract(
            file.client, [each.name for each in roster], processor=folded, limit=NEAR, score_cutoff=ALIKE
        )
        facts = {"written": file.client, "suggestions": "; ".join(name for name, _, _ in near)}
        return None, [problem(Code.CLIENT_UNKNOWN, file.client_at, **facts)]
    running = unit.blocks.running(client.id)
    if running is None:
        return None, [problem(Code.WEEK_OF_NO_BLOCK, file.client_at, client=client.name)]
    coming, found = coming_of(client, running, unit, now), []
    block = coming.course.first.name
    if file.block is not None and folded(file.block) != folded(block):
        facts = {"written": file.block, "client": client.name, "block": block}
        found.append(problem(Code.WEEK_OF_OTHER_BLOCK, file.block_at, **facts))
    if file.week is not None and file.week not in coming.weeks:
        known = ", ".join(str(each) for each in coming.weeks) or "none"
        found.append(problem(Code.WEEK_NOT_TO_COME, file.week_at, written=file.week, known=known))
    elif file.week is not None and file.days:
        days = coming.block(file.week).days
        if set(file.days) != {day.key for day in days}:
            known = ", ".join(day.name for day in days)
            found.append(problem(Code.WEEK_DAYS_DIFFER, file.days_at, known=known))
    return coming, found


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Apply it, leave it, or take it back."""
    if person.role != "coach" or prompt.subject is None:
        return []
    return _chosen(tap.action, prompt, unit, now)


def typed(text: str, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take what a coach typed under the preview; None for other words."""
    action = _TYPED.get(" ".join(text.casefold().strip(" .!").split()))
    if action is None:
        return None
    found = _chosen(action, prompt, unit, now)
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in found]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show how it stands, after a tap on a button that is no longer good."""
    if person.role != "coach" or prompt.subject is None:
        return []
    if prompt.closed_at is not None:
        return [_edited(prompt, say.closed())]
    return [_edited(prompt, _card(prompt, unit, now, say.STALE))]


def _chosen(action: Action, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    if "applied" in prompt.facts:
        if action is Action.UNDO:
            return _taken_back(prompt, unit, now)
    elif action is Action.CONFIRM:
        return _applied(prompt, unit, now)
    elif action is Action.CANCEL:
        unit.prompts.close(prompt.id, now)
        return [_edited(prompt, say.left(_name(prompt, unit), _week(prompt).week))]
    return [_edited(prompt, _card(prompt, unit, now, say.STALE))]


def _coming(prompt: Prompt, unit: Unit, now: datetime) -> Coming | None:
    """Return what is still to come of what the client ran when the file came; None where the week is over by now."""
    client = unit.clients.get(prompt.subject or 0)
    running = unit.blocks.running(client.id)
    if running is None or running.id != prompt.facts["assignment"]:
        return None
    coming = coming_of(client, running, unit, now)
    return coming if _week(prompt).week in coming.weeks else None


def _applied(prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Have the week hold for the client, in place of an earlier change of it."""
    coming, changed = _coming(prompt, unit, now), _week(prompt)
    if coming is None:
        unit.prompts.close(prompt.id, now)
        return [_edited(prompt, say.closed())]
    kept = (each for each in unit.versions.weeks(coming.running.id) if each.week_no == changed.week)
    before = next((each.spec for each in kept), None)
    row: int | None = None
    if prompt.facts["plain"]:
        unit.versions.unchange_week(coming.running.id, changed.week, now)
    else:
        row = unit.versions.change_week(coming.running, changed, now)
    made = {"applied": now.isoformat(), "row": row, "before": before}
    revised = unit.prompts.revise(prompt.id, facts={**prompt.facts, **made})
    return [_edited(prompt, _card(revised, unit, now))]


def _taken_back(prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Have the week be as before, while nothing of it was sent."""
    facts, changed, name = prompt.facts, _week(prompt), _name(prompt, unit)
    running = unit.blocks.assignment(facts["assignment"])
    unit.prompts.close(prompt.id, now)
    if not _can_be_taken_back(facts, changed.week, unit):
        return [_edited(prompt, say.too_late(name, changed.week))]
    if facts["before"] is None:
        unit.versions.unchange_week(running.id, changed.week, now)
    else:
        unit.versions.change_week(running, ChangedWeek.model_validate(facts["before"]), now)
    block = unit.versions.course(running).first.name
    return [_edited(prompt, say.taken_back(name, block, changed.week))]


def _can_be_taken_back(facts: Mapping[str, Any], week: int, unit: Unit) -> bool:
    """Return whether the week is still as it was made, and nothing of it was sent since."""
    standing = (each.id for each in unit.versions.weeks(facts["assignment"]) if each.week_no == week)
    since = datetime.fromisoformat(facts["applied"])
    sent = any(
        each.week_no == week and each.sent_at is not None and each.sent_at > since
        for each in unit.moves.of_assignment(facts["assignment"])
    )
    return next(standing, None) == facts["row"] and not sent


def _card(prompt: Prompt, unit: Unit, now: datetime, note: str | None = None) -> Message:
    """Return the card as it stands: the preview, or that it holds."""
    facts, changed, name = prompt.facts, _week(prompt), _name(prompt, unit)
    buttons, plain = Buttons(prompt.id, prompt.revision), bool(facts["plain"])
    if "applied" in facts:
        block = unit.versions.course(unit.blocks.assignment(facts["assignment"])).first.name
        return say.applied(name, block, changed.week, buttons, back_to_block=plain, note=note)
    coming = _coming(prompt, unit, now)
    if coming is None:
        return say.closed()
    return say.preview(
        name,
        coming.course.first.name,
        changed.week,
        _different(coming, changed, unit),
        [Problem.model_validate(each) for each in facts["warnings"]],
        buttons,
        back_to_block=plain,
        note=note,
    )


def _week(prompt: Prompt) -> ChangedWeek:
    return ChangedWeek.model_validate(prompt.facts["spec"])


def _name(prompt: Prompt, unit: Unit) -> str:
    return unit.clients.get(prompt.subject or 0).name


def _edited(prompt: Prompt, message: Message) -> EditCard:
    return EditCard(prompt.card_key or f"week:{prompt.id}", prompt.chat_id, message)
