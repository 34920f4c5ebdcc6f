"""The prep before a session, a drill at a time on its card; left in the middle it goes on where it was."""

from datetime import datetime

from bot.messages import Effect, Person, Tap
from bot.render import prepping as say
from bot.render.sessions_said import OLD_BUTTON
from bot.store.units import Unit
from bot.usecases.session_view import prompt_of, show, view_of
from core.checkin.training_log import Session
from core.programme.prep import PrepStep


def asked(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Open the drill that is next; the first again once all were done."""
    steps, done = _steps(session, unit), _done(session, unit)
    if not steps:
        return show(session.id, unit, note=OLD_BUTTON)
    if all(each.drill in done for each in steps):
        _keep([], session, unit)
    return show(session.id, unit, screen="prep")


def onward(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Go on to the next drill; after the last one the card is shown as it was before."""
    steps, done = _steps(session, unit), _done(session, unit)
    here = next((each for each in steps if each.drill not in done), None)
    if here is None:
        return show(session.id, unit, screen=_screen(session), note=OLD_BUTTON)
    done = [*done, here.drill]
    _keep(done, session, unit)
    if all(each.drill in done for each in steps):
        return show(session.id, unit, screen="overview", note=say.PREP_DONE)
    return show(session.id, unit, screen="prep")


def over(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Leave the rest of the prep out. It can be opened again, and goes on where it was."""
    return show(session.id, unit, screen=_screen(session), note=say.PREP_LEFT)


def back(session: Session, unit: Unit) -> list[Effect] | None:
    """Go back by a drill; None on the first one, from which the way leads to the card."""
    steps, done = _steps(session, unit), _done(session, unit)
    before = [each.drill for each in steps if each.drill in done]
    if not before:
        return None
    _keep([each for each in done if each != before[-1]], session, unit)
    return show(session.id, unit, screen="prep")


def _steps(session: Session, unit: Unit) -> tuple[PrepStep, ...]:
    return view_of(session, prompt_of(session.id, unit), unit).prep


def _done(session: Session, unit: Unit) -> list[str]:
    return list(prompt_of(session.id, unit).facts.get("prepped", []))


def _keep(done: list[str], session: Session, unit: Unit) -> None:
    prompt = prompt_of(session.id, unit)
    unit.prompts.note(prompt.id, {**prompt.facts, "prepped": done})


def _screen(session: Session) -> str:
    return "overview" if session.state == "sent" else "item"
