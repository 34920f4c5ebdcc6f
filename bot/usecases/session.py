"""A session: its taps, and how it closes."""

from collections.abc import Callable
from datetime import datetime

from bot.messages import Action, Effect, Person, Tap
from bot.render.session import typed_example
from bot.render.sessions_said import LEFT_OUT, OLD_BUTTON, TYPE_INSTEAD, nothing_to_undo, over_the_line
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import pain
from bot.usecases.closing import after_feel, close, onward
from bot.usecases.decisions import kit_of
from bot.usecases.logging_sets import as_written, last_less, log_sets
from bot.usecases.session_view import show, show_again, view_of
from core.checkin.training_log import Item, Session
from core.loads.equipment import ladder_for
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Load, LoadKind

OPEN = ("sent", "started", "asking")
REASONS = {1: "time", 2: "ill", 3: "pain", 4: "away"}


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Do what a tap on the session card asks."""
    session = unit.sessions.get(prompt.subject or 0)
    if session.state not in OPEN:
        return show_again(prompt, unit, OLD_BUTTON)
    act = ACTS.get(tap.action)
    return act(tap, session, person, unit, now) if act else []


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the card as it stands, and say that the button was old."""
    return show_again(prompt, unit, OLD_BUTTON)


def _item_of(tap_argument: int, session: Session, unit: Unit) -> Item | None:
    return next((each for each in unit.sessions.items(session.id) if each.id == tap_argument), None)


