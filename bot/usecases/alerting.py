"""Matters for a coach that nobody reports: looked for where something changed, never by walking over everybody.

A closed or corrected session is looked at once, with its own client's log. What may become a matter by time alone is a
row with the time at which it is looked at again (`alert.due_at`), which the tick asks for.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.messages import Effect, Lane, Level, Message, Person, Send, Tell
from bot.render import alerts as say
from bot.store.alerts import Alert
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import blocks_ending, second
from bot.usecases.alert_buttons import BLOCK, alert_card, told_rows, with_buttons
from bot.usecases.decisions import exposures, kit_of
from bot.usecases.in_line import ends_on
from bot.usecases.progress_seen import lift_seen
from core.checkin.training_log import Item, LoggedSet, Session
from core.loads.asked import amount
from core.loads.decision import Decision
from core.loads.equipment import Kit, ladder_for
from core.local_time import instant_of, local_date
from core.oversight import alerts as rules
from core.oversight.waiting import LiftCourse, VideosWaiting
from core.programme.exercises import Exercise

FALLING, STALL = "falling:", "stall:"
FOR_DIGEST = (FALLING, STALL)
"""How keys of matters begin that only the digest tells."""
VIDEO = "video:"
VIDEOS = frozenset({"video", "video_note"})
"""Kinds of media that wait for the coach's eye."""
VIDEOS_BACK = timedelta(days=28)
"""A video that is older and had no answer stands in no digest any more. Our proposal."""
LEFT_BACK = 6
"""Exposures in which reps left are looked at. Our proposal."""
Look = tuple[str, Tell | None]
"""The key of a matter that was looked for, and what is told of it; None where it is none, or none any more."""


@dataclass(frozen=True, slots=True)
class AlertDue:
    """A matter is to be looked at again."""

    alert_id: int


def of_session(session_id: int, unit: Unit, now: datetime) -> list[Effect]:
    """Return what of a closed session is a matter: its lifts, what was over the load line, what was left.

    What is none any more ends at once.
    """
    session = unit.sessions.get(session_id)
    client = unit.clients.get(session.client_id)
    items = unit.sessions.items(session.id)
    logged: dict[int, list[LoggedSet]] = {}
    for each in unit.sets.standing([item.id for item in items]):
        logged.setdefault(each.item_id, []).append(each)
    done = [item for item in items if logged.get(item.id)]
    decided = unit.decisions.values([each.decision_id for each in done if each.decision_id is not None])
    kit = kit_of(client, unit)
    looked: list[Look] = []
    trained: dict[str, Exercise] = {}
    for item in done:
        exercise = unit.exercises.get(item.exercise)
        made = decided.get(item.decision_id) if item.decision_id is not None else None
        looked.append(_over(item, logged[item.id], made, exercise, session, client, kit, unit))
        if exercise.key not in trained:
            looked.append(_left(exercise, client, unit))
        trained[exercise.key] = exercise
    main = {key: exercise for key, exercise in trained.items() if exercise.main_lift}
    lifts = unit.records.lifts(client.id, tuple(main)) if main else {}
    for exercise in main.values():
        policy = unit.rules.policy(client.id, exercise.key)
        points = lift_seen(exercise, client, unit, lifts.get(exercise.key, ())).points
        looked.append(_course(exercise, FALLING, rules.falling(exercise.key, points, policy), client))
        looked.append(_course(exercise, STALL, rules.stalled(exercise.key, points, policy), client))
    unit.alerts.close_all([key for key, tell in looked if tell is None], now)
    return [tell for _, tell in looked if tell is not None]


def _over(
    item: Item,
    logged: list[LoggedSet],
    made: Decision | None,
    exercise: Exercise,
    session: Session,
    client: Client,
    kit: Kit,
    unit: Unit,
) -> Look:
    key = f"line:{client.id}:{item.exercise}"
    masses = [amount(each.load, exercise) for each in logged if each.load is not None]
    line = rules.most_given(made, amount(item.given.load, exercise)) if made is not None else None
    found = rules.over_line(
        [each for each in masses if each is not None],
        line,
        ladder_for(exercise, kit),
        unit.rules.policy(client.id, exercise.key),
    )
    if found is None:
        return key, None
    message = say.over_line(client.name, exercise, found, session.local_on)
    return key, Tell(client.id, key, found.grown, Level.TODAY, message)


def _left(exercise: Exercise, client: Client, unit: Unit) -> Look:
    key = f"left:{client.id}:{exercise.key}"
    history = exposures(client.id, exercise.key, unit, limit=LEFT_BACK)
    found = rules.left_under(history, unit.rules.policy(client.id, exercise.key))
    if found is None:
        return key, None
    return key, Tell(client.id, key, found.grown, Level.TODAY, say.left_under(client.name, exercise, found))


def _course(exercise: Exercise, kind: str, found: tuple[LiftCourse, int] | None, client: Client) -> Look:
    key = f"{kind}{client.id}:{exercise.key}"
    if found is None:
        return key, None
    course, grown = found
    return key, Tell(
        client.id,
        key,
        grown,
        Level.DIGEST,
        say.lift_matter(client.name, exercise),
        facts=course.model_dump(mode="json"),
        stands=True,
    )


