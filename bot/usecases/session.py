"""A session: its taps, and how it closes."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from bot.messages import Action, EditCard, Effect, Person, Tap
from bot.render.examples import typed_example
from bot.render.replies import understood
from bot.render.sessions_said import (
    NO_SUCH_STEP,
    OLD_BUTTON,
    TYPE_EACH_SET,
    TYPE_INSTEAD,
    TYPE_THE_LOAD,
    over_the_line,
    skipped,
)
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import (
    marks,
    not_today,
    pain,
    place_today,
    prep_steps,
    resting,
    short_on_time,
    showing,
    swapping,
)
from bot.usecases.closing import after_feel, close, onward
from bot.usecases.kit_known import kit_today
from bot.usecases.logging_sets import as_written, last_less, log_sets
from bot.usecases.moving import can_be_taken_back
from bot.usecases.session_view import prompt_of, show, show_again, view_of
from bot.usecases.undoing import undo
from core.checkin.training_log import Item, Session
from core.loads.equipment import ladder_for
from core.local_time import local_date
from core.programme.prescription import Load, LoadKind

OPEN = ("sent", "started", "asking")


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Do what a tap on the session card asks."""
    session = unit.sessions.get(prompt.subject or 0)
    taken_up = tap.action is Action.UNDO and _may_be_taken_up(session, unit, now)
    act = ACTS.get(tap.action)
    if act is None or not (session.state in OPEN or taken_up):
        return show_again(prompt, unit, OLD_BUTTON)
    return act(tap, session, person, unit, now)


def _may_be_taken_up(session: Session, unit: Unit, now: datetime) -> bool:
    client = unit.clients.get(session.client_id)
    today = local_date(now, client.zone or "UTC")
    if (
        session.state not in ("left_out", "moved")
        or session.local_on != today
        or client.frozen_at is not None
    ):
        return False
    return can_be_taken_back(session, unit)


def typed(action: Action, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Do what the words of a button ask, typed: the card moves down under them."""
    effects = ACTS[action](Tap(0, 0, action), session, person, unit, now)
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the card as it stands, and say that the button was old."""
    return show_again(prompt, unit, OLD_BUTTON)


def _item_of(tap_argument: int, session: Session, unit: Unit) -> Item | None:
    return next((each for each in unit.sessions.items(session.id) if each.id == tap_argument), None)


def _all_done(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    entry = unit.sets.next_entry(session.id)
    for item in unit.sessions.items(session.id):
        if item.state == "open":
            sets = as_written(item, unit.exercises.get(item.exercise))
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
    sets = as_written(item, unit.exercises.get(item.exercise))
    if not sets:
        view = view_of(session, prompt_of(session.id, unit), unit)
        current = next(each for each in view.items if each.item.id == item.id)
        said = TYPE_INSTEAD if current.to_find else TYPE_EACH_SET
        return show(session.id, unit, screen="item", note=said.format(example=typed_example(current)))
    log_sets(item, sets, unit.sets.next_entry(session.id), None, unit, now)
    return onward(session.id, unit, person, now, logged=item)


def _last_less(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    item_id, fewer = divmod(tap.argument, 4)
    item = _item_of(item_id, session, unit)
    if item is None or item.state != "open" or not 1 <= fewer <= 3:
        return show(session.id, unit, note=OLD_BUTTON)
    exercise = unit.exercises.get(item.exercise)
    log_sets(item, last_less(item, exercise, fewer), unit.sets.next_entry(session.id), None, unit, now)
    note = understood(exercise, unit.sets.standing([item.id]), None)
    return onward(session.id, unit, person, now, note=note, logged=item)


def _step(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    item = _item_of(tap.argument, session, unit)
    if item is None or item.state != "open" or item.given.load is None:
        return show(session.id, unit, screen="item", note=OLD_BUTTON)
    load = item.given.load
    client = unit.clients.get(session.client_id)
    ladder = ladder_for(unit.exercises.get(item.exercise), kit_today(session, client, unit))
    if load.kind is not LoadKind.MASS or load.mass is None:
        return show(session.id, unit, screen="item", note=TYPE_THE_LOAD)
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
        return show(session.id, unit, screen="item", note=NO_SUCH_STEP)
    given = item.given.model_copy(update={"load": Load(LoadKind.MASS, wanted)})
    unit.sessions.change_item(item.id, given=given)
    return show(session.id, unit, screen="item")


def _skip(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    item = _item_of(tap.argument, session, unit)
    if item is None or item.state != "open":
        return show(session.id, unit, note=OLD_BUTTON)
    return skip(item, session, person, unit, now)


def skip(
    item: Item,
    session: Session,
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    message_id: int | None = None,
    moved: bool = False,
) -> list[Effect]:
    """Leave one exercise out of a session."""
    _begin(session, unit, now)
    unit.sessions.change_item(item.id, state="skipped")
    marks.mark(marks.SKIP, item.id, session.id, message_id, unit)
    note = skipped(unit.exercises.get(item.exercise)) if moved else None
    resting.withdraw(session.id, unit)
    return onward(session.id, unit, person, now, moved=moved, note=note)


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
    screen = prompt_of(session.id, unit).facts.get("screen")
    if screen == "prep" and (before := prep_steps.back(session, unit)) is not None:
        return before
    if session.state == "sent":
        return show(session.id, unit, screen="overview")
    return onward(session.id, unit, person, now)


def _undo(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    return undo(session, unit, now)


def _nothing_hurts(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    return after_feel(session.id, person, unit, now)


def _left(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    view = view_of(session, prompt_of(session.id, unit), unit)
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
    # The card is shown anew, so that its button is good for a second place that hurts.
    return [*show(session.id, unit), *pain.begin(person, unit, now, session_id=session.id, item=item)]


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
    Action.PREP: prep_steps.asked,
    Action.NEXT: prep_steps.onward,
    Action.PREP_OVER: prep_steps.over,
    Action.PLACE: place_today.asked,
    Action.PICK: place_today.kind_said,
    Action.REST: resting.asked,
    Action.BACK: _back,
    Action.UNDO: _undo,
    Action.NOT_TODAY: _screen("not_today"),
    Action.LEAVE_OUT: not_today.reason_given,
    Action.MOVE: not_today.day_chosen,
    Action.DROP: not_today.dropped,
    Action.NOTHING_HURTS: _nothing_hurts,
    Action.HURTS: _hurts,
    Action.LEFT: _left,
    Action.LATER: _later,
    Action.SWAP: swapping.asked,
    Action.SHOW_ME: showing.asked,
    Action.SHORT: short_on_time.asked,
    Action.TRIM: short_on_time.taken,
    Action.SWAP_TO: swapping.taken,
}