def _all_done(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    entry = unit.sets.next_entry(session.id)
    for item in unit.sessions.items(session.id):
        if item.state == "open":
            sets = as_written(item)
            if sets:
                log_sets(item, sets, entry, None, unit, now)
    _begin(session, unit, now)
    return onward(session.id, unit, person, now)


def _start(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    _begin(session, unit, now)
    return onward(session.id, unit, person, now)


def _begin(session: Session, unit: Unit, now: datetime) -> None:
    if session.state == "sent":
        unit.sessions.change(session.id, state="started", started_at=now)


def _done(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    item = _item_of(tap.argument, session, unit)
    if item is None or item.state != "open":
        return show(session.id, unit, note=OLD_BUTTON)
    sets = as_written(item)
    if not sets:
        view = view_of(session, _prompt(session, unit), unit)
        current = next(each for each in view.items if each.item.id == item.id)
        return show(session.id, unit, screen="item", note=TYPE_INSTEAD.format(example=typed_example(current)))
    log_sets(item, sets, unit.sets.next_entry(session.id), None, unit, now)
    return onward(session.id, unit, person, now)


def _prompt(session: Session, unit: Unit) -> Prompt:
    found = unit.prompts.newest("session", session.id)
    if found is None:
        raise LookupError(f"session {session.id} was sent without a prompt")
    return found


def _last_less(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    item_id, fewer = divmod(tap.argument, 4)
    item = _item_of(item_id, session, unit)
    if item is None or item.state != "open" or not 1 <= fewer <= 3:
        return show(session.id, unit, note=OLD_BUTTON)
    log_sets(item, last_less(item, fewer), unit.sets.next_entry(session.id), None, unit, now)
    return onward(session.id, unit, person, now)


def _step(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    item = _item_of(tap.argument, session, unit)
    if item is None or item.state != "open" or item.given.load is None:
        return show(session.id, unit, screen="item", note=OLD_BUTTON)
    load = item.given.load
    client = unit.clients.get(session.client_id)
    ladder = ladder_for(CATALOGUE[item.exercise], kit_of(client, unit))
    if load.kind is not LoadKind.MASS or load.mass is None:
        return show(session.id, unit, screen="item", note="Type the load with your sets.")
    if tap.action is Action.HEAVIER:
        wanted = ladder.over(load.mass)
        decision = unit.decisions.get(item.decision_id).value if item.decision_id else None
        line = decision.line.mass if decision else None
        if wanted is not None and line is not None and wanted > line:
            return show(session.id, unit, screen="item", note=over_the_line(line))
    else:
        below = [step for step in ladder.steps if step < load.mass]
        wanted = below[-1] if below else None
    if wanted is None:
        return show(session.id, unit, screen="item", note="There is no such step in your kit.")
    given = item.given.model_copy(update={"load": Load(LoadKind.MASS, wanted)})
    unit.sessions.change_item(item.id, given=given)
    return show(session.id, unit, screen="item")


def _skip(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    item = _item_of(tap.argument, session, unit)
    if item is None or item.state != "open":
        return show(session.id, unit, note=OLD_BUTTON)
    return skip(item, session, person, unit, now)


def skip(
    item: Item, session: Session, person: Person, unit: Unit, now: datetime, *, moved: bool = False
) -> list[Effect]:
    """Leave one exercise out of a session."""
    _begin(session, unit, now)
    unit.sessions.change_item(item.id, state="skipped")
    return onward(session.id, unit, person, now, moved=moved)


def _jump(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    item = _item_of(tap.argument, session, unit)
    if item is None or item.state != "open":
        return show(session.id, unit, note=OLD_BUTTON)
    unit.sessions.change(session.id, cursor_item_id=item.id)
    return show(session.id, unit, screen="item")


def _screen(name: str) -> Callable[[Tap, Session, Person, Unit, datetime], list[Effect]]:
    def shown(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
        return show(session.id, unit, screen=name)

    return shown


def _back(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    if session.state == "sent":
        return show(session.id, unit, screen="overview")
    return onward(session.id, unit, person, now)


def _undo(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    return undo(session, unit, now)


def undo(session: Session, unit: Unit, now: datetime, *, moved: bool = False) -> list[Effect]:
    """Take back the last thing logged in a session; with nothing logged, an exercise left out comes back."""
    entry = unit.sets.last_entry(session.id)
    items = unit.sessions.items(session.id)
    if entry:
        unit.sets.void([each.id for each in entry], "client", now)
        touched = {each.item_id for each in entry}
    else:
        skipped = [each.id for each in items if each.state == "skipped" and each.cause is None]
        touched = set(skipped[-1:])
    if not touched:
        return show(session.id, unit, note=nothing_to_undo(), moved=moved)
    for item_id in touched:
        unit.sessions.change_item(item_id, state="open", left_last=None)
    first = next(each.id for each in items if each.id in touched)
    unit.sessions.change(session.id, state="started", cursor_item_id=first)
    return show(session.id, unit, screen="item", note="Taken back.", moved=moved)


def _leave_out(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    reason = REASONS.get(tap.argument)
    if reason is None:
        return show(session.id, unit)
    if unit.sets.last_entry(session.id):
        for item in unit.sessions.items(session.id):
            if item.state == "open":
                unit.sessions.change_item(item.id, state="skipped", cause=reason)
        return onward(session.id, unit, person, now)
    unit.sessions.change(session.id, state="left_out", left_reason=reason, closed_at=now, cursor_item_id=None)
    effects = show(session.id, unit, screen="closed", closing=(LEFT_OUT[reason],))
    if reason == "pain":
        effects = [*effects, *pain.begin(person, unit, now, session_id=session.id, item=None)]
    return effects


def _nothing_hurts(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    return after_feel(session.id, person, unit, now)


def _left(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    view = view_of(session, _prompt(session, unit), unit)
    main = view.main_done()
    if main is not None and 0 <= tap.argument <= 4:
        unit.sessions.change_item(main.item.id, left_last=tap.argument)
    return close(session.id, person, unit, now)


def _later(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    return close(session.id, person, unit, now)


def _hurts(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    item = _item_of(tap.argument, session, unit)
    if item is None and session.cursor_item_id:
        item = _item_of(session.cursor_item_id, session, unit)
    return pain.begin(person, unit, now, session_id=session.id, item=item)


ACTS: dict[Action, Callable[[Tap, Session, Person, Unit, datetime], list[Effect]]] = {
    Action.ALL_DONE: _all_done,
    Action.START: _start,
    Action.DONE: _done,
    Action.CHANGE: _screen("change"),
    Action.LAST_LESS: _last_less,
    Action.LIGHTER: _step,
    Action.HEAVIER: _step,
    Action.SKIP: _skip,
    Action.JUMP: _jump,
    Action.WHY: _screen("why"),
    Action.BACK: _back,
    Action.UNDO: _undo,
    Action.NOT_TODAY: _screen("not_today"),
    Action.LEAVE_OUT: _leave_out,
    Action.NOTHING_HURTS: _nothing_hurts,
    Action.HURTS: _hurts,
    Action.LEFT: _left,
    Action.LATER: _later,
}
