"""A session that is due: decided, laid on its card, queued."""

from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from bot.messages import Effect, Person, Send
from bot.render.session import session_card
from bot.store.items import NewItem
from bot.store.people import Account, Client
from bot.store.units import Unit
from bot.usecases import absence, block_voice, coach_away, lighter_week, orders_held, orders_told
from bot.usecases.coming_back import comeback_note
from bot.usecases.decisions import given_dose, read_history, weighed
from bot.usecases.kit_known import kit_today
from bot.usecases.layout import carry_on
from bot.usecases.merging import lines_of, moment_of
from bot.usecases.ordering import use_up
from bot.usecases.session_view import card_key, open_prompt, view_of
from bot.usecases.settling import settle
from bot.usecases.standing_in import Chosen, chosen_in
from core.checkin.training_log import Session
from core.loads.decision import Decision, Inputs, Kind
from core.local_time import instant_of, local_date
from core.policy import Policy
from core.programme.exercises import Exercise
from core.programme.prescription import Dose, Prescription

LATE = timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class SendSession:
    """A planned session is due."""

    session_id: int


def send_session(command: SendSession, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Send the card of a session that is due; explain in its state why when it cannot go out.

    After an outage it still goes out on its own day at a decent hour, marked late; never at night, never
    yesterday's. A frozen plan, somebody ill or away and a client who cannot be reached get none.
    """
    session = unit.sessions.get(command.session_id)
    unit.presence.look(session.client_id)
    client = unit.clients.get(session.client_id)
    account = unit.accounts.of_client(client.id)
    if session.state != "planned":
        return []
    if client.frozen_at is not None:
        return _not_sent(session, "held", unit, now)
    if account is None or client.state != "active" or client.zone is None:
        return _not_sent(session, "unsent", unit, now)
    reason = absence.keeps_back(session, unit)
    if reason is not None:
        absence.kept_back(session, reason, unit, now)
        return []
    late = now - session.due_at > LATE
    wait = late_until(session.local_on, now, client.zone, unit.rules.policy(client.id)) if late else now
    if wait is None:
        return _not_sent(session, "unsent", unit, now)
    if wait > now:
        unit.sessions.change(session.id, due_at=wait)
        return []
    return sent(session, client, account, unit, now, late=late)


def _not_sent(session: Session, state: str, unit: Unit, now: datetime) -> list[Effect]:
    unit.sessions.change(session.id, state=state)
    carry_on(session.client_id, unit, now)
    return []


def sent(
    session: Session, client: Client, account: Account, unit: Unit, now: datetime, *, late: bool = False
) -> list[Effect]:
    """Send the card of a planned session: at its hour, or because its client asks for it."""
    effects = _settle_older(session, unit, now)
    unit.prompts.expect_no_text(account.user_id)
    unit.sessions.change(session.id, state="sent", sent_at=now, late=late)
    orders_held.restrictions_over(client, session.local_on, unit, now)
    placed = _decide_items(session, client, unit, now)
    effects += orders_told.held_back(session, client, unit)
    effects += lighter_week.told(session, client, unit)
    use_up(session, unit)
    out = replace(session, state="sent", sent_at=now, late=late)
    return [*effects, *_card(out, account, client, placed, unit, now)]


def late_until(on: date, now: datetime, zone: str, policy: Policy) -> datetime | None:
    """Return when a late session may go out: now, the end of the night, or None when its day is over."""
    local = now.astimezone(ZoneInfo(zone))
    if local.date() != on or local.time() > policy.late_latest:
        return None
    if local.time() < policy.quiet_to:
        return instant_of(on, policy.quiet_to, zone)
    return now


def _settle_older(session: Session, unit: Unit, now: datetime) -> list[Effect]:
    """A new card ends the ones before it that were begun. What was not begun has its time until its grace ends."""
    effects: list[Effect] = []
    for older in unit.sessions.of_client(session.client_id, ("sent", "started", "asking")):
        if any(item.state == "done" for item in unit.sessions.items(older.id)):
            effects += settle(older, unit, now, coming=False)
    return effects


def _decide_items(session: Session, client: Client, unit: Unit, now: datetime) -> dict[str, str]:
    """Decide for every exercise; return why those that stand in for another do, by row.

    All is decided before any of it is kept: what was written in between would have to be read again.
    """
    moment = moment_of(session, unit)
    kit = kit_today(session, client, unit)
    made: list[tuple[Inputs, Decision]] = []
    read_history(client.id, list(dict.fromkeys(each.exercise for each in lines_of(session, unit))), unit)

    def decides(exercise: Exercise, dose: Dose) -> tuple[int, Decision]:
        made.append(weighed(client, exercise.key, dose, moment, kit, unit))
        return len(made) - 1, made[-1][1]

    found = list(chosen_in(session, client, decides, unit, kit if session.place is not None else None))
    rows = unit.decisions.keep_all(client.id, "card", made, now)
    item_ids = unit.sessions.add_items(session.id, (_new_item(*each, rows) for each in found))
    chosen = [each for _, _, each in found]
    unit.decisions.for_items(
        {rows[each.decision_id]: row for each, row in zip(chosen, item_ids, strict=True)}
    )
    return {
        str(row): each.because for each, row in zip(chosen, item_ids, strict=True) if each.because is not None
    }


def _new_item(position: int, prescription: Prescription, chosen: Chosen, rows: list[int]) -> NewItem:
    """Return a row of a card; what cannot be done today is left out, with why."""
    cause = {Kind.PAUSE: "pain", Kind.SWAP: "kit"}.get(chosen.decision.kind)
    return NewItem(
        position,
        chosen.exercise,
        prescription,
        given_dose(chosen.dose, chosen.decision),
        rows[chosen.decision_id],
        state="open" if cause is None else "skipped",
        cause=cause,
    )


def _card(
    session: Session, account: Account, client: Client, placed: dict[str, str], unit: Unit, now: datetime
) -> list[Effect]:
    prompt = open_prompt(session, account.user_id, account.chat_id, unit, now, placed=placed)
    week, file = block_voice.with_card(session, client, account, unit, now)
    notes = (comeback_note(session, unit), coach_away.line_on_card(client, unit, now), week)
    note = "\n\n".join(each for each in notes if each) or None
    view = view_of(session, prompt, unit, note=note)
    zone = client.zone or "UTC"
    midnight = instant_of(session.local_on + timedelta(days=1), time(0), zone)
    card = Send(
        account.chat_id,
        session_card(view),
        key=f"card:{client.id}:{local_date(now, zone).isoformat()}:{session.id}",
        not_after=midnight,
        card=card_key(session.id),
        client_id=client.id,
        unasked=True,
    )
    return [card, *file]
