"""Joining: a link, one question after the other, each answered by a button or by words; and leaving.

Where a client stands is `client.join_step`; what she has answered is in her row at once, so that joining goes on
wherever it was interrupted. The prompt only knows what is shown: days chosen so far, zones suggested.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Person, Tap
from bot.render import coach_talk as coach_words
from bot.render import join as words
from bot.render import joined as outcome
from bot.render.leaving import stopped_speaks as stopped_words
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import join_again, join_health, join_known, leaving, second, strangers
from bot.usecases.join_answers import Answer, GoesBack, Stays, Taken, typed
from bot.usecases.join_answers import tapped as tap_answer
from bot.usecases.join_card import fresh_facts, open_prompt, shown, step_of
from bot.usecases.join_end import finished, keep_kit, refused
from bot.usecases.join_steps import HEALTH_STEPS, KNOWN, STEPS, UNDER, asked_steps


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
        return second.bound(command.invite_code, person, unit, now) or strangers.answered(person, unit, now)
    invite = unit.invite_of(command.invite_code or "")
    if invite is None or not unit.invites.use(invite.id, now):
        return strangers.answered(person, unit, now)
    if invite.kind == "coach":
        return _coach_bound(person, unit, now)
    again = join_again.client_in(invite, unit)
    if again is not None:
        return _bound_again(again, person, unit, now)
    client_id = unit.clients.add(invite.name or "you", now)
    unit.invites.belongs_to(invite.id, client_id)
    unit.accounts.bind(person.user_id, person.chat_id, unit.tenant, "client", client_id)
    join_known.taken_over(client_id, invite.prefill.get(join_known.IN_INVITE, {}), unit)
    return _begun(client_id, person, unit, now)


def _bound_again(client: Client, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Go on with a client on her new account; the consent is asked for anew where its words have changed."""
    effects = join_again.bound(client, person, unit, now)
    if client.state == "stopped":
        return [*effects, *_begun(client.id, person, unit, now)]
    if client.state != "joining" and unit.clients.consent_version(client.id) == words.CONSENT_VERSION:
        return effects
    if client.state != "joining":
        unit.clients.change(client.id, state="joining", join_step="consent")
        unit.prompts.close_kind("join", client.id, now)
    client = unit.clients.get(client.id)
    prompt, is_new = open_prompt(client, person, unit, now)
    return [*effects, shown(client, prompt, unit, is_new=is_new, moved=True)]


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
    if invite is not None and not join_again.is_open_to(client, invite):
        good = False  # it brings somebody else to a new account
    if client.state == "joining":
        prompt, is_new = open_prompt(client, person, unit, now)
        if prompt.facts.get("declined"):  # the question in full, not the answer to a no
            prompt = unit.prompts.revise(prompt.id, facts=fresh_facts("consent", client, unit))
        return [shown(client, prompt, unit, is_new=is_new, moved=True)]
    if client.state != "stopped":
        return [answer(person, "start", outcome.nothing_open())]
    if good and invite is not None and unit.invites.use(invite.id, now):
        unit.clients.change(client.id, name=invite.name or client.name)
        unit.invites.belongs_to(invite.id, client.id)
        join_known.taken_over(client.id, invite.prefill.get(join_known.IN_INVITE, {}), unit)
        return _begun(client.id, person, unit, now)
    return stopped_speaks(person)


