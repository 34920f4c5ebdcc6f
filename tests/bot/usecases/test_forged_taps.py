"""Callback data is only text that somebody sends: numbers that no button of ours has make no use-case fail."""

from dialogs.next_door import OPENINGS
from dialogs.talks import Talk
from sqlalchemy import select

from bot.messages import MOST_DIGITS, Action, Arrival, Tap
from bot.store.tables import prompt
from bot.store.units import Unit, Units
from bot.usecases import talk
from bot.usecases.runner import who
from core.errors import DomainError

GREATEST = 36**MOST_DIGITS - 1
KINDS = ("roster", "coach settings", "checkin list", "rules", "settings")
"""Kinds of question that are tried; the walk over two coaches taps all of them with a number of a row."""


def test_the_greatest_number_on_any_button_makes_nothing_fail(units: Units) -> None:
    play = Talk(units)
    tried = 0
    for kind, steps in [each for each in OPENINGS if each[0] in KINDS]:
        for step in steps:
            play.take(step) if isinstance(step, str) else step(play)
        with units.engine.connect() as connection, connection.begin() as transaction:
            unit = Unit(connection, None)
            query = select(prompt.c.id, prompt.c.revision, prompt.c.coach_id, prompt.c.user_id)
            asked = query.where(prompt.c.kind == kind, prompt.c.closed_at.is_(None)).order_by(
                prompt.c.id.desc()
            )
            row, revision, coach_id, user_id = connection.execute(asked).first() or ()
            person = who(unit, Arrival(90_000, user_id, user_id), talk.Tapped(None), play.house.now)
            for action in Action:
                with connection.begin_nested() as point:
                    try:
                        tap = talk.Tapped(Tap(row, revision, action, GREATEST))
                        list(talk.tapped(tap, person, unit.of(coach_id), play.house.now))
                    except DomainError:
                        tried -= 1  # a mistake that is answered in words
                    tried += 1
                    point.rollback()
            transaction.rollback()

    assert tried > len(KINDS) * len(Action) * 3 // 4
