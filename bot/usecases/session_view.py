"""A session gathered for its card, and the card shown."""

from collections.abc import Mapping, Sequence
from contextlib import suppress
from datetime import date, datetime
from typing import Any

from bot.messages import EditCard, Effect
from bot.render.session import session_card
from bot.render.session_views import ItemView, SessionView
from bot.store.last_loads import KeptLastLoad
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.sets import At
from bot.store.units import Unit
from bot.usecases.kit_known import kit_today, kits_of
from bot.usecases.merging import is_merge
from bot.usecases.move_views import move_view, taken_in
from bot.usecases.pain_reports import asks_after_birth
from bot.usecases.places import ELSEWHERE, is_of_a_place, is_usual, usual_place
from bot.usecases.prepping import prep_of
from bot.usecases.video_asked import with_asks
from core.checkin.away_words import PLACE
from core.checkin.cues import Cue, exercise_cue
from core.checkin.training_log import Item, LoggedSet, Session
from core.loads.bars import BarLoad, bar_load, bars_for
from core.loads.decision import Decision
from core.loads.kit import Kit
from core.loads.warmup import Ramp, ramp_for
from core.programme.exercises import Basis, Exercise, Implement
from core.programme.prescription import LoadKind
from core.programme.replanning import Option
from core.units import Mass

RESTED_IN = ("sent", "started")
"""States of a session in which a reminder of a rest may be pending."""


def card_key(session_id: int) -> str:
    """Return the key of a session's card."""
    return f"session:{session_id}"


def reminders_key(session_id: int) -> str:
    """Return how the keys of a session's rest reminders begin."""
    return f"rest:{session_id}:"


def prompt_of(session_id: int, unit: Unit) -> Prompt:
    """Return the prompt of a session's card.

    Raises:
        LookupError: The session has no card.
    """
    found = unit.prompts.newest("session", session_id)
    if found is None:
        raise LookupError(f"session {session_id} has no card")
    return found


def view_of(session: Session, prompt: Prompt, unit: Unit, *, note: str | None = None) -> SessionView:
    """Gather a session for its card."""
    client = unit.clients.get(session.client_id)
    block = unit.versions.block_of(session)
    items = unit.sessions.items(session.id)
    kit = kit_today(session, client, unit)
    return SessionView(
        day=next((day.name for day in block.days if day.key == session.day_key), session.day_key),
        week_no=session.week_no,
        weeks=block.weeks,
        local_on=session.local_on,
        late=session.late,
        state=session.state,
        screen=str(prompt.facts.get("screen", "overview")),
        items=with_asks(_items(items, session, prompt, kit, unit), client.id, unit),
        cursor=session.cursor_item_id,
        prompt_id=prompt.id,
        revision=prompt.revision,
        note=note,
        closing=tuple(prompt.facts.get("closing", ())),
        pained=any(each.session_id == session.id for each in unit.body.since(client.id, session.local_on)),
        asks_signs=asks_after_birth(client, unit, session.local_on),
        swaps=tuple(prompt.facts.get("swap", {}).get("keys", ())),
        swap_back=bool(prompt.facts.get("swap", {}).get("back")),
        lighter_week=session.week_no in block.lighter_weeks,
        testing_week=session.week_no in block.testing_weeks,
        phase=phase.name if (phase := block.phase(session.week_no)) is not None else None,
        prep=prep_of(session, items, block, client, kit, unit),
        clips=unit.clips.standing() if prompt.facts.get("screen") == "prep" else {},
        prepped=tuple(prompt.facts.get("prepped", ())),
        reminder=str(prompt.facts.get("remind", "")),
        catalogue=unit.exercises.catalogue(),
        **_moves(session, prompt, unit),
        **_places(session, kit, client, prompt, unit),
    )


