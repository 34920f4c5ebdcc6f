"""A voice message while the check-in, or the end of a block, waits for a line: it goes to the coach as the answer."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from bot.messages import Effect, Person, Send
from bot.render import questionnaire as say
from bot.store.units import Unit
from bot.usecases import block_end, check_in, forwarding, questionnaire
from bot.usecases.forwarding import MediaSent
from bot.usecases.week_clock import BLOCK_END, CHECK_IN

ENDS = {CHECK_IN: check_in.ended, BLOCK_END: block_end.ended}


def heard(command: MediaSent, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Pass a voice message on with the question that it answers; nothing where none waits for a line.

    While a session is begun it belongs to the exercise, and one with words under it goes its usual way. What could not
    be passed on is no answer.
    """
    client = unit.clients.get(person.client_id) if person.role == "client" and person.client_id else None
    if client is None or client.state not in ("active", "paused") or client.frozen_at is not None:
        return []
    session = unit.sessions.open_one(client.id)
    if (session is not None and session.state != "sent") or command.caption:
        return []
    asked = questionnaire.waits_for(command.kind, person, unit, now)
    if asked is None:
        return []
    effects = forwarding.passed_on(command, client, person, unit, now)
    to_coach = [each for each in effects if isinstance(each, Send) and each.chat_id != person.chat_id]
    if not to_coach:
        return effects
    line = say.answering(*asked)
    passed = [
        replace(each, message=replace(each.message, html=f"{each.message.html}\n{line}")) for each in to_coach
    ]
    return [*passed, *questionnaire.media(command.kind, person, unit, now, ENDS)]
