"""What is planned and not sent, laid out anew: after a change of hour, days or clock, and after a move taken back."""

from datetime import date, datetime, timedelta

from bot.render.own_settings import Plan
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.in_line import Key, laid_anew, style_of
from bot.usecases.layout import AHEAD, carry_on, lay_out
from bot.usecases.merging import booked, is_merge, written_for
from bot.usecases.move_views import day_name
from bot.usecases.moving import around, take_back, week_of
from core.checkin.training_log import Session
from core.local_time import instant_of, local_date
from core.programme.block import Weekday
from core.programme.calendar import WEEK
from core.programme.replanning import Style, fits, slides
from core.programme.versions import planned_days


def planned_anew(client_id: int, unit: Unit, now: datetime) -> Plan:
    """Lay out anew what is planned, and return what comes next and what no longer finds a day.

    Today's session, moved to an hour that is over, comes at once: it is not late, for nobody kept it waiting.
    """
    client = unit.clients.get(client_id)
    zone = client.zone or "UTC"
    lost: tuple[str, ...] = ()
    if style_of(unit) is Style.CALENDAR:
        lost = tuple(day_name(each, unit) for each in _redated(client, unit, now))
    lay_out(client_id, unit, now, anew=True)
    if style_of(unit) is Style.CALENDAR:
        lost = (*lost, *(day_name(each, unit) for each in _chosen_dates_kept(client, unit, now)))
    for each in unit.sessions.of_client(client_id, ("planned",)):
        if each.due_at < now:
            unit.sessions.change(each.id, due_at=now)
    following = unit.sessions.next_planned(client_id) if client.state == "active" else None
    return Plan(
        following=day_name(following, unit) if following else None,
        due_at=following.due_at if following else None,
        today=local_date(now, zone),
        zone=zone,
        lost=lost,
    )


def follow_versions(client_id: int, from_on: date, unit: Unit, now: datetime) -> None:
    """Have what is planned follow the versions of its block that stand now.

    A date that a client chose stays, unless another session comes to stand on it.

    Args:
        client_id: Whose.
        from_on: First date on which another version holds than before.
        unit: Open transaction.
        now: Instant.

    Raises:
        TooFewTrainingDays: The client trains on fewer days than the block has.
    """
    client, running = unit.clients.get(client_id), unit.blocks.running(client_id)
    if style_of(unit) is Style.CALENDAR:
        _redated(client, unit, now)
    elif running is not None:
        rows = unit.moves.of_assignment(running.id)
        unit.sessions.drop([each.id for each in rows if laid_anew(each, from_on)], reason="coach")
    lay_out(client_id, unit, now, anew=True)
    if style_of(unit) is Style.CALENDAR:
        _chosen_dates_kept(client, unit, now, only_taken=True)
        _lifts_fitted(client, unit)


def _lifts_fitted(client: Client, unit: Unit) -> None:
    """Leave out the lifts that a session to come no longer takes in, and take up again those that it does."""
    for row in unit.sessions.of_client(client.id, ("planned",)):
        for joined in unit.moves.came_to(row.id):
            if is_merge(joined, row):
                fits = written_for(row, unit).lift is not None
                if fits and (joined.state, joined.left_reason) == ("left_out", "coach"):
                    unit.sessions.change(joined.id, state="moved", left_reason="time")
                elif not fits and joined.state == "moved":
                    unit.sessions.change(joined.id, state="left_out", left_reason="coach")


def _redated(client: Client, unit: Unit, now: datetime) -> list[Session]:
    """Put what is planned on the dates of the calendar, and take back what falls on a day that is over, soonest first.

    A date that was chosen stays, at the client's hour. Days that come later are laid out in their time.
    """
    coming, running = _calendar(client, unit, now), unit.blocks.running(client.id)
    if coming is None or client.hour is None or running is None:
        return []
    lost: list[Session] = []
    for each in reversed(unit.sessions.of_client(client.id, ("planned",))):
        stays = (
            each.date_chosen or each.assignment_id != running.id
        )  # a block that another one follows plays out
        on = each.local_on if stays else coming.get((each.week_no, each.day_key))
        if on is None:
            lost.append(each)
        else:
            unit.sessions.change(
                each.id, local_on=on, due_at=instant_of(on, client.hour, client.zone or "UTC")
            )
    unit.sessions.drop([each.id for each in lost])
    return lost


def _calendar(client: Client, unit: Unit, now: datetime) -> dict[Key, date] | None:
    running = unit.blocks.running(client.id)
    if running is None:
        return None
    today = local_date(now, client.zone or "UTC")
    days = [Weekday(day) for day in client.days or ()]
    found = planned_days(unit.versions.course(running), days, today, today + AHEAD + WEEK)
    return {(each.week_no, each.day_key): each.on for each in found}


def _chosen_dates_kept(
    client: Client, unit: Unit, now: datetime, *, only_taken: bool = False
) -> list[Session]:
    """See that dates which were chosen still fit, or find others; return what finds none in its week.

    With `only_taken` a date is good enough where no other session stands on it.
    """
    coming, lost = _calendar(client, unit, now) or {}, []
    chosen = [each for each in unit.sessions.of_client(client.id, ("planned",)) if each.date_chosen]
    for each in sorted(chosen, key=lambda one: (one.attempt, one.local_on)):
        others, mine = around(each, unit), booked(each, unit)
        is_free = all(other.on != each.local_on for other in others)
        if is_free if only_taken else fits(each.local_on, mine.patterns, others):
            continue
        first = local_date(now, client.zone or "UTC") + timedelta(days=1)
        on = coming.get((each.week_no, each.day_key)) if each.attempt == 1 else None
        on = on or next(iter(slides(mine, others, first, week_of(each, unit)[1])), None)
        if on is None or client.hour is None:
            unit.sessions.change(each.id, state="unsent")
            lost.append(each)
        else:
            due_at = instant_of(on, client.hour, client.zone or "UTC")
            unit.sessions.change(each.id, local_on=on, due_at=due_at, date_chosen=each.attempt > 1)
    return lost


def taken_back(session: Session, unit: Unit, now: datetime) -> None:
    """Take back what was decided about a session. What had made room goes back to its own date."""
    other = take_back(session, unit)
    client = unit.clients.get(session.client_id)
    planned = {each.id for each in unit.sessions.of_client(client.id, ("planned",))}
    if other in planned:
        unit.sessions.change(other, date_chosen=False)
        if style_of(unit) is Style.CALENDAR:
            _redated(client, unit, now)
    carry_on(client.id, unit, now)