def _places(session: Session, kit: Kit, client: Client, prompt: Prompt, unit: Unit) -> dict[str, Any]:
    """Gather where a session is done, and where else it could be."""
    known = kits_of(client, unit)
    return {
        "place": kit.place,
        "usual_place": known[0].place,
        "places": tuple(prompt.facts.get("places", place_names(client, unit))),
        "several_places": len(known) > 1 or session.place not in (None, known[0].place),
        "place_asked": str(prompt.facts.get("place_asked", "")),
    }


def place_names(client: Client, unit: Unit) -> list[str]:
    """Return where a session can be done: her places, gym, home, and elsewhere at the end."""
    known = [each.place for each in kits_of(client, unit) if not each.place.startswith(PLACE)]
    return list(dict.fromkeys((*known, "gym", "home", ELSEWHERE)))


def _moves(session: Session, prompt: Prompt, unit: Unit) -> dict[str, Any]:
    """Gather where a session comes from, and where it can go while that is asked."""
    came = [each for each in unit.moves.came_to(session.id) if not is_merge(each, session)]
    found: dict[str, Any] = {
        "moved_from": came[-1].local_on if came and came[-1].state == "moved" else None,
        "taken_in": taken_in(session, unit),
    }
    found["stays_moved"] = not prompt.facts.get("moved", {}).get("own_day", True)
    asked = prompt.facts.get("moves")
    if asked and prompt.facts.get("screen") == "other_day":
        at = datetime.fromisoformat(asked["at"])
        options = [Option.model_validate(each) for each in asked["options"]]
        with suppress(
            LookupError
        ):  # what would have moved too is no longer planned: asked anew with the next tap
            found["moves"] = tuple(move_view(each, session, unit, at) for each in options)
        found["reason"] = asked["reason"]
        found["last_week"] = date.fromisoformat(asked["last_week"]) if asked["last_week"] else None
    return found


def _items(items: list[Item], session: Session, prompt: Prompt, kit: Kit, unit: Unit) -> tuple[ItemView, ...]:
    """Gather the exercises of a session, with what was done of each last time; in one question each."""
    logged: dict[int, list[LoggedSet]] = {}
    for each in unit.sets.standing([item.id for item in items]):
        logged.setdefault(each.item_id, []).append(each)
    last = unit.sets.last_of(
        session.client_id, [item.exercise for item in items], session.id, at=_at(items, session, kit, unit)
    )
    decisions = unit.decisions.values([item.decision_id for item in items if item.decision_id])
    chosen, placed = prompt.facts.get("chosen", ()), prompt.facts.get("placed", {})
    usual = usual_place(session.client_id, unit)
    here = is_usual(kit.place, usual)
    noted = {
        key: each
        for key, each in unit.last_loads.standing(session.client_id).items()
        if here or not is_of_a_place(unit.exercises.get(key))
    }
    cues = unit.cues.for_client(session.client_id)
    return tuple(
        _item_view(
            item,
            unit,
            cues,
            logged.get(item.id, []),
            last.get(item.exercise, ()),
            decisions.get(item.decision_id or 0),
            kit,
            chosen=item.id in chosen,
            because=placed.get(str(item.id)),
            noted=noted.get(item.exercise),
        )
        for item in items
    )


def _at(items: list[Item], session: Session, kit: Kit, unit: Unit) -> At:
    """Return where the machines of a session count: at its place, and elsewhere never."""
    machines = {each.exercise for each in items if is_of_a_place(unit.exercises.get(each.exercise))}
    place = None if kit.place == ELSEWHERE else kit.place
    return At(machines, place, usual_place(session.client_id, unit) or kit.place)


def _item_view(
    item: Item,
    unit: Unit,
    cues: Sequence[Cue],
    logged: list[LoggedSet],
    last: tuple[LoggedSet, ...],
    decision: Decision | None,
    kit: Kit,
    *,
    chosen: bool,
    because: str | None,
    noted: KeptLastLoad | None,
) -> ItemView:
    exercise = unit.exercises.get(item.exercise)
    catalogue = unit.exercises.catalogue()
    made = made_of(_load(item), exercise, kit)
    ramp = _ramp(item, exercise, kit if made is None else _with_one_bar(kit, made), catalogue)
    from_coach = noted.value if noted is not None else None
    return ItemView(
        item,
        exercise,
        decision,
        last,
        tuple(logged),
        made,
        len(bars_for(exercise, kit)),
        ramp,
        catalogue[ramp.instead].name if ramp.instead is not None else None,
        chosen,
        because=because,
        noted=from_coach,
        written=unit.exercises.get(item.prescription.exercise),
        own_cue=exercise_cue(cues, exercise.key, for_one=True),
        coach_cue=exercise_cue(cues, exercise.key, for_one=False),
    )


