"""The digest: facts gathered, the value and its picture made, and queued once for a coach's week."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from bot.messages import Effect, Lane, Message, Person, Send
from bot.render.charts import roster_pictures
from bot.render.digest import digest_texts, picture_caption
from bot.store.blocks import Assignment
from bot.store.other_training import Other
from bot.store.oversight import is_queued
from bot.store.units import Unit, Units
from bot.usecases import referring, reminding
from bot.usecases.alerting import FOR_DIGEST, lift_courses, videos_waiting
from bot.usecases.checked_in import check_ins_told
from bot.usecases.digest_ahead import ahead_of, raises_ahead
from bot.usecases.digest_of_talk import texts_of_talk
from bot.usecases.effects import after_quiet
from bot.usecases.in_line import ends_on, style_of
from core.local_time import instant_of, local_date
from core.oversight.digest import MONTH, Digest, digest
from core.oversight.facts import Beside, ClientFacts
from core.oversight.week import WEEK, week_key
from core.programme.replanning import Style

LOOK_BACK = timedelta(days=42)
"""How far back a row of misses is followed."""
LIFTED_BACK = timedelta(days=90)
"""How far back the last load of an exercise is looked for."""
LATE = timedelta(hours=1)
SIX_DAYS = timedelta(days=6)


@dataclass(frozen=True, slots=True)
class SendDigest:
    """A digest is ready.

    Attributes:
        value: What it says.
        pictures: PNG, as many as the roster needs.
        due_at: When it was due.
        told: Matters that it tells, so that the next one does not.
    """

    value: Digest
    pictures: tuple[bytes, ...]
    due_at: datetime
    told: tuple[int, ...] = ()


def prepared(units: Units, coach_id: int, on: date, due_at: datetime) -> SendDigest:
    """Read the facts in one transaction, and draw; for a thread of its own, since it takes its time and only reads."""
    with units.read(coach_id) as unit:
        facts, policy = facts_of(unit, on, due_at), unit.rules.policy()
        told = tuple(each.id for each in unit.alerts.untold(FOR_DIGEST))
        reminders = reminding.of_digest(unit, on + WEEK)
    value = digest(facts, on, policy, reminders)
    return SendDigest(value, pictures_of(value), due_at, told)


def pictures_of(value: Digest) -> tuple[bytes, ...]:
    """Return the roster's picture as PNG; more than one where it would be too long for a phone."""
    first = value.last - MONTH
    rows = [(each.name, each.month) for each in value.kept if each.month.due]
    return roster_pictures(rows, first, value.last)


def send_digest(command: SendDigest, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Queue a digest: its texts, then its pictures. Once for an ISO week, whoever asks."""
    chat_id = unit.accounts.coach_chat(unit.tenant)
    key = week_key(command.value.last)
    if chat_id is None or is_queued(unit.connection, unit.tenant, key):
        return []
    zone = unit.coaches.get(unit.tenant).zone
    due_at = after_quiet(now, zone, unit.rules.policy()) if now - command.due_at > LATE else None
    effects: list[Effect] = []
    for alert_id in command.told:
        unit.alerts.told(alert_id, now)
    texts = digest_texts(command.value, unit.exercises.catalogue())
    for number, text in enumerate((*texts, *texts_of_talk(unit, command.value.last))):
        name = f"{key}:{number}" if number else key
        message = Message(text, silent=number > 0)
        effects.append(Send(chat_id, message, key=name, lane=Lane.BULK, due_at=due_at))
    for number, content in enumerate(command.pictures):
        picture_id = unit.oversight.add_picture("roster.png", content, now)
        message = Message(
            picture_caption(command.value), silent=True, media_kind="photo", picture_id=picture_id
        )
        effects.append(Send(chat_id, message, key=f"{key}:picture:{number}", lane=Lane.BULK, due_at=due_at))
    return effects


def facts_of(unit: Unit, on: date, due_at: datetime | None = None) -> tuple[ClientFacts, ...]:
    """Gather what the digest of the week that ends on a date rests on, for everyone who trains.

    Args:
        unit: Open transaction.
        on: Last date of its week.
        due_at: When it is due; None for the end of that date. Check-ins are told once, since the digest before.
    """
    log = unit.oversight
    unit.versions.read_all()
    past, began, running = log.past(None, on - LOOK_BACK), log.began(), unit.blocks.running_all()
    lifted = log.lifted(on - LIFTED_BACK)
    ahead = ahead_of(unit, on, lifted)
    zone = unit.coaches.get(unit.tenant).zone
    at = due_at or instant_of(on, time(23, 59), zone)
    checked, videos = check_ins_told(unit, at), videos_waiting(unit, at)
    lifts, asked = lift_courses(unit), raises_ahead(unit, at, ahead)
    beside, referrals = unit.other_training.since(on - SIX_DAYS), referring.due_for_review(unit, on)
    pain, reachable = unit.body.bearing_all(on - MONTH), unit.accounts.reachable(unit.tenant)
    in_line = style_of(unit) is Style.IN_LINE
    return tuple(
        ClientFacts(
            client_id=client.id,
            name=client.name,
            state=client.state,
            paused_until=client.paused_until,
            frozen_on=local_date(client.frozen_at, zone) if client.frozen_at is not None else None,
            frozen_by_health=client.frozen_for == "health question",
            reachable=client.id in reachable,
            began_on=began.get(client.id),
            heard_at=client.heard_at,
            past=past.get(client.id, ()),
            pain=tuple(each.as_pain() for each in pain.get(client.id, ())),
            lifted=lifted.get(client.id, ()),
            ahead=ahead.get(client.id, ()),
            check_in=checked.get(client.id),
            policy=unit.rules.policy(client.id),
            beside=_beside(beside.get(client.id, ()), on),
            videos=videos.get(client.id),
            lifts=lifts.get(client.id, ()),
            raises_waiting=asked.get(client.id, ()),
            referrals_due=referrals.get(client.id, ()),
            **_end_of(running.get(client.id), ends_on(client, unit, on) if in_line else None, unit),
        )
        for client in unit.clients.roster()
        if client.state in ("active", "paused")
    )


def _beside(trained: Sequence[Other], on: date) -> tuple[Beside, ...]:
    return tuple(
        Beside(kind=each.kind, on=each.local_on, minutes=each.minutes, effort=each.effort)
        for each in trained
        if each.local_on <= on
    )


def _end_of(running: Assignment | None, last_turn: date | None, unit: Unit) -> "dict[str, str | date]":
    if running is None:
        return {}
    course = unit.versions.course(running)
    return {"block": course.first.name, "block_ends": max(course.ends_on, last_turn or course.ends_on)}
