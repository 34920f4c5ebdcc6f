"""Short replies: read, kept, said back; asked about when two readings are sensible."""

from datetime import datetime
from decimal import Decimal

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import replies as say
from bot.store.body import NewReport
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import pain
from bot.usecases.closing import close, decide_next, onward
from bot.usecases.decisions import exposures
from bot.usecases.effects import after_quiet
from bot.usecases.logging_sets import as_written, log_sets, sides
from bot.usecases.session import skip, undo
from bot.usecases.session_view import show, view_of
from core.checkin.reading import Context, Reading, SetRead
from core.checkin.replies import read_reply
from core.checkin.training_log import Item, NewSet, Session
from core.local_time import local_date
from core.policy import Policy
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Dose, Load, LoadKind
from core.units import Mass, plain
from core.units import Unit as MassUnit


def heard(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Answer a client's typed words."""
    if client.frozen_at is not None:
        return [*to_coach(text, client, person, unit, now), say.send(person, say.on_hold(), "hold")]
    asked = unit.prompts.expecting_text(person.user_id)
    if asked is not None and asked.kind == "pain" and text.strip().isdigit() and int(text) <= 10:
        return pain.answer_score(int(text), asked, person, unit, now)
    session = unit.sessions.open_one(client.id)
    item = _at_cursor(session, unit)
    reading = read_reply(text, context_for(client, session, item, unit))
    return act(reading, text, session, item, client, person, unit, now)


def _at_cursor(session: Session | None, unit: Unit) -> Item | None:
    if session is None:
        return None
    items = unit.sessions.items(session.id)
    here = next((each for each in items if each.id == session.cursor_item_id), None)
    return here or next((each for each in items if each.state == "open"), None)


def context_for(client: Client, session: Session | None, item: Item | None, unit: Unit) -> Context:
    """Gather what a reply is read against."""
    home = MassUnit(client.unit or "kg")
    if session is None or item is None:
        asking = None
        if session is not None and session.state == "asking":
            prompt = unit.prompts.newest("session", session.id)
            asking = "reps left" if prompt is not None and prompt.facts.get("screen") == "left" else None
        return Context(unit=home, open_question=asking)
    past = exposures(client.id, item.exercise, unit)
    loads = [
        plain(each.load.mass.to(home).rounded(Decimal("0.01")).value)
        for exposure in reversed(past)
        for each in exposure.sets[:1]
        if each.load is not None and each.load.kind is LoadKind.MASS and each.load.mass is not None
    ]
    reps = [each.reps for exposure in past for each in exposure.sets if each.reps is not None]
    return Context(
        exercise=CATALOGUE[item.exercise],
        dose=item.given,
        unit=home,
        last_loads=tuple(loads),
        best_reps=max(reps, default=None),
    )


def act(
    reading: Reading,
    text: str,
    session: Session | None,
    item: Item | None,
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
) -> list[Effect]:
    """Do what a reading says; ask when it must be asked; pass plain words on to the coach."""
    message_id = person.arrival.message_id if person.arrival else None
    if reading.ask:
        return _ask(reading, text, item, message_id, client, person, unit, now)
    effects: list[Effect] = []
    for each in reading.pain:
        if each.site is not None:
            hurt = pain.Hurt(
                each.site,
                pain.side_of(each.side),
                each.score,
                session.id if session else None,
                item.id if item and session and session.state != "sent" else None,
            )
            effects += pain.said(hurt, person, unit, now, message_id)
    effects += _soreness(reading, session, client, person, unit, now, message_id)
    if session is not None:
        session = unit.sessions.get(session.id)
    if session is not None and session.state in ("sent", "started", "asking"):
        effects += _in_session(reading, session, item, client, person, unit, now)
    elif reading.sets or reading.as_written or reading.skip or reading.undo:
        effects.append(say.send(person, say.no_session(), "none"))
    if reading.note:
        effects += to_coach(reading.note, client, person, unit, now)
        if not (reading.sets or reading.pain or reading.soreness):
            effects.append(say.send(person, _unread(reading.note, session, item, unit), "note"))
    return effects


def _unread(note: str, session: Session | None, item: Item | None, unit: Unit) -> Message:
    example = None
    if session is not None and item is not None and any(letter.isdigit() for letter in note):
        prompt = unit.prompts.newest("session", session.id)
        if prompt is not None:
            view = view_of(session, prompt, unit)
            example = next((each for each in view.items if each.item.id == item.id), None)
    return say.passed_on(example)


def _in_session(
    reading: Reading,
    session: Session,
    item: Item | None,
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
) -> list[Effect]:
    if reading.undo:
        return undo(session, unit, now, moved=True)
    left = _left_of(reading)
    if session.state == "asking" and left is not None and not reading.sets:
        return _left_answered(left, session, person, unit, now)
    if left is not None and not (reading.sets or reading.as_written or reading.skip):
        return _left_for_last(left, session, person, unit)
    if item is None or item.state != "open":
        if reading.sets or reading.as_written or reading.skip:
            return [say.send(person, say.all_logged(), "all")]
        return []
    if reading.skip:
        return skip(item, session, person, unit, now, moved=True)
    sets = as_written(item) if reading.as_written else new_sets(reading.sets, item, left)
    if reading.as_written and not sets:
        return show(session.id, unit, screen="item", moved=True, note=say.NO_LOAD_YET)
    if not sets:
        return []
    message_id = person.arrival.message_id if person.arrival else None
    log_sets(item, sets, unit.sets.next_entry(session.id), message_id, unit, now)
    if left is not None:
        unit.sessions.change_item(item.id, left_last=left)
    if session.state == "sent":
        unit.sessions.change(session.id, state="started", started_at=now, cursor_item_id=item.id)
    note = say.understood(CATALOGUE[item.exercise], unit.sets.standing([item.id]), left)
    return onward(session.id, unit, person, now, moved=True, note=note)


def _left_for_last(left: int, session: Session, person: Person, unit: Unit) -> list[Effect]:
    """Keep reps left for what was logged last."""
    entry = unit.sets.last_entry(session.id)
    if not entry:
        return [say.send(person, say.left_for_nothing(), "left")]
    item = unit.sessions.item(entry[-1].item_id)
    unit.sessions.change_item(item.id, left_last=left)
    return [say.send(person, say.left_noted(CATALOGUE[item.exercise], left), "left")]


def _left_of(reading: Reading) -> int | None:
    """Return reps left when the reply gave a number; RPE counts down from ten, from 6 on. Source: [Zourdos2016]."""
    if reading.effort.rir is not None:
        return min(reading.effort.rir, 4)
    if reading.effort.rpe is not None and Decimal(reading.effort.rpe) >= 6:
        return min(int(10 - Decimal(reading.effort.rpe)), 4)
    return None


def _left_answered(left: int, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    prompt = unit.prompts.newest("session", session.id)
    main = view_of(session, prompt, unit).main_done() if prompt else None
    if main is not None:
        unit.sessions.change_item(main.item.id, left_last=left)
    return close(session.id, person, unit, now, moved=True)


def new_sets(read: tuple[SetRead, ...], item: Item, left: int | None) -> list[NewSet]:
    """Turn sets as read into sets to be kept; a set without a side is kept for both where sides are kept."""
    found: list[NewSet] = []
    number, seen = 0, ""
    for each in read:
        side = each.side.value if each.side else ""
        if not side or side == "L" or seen in ("", side):
            number += 1
        seen = side
        kept_for = (side,) if side else sides(item, item.given)
        last = left if each is read[-1] else None
        found += [_kept(each, number, kept, item, last) for kept in kept_for]
    return found


def _kept(each: SetRead, number: int, side: str, item: Item, left: int | None) -> NewSet:
    rpe = Decimal(each.rpe) if each.rpe is not None else None
    rir = each.rir if each.rir is not None else left
    if rir is None and rpe is not None and rpe >= 6:
        rir = int(10 - rpe)
    return NewSet(
        set_no=number,
        side=side,
        load=load_of(each, item.given),
        basis=CATALOGUE[item.exercise].basis.value,
        reps=each.reps,
        seconds=each.seconds,
        rir=rir,
        rpe=rpe,
    )


def load_of(each: SetRead, given: Dose) -> Load | None:
    """Return the load of a set as read; the one that was given where the reply has none."""
    if each.load is None:
        return given.load if given.load is None or given.load.kind is not LoadKind.FIND else None
    if each.load.startswith("bw"):
        rest = each.load[2:]
        added = Mass(Decimal(rest), each.unit or MassUnit.KG) if rest else None
        return Load.bodyweight(added)
    return Load(LoadKind.MASS, Mass(Decimal(each.load), each.unit or MassUnit.KG))


def _soreness(
    reading: Reading,
    session: Session | None,
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
    message_id: int | None,
) -> list[Effect]:
    effects: list[Effect] = []
    for number, each in enumerate(reading.soreness):
        if each.site is None:
            continue
        unit.body.add(
            client.id,
            NewReport(
                kind="soreness",
                local_on=local_date(now, client.zone or "UTC"),
                at=now,
                session_id=session.id if session else None,
                site=each.site.value,
                side=pain.side_of(each.side),
                score=each.score,
                message_id=message_id,
            ),
        )
        effects.append(say.send(person, say.soreness_noted(each.site, each.score), f"sore{number}"))
    return effects


def _ask(
    reading: Reading,
    text: str,
    item: Item | None,
    message_id: int | None,
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
) -> list[Effect]:
    prompt = unit.prompts.open(
        "reading",
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=item.id if item else None,
        facts={
            "text": text,
            "message": message_id,
            "readings": [each.model_dump(mode="json") for each in reading.ask],
            "why": reading.ask_why.value if reading.ask_why else "",
        },
    )
    key = f"reading:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    asked = say.ask_which(prompt, text, reading)
    return [Send(person.chat_id, asked, key=f"{key}:ask", card=key, client_id=client.id)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the reading that was chosen, or none of them."""
    unit.prompts.close(prompt.id, now)
    unit.prompts.revise(prompt.id)
    client = unit.clients.get(person.client_id or 0)
    readings = prompt.facts.get("readings", [])
    key = prompt.card_key or ""
    if tap.action is not Action.CHOOSE or tap.argument >= len(readings):
        return [EditCard(key, prompt.chat_id, say.none_of_them(), client_id=client.id)]
    reading = Reading.model_validate(readings[tap.argument])
    session = unit.sessions.open_one(client.id)
    item = _at_cursor(session, unit)
    if prompt.subject is not None:
        item = unit.sessions.item(prompt.subject)
        session = unit.sessions.get(item.session_id)
    chosen = EditCard(key, prompt.chat_id, say.chosen(reading, prompt.facts["text"]), client_id=client.id)
    return [chosen, *act(reading, prompt.facts["text"], session, item, client, person, unit, now)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """An answered question stays as it is."""
    return []


def corrected(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """A message was edited: what it logged is taken back and logged anew; decisions that rested on it are remade."""
    message_id = person.arrival.message_id if person.arrival else None
    before = unit.sets.from_message(client.id, message_id) if message_id is not None else []
    if message_id is not None:
        for report_id in unit.body.from_message(client.id, message_id):
            unit.body.void(report_id, "edited", now)
    if not before:
        return heard(text, client, person, unit, now)
    item = unit.sessions.item(before[0].item_id)
    session = unit.sessions.get(item.session_id)
    reading = read_reply(text, context_for(client, session, item, unit))
    sets = new_sets(reading.sets, item, _left_of(reading))
    if reading.ask or not sets:
        return [say.send(person, say.edit_unclear(text), "edit")]
    unit.sets.void([each.id for each in before], "edited", now)
    unit.sets.add(item.id, sets, before[0].entry, message_id, now)
    note = say.corrected(CATALOGUE[item.exercise], unit.sets.standing([item.id]))
    if session.state in ("done", "partial"):
        lines = decide_next(session, "correction", unit, now)
        return show(session.id, unit, screen="closed", closing=lines, note=note)
    return show(session.id, unit, note=note)


def to_coach(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Pass plain words on to the coach, outside her quiet hours."""
    chat_id = unit.accounts.coach_chat(unit.tenant)
    if chat_id is None or person.arrival is None:
        return []
    key = f"forward:{person.arrival.update_id}"
    unit.forwards.add(client.id, key, chat_id, person.arrival.message_id, "text", now)
    due_at = after_quiet(now, unit.coaches.get(unit.tenant).zone, Policy())
    return [Send(chat_id, say.forwarded(client.name, text), key=key, due_at=due_at)]