def _load(item: Item) -> Mass | None:
    load = item.given.load
    return load.mass if load is not None and load.kind is LoadKind.MASS else None


def made_of(load: Mass | None, exercise: Exercise, kit: Kit) -> BarLoad | None:
    """Return the bar made up to today's load; what is counted a side is on both of them."""
    bars = bars_for(exercise, kit)
    if load is None or exercise.implement is not Implement.BARBELL or not bars:
        return None
    if exercise.basis is not Basis.PER_SIDE:
        return bar_load(load, exercise, kit)
    bare = bars[0].mass if kit.collars is None or load.value == 0 else bars[0].mass + kit.collars
    return bar_load(bare + load * 2, exercise, kit)


def _with_one_bar(kit: Kit, made: BarLoad) -> Kit:
    """Return a kit with the bar of today's load alone: nobody changes bars on the way up."""
    return kit.model_copy(update={"bar": made.bar, "bars": ()})


def _ramp(item: Item, exercise: Exercise, kit: Kit, catalogue: Mapping[str, Exercise]) -> Ramp:
    """Return the way to today's load: nothing where none is known, sets for main lifts alone."""
    load = _load(item)
    if load is None or item.given.reps is None:
        return Ramp()
    found = ramp_for(exercise, load, item.given.reps.low, kit, catalogue=catalogue)
    return found if exercise.main_lift else found.model_copy(update={"sets": ()})


def show(
    session_id: int,
    unit: Unit,
    *,
    screen: str | None = None,
    moved: bool = False,
    note: str | None = None,
    closing: tuple[str, ...] | None = None,
) -> list[Effect]:
    """Show a session's card as it stands now, on another screen if one is named. Older buttons become stale."""
    prompt = prompt_of(session_id, unit)
    facts = dict(prompt.facts)
    if screen is not None:
        facts["screen"] = screen
    if closing is not None:
        facts["closing"] = list(closing)
    session = unit.sessions.get(session_id)
    facts["places"] = place_names(unit.clients.get(session.client_id), unit)
    if session.state not in RESTED_IN:
        unit.outbox.withdraw(unit.tenant, reminders_key(session_id))
    prompt = unit.prompts.revise(prompt.id, facts=facts)
    unit.sessions.revise(session_id)
    session = unit.sessions.get(session_id)
    view = view_of(session, prompt, unit, note=note)
    return [
        EditCard(
            card_key(session_id), prompt.chat_id, session_card(view), moved=moved, client_id=session.client_id
        )
    ]


def show_again(prompt: Prompt, unit: Unit, note: str | None) -> list[Effect]:
    """Show a session's card again without making its buttons stale; for a tap on an old one."""
    session = unit.sessions.get(prompt.subject or 0)
    view = view_of(session, prompt_of(session.id, unit), unit, note=note)
    return [EditCard(card_key(session.id), prompt.chat_id, session_card(view), client_id=session.client_id)]


def open_prompt(
    session: Session, user_id: int, chat_id: int, unit: Unit, now: datetime, *, placed: dict[str, str]
) -> Prompt:
    """Open the prompt of a session's card, with why exercises stand in for others, by row."""
    return unit.prompts.open(
        "session",
        user_id,
        chat_id,
        now,
        client_id=session.client_id,
        subject=session.id,
        card_key=card_key(session.id),
        facts={"screen": "overview", "places": place_names(unit.clients.get(session.client_id), unit)}
        | ({"placed": placed} if placed else {}),
    )
