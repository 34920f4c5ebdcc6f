"""A coach's word in a line to raises at a place that hurts a little and stays so: what its buttons do, typed."""

from datetime import datetime

from bot.messages import Action, Effect, Person, Tap
from bot.render import pain as words
from bot.render import way_out as say
from bot.store.units import Unit
from bot.usecases.answering import client_at
from bot.usecases.leaving import answer
from bot.usecases.named_first import named_first
from bot.usecases.way_out import KIND, tapped

SAID: dict[str, Action] = {
    **dict.fromkeys(
        ("raises go on", "let raises go on", "raises can go on", "raises may go on"), Action.AGREE
    ),
    **dict.fromkeys(
        ("keep holding", "keep holding them", "raises stay held", "loads stay held"), Action.DECLINE
    ),
}
"""What a coach types for the buttons; a place may stand behind it, and the client before it."""


def heard(text: str, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take `raises go on` or `keep holding`, in reply to the question or by itself; None for other words.

    With `Ada:` before it and `, left knee` behind it the one that is meant is named; where several stay open she is
    asked which, and nothing is changed.
    """
    reply_to = person.arrival.reply_to if person.arrival else None
    client, line = named_first(text, unit)
    if client is None and reply_to is not None:
        client = client_at(person.chat_id, reply_to, unit)
    said, _, place = " ".join(line.casefold().strip(" .!").split()).partition(",")
    action = SAID.get(said.strip())
    if person.role != "coach" or action is None:
        return None
    asked = [
        each
        for one in ([client] if client is not None else unit.clients.roster())
        for each in unit.go_aheads.of(one.id)
        if not place.strip() or words.place_words(each.site, each.side).casefold() == place.strip()
    ]
    meant = [each for each in asked if each.allowed is None] or asked
    prompt = unit.prompts.newest(KIND, meant[0].id) if len(meant) == 1 else None
    if prompt is not None and prompt.closed_at is None:
        return tapped(Tap(prompt.id, prompt.revision, action), prompt, person, unit, now)
    named = [
        (unit.clients.get(each.client_id).name, words.place_words(each.site, each.side)) for each in meant
    ]
    return [answer(person, "raises", say.which(named))]
