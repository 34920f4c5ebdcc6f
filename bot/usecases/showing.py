"""Show me: the coach's clip of the exercise at hand, for who types rather than taps."""

from datetime import datetime

from bot.messages import Effect, Person, Tap
from bot.render.showing import how_it_is_done
from bot.store.units import Unit
from bot.usecases.session_view import prompt_of, show, view_of
from core.checkin.training_log import Session


def asked(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the address of the clip over the card, or say that there is none."""
    view = view_of(session, prompt_of(session.id, unit), unit)
    return show(session.id, unit, screen="item", note=how_it_is_done(view.current()))
