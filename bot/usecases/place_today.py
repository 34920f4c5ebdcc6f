"""Place today: a session done at another place than usual, fitted anew to what there is, and back again."""

from dataclasses import replace
from datetime import datetime

from bot.messages import EditCard, Effect, Person, Tap
from bot.render import place_today as say
from bot.render.sessions_said import OLD_BUTTON
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.closing import onward
from bot.usecases.decisions import decide, given_dose
from bot.usecases.kit_known import KINDS, kit_today, kits_of
from bot.usecases.merging import moment_of
from bot.usecases.personalise import placing
from bot.usecases.places import ELSEWHERE, is_of_a_place
from bot.usecases.session_view import place_names, prompt_of, show
from bot.usecases.standing_in import Chosen, chosen_for
from core.checkin.training_log import Item, Session
from core.loads.decision import Decision, Kind
from core.loads.equipment import Kit, default_kit
from core.loads.kit import kit_at
from core.programme.exercises import Exercise
from core.programme.prescription import Dose, LoadKind
from core.units import Unit as MassUnit

BEGUN = ("started", "asking")


def asked(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Go to a place, by its number among those that the card names; ask which with 0."""
    if session.state == "asking":
        return show(session.id, unit, note=OLD_BUTTON)
    if not tap.argument:
        return show(session.id, unit, screen="place")
    named = prompt_of(session.id, unit).facts.get("places", [])
    if tap.argument > len(named):
        return show(session.id, unit, note=OLD_BUTTON)
    return _go(named[tap.argument - 1], session, person, unit, now)


def kind_said(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take what kind of kit there is at a place of which nothing is known."""
    prompt = prompt_of(session.id, unit)
    name = prompt.facts.get("place_asked")
    if prompt.facts.get("screen") != "place_kind" or name is None or not 1 <= tap.argument <= len(KINDS):
        return show(session.id, unit, note=OLD_BUTTON)
    client = unit.clients.get(session.client_id)
    # With company or safety arms nobody has said anything: a place that is new counts as alone and without.
    kit = default_kit(KINDS[tap.argument - 1], MassUnit(client.unit or "kg")).model_copy(
        update={"place": name}
    )
    if name != ELSEWHERE:
        unit.kits.keep(client.id, kit)
    return _fitted(kit, session, client, person, unit, now)


def typed(text: str, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take a place, or what there is at it, typed; None for other words."""
    if session.state == "asking":
        return None
    client = unit.clients.get(session.client_id)
    prompt = prompt_of(session.id, unit)
    screen = str(prompt.facts.get("screen"))
    kind = say.kind_meant(text) if screen == "place_kind" else None
    if kind is not None:
        return _below(kind_said(Tap(0, 0, say.KIND, kind), session, person, unit, now))
    name = say.place_meant(text, place_names(client, unit), alone=screen in ("place", "place_kind"))
    if name is None:
        return None
    if name == say.ANY:
        return _below(show(session.id, unit, screen="place"))
    return _below(_go(name, session, person, unit, now))


def _below(effects: list[Effect]) -> list[Effect]:
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]


def _go(name: str, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    client = unit.clients.get(session.client_id)
    kit = kit_at(name, kits_of(client, unit)) if name != ELSEWHERE else None
    if kit is not None and kit.place == kit_today(session, client, unit).place:
        screen = "item" if session.state == "started" else "overview"
        return show(session.id, unit, screen=screen, note=say.there_already(kit.place))
    if kit is None:
        prompt = prompt_of(session.id, unit)
        unit.prompts.note(prompt.id, {**prompt.facts, "place_asked": name})
        return show(session.id, unit, screen="place_kind")
    return _fitted(kit, session, client, person, unit, now)


def _fitted(
    kit: Kit, session: Session, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Fit what is still to be done to a kit. What was logged, left out by her or stopped by pain stays as it is."""
    prompt = prompt_of(session.id, unit)
    said = {key: each for key, each in prompt.facts.items() if key not in ("kit", "place_asked")}
    if kit.place == ELSEWHERE:
        said["kit"] = kit.model_dump(mode="json")
    unit.prompts.note(prompt.id, said)
    unit.sessions.change(session.id, place=kit.place)
    items = unit.sessions.items(session.id)
    before = {each.id: each for each in items}
    free = [each for each in items if each.state == "open" or (each.state, each.cause) == ("skipped", "kit")]
    _choose(free, items, kit, unit.sessions.get(session.id), client, unit, now)
    after = [each for each in unit.sessions.items(session.id) if each.id in {one.id for one in free}]
    note = say.fitted(
        kit.place,
        others=[
            (each.prescription.order, unit.exercises.get(each.exercise))
            for each in after
            if each.state == "open" and each.exercise != before[each.id].exercise
        ],
        gone=[
            (each.prescription.order, unit.exercises.get(each.prescription.exercise))
            for each in after
            if each.state == "skipped" and each.cause == "kit"
        ],
        machines=any(_is_found_anew(each, unit) for each in after if each.state == "open"),
    )
    if session.state in BEGUN:
        return onward(session.id, unit, person, now, note=note)
    return show(session.id, unit, screen="overview", note=note)


def _is_found_anew(item: Item, unit: Unit) -> bool:
    load = item.given.load
    found = load is not None and load.kind is LoadKind.FIND
    return found and is_of_a_place(unit.exercises.get(item.exercise))


def _choose(
    free: list[Item],
    items: list[Item],
    kit: Kit,
    session: Session,
    client: Client,
    unit: Unit,
    now: datetime,
) -> None:
    """Decide anew for every exercise that is free, with what stands in where the kit cannot do it."""
    moment = moment_of(session, unit)
    how = placing(client, session.assignment_id, session.local_on, unit, kit)

    def decides(exercise: Exercise, dose: Dose) -> tuple[int, Decision]:
        return decide(client, exercise.key, dose, moment, "card", unit, now, card_is_out=True, kit=kit)

    own = {each.prescription.exercise for each in free}
    beside = own | {each.exercise for each in items if each not in free}
    placed = dict(prompt_of(session.id, unit).facts.get("placed", {}))
    for each in free:
        chosen = chosen_for(each.prescription, how, frozenset(beside), decides, unit)
        if chosen is None:
            continue
        beside.add(chosen.exercise)
        _put(chosen, each, unit)
        placed.pop(str(each.id), None)
        if chosen.because is not None:
            placed[str(each.id)] = chosen.because
    prompt = prompt_of(session.id, unit)
    hers = [each for each in prompt.facts.get("chosen", []) if each not in {one.id for one in free}]
    unit.prompts.note(prompt.id, {**prompt.facts, "placed": placed, "chosen": hers})


def _put(chosen: Chosen, item: Item, unit: Unit) -> None:
    stopped = {Kind.PAUSE: "pain", Kind.SWAP: "kit"}.get(chosen.decision.kind)
    unit.decisions.for_item(chosen.decision_id, item.id)
    unit.sessions.change_item(
        item.id,
        exercise=chosen.exercise,
        given=given_dose(chosen.dose, chosen.decision),
        decision_id=chosen.decision_id,
        state="open" if stopped is None else "skipped",
        cause=stopped,
    )
