"""What a client answers about her health, when she joins or later: kept, told to her coach, and what it holds.

A yes holds the plan until the coach releases it. A no releases nothing: what she says is over waits for the coach.
"""

from dataclasses import dataclass
from datetime import date, datetime

from bot.messages import Cancel, Effect, Level, Message, Rows, Tell
from bot.render import health_said as say
from bot.render import joined as outcome
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.health_known import BIRTH, OVER, PREGNANT, PRESSURE, SCREEN, SLIP, is_yes
from bot.usecases.open_loads import eased_by_health
from bot.usecases.releasing import HEALTH, PLAN, SLIPPED, release_button
from bot.usecases.session_view import show

RUNNING = ("sent", "started", "asking")


@dataclass(frozen=True, slots=True)
class Said:
    """An answer about health, being taken.

    Attributes:
        client: Who says it.
        prompt: What asked.
        unit: Open transaction.
        now: Instant.
        joining: True while she joins: then every yes holds the plan.
    """

    client: Client
    prompt: Prompt
    unit: Unit
    now: datetime
    joining: bool

    @property
    def coach(self) -> str:
        """The coach's name."""
        return self.unit.coaches.get(self.unit.tenant).name

    def keep(self, question: str, *, yes: bool, said_on: date | None = None) -> None:
        """Keep the answer."""
        self.unit.health_answers.keep(self.client.id, question, self.now, yes=yes, said_on=said_on)

    def was(self, question: str) -> bool:
        """Return whether a yes stands from before."""
        return is_yes(self.unit.health_answers.standing(self.client.id), question)

    def tell(self, matter: str, level: Level, message: Message) -> Tell:
        """Tell the coach, once for this answer."""
        key = f"{matter}:{self.client.id}:{self.prompt.id}:{self.prompt.revision}"
        return Tell(self.client.id, key=key, grown=1, level=level, message=message)

    def release(self, what: str = PLAN) -> Rows:
        """The coach's button."""
        return release_button(self.client.id, what, self.unit, self.now)


def answered(step: str, said: object, talk: Said) -> tuple[list[Effect], str | None]:
    """Keep an answer about health; return what follows, and what to say of it."""
    match step, said:
        case "pregnancy", "pregnant":
            return _pregnant(talk)
        case "pregnancy", _:
            return _neither(talk)
        case "birth", _:
            return _birth(said if isinstance(said, date) else None, talk)
        case "health", _:
            return _screen(talk, yes=bool(said))
        case _:
            return _pressure(talk, untreated=bool(said))


def _pregnant(talk: Said) -> tuple[list[Effect], str | None]:
    known = talk.unit.health_answers.standing(talk.client.id)
    if not talk.joining and is_yes(known, PREGNANT) and OVER[PREGNANT] not in known:
        return [], say.pregnancy_binds(talk.coach)
    talk.keep(PREGNANT, yes=True)
    talk.unit.health_answers.drop(talk.client.id, OVER[PREGNANT], talk.now)
    if not talk.joining:
        shown = eased_by_health(talk.client, talk.unit, talk.now)
        told = talk.tell("pregnant", Level.NOW, say.is_pregnant(talk.client.name, eased=bool(shown)))
        return [told, *shown], say.pregnancy_binds(talk.coach)
    message = say.pregnant_joins(talk.client.name, talk.release())
    return [*hold(talk), talk.tell("health", Level.NOW, message)], outcome.doctor_first(talk.coach)


def _neither(talk: Said) -> tuple[list[Effect], str | None]:
    effects: list[Effect] = []
    note = None
    if talk.was(PREGNANT):
        talk.keep(OVER[PREGNANT], yes=True)
        message = say.pregnancy_over(talk.client.name, talk.release(HEALTH))
        effects, note = [talk.tell("over", Level.TODAY, message)], say.waits_for_coach(talk.coach)
    else:
        talk.keep(PREGNANT, yes=False)
    if talk.was(BIRTH):
        talk.keep(SLIP, yes=True)
        message = say.birth_slip(talk.client.name, talk.release(SLIPPED))
        effects.append(talk.tell("slip", Level.TODAY, message))
        note = note or say.birth_stays(talk.coach)
    else:
        talk.keep(BIRTH, yes=False)
    return effects, note


def _birth(on: date | None, talk: Said) -> tuple[list[Effect], str | None]:
    talk.keep(BIRTH, yes=True, said_on=on)
    talk.unit.health_answers.drop(talk.client.id, SLIP, talk.now)
    if talk.was(PREGNANT):
        talk.keep(PREGNANT, yes=False)
        talk.unit.health_answers.drop(talk.client.id, OVER[PREGNANT], talk.now)
    message = say.has_given_birth(talk.client.name, on, talk.release())
    held = [*hold(talk), talk.tell("health", Level.NOW, message)]
    return held, outcome.doctor_first(talk.coach, joining=talk.joining)


def _screen(talk: Said, *, yes: bool) -> tuple[list[Effect], str | None]:
    talk.keep(SCREEN, yes=yes)
    name = talk.client.name
    if yes:
        message = outcome.health_gate(name, talk.release(), joining=talk.joining)
        held = [*hold(talk), talk.tell("health", Level.NOW, message)]
        return held, outcome.doctor_first(talk.coach, joining=talk.joining)
    if talk.client.frozen_at is None:
        return [], None
    if talk.joining and not (talk.was(PREGNANT) or talk.was(BIRTH)):
        message = outcome.hold_stands(name, talk.release())
        return [talk.tell("health", Level.NOW, message)], outcome.still_on_hold(talk.coach)
    return [], outcome.still_on_hold(talk.coach)


def _pressure(talk: Said, *, untreated: bool) -> tuple[list[Effect], str | None]:
    if untreated:
        talk.keep(PRESSURE, yes=True)
        talk.unit.health_answers.drop(talk.client.id, OVER[PRESSURE], talk.now)
        if talk.joining:
            return [], None
        shown = eased_by_health(talk.client, talk.unit, talk.now)
        told = talk.tell("pressure", Level.TODAY, say.pressure_untreated(talk.client.name))
        return [told, *shown], say.pressure_binds(talk.coach)
    if not talk.was(PRESSURE):
        talk.keep(PRESSURE, yes=False)
        return [], None
    talk.keep(OVER[PRESSURE], yes=True)
    message = say.pressure_over(talk.client.name, talk.release(HEALTH))
    return [talk.tell("over", Level.TODAY, message)], say.waits_for_coach(talk.coach)


def hold(talk: Said) -> list[Effect]:
    """Hold the plan, or leave it held, with every session that is out: only the coach releases it."""
    unit, client = talk.unit, talk.client
    if client.frozen_at is None:
        unit.clients.change(client.id, frozen_at=talk.now, frozen_for="health question")
    effects: list[Effect] = []
    for session in unit.sessions.of_client(client.id, RUNNING):
        unit.sessions.change(session.id, state="held", closed_at=talk.now, cursor_item_id=None)
        effects += show(session.id, unit, screen="held")
    return effects if talk.joining else [Cancel(client.id), *effects]
