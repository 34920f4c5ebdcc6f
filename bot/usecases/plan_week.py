"""Plan my week: the sessions of the coming seven days, kept as they are or moved by hand."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import plan_week as say
from bot.render.setting_up import Buttons
from bot.store.due_questions import DueQuestion
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.in_line import style_of
from bot.usecases.join import answer
from bot.usecases.lines_passed_on import is_free_for_words
from bot.usecases.move_views import day_name, move_view
from bot.usecases.moving_ahead import moved_ahead, options_ahead, put_back
from bot.usecases.today import client_of
from bot.usecases.week_clock import CHECK_IN, PLAN
from core.checkin.training_log import Session
from core.local_time import local_date
from core.programme.folding import folded
from core.programme.replanning import Option, Style

SIX_DAYS = timedelta(days=6)
ONE_DAY = timedelta(days=1)
_MOVE = re.compile(r"move (.+?) to (?:the )?(\S.*)")
_KEEP = frozenset({"keep", "keep it", "keep all", "keep them", "that is all", "that's all"})
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


@dataclass(frozen=True, slots=True)
class PlanAsked:
    """`/plan`."""


def plan_asked(command: PlanAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the coming seven days, to be kept or moved."""
    client, answered = client_of(person, unit, now)
    if client is None:
        return answered
    if client.frozen_at is not None:
        return [answer(person, "plan", say.on_hold())]
    shown = begin(client, person.user_id, person.chat_id, unit, now)
    if not shown:
        first = _today(client, now) + ONE_DAY
        return [answer(person, "plan", say.nothing(first, first + SIX_DAYS))]
    return shown


