"""What being ill does to the plan: an easy day, no training for a while, or on hold; and how it goes on."""

from datetime import date, datetime

from bot.messages import Effect, Level, Message, Person, Tell
from bot.render import illness as say
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import absence
from bot.usecases.closing import onward
from bot.usecases.coming_back import said_of_break
from bot.usecases.illness_card import ASK_COLD, ASK_WELL, KIND, NOTED, buttons, closed, revised, shown
from bot.usecases.leaving_out import leave_out, leave_rest
from bot.usecases.moving import can_be_taken_back
from bot.usecases.ordering import decided_again
from bot.usecases.releasing import PLAN, release_button
from bot.usecases.replanning import taken_back
from bot.usecases.session_view import show
from core.checkin.training_log import Session
from core.loads.health import IllnessKind
from core.local_time import local_date

OPEN = ("sent", "started", "asking")


def kind_taken(
    kind: IllnessKind, client: Client, prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Keep an illness of a class, and do what it asks for; the coach is told by its class."""
    since, today = date.fromisoformat(prompt.facts["since"]), local_date(now, client.zone or "UTC")
    if kind is IllnessKind.COLD:
        return _cold(since, today, client, prompt, unit, now)
    standing = absence.illness_on(client.id, today, unit)
    known = kind is IllnessKind.GENERAL and standing is not None and standing.free_on is None
    kept = standing.id if known and standing is not None else unit.illnesses.add(client.id, kind, since, now)
    out = _sessions_end(kind, client, person, unit, now)
    if kind is IllnessKind.CLINICIAN:
        unit.clients.change(client.id, frozen_at=now, frozen_for=KIND)
        unit.prompts.close(prompt.id, now)
        rows = release_button(client.id, PLAN, unit, now)
        told = _tell(client, kept, Level.NOW, say.for_coach(client.name, "clinician", since, rows))
        return [shown(prompt, say.noted_clinician()), told, *out]
    told = _tell(client, kept, Level.TODAY, say.for_coach(client.name, "general", since))
    if since < today:
        asked = revised(prompt, unit, screen=ASK_WELL, illness=kept)
        note = say.noted_since(since)
        return [
            shown(asked, say.ask_well(buttons(asked), unit.rules.policy(client.id).ill_wait, note)),
            told,
            *out,
        ]
    asked = revised(prompt, unit, screen=NOTED, illness=kept)
    first = unit.illnesses.get(kept).since
    return [
        shown(asked, say.noted_general(buttons(asked), first, unit.rules.policy(client.id).ill_wait)),
        told,
        *out,
    ]


def _sessions_end(
    kind: IllnessKind, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Leave out what is open: all of what was not begun, the rest of what was. A held plan holds its session too."""
    effects: list[Effect] = []
    for session in unit.sessions.of_client(client.id, OPEN):
        if kind is IllnessKind.CLINICIAN:
            unit.sessions.change(session.id, state="held", closed_at=now, cursor_item_id=None)
            effects += show(session.id, unit, screen="held")
        elif session.state == "sent" and not unit.sets.last_entry(session.id):
            effects += leave_out("ill", session, unit, now)
        else:
            leave_rest("ill", session, unit)
            effects += onward(session.id, unit, person, now)
    return effects


def _cold(
    since: date, today: date, client: Client, prompt: Prompt, unit: Unit, now: datetime
) -> list[Effect]:
    days = unit.rules.policy(client.id).cold_days
    free_on = date.fromordinal(today.toordinal() + days)
    kept = unit.illnesses.add(client.id, IllnessKind.COLD, since, now, free_on=free_on)
    told = _tell(client, kept, Level.DIGEST, say.for_coach(client.name, "cold", since))
    if _today_is_open(client, prompt, unit, now):
        asked = revised(prompt, unit, screen=ASK_COLD, illness=kept)
        percent = int(unit.rules.policy(client.id).ill_drop * 100)
        return [shown(asked, say.ask_cold(buttons(asked), percent)), told]
    asked = revised(prompt, unit, screen=NOTED, illness=kept)
    return [shown(asked, say.noted_cold(buttons(asked), days)), told]


def _today_is_open(client: Client, prompt: Prompt, unit: Unit, now: datetime) -> bool:
    """Return whether there is a session today that can still be an easy one."""
    today = local_date(now, client.zone or "UTC")
    coming = unit.sessions.of_client(client.id, ("planned", "sent", "started"))
    return any(each.local_on == today for each in coming) or _left_out_now(prompt, today, unit) is not None


def _left_out_now(prompt: Prompt, today: date, unit: Unit) -> Session | None:
    """Return the session that was left out for this, if it can be taken up again today."""
    session_id = prompt.facts.get("session")
    session = unit.sessions.get(session_id) if session_id is not None else None
    if session is None or session.state != "left_out" or session.local_on != today:
        return None
    return session if can_be_taken_back(session, unit) else None


def easy(client: Client, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Make today's session an easy one: what is out is decided again, what was left out is taken up."""
    today = local_date(now, client.zone or "UTC")
    unit.illnesses.make_easy(int(prompt.facts["illness"]), today)
    session = _left_out_now(prompt, today, unit)
    if session is not None:
        taken_back(session, unit, now)
    effects: list[Effect] = []
    for each in unit.sessions.of_client(client.id, ("sent", "started")):
        if each.local_on == today:
            decided_again(each, client, unit, now)
            screen = "overview" if each.state == "sent" else None
            effects += show(each.id, unit, screen=screen, moved=True, note=say.EASY_NOTE)
    unit.prompts.close(prompt.id, now)
    return [shown(prompt, say.easy_day(session=bool(effects))), *effects]


def day_left_out(client: Client, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Leave today's session out for a head cold."""
    today = local_date(now, client.zone or "UTC")
    effects: list[Effect] = []
    for each in unit.sessions.of_client(client.id, ("planned", "sent", "started")):
        if each.local_on != today:
            continue
        if each.state == "planned":
            absence.kept_back(each, absence.ILL, unit, now)
        elif each.state == "sent" and not unit.sets.last_entry(each.id):
            effects += leave_out("ill", each, unit, now)
        else:
            leave_rest("ill", each, unit)
            account = Person(prompt.user_id, prompt.chat_id, unit.tenant, "client", client.id)
            effects += onward(each.id, unit, account, now)
    unit.prompts.close(prompt.id, now)
    return [shown(prompt, say.left_out()), *effects]


def slipped(client: Client, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Take back what was noted; the session that was left out for it stays so until its own button is tapped."""
    kept = prompt.facts.get("illness")
    if kept is not None:
        unit.illnesses.void(int(kept), now)
        unit.alerts.close(f"ill:{client.id}:{kept}", now)
    return closed(prompt, say.taken_back(), unit, now)


def asked_well(client: Client, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Ask since when she is free of it; of a head cold that is not asked."""
    newest = unit.illnesses.newest(client.id)
    if newest is not None and newest.kind == IllnessKind.COLD:
        return cold_over(client, prompt, unit, now)
    asked = revised(prompt, unit, screen=ASK_WELL)
    return [shown(asked, say.ask_well(buttons(asked), unit.rules.policy(client.id).ill_wait))]


def cold_over(client: Client, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Note that a head cold is over."""
    unit.illnesses.free(client.id, IllnessKind.COLD, local_date(now, client.zone or "UTC"))
    return closed(prompt, say.cold_gone(), unit, now)


def still(prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Note that it is not over."""
    _question_answered(prompt, "still", unit, now)
    return closed(prompt, say.still_ill(), unit, now)


def free(free_on: date, client: Client, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Note since when she is free of it, and say from when and how training goes on."""
    today, policy = local_date(now, client.zone or "UTC"), unit.rules.policy(client.id)
    standing = absence.illness_on(client.id, today, unit)
    if standing is None:
        return closed(prompt, say.settled(), unit, now)
    free_on = max(free_on, standing.since)
    unit.illnesses.free(client.id, IllnessKind.GENERAL, free_on)
    _question_answered(prompt, free_on.isoformat(), unit, now)
    goes_on = max(absence.back_on(free_on, policy), today)
    if goes_on == today:
        _send_today(client, unit, now)
    message = say.free(
        free_on,
        goes_on,
        today,
        int(policy.ill_drop * 100),
        said_of_break(client, goes_on, unit),
    )
    told = say.well_for_coach(client.name, free_on, goes_on)
    unit.alerts.close(f"ill:{client.id}:{standing.id}", now)
    return [
        *closed(prompt, message, unit, now),
        Tell(client.id, f"well:{client.id}:{standing.id}", 1, Level.DIGEST, told),
    ]


def _send_today(client: Client, unit: Unit, now: datetime) -> None:
    """Have today's session come after all, where it was only kept back."""
    today = local_date(now, client.zone or "UTC")
    for each in unit.sessions.of_client(client.id, ("left_out",)):
        kept_back = each.left_reason == absence.ILL and each.sent_at is None
        if kept_back and each.local_on == today and unit.moves.later(each) is None:
            unit.sessions.change(each.id, state="planned", left_reason=None, closed_at=None, due_at=now)


def _question_answered(prompt: Prompt, answer: str, unit: Unit, now: datetime) -> None:
    question = prompt.facts.get("question")
    if question is not None:
        unit.due_questions.answered(int(question), {"how": answer}, now)


def _tell(client: Client, kept: int, level: Level, message: Message) -> Tell:
    return Tell(client.id, f"ill:{client.id}:{kept}", 1, level, message)