def _begun(client_id: int, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    unit.clients.change(client_id, state="joining", join_step=STEPS[0], stopped_at=None, joined_at=None)
    client = unit.clients.get(client_id)
    prompt, _ = open_prompt(client, person, unit, now, anew=True)
    return [shown(client, prompt, unit, is_new=True)]


def heard(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Read a typed answer; what cannot be read repeats the question with an example."""
    prompt, is_new = open_prompt(client, person, unit, now)
    step = step_of(client, prompt)
    read = typed(step, text, prompt.facts, now)
    talk = _Talk(client, prompt, person, unit, now, is_new=is_new, moved=True)
    return [_show(talk, prompt.facts, words.not_read(step))] if read is None else _answered(read, talk)


def asked_again(client: Client, person: Person, unit: Unit, now: datetime) -> Effect:
    """Show the open question once more, at the end of the chat."""
    prompt, is_new = open_prompt(client, person, unit, now)
    return _show(_Talk(client, prompt, person, unit, now, is_new=is_new, moved=True), prompt.facts, None)


def is_answer(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> bool:
    """Return whether typed words answer the open question."""
    prompt, _ = open_prompt(client, person, unit, now)
    return typed(step_of(client, prompt), text, prompt.facts, now) is not None


def located(
    zone: str | None, client: Client, person: Person, unit: Unit, now: datetime
) -> Sequence[Effect] | None:
    """Take the clock of a place that was shared, while that is asked; None while it is not."""
    prompt, is_new = open_prompt(client, person, unit, now)
    if step_of(client, prompt) != "zone":
        return None
    read: Answer = Stays(dict(prompt.facts), "no clock") if zone is None else Taken({"zone": zone}, said=zone)
    return _answered(read, _Talk(client, prompt, person, unit, now, is_new=is_new, moved=True))


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take a tapped answer."""
    if prompt.facts.get("ask") == "leave":
        return leaving.tapped(tap, prompt, person, unit, now)
    if person.client_id is None:
        return []
    client = unit.clients.get(person.client_id)
    read = tap_answer(step_of(client, prompt), tap.action, tap.argument, prompt.facts)
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
    step = step_of(talk.client, talk.prompt)
    match read:
        case Stays(facts, note):
            if "changing" in facts and step == KNOWN:
                facts = {**facts, **fresh_facts(facts["changing"], talk.client, talk.unit)}
            return [_show(talk, {**talk.prompt.facts, **facts}, words.NOTES[note] if note else None)]
        case GoesBack():
            return [_asked(talk, _before(step, talk), None)]
        case Taken(values, said):
            return _taken(step, values, said, talk)


def _before(step: str, talk: _Talk) -> str:
    if talk.prompt.facts.get("changing"):
        return KNOWN
    asked = asked_steps(join_known.known_of(talk.client, talk.unit))
    return UNDER.get(step) or asked[asked.index(step) - 1]


def _after(step: str, said: object, talk: _Talk) -> str | None:
    """Return the question that follows; None after the last one."""
    if talk.prompt.facts.get("changing"):
        return KNOWN
    if step == "pregnancy" and said == "birth":
        return "birth"
    if step == "health" and said:
        return "pressure"
    asked = (*asked_steps(join_known.known_of(talk.client, talk.unit)), None)
    return asked[asked.index(UNDER.get(step, step)) + 1]


def _taken(step: str, values: dict[str, object], said: object, talk: _Talk) -> Sequence[Effect]:
    unit, client_id = talk.unit, talk.client.id
    if values.get("age_band") == "under 18":
        return refused(talk.client, talk.prompt, unit, talk.now, moved=talk.moved)
    if values:
        unit.clients.change(client_id, **values)
    if step == "consent":
        unit.clients.withdraw(client_id, talk.now)
        unit.clients.agree(client_id, words.CONSENT_VERSION, talk.now)
        if talk.client.joined_at is not None:  # only asked anew: nothing else is
            return join_again.goes_on(talk.client, talk.prompt, unit, talk.now, moved=talk.moved)
    if step == "place":
        join_known.keep_place(unit.clients.get(client_id), str(said), unit)
    effects: list[Effect] = []
    note = words.understood(step, said, talk.now)
    following = _after(step, said, talk)
    if step in HEALTH_STEPS and following != "birth":
        health = join_health.Said(talk.client, talk.prompt, unit, talk.now, joining=True)
        effects, note = join_health.answered(step, said, health)
    if step == "alone":
        keep_kit(unit.clients.get(client_id), unit)
    if following is None:
        return finished(client_id, talk.prompt, unit, talk.now, moved=talk.moved)
    return [_asked(talk, following, note), *effects]


def _asked(talk: _Talk, step: str, note: str | None) -> Effect:
    talk.unit.clients.change(talk.client.id, join_step=step)
    client = talk.unit.clients.get(talk.client.id)
    last = talk.prompt.facts.get("last")
    return _show(talk, {**fresh_facts(step, client, talk.unit), "last": last}, note)


def _show(talk: _Talk, facts: dict[str, object], note: str | None) -> Effect:
    client = talk.unit.clients.get(talk.client.id)
    prompt = talk.unit.prompts.revise(talk.prompt.id, facts=facts)
    return shown(client, prompt, talk.unit, is_new=talk.is_new, moved=talk.moved, note=note)