def ask(question: DueQuestion, client: Client, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask on the coach's day; a check-in that went out today brings the plan at its own end instead."""
    account = unit.accounts.of_client(client.id)
    check_in = unit.due_questions.on(client.id, CHECK_IN, question.local_on)
    if account is None or (check_in is not None and check_in.sent_at is not None):
        return []
    return begin(client, account.user_id, account.chat_id, unit, now, question=question)


def after_check_in(
    asked: DueQuestion, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Show the plan after a check-in of the same day."""
    question = unit.due_questions.on(client.id, PLAN, asked.local_on)
    if question is None or question.answered_at is not None or client.frozen_at is not None:
        return []
    shown = begin(client, person.user_id, person.chat_id, unit, now, question=question)
    return [replace(each, unasked=False, message=replace(each.message, silent=True)) for each in shown]


def comes_after(asked_on: date, client: Client, unit: Unit, now: datetime) -> bool:
    """Return whether a plan will come after a check-in of a date."""
    due = unit.due_questions.on(client.id, PLAN, asked_on)
    first = _today(client, now) + ONE_DAY
    return due is not None and due.sent_at is None and bool(_sessions(client, first, unit))


def begin(
    client: Client,
    user_id: int,
    chat_id: int,
    unit: Unit,
    now: datetime,
    *,
    question: DueQuestion | None = None,
) -> list[Send]:
    """Send the card of the coming seven days; none where no session is planned in them. An older card is over."""
    first = _today(client, now) + ONE_DAY
    sessions = _sessions(client, first, unit)
    if not sessions:
        return []
    unit.prompts.close_kind(PLAN, client.id, now)
    facts = {"first": first.isoformat(), "question": question.id if question is not None else None}
    prompt = unit.prompts.open(
        PLAN, user_id, chat_id, now, client_id=client.id, subject=client.id, facts=facts
    )
    key = f"plan:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    if is_free_for_words(user_id, unit):
        unit.prompts.expect_text(prompt)
    message = replace(_week(prompt, client, unit), silent=question is None)
    return [
        Send(
            chat_id,
            message,
            key=f"{key}:card",
            card=key,
            client_id=client.id,
            unasked=question is not None,
        )
    ]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Keep the week, show where a session can go, move it, or take the last move back."""
    client = unit.clients.get(prompt.subject or 0)
    if _is_over(prompt, client, now):
        return refreshed(prompt, person, unit, now)
    match tap.action:
        case Action.CONFIRM:
            return _kept(prompt, client, unit, now)
        case Action.MOVE:
            session = next(
                (each for each in _sessions(client, _first(prompt), unit) if each.id == tap.argument), None
            )
            if session is not None:
                return _dates(session, prompt, unit, now)
        case Action.PICK if tap.argument < len(prompt.facts.get("options", ())):
            option = Option.model_validate(prompt.facts["options"][tap.argument])
            return _moved(int(prompt.facts["session"]), option, prompt, client, unit, now)
        case Action.UNDO if prompt.facts.get("undo"):
            return _undone(prompt, client, unit, now)
        case Action.BACK:
            return _shown(prompt, client, unit)
        case _:
            pass
    return refreshed(prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the week as it stands, after a tap on a button that is no longer good."""
    client = unit.clients.get(prompt.subject or 0)
    if prompt.closed_at is not None or _is_over(prompt, client, now):
        return [_card(prompt, say.over())]
    return _shown(prompt, client, unit, note=say.STALE)


def typed(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take `keep`, `undo` and `move lower a to thu` for the card that is open; None for other words."""
    prompt = unit.prompts.of(PLAN, client.id)
    if prompt is None or _is_over(prompt, client, now):
        return None
    words = " ".join(text.casefold().replace("’", "'").strip(" .!").split())
    if prompt.expects_text and words in _KEEP:
        return _below(_kept(prompt, client, unit, now))
    if prompt.expects_text and words == "undo" and prompt.facts.get("undo"):
        return _below(_undone(prompt, client, unit, now))
    if prompt.expects_text and words == "back" and prompt.facts.get("session"):
        return _below(_shown(prompt, client, unit))
    found = _MOVE.fullmatch(words)
    if found is None or style_of(unit) is Style.IN_LINE:
        return None
    return _below(_move_said(found[1], found[2], prompt, client, unit, now))


def _move_said(
    name: str, day: str, prompt: Prompt, client: Client, unit: Unit, now: datetime
) -> list[Effect]:
    named = [each for each in _sessions(client, _first(prompt), unit) if _is_meant(name, each, unit)]
    if len(named) != 1:
        return _shown(prompt, client, unit, note=say.SEVERAL if named else say.NOT_READ)
    found = options_ahead(named[0], unit, now)
    option = next((each for each in found if each.on is not None and _is_day(day, each.on)), None)
    if option is None:
        return _dates(named[0], prompt, unit, now, note=say.NOT_THAT_DAY)
    return _moved(named[0].id, option, prompt, client, unit, now)


def _is_meant(name: str, session: Session, unit: Unit) -> bool:
    words, weekday = name.split(), _DAYS[session.local_on.weekday()]
    day, named = folded(day_name(session, unit)), folded(name)
    if len(words[0]) >= 3 and weekday.startswith(words[0]):
        return named == day or folded(" ".join(words[1:])) in ("", day)
    return named == day


def _is_day(said: str, on: date) -> bool:
    words = said.split()
    if words[0].isdigit():
        return int(words[0]) == on.day
    named = len(words[0]) >= 3 and _DAYS[on.weekday()].startswith(words[0])
    return named and (len(words) == 1 or words[1] == str(on.day))


def _dates(session: Session, prompt: Prompt, unit: Unit, now: datetime, *, note: str = "") -> list[Effect]:
    found = options_ahead(session, unit, now)
    dumped = [each.model_dump(mode="json") for each in found]
    facts = {**prompt.facts, "session": session.id, "options": dumped}
    revised = unit.prompts.revise(prompt.id, facts=facts)
    unit.prompts.expect_text(revised)
    moves = [move_view(each, session, unit, now) for each in found]
    line = say.Line(session.id, session.local_on, day_name(session, unit))
    return [_card(revised, say.dates(line, moves, Buttons(revised.id, revised.revision), note=note))]


def _moved(
    session_id: int, option: Option, prompt: Prompt, client: Client, unit: Unit, now: datetime
) -> list[Effect]:
    session = next((each for each in _sessions(client, _first(prompt), unit) if each.id == session_id), None)
    if session is None:
        return _shown(prompt, client, unit, note=say.STALE)
    if option not in options_ahead(session, unit, now) or option.on is None:
        return _dates(session, prompt, unit, now, note=say.NOT_THAT_DAY)
    line = say.Line(session.id, session.local_on, day_name(session, unit))
    note = say.moved(line, move_view(option, session, unit, now))
    before = moved_ahead(session, option, client, unit, now)
    return _shown(prompt, client, unit, note=note, undo=before)


def _undone(prompt: Prompt, client: Client, unit: Unit, now: datetime) -> list[Effect]:
    if not put_back(prompt.facts["undo"], client, unit, now):
        return _shown(prompt, client, unit, note=say.STALE)
    return _shown(prompt, client, unit, note=say.UNDONE, undo=[])


def _kept(prompt: Prompt, client: Client, unit: Unit, now: datetime) -> list[Effect]:
    unit.prompts.close(prompt.id, now)
    unit.prompts.revise(prompt.id)
    question = prompt.facts.get("question")
    if question is not None:
        unit.due_questions.answered(question, {"kept": True}, now)
    first = _first(prompt)
    return [_card(prompt, say.kept(_lines(client, first, unit), first, first + SIX_DAYS))]


def _shown(
    prompt: Prompt,
    client: Client,
    unit: Unit,
    *,
    note: str = "",
    undo: list[dict[str, Any]] | None = None,
) -> list[Effect]:
    facts = {key: fact for key, fact in prompt.facts.items() if key not in ("session", "options")}
    if undo is not None:
        facts["undo"] = undo
    revised = unit.prompts.revise(prompt.id, facts=facts)
    unit.prompts.expect_text(revised)
    return [_card(revised, _week(revised, client, unit, note))]


def _week(prompt: Prompt, client: Client, unit: Unit, note: str = "") -> Message:
    first = _first(prompt)
    return say.week(
        _lines(client, first, unit),
        first,
        first + SIX_DAYS,
        Buttons(prompt.id, prompt.revision),
        movable=style_of(unit) is Style.CALENDAR,
        note=note,
        undo=bool(prompt.facts.get("undo")),
    )


def _sessions(client: Client, first: date, unit: Unit) -> list[Session]:
    planned = unit.sessions.of_client(client.id, ("planned",))
    return [each for each in reversed(planned) if first <= each.local_on <= first + SIX_DAYS]


def _lines(client: Client, first: date, unit: Unit) -> list[say.Line]:
    return [say.Line(each.id, each.local_on, day_name(each, unit)) for each in _sessions(client, first, unit)]


def _first(prompt: Prompt) -> date:
    return date.fromisoformat(str(prompt.facts["first"]))


def _is_over(prompt: Prompt, client: Client, now: datetime) -> bool:
    gone = client.state not in ("active", "paused") or client.frozen_at is not None
    return gone or _today(client, now) > _first(prompt) + SIX_DAYS


def _today(client: Client, now: datetime) -> date:
    return local_date(now, client.zone or "UTC")


def _card(prompt: Prompt, message: Message) -> EditCard:
    return EditCard(
        prompt.card_key or f"plan:{prompt.id}", prompt.chat_id, message, client_id=prompt.client_id
    )


def _below(effects: list[Effect]) -> list[Effect]:
    """Move the card down under what was typed."""
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]
