"""Short on time: the session made to fit; what is left out is no miss, and raises nothing."""

import re
from dataclasses import replace
from datetime import datetime

from bot.messages import EditCard, Effect, Person, Tap
from bot.render import short_on_time as say
from bot.render.sessions_said import OLD_BUTTON
from bot.store.units import Unit
from bot.usecases import marks
from bot.usecases.closing import onward
from bot.usecases.logging_sets import sides
from bot.usecases.session_view import show
from core.checkin.training_log import Item, Session
from core.programme.duration import WARM_UP_S, Timed, left_out, seconds_needed
from core.programme.exercises import Exercise

LEAST, MOST = 5, 240
"""Minutes that can be asked for. Our proposal."""

_MINUTES = re.compile(r"(?:i have |about |only )*(\d{1,3}) ?(?:m|mins?|minutes?)?")


def asked(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask how much time there is."""
    return show(session.id, unit, screen="short")


def taken(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Leave out what does not fit into so many minutes, from the end; warm-up and main lift stay."""
    items = unit.sessions.items(session.id)
    coming = [each for each in items if each.state == "open"]
    if not coming or not LEAST <= tap.argument <= MOST:
        return show(session.id, unit, note=OLD_BUTTON)
    warm_up = 0 if any(each.state == "done" for each in items) else WARM_UP_S
    timed = [_timed(each, unit.exercises.get(each.exercise)) for each in coming]
    gone = left_out(timed, tap.argument * 60 - warm_up)
    for place in gone:
        unit.sessions.change_item(coming[place].id, state="skipped", cause="time")
        marks.mark(marks.SKIP, coming[place].id, session.id, None, unit)
    needed = warm_up + sum(each.seconds for place, each in enumerate(timed) if place not in gone)
    dropped = [
        (coming[place].prescription.order, unit.exercises.get(coming[place].exercise)) for place in gone
    ]
    note = say.trimmed(dropped, needed, tap.argument, warm_up=bool(warm_up))
    if session.state == "sent":
        return show(session.id, unit, screen="overview", note=note)
    return onward(session.id, unit, person, now, note=note)


def _timed(item: Item, exercise: Exercise) -> Timed:
    seconds = seconds_needed(
        item.given,
        sides=len(sides(exercise, item.given)),
        rest_s=item.prescription.rest_s,
        tempo=item.prescription.tempo,
    )
    return Timed(order=item.prescription.order, seconds=seconds, main=exercise.main_lift)


def typed(text: str, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take minutes that are typed where they are asked for; None for other words."""
    prompt = unit.prompts.newest("session", session.id)
    found = _MINUTES.fullmatch(" ".join(text.casefold().split()).rstrip("."))
    if prompt is None or prompt.facts.get("screen") != "short" or found is None:
        return None
    effects = taken(Tap(0, 0, say.TRIM, int(found[1])), session, person, unit, now)
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]
