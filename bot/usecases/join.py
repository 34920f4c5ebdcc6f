"""Joining: a link, one question after the other, each answered by a button or by words; and leaving.

Where a client stands is `client.join_step`; what she has answered is in her row at once, so that joining goes on
wherever it was interrupted. The prompt only knows what is shown: days chosen so far, zones suggested.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Level, Person, Tap, Tell
from bot.render import coach_talk as coach_words
from bot.render import join as words
from bot.render import joined as outcome
from bot.render.leaving import stopped_speaks as stopped_words
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import last_loads, leaving, strangers
from bot.usecases.join_answers import STEPS, Answer, GoesBack, Stays, Taken, typed
from bot.usecases.join_answers import tapped as tap_answer
from bot.usecases.join_card import fresh_facts, open_prompt, shown
from bot.usecases.kit_known import is_kind_alone
from bot.usecases.releasing import PLAN, release_button
from core.loads.equipment import default_kit
from core.units import Unit as MassUnit


@dataclass(frozen=True, slots=True)
class Start:
    """Somebody came, with a code or without one."""

    invite_code: str | None


def start(command: Start, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take up an invitation, or go on where joining was left."""
    if person.role == "coach":
        return [answer(person, "start", coach_words.coach_help())]
    if person.role == "client" and person.client_id is not None:
        client = unit.clients.get(person.client_id)
        return _known(command, client, person, unit, now)
    if person.role != "invited" or person.invite_id is None:
        return strangers.answered(person, unit, now)
    invite = unit.invite_of(command.invite_code or "")
    if invite is None or not unit.invites.use(invite.id, now):
        return strangers.answered(person, unit, now)
    if invite.kind == "coach":
        return _coach_bound(person, unit, now)
    client_id = unit.clients.add(invite.name or "you", now)
    unit.invites.belongs_to(invite.id, client_id)
    unit.accounts.bind(person.user_id, person.chat_id, unit.tenant, "client", client_id)
    return _begun(client_id, person, unit, now)


