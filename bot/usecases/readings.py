"""A reply that can be read in more than one way: asked about, with a button for each reading."""

from datetime import datetime

from bot.messages import EditCard, Effect, Message, Person, Send
from bot.render import replies as say
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import pain
from core.checkin.reading import AskWhy, Reading
from core.checkin.training_log import Item, Session


def asked(
    reading: Reading,
    text: str,
    item: Item | None,
    message_id: int | None,
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
) -> list[Effect]:
    """Ask which reading is right. An older question about the same exercise is no longer asked."""
    effects = overtaken(item, unit, now)
    prompt = unit.prompts.open(
        "reading",
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=item.id if item else None,
        facts={
            "text": text,
            "message": message_id,
            "readings": [each.model_dump(mode="json") for each in reading.ask],
            "why": reading.ask_why.value if reading.ask_why else "",
        },
    )
    key = f"reading:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    question = say.ask_which(prompt, text, reading)
    return [*effects, Send(person.chat_id, question, key=f"{key}:ask", card=key, client_id=client.id)]


def overtaken(item: Item | None, unit: Unit, now: datetime) -> list[Effect]:
    """Close the open question about an exercise, since sets were logged or typed anew; its buttons go."""
    open_one = unit.prompts.of("reading", item.id) if item is not None else None
    if open_one is None:
        return []
    unit.prompts.close(open_one.id, now)
    return [shown(open_one, say.overtaken(str(open_one.facts["text"])))]


def shown(prompt: Prompt, message: Message) -> EditCard:
    """Show what became of a question on its card."""
    return EditCard(
        prompt.card_key or f"reading:{prompt.id}", prompt.chat_id, message, client_id=prompt.client_id
    )


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Say of an answered question that it is settled."""
    return [shown(prompt, say.overtaken(str(prompt.facts["text"])))]


def parted(reading: Reading) -> tuple[Reading, Reading]:
    """Return what is beyond doubt of the body, which is kept at once, and the question without it."""
    pain = tuple(each for each in reading.pain if each.site is not None)
    sure = Reading(understood=True, pain=pain, soreness=reading.soreness)
    options = tuple(
        one.model_copy(
            update={
                "pain": tuple(each for each in one.pain if each not in pain),
                "soreness": tuple(each for each in one.soreness if each not in reading.soreness),
            }
        )
        for one in reading.ask
    )
    told = tuple(each for each in reading.pain if each not in pain)
    return sure, reading.model_copy(update={"ask": options, "pain": told, "soreness": ()})


def site_is_open(reading: Reading, item: Item | None, unit: Unit) -> bool:
    """Return whether all that must be asked is where it hurts, with nothing said that would narrow it."""
    if not any(each.site is None for each in reading.pain):
        return False
    if reading.ask and reading.ask_why is not AskWhy.SITE:
        return False
    offered = {each.site for one in reading.ask for each in one.pain}
    likely = unit.exercises.get(item.exercise).loads_sites if item is not None else frozenset()
    return not reading.ask or offered == set(likely)


def where_it_hurts(
    reading: Reading, session: Session | None, item: Item | None, person: Person, unit: Unit, now: datetime
) -> tuple[Reading, list[Effect]]:
    """Return the rest of a reading that is beyond doubt, and the question where it hurts."""
    unknown = next(each for each in reading.pain if each.site is None)
    known = tuple(each for each in reading.pain if each.site is not None)
    rest = reading.ask[0] if reading.ask else reading
    rest = rest.model_copy(update={"pain": known, "soreness": reading.soreness, "note": None})
    begun = item if session is not None and session.state != "sent" else None
    effects = pain.begin(
        person,
        unit,
        now,
        session_id=session.id if session else None,
        item=begun,
        score=unknown.score,
    )
    return rest, effects
