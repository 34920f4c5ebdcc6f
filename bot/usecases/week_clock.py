"""When the week's questions are due: the check-in, the plan of the week, and the end of a block.

One of each waits for a client who runs a block: the first from when her block is laid out, each next from when the one
before it is due. What waits follows her clock, her coach's days and the block; twice changes nothing.
"""

from datetime import date, datetime, timedelta

from bot.store.blocks import Assignment
from bot.store.due_questions import DueQuestion
from bot.store.people import Client
from bot.store.rules import DEFAULTS
from bot.store.units import Unit
from bot.usecases.in_line import ends_on
from core.local_time import instant_of, local_date
from core.oversight.alerts import block_told_on
from core.policy import Policy
from core.programme.calendar import WEEK

CHECK_IN = "checkin"
PLAN = "plan"
BLOCK_END = "blockend"
KINDS = (CHECK_IN, PLAN, BLOCK_END)

ONE_DAY = timedelta(days=1)
LEAST = timedelta(days=4)
"""From one check-in, or one plan, to the next: a changed weekday does not ask twice in a row. Our proposal."""
AFTER = timedelta(minutes=1)
"""From the check-in to the plan of the same day, so that the plan sees whether there was one."""
LAID = timedelta(days=14)
"""A block that ends within so many days is laid out to its last session."""


def planned(client_id: int, unit: Unit, now: datetime) -> None:
    """See that the week's questions of a client wait for their right dates."""
    client = unit.clients.get(client_id)
    running = unit.blocks.running(client_id)
    if running is None or client.state not in ("active", "paused") or client.zone is None:
        return
    today = local_date(now, client.zone)
    last = _last_on(client, running, unit, today)
    coach = unit.coaches.get(unit.tenant)
    _weekly(CHECK_IN, coach.check_in_weekday, (running.starts_on, last), client, unit, now)
    _weekly(PLAN, coach.plan_weekday, (running.starts_on - WEEK, last - ONE_DAY), client, unit, now)
    _block_end(running, last + ONE_DAY, client, unit, now)
    if last >= today:
        policy = unit.rules.policy(client.id)
        told_at = instant_of(block_told_on(running.starts_on, last, policy), policy.quiet_to, coach.zone)
        unit.alerts.watch(client.id, f"block:{running.id}", told_at, now)


def planned_for_all(unit: Unit, now: datetime) -> None:
    """Have what waits for everybody of a coach follow a day that she has changed."""
    for each in unit.clients.roster():
        planned(each.id, unit, now)


def due_at(kind: str, on: date, zone: str, policy: Policy = DEFAULTS) -> datetime:
    """Return when a question of a date is due on the wall clock of a zone."""
    later = AFTER if kind == PLAN else timedelta()
    return instant_of(on, policy.week_asked_at, zone) + later


def _last_on(client: Client, running: Assignment, unit: Unit, today: date) -> date:
    """Return the date of the last session of a block, or of the end of its last week while that is not laid out."""
    turn = ends_on(client, unit, today)
    if turn is not None:
        return turn
    ends = unit.versions.course(running).ends_on
    rows = unit.moves.of_assignment(running.id) if ends <= today + LAID else []
    return max((each.local_on for each in rows if each.state != "moved"), default=ends)


def _weekly(
    kind: str, weekday: int, within: tuple[date, date], client: Client, unit: Unit, now: datetime
) -> None:
    """Have one question of a kind wait for the coach's weekday, inside the dates in which the block runs."""
    zone = client.zone or "UTC"
    today = local_date(now, zone)
    waiting = [each for each in unit.due_questions.waiting(client.id, kind) if each.local_on >= today]
    mine = waiting[0] if waiting else None
    if mine is not None and (mine.local_on.weekday() == weekday or mine.due_at <= now):
        _on_clock(mine, zone, now, unit)
        return
    asked = [
        each.local_on for each in unit.due_questions.of_client(client.id, kind, today - WEEK) if each.sent_at
    ]
    earliest = max(today, within[0] + ONE_DAY, *(on + LEAST for on in asked))
    on = _free(kind, earliest, weekday, client, unit, now)
    if mine is not None:
        unit.due_questions.put_on(mine.id, on, due_at(kind, on, zone, unit.rules.policy(client.id)))
    elif on <= within[1]:
        unit.due_questions.plan(
            client.id, kind, on, due_at(kind, on, zone, unit.rules.policy(client.id)), now
        )


def _free(kind: str, earliest: date, weekday: int, client: Client, unit: Unit, now: datetime) -> date:
    """Return the first date from `earliest` on that has a weekday, is not over and has no question of the kind."""
    on = earliest + timedelta(days=(weekday - earliest.weekday()) % 7)
    zone = client.zone or "UTC"
    while (
        due_at(kind, on, zone, unit.rules.policy(client.id)) <= now
        or unit.due_questions.on(client.id, kind, on) is not None
    ):
        on += WEEK
    return on


def _on_clock(question: DueQuestion, zone: str, now: datetime, unit: Unit) -> None:
    """Let what waits follow the clock of a client who has moved; what is due already stays due."""
    right = due_at(question.kind, question.local_on, zone, unit.rules.policy(question.client_id))
    if question.due_at > now and question.due_at != right:
        unit.due_questions.put_off(question.id, right)


def _block_end(running: Assignment, on: date, client: Client, unit: Unit, now: datetime) -> None:
    """Have the end of a block asked about on the day after its last session, once; a block that was left, too."""
    zone = client.zone or "UTC"
    today = local_date(now, zone)
    known = unit.due_questions.of_client(client.id, BLOCK_END, date.min)
    waiting = {each.subject: each for each in unit.due_questions.waiting(client.id, BLOCK_END)}
    for subject, each in waiting.items():
        if subject != running.id and each.local_on > max(today, running.starts_on):
            _put(each, max(today, running.starts_on), client, unit)
    mine = waiting.get(running.id)
    if mine is not None:
        if mine.local_on != on and mine.due_at > now and on >= today:
            _put(mine, on, client, unit)
        else:
            _on_clock(mine, zone, now, unit)
    elif on >= today and not any(
        each.subject == running.id and (each.sent_at or each.local_on >= on) for each in known
    ):
        free = _day_free(on, client, unit)
        unit.due_questions.plan(
            client.id,
            BLOCK_END,
            free,
            due_at(BLOCK_END, free, zone, unit.rules.policy(client.id)),
            now,
            subject=running.id,
        )


def _put(question: DueQuestion, on: date, client: Client, unit: Unit) -> None:
    free = _day_free(on, client, unit)
    right = due_at(question.kind, free, client.zone or "UTC", unit.rules.policy(client.id))
    unit.due_questions.put_on(question.id, free, right)


def _day_free(on: date, client: Client, unit: Unit) -> date:
    while unit.due_questions.on(client.id, BLOCK_END, on) is not None:
        on += ONE_DAY
    return on
