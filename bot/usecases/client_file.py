"""A client's card for her coach: where she stands, what she did, what comes next and why."""

from collections.abc import Callable
from datetime import date, datetime
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Tap
from bot.render import client_file as say
from bot.render.beside_block import BesideBlock
from bot.render.daily_prep import for_file as daily_prep_line
from bot.store.blocks import Assignment
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import answering, client_log, client_why, correcting, ordering, video_asked
from bot.usecases.care_lines import ahead_of, care_lines, limit_lines
from bot.usecases.checked_in import WEEK, last_said
from bot.usecases.decisions import given_dose, inputs_for, kit_of
from bot.usecases.goals import lines_of
from bot.usecases.health_lines import health_lines
from bot.usecases.merging import moment_of
from bot.usecases.other_training import shown_of
from bot.usecases.prepping import left_out_now
from bot.usecases.releasing import PLAN, release_button
from bot.usecases.standing_in import chosen_in
from core.checkin.training_log import Session
from core.loads.decision import Decision, next_decision
from core.loads.looking_back import PAIN_BEARS
from core.local_time import local_date
from core.programme.exercises import Exercise
from core.programme.last_loads import LastLoad
from core.programme.prescription import Dose

LAST = 3
"""Sessions that the card shows."""
CLOSED = ("done", "partial", "left_out", "missed")
SHARES = (10, 20)
BEGINS: dict[Action, Callable[[Client, Person, Unit, datetime], list[Effect]]] = {
    Action.LOG: client_log.pages,
    Action.WRITE: answering.begin,
    Action.VIDEO: video_asked.begin,
    Action.WHY: client_why.begin,
    Action.CORRECT: correcting.begin,
}
"""What a button of the card begins, under the card."""