def _coach_bound(person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    before = unit.accounts.coach(unit.tenant)
    if before is not None:  # a new code moves the coach to a new account; the old one is a stranger again
        unit.accounts.unbind(before.user_id)
    unit.accounts.bind(person.user_id, person.chat_id, unit.tenant, "coach")
    return [answer(person, "welcome", coach_words.coach_welcome(unit.coaches.get(unit.tenant).name))]


def _known(command: Start, client: Client, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    invite = unit.invite_of(command.invite_code) if command.invite_code else None
    good = invite is not None and invite.open_at(now)
    if good and invite is not None and (invite.coach_id != unit.tenant or invite.kind == "coach"):
        return [answer(person, "other", outcome.with_a_coach_already())]
    if client.state == "joining":
        prompt, is_new = open_prompt(client, person, unit, now)
        if prompt.facts.get("declined"):  # the question in full, not the answer to a no
            prompt = unit.prompts.revise(prompt.id, facts=fresh_facts(client, unit))
        return [shown(client, prompt, unit, is_new=is_new, moved=True)]
    if client.state != "stopped":
        return [answer(person, "start", outcome.nothing_open())]
    if good and invite is not None and unit.invites.use(invite.id, now):
        unit.clients.change(client.id, name=invite.name or client.name)
        unit.invites.belongs_to(invite.id, client.id)
        return _begun(client.id, person, unit, now)
    return stopped_speaks(person)


def _begun(client_id: int, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    unit.clients.change(client_id, state="joining", join_step=STEPS[0], stopped_at=None)
    client = unit.clients.get(client_id)
    prompt, _ = open_prompt(client, person, unit, now, anew=True)
    return [shown(client, prompt, unit, is_new=True)]


def heard(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Read a typed answer; what cannot be read repeats the question with an example."""
    prompt, is_new = open_prompt(client, person, unit, now)
    step = client.join_step or STEPS[0]
    read = typed(step, text, prompt.facts, now)
    if read is None:
        prompt = unit.prompts.revise(prompt.id)
        return [shown(client, prompt, unit, is_new=is_new, moved=True, note=words.not_read(step))]
    return _answered(read, _Talk(client, prompt, person, unit, now, is_new=is_new, moved=True))


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take a tapped answer."""
    if prompt.facts.get("ask") == "leave":
        return leaving.tapped(tap, prompt, person, unit, now)
    if person.client_id is None:
        return []
    client = unit.clients.get(person.client_id)
    read = tap_answer(client.join_step or STEPS[0], tap.action, tap.argument, prompt.facts)
    if client.state != "joining" or read is None:
        return refreshed(prompt, person, unit, now)
    return _answered(read, _Talk(client, prompt, person, unit, now))


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show where joining stands, after a tap on a button that is no longer good."""
    if prompt.facts.get("ask") == "leave":
        return leaving.refreshed(prompt, person, unit)
    if person.client_id is None:
        return []
    client = unit.clients.get(person.client_id)
    if client.state != "joining":
        return []
    now_open, is_new = open_prompt(client, person, unit, now)
    return [shown(client, now_open, unit, is_new=is_new, note=words.NOTES["stale"])]


def stopped_speaks(person: Person) -> Sequence[Effect]:
    """Answer somebody who has stopped: nothing is kept, nothing is passed on."""
    return [answer(person, "stopped", stopped_words())]


Stop = leaving.Stop
stop = leaving.stop
answer = leaving.answer


@dataclass(frozen=True, slots=True)
class _Talk:
    """One answer being taken."""

    client: Client
    prompt: Prompt
    person: Person
    unit: Unit
    now: datetime
    is_new: bool = False
    moved: bool = False


def _answered(read: Answer, talk: _Talk) -> Sequence[Effect]:
    step = talk.client.join_step or STEPS[0]
    match read:
        case Stays(facts, note):
            return [_show(talk, {**talk.prompt.facts, **facts}, words.NOTES[note] if note else None)]
        case GoesBack():
            return _asked_next(talk, STEPS[STEPS.index(step) - 1], None)
        case Taken(values, said):
            return _taken(step, values, said, talk)


def _taken(step: str, values: dict[str, object], said: object, talk: _Talk) -> Sequence[Effect]:
    unit, client_id = talk.unit, talk.client.id
    if values.get("age_band") == "under 18":
        return _refused(talk)
    if values:
        unit.clients.change(client_id, **values)
    if step == "consent":
        unit.clients.withdraw(client_id, talk.now)
        unit.clients.agree(client_id, words.CONSENT_VERSION, talk.now)
    if step == "alone":
        keep_kit(unit.clients.get(client_id), unit)
    if step == STEPS[-1]:
        return _finished(talk)
    effects: list[Effect] = []
    note = words.understood(step, said, talk.now)
    if step == "health" and (said or talk.client.frozen_at is not None):
        effects, note = _held(talk, said_yes=bool(said))
    return [*_asked_next(talk, STEPS[STEPS.index(step) + 1], note), *effects]


def _asked_next(talk: _Talk, step: str, note: str | None) -> list[Effect]:
    talk.unit.clients.change(talk.client.id, join_step=step)
    client = talk.unit.clients.get(talk.client.id)
    return [_show(talk, {**fresh_facts(client, talk.unit), "last": talk.prompt.facts.get("last")}, note)]


def _show(talk: _Talk, facts: dict[str, object], note: str | None) -> Effect:
    client = talk.unit.clients.get(talk.client.id)
    prompt = talk.unit.prompts.revise(talk.prompt.id, facts=facts)
    return shown(client, prompt, talk.unit, is_new=talk.is_new, moved=talk.moved, note=note)


def keep_kit(client: Client, unit: Unit) -> None:
    """Keep the usual kit of what a client has said of place, unit and company.

    What there really is stays, once somebody has said it.
    """
    kit = default_kit(client.kit_kind or "bodyweight", MassUnit(client.unit or "kg"))
    known = unit.kits.at(client.id, kit.place)
    if known is not None and not is_kind_alone(known):
        kit = known
    unit.kits.set_usual(
        client.id,
        kit.model_copy(
            update={
                "usually_alone": bool(client.usually_alone),
                "safety_arms": bool(client.safety_arms),
            }
        ),
    )


def _held(talk: _Talk, *, said_yes: bool) -> tuple[list[Effect], str]:
    """Hold the plan, or leave it held: only the coach releases it, and we clear nobody."""
    unit, client, now = talk.unit, talk.client, talk.now
    if client.frozen_at is None:
        unit.clients.change(client.id, frozen_at=now, frozen_for="health question")
    tell_coach = outcome.health_gate if said_yes else outcome.hold_stands
    tell_client = outcome.doctor_first if said_yes else outcome.still_on_hold
    told = Tell(
        client.id,
        key=f"health:{client.id}:{talk.prompt.id}",
        grown=1,
        level=Level.NOW,
        message=tell_coach(client.name, release_button(client.id, PLAN, unit, now)),
    )
    return [told], tell_client(unit.coaches.get(unit.tenant).name)


def _refused(talk: _Talk) -> Sequence[Effect]:
    unit, client, now = talk.unit, talk.client, talk.now
    unit.clients.withdraw(client.id, now)
    unit.clients.change(client.id, state="stopped", join_step=None, age_band=None, stopped_at=now)
    unit.prompts.close_kind("join", client.id, now)
    coach = unit.coaches.get(unit.tenant)
    told = Tell(
        client.id,
        key=f"age:{client.id}:{talk.prompt.id}",
        grown=1,
        level=Level.TODAY,
        message=outcome.could_not_join(client.name),
    )
    return [leaving.card_shown(talk.prompt, client.id, outcome.too_young(coach.name), moved=talk.moved), told]


def _finished(talk: _Talk) -> Sequence[Effect]:
    unit, now = talk.unit, talk.now
    unit.clients.change(talk.client.id, state="active", join_step=None, joined_at=now)
    unit.prompts.close_kind("join", talk.client.id, now)
    last_loads.come_with(talk.client.id, unit, now)
    client = unit.clients.get(talk.client.id)
    if client.hour is None or client.zone is None or client.days is None:
        raise LookupError(f"client {client.id} joined without hour, zone or days")
    coach = unit.coaches.get(unit.tenant)
    frozen = client.frozen_at is not None
    last = outcome.joined(coach.name, client.hour, client.days, client.zone, frozen=frozen)
    newcomer = outcome.Newcomer(
        name=client.name,
        age_band=client.age_band or "",
        unit=client.unit or "kg",
        zone=client.zone,
        hour=client.hour,
        days=client.days,
        kit_kind=client.kit_kind or "bodyweight",
        usually_alone=bool(client.usually_alone),
        safety_arms=bool(client.safety_arms),
        experience=client.experience or "new",
        frozen=frozen,
    )
    told = Tell(
        client.id,
        key=f"joined:{client.id}:{talk.prompt.id}",
        grown=1,
        level=Level.TODAY,
        message=outcome.has_joined(newcomer),
    )
    return [leaving.card_shown(talk.prompt, client.id, last, moved=talk.moved), told]