def video_came(client: Client, kind: str, unit: Unit, now: datetime) -> None:
    """See that a video which nobody answers is told; called before it is passed on."""
    if kind not in VIDEOS:
        return
    key = f"{VIDEO}{client.id}"
    if not unit.forwards.waiting(VIDEOS, client.id):
        unit.alerts.close(key, now)
        unit.alerts.watch(client.id, key, rules.video_told_at(now, unit.rules.policy(client.id)), now)


def videos_waiting(unit: Unit, at: datetime) -> dict[int, VideosWaiting]:
    """Return by client the videos that had no answer for longer than the policy's hours, seen from an instant."""
    found: dict[int, list[datetime]] = {}
    for each in unit.forwards.waiting(VIDEOS, since=at - VIDEOS_BACK):
        if rules.is_late(each.at, at, unit.rules.policy(each.client_id)):
            found.setdefault(each.client_id, []).append(each.at)
    return {key: VideosWaiting(count=len(came), days=(at - came[0]).days) for key, came in found.items()}


def lift_courses(unit: Unit) -> dict[int, tuple[LiftCourse, ...]]:
    """Return by client the lifts that fall or stall and that no digest has told of."""
    found: dict[int, list[LiftCourse]] = {}
    for each in unit.alerts.untold(FOR_DIGEST):
        found.setdefault(each.client_id, []).append(LiftCourse.model_validate(each.facts))
    return {key: tuple(courses) for key, courses in found.items()}


def check_in_asked(client: Client, unit: Unit, now: datetime) -> list[Effect]:
    """Return what is to be told of check-ins before the one that goes out now: none answered for too long."""
    today, policy = local_date(now, client.zone or "UTC"), unit.rules.policy(client.id)
    back = today - timedelta(days=policy.check_in_days * 3)
    asked = [
        (each.local_on, each.answers is not None or each.answered_at is not None)
        for each in unit.due_questions.of_client(client.id, "checkin", back)
        if each.sent_at is not None and each.local_on < today
    ]
    found = rules.unanswered(asked, today, policy)
    key = f"checkin:{client.id}"
    if found is None:
        unit.alerts.close(key, now)
        return []
    message = say.check_ins_unanswered(client.name, found)
    return [Tell(client.id, key, 1, Level.TODAY, message)]


def due(command: AlertDue, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Look at a matter again whose time has come. Twice changes nothing: the time is moved on with what is told."""
    alert = unit.alerts.get(command.alert_id)
    if alert.due_at is None or alert.due_at > now or alert.closed_at is not None:
        return []
    if alert.key.startswith(VIDEO) and alert.level == 0:
        return _video(alert, unit, now)
    if alert.key.startswith(BLOCK) and alert.level == 0:
        return _block(alert, unit, now)
    return _unseen(alert, unit, now)


def _video(alert: Alert, unit: Unit, now: datetime) -> list[Effect]:
    waiting = unit.forwards.waiting(VIDEOS, alert.client_id)
    if not waiting:
        unit.alerts.close(alert.key, now)
        return []
    since = min(each.at for each in waiting)
    if (told_at := rules.video_told_at(since, unit.rules.policy(alert.client_id))) > now:
        unit.alerts.put_off(alert.id, told_at)
        return []
    name = unit.clients.get(alert.client_id).name
    return [
        Tell(
            alert.client_id,
            alert.key,
            1,
            Level.TODAY,
            say.video_waits(name, len(waiting), (now - since).days),
        )
    ]


def _block(alert: Alert, unit: Unit, now: datetime) -> list[Effect]:
    client = unit.clients.get(alert.client_id)
    running = unit.blocks.running(client.id)
    if running is None or alert.key != f"{BLOCK}{running.id}":
        unit.alerts.close(alert.key, now)
        return []
    zone = unit.coaches.get(unit.tenant).zone
    today = local_date(now, zone)
    course = unit.versions.course(running)
    ends = max(course.ends_on, ends_on(client, unit, today) or course.ends_on)
    policy = unit.rules.policy(client.id)
    on = rules.block_told_on(running.starts_on, ends, policy)
    if on > today:
        unit.alerts.put_off(alert.id, instant_of(on, policy.quiet_to, zone))
        return []
    if ends < today or client.state not in ("active", "paused"):
        unit.alerts.close(alert.key, now)
        return []
    return [*blocks_ending.told(alert, client, course.first.name, ends, unit, now)]


def _unseen(alert: Alert, unit: Unit, now: datetime) -> list[Effect]:
    """Tell a matter that cannot wait again, twice; then the second person."""
    coach = unit.accounts.coach(unit.tenant)
    if alert.level < Level.NOW or alert.seen_at is not None or alert.told_at is None or coach is None:
        unit.alerts.put_off(alert.id, None)
        return []
    times = alert.reminded + 1
    unit.alerts.again(alert.id, times, rules.next_telling(alert.told_at, times, now))
    if times > len(rules.TOLD_AGAIN):
        return second.told(alert, unit, now)
    told = unit.prompts.newest("alert", alert.id)
    if told is None:
        return []
    own = unit.coaches.get(unit.tenant)
    message = say.not_seen(say.as_told(str(told.facts["html"])), alert.told_at, own.zone, told_rows(told))
    return [_again(message, unit.alerts.get(alert.id), coach.chat_id, unit, now)]


def _again(message: Message, alert: Alert, chat_id: int, unit: Unit, now: datetime) -> Send:
    card = alert_card(alert)
    shown = with_buttons(message, alert, unit, now)
    return Send(chat_id, shown, key=card, card=card, lane=Lane.SAFETY)