def shown(client: Client, person: Person, unit: Unit, now: datetime, note: str | None = None) -> list[Effect]:
    """Show a client's card, at the end of the chat; an older one loses its buttons."""
    unit.prompts.close_kind("client", client.id, now)
    prompt = unit.prompts.open(
        "client", person.user_id, person.chat_id, now, client_id=client.id, subject=client.id
    )
    unit.prompts.set_card(prompt.id, _key(client))
    return [EditCard(_key(client), person.chat_id, _message(client, prompt, unit, now, note), moved=True)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Do what a coach chose on a client's card."""
    if person.role != "coach":
        return []
    client = unit.clients.get(prompt.subject or 0)
    if tap.action in BEGINS:
        begun = BEGINS[tap.action](client, person, unit, now)
        return [*_again(client, prompt, unit, now), *begun]
    match tap.action:
        case Action.EASE if tap.argument in SHARES:
            _, effects = ordering.ease(client, tap.argument, unit, now)
            return [*effects, *_again(client, prompt, unit, now)]
        case Action.CANCEL:
            taken = ordering.take_back(tap.argument, client, unit, now)
            note = say.UNDER_WAY if taken is None else None
            return [*(taken or []), *_again(client, prompt, unit, now, note)]
        case Action.TAKE_UP:
            done = ordering.take_up(tap.argument, client, unit, now)
            return _again(client, prompt, unit, now, None if done else say.OLD)
        case _:
            return refreshed(prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the card as things stand now."""
    if person.role != "coach":
        return []
    client = unit.clients.get(prompt.subject or 0)
    if prompt.closed_at is not None:
        return [EditCard(_key(client), prompt.chat_id, say.closed(client.name))]
    return _again(client, prompt, unit, now, say.OLD)


def _again(
    client: Client, prompt: Prompt, unit: Unit, now: datetime, note: str | None = None
) -> list[Effect]:
    revised = unit.prompts.revise(prompt.id)
    return [EditCard(_key(client), prompt.chat_id, _message(client, revised, unit, now, note))]


def _message(client: Client, prompt: Prompt, unit: Unit, now: datetime, note: str | None) -> Message:
    today = local_date(now, client.zone or "UTC")
    running = unit.blocks.running(client.id)
    block = unit.versions.block_for(running, today) if running else None
    account = unit.accounts.of_client(client.id)
    sessions = unit.sessions.of_client(client.id, CLOSED)[:LAST]
    kit = kit_of(client, unit)
    card_out = unit.sessions.open_one(client.id)
    frozen = client.frozen_at
    view = say.ClientView(
        name=client.name,
        block=block.name if block else None,
        week=week_now(running, unit.sessions.next_planned(client.id), today) if running else 0,
        weeks=block.weeks if block else 0,
        days=tuple(client.days or ()),
        hour=client.hour,
        zone=client.zone,
        on_hold=local_date(frozen, client.zone or "UTC") if frozen is not None else None,
        reachable=account is None or account.reachable,
        state=client.state,
        kit=client.kit_kind,
        alone=kit.usually_alone and not kit.safety_arms,
        card_out=client_log.done_in(card_out, unit) if card_out else None,
        sessions=tuple(client_log.done_in(each, unit) for each in sessions),
        pain=tuple(unit.body.bearing(client.id, today - PAIN_BEARS)),
        stop_signs=tuple(unit.body.since(client.id, today - PAIN_BEARS, "stop_sign")),
        orders=tuple(each.value for each in ordering.to_be_seen(client, unit, now)),
        coming=_coming(client, unit),
        can_correct=correcting.newest(client, unit) is not None,
        release=release_button(client.id, PLAN, unit, now) if frozen is not None else (),
        note=note,
        catalogue=unit.exercises.catalogue(),
        noted=_noted(client, unit),
        daily=_daily(client, today, unit),
        today=today,
        beside=_beside_the_block(client, today, unit),
        **_cared_for(client, today, unit, now),
        **_of_her_own(running, today, unit),
    )
    return say.client_card(view, say.Buttons(prompt.id, prompt.revision))


def _cared_for(client: Client, today: date, unit: Unit, now: datetime) -> dict[str, Any]:
    """Gather what comes, what is ruled out for her, what is kept of her care, and what she said of her health."""
    return {
        "ahead": ahead_of(client, unit, now),
        "limits": limit_lines(client, today, unit),
        "said": (*care_lines(client, unit, now), *health_lines(client, unit)),
    }


def _beside_the_block(client: Client, today: date, unit: Unit) -> BesideBlock:
    """Gather what she wants, what she said in her check-ins, and what she trained otherwise."""
    trained = unit.other_training.since(today - WEEK).get(client.id, ())
    return BesideBlock(
        goals=lines_of(client.id, unit),
        answered=last_said(client.id, today, unit),
        other=tuple(shown_of(each) for each in trained if each.local_on <= today),
        is_off=unit.check_ins.is_off(client.id),
    )


def _daily(client: Client, today: date, unit: Unit) -> str | None:
    running = unit.daily_preps.running(client.id)
    if running is None:
        return None
    return daily_prep_line(running.asked, left_out_now(running.asked, client, unit, today))


def _noted(client: Client, unit: Unit) -> tuple[LastLoad, ...]:
    """Return the last loads that the coach has noted of exercises which were never logged here."""
    logged = unit.last_loads.first_logged(client.id)
    kept = unit.last_loads.standing(client.id).values()
    return tuple(each.value for each in kept if each.exercise not in logged)


def _of_her_own(running: Assignment | None, today: date, unit: Unit) -> dict[str, Any]:
    """Gather the weeks to come that are changed for a client alone, and the version that comes next."""
    if running is None:
        return {}
    week = week_now(running, unit.sessions.next_planned(running.client_id), today)
    block = unit.versions.block_for(running, today)
    stretches = unit.versions.course(running).stretches(today)
    weeks = max(block.weeks, *(each.block.weeks for each in stretches))
    changed = [each.week_no for each in unit.versions.weeks(running.id)]
    coming = [each for each in unit.versions.standing(running.id) if each.from_on > today]
    newer = coming[-1] if coming else None
    return {
        "own_weeks": tuple(each for each in changed if week <= each <= weeks),
        "newer": (unit.versions.number(newer.version_id), newer.from_on) if newer is not None else None,
    }


def week_now(running: Assignment, coming: Session | None, today: date) -> int:
    """Return the week of a block that a client is in: by the calendar, or where what was not done has put her."""
    by_calendar = (today - running.starts_on).days // 7 + 1
    return min(by_calendar, coming.week_no) if coming is not None else by_calendar


def _coming(client: Client, unit: Unit) -> say.Coming | None:
    """Work out the next session as its card would be made now; nothing of it is kept."""
    planned = unit.sessions.next_planned(client.id)
    day = unit.versions.block_of(planned).day(planned.day_key) if planned else None
    if planned is None or day is None:
        return None
    moment = moment_of(planned, unit)
    kit, lines = kit_of(client, unit), []
    if client.frozen_at is not None:
        return say.Coming(day.name, planned.local_on, ())

    def decides(exercise: Exercise, dose: Dose) -> tuple[int, Decision]:
        return 0, next_decision(inputs_for(client, exercise.key, dose, moment, kit, unit))

    for _, prescription, chosen in chosen_in(planned, client, decides, unit):
        exercise, given = unit.exercises.get(chosen.exercise), given_dose(chosen.dose, chosen.decision)
        lines.append(say.NextLine(prescription.order, exercise, given, chosen.decision))
    return say.Coming(day.name, planned.local_on, tuple(lines))


def _key(client: Client) -> str:
    return f"{answering.FILE}:{client.id}"
