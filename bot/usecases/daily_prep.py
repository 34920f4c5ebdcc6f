"""`/prep`: a coach sets a client's daily prep, sees it read back, takes it back, stops it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import daily_prep as say
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.assigning import client_named, ready
from bot.usecases.block_files import only_for_coaches
from bot.usecases.daily_card import KIND, next_due
from bot.usecases.finding_clients import clients_meant, is_clear
from bot.usecases.leaving import answer
from bot.usecases.prepping import CALM, daily_now, left_out_now, limited
from core.checkin.prep_words import prep_heard
from core.errors import PrepUnread
from core.local_time import local_date
from core.programme.daily_prep import DailyPrep

SET = "prep set"
STOPS = frozenset({"stop", "none", "off", "no"})


@dataclass(frozen=True, slots=True)
class PrepAsked:
    """`/prep`, with what stands after it: `Ada: hips, low back`, `Ada stop`, `Ada`."""

    text: str = ""


def prep_asked(command: PrepAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Set, show or stop a client's daily prep.

    Raises:
        UnknownClient: No client has this name.
        NotJoinedYet: She has not ended joining.
        PrepUnread: Something named is no site, drill or time.
    """
    if person.role != "coach":
        return only_for_coaches(person)
    name, colon, wish = command.text.partition(":")
    words = name.split()
    if not colon and len(words) > 1 and words[-1].casefold() in STOPS:
        name, wish = " ".join(words[:-1]), words[-1]
    if not name.strip():
        return [answer(person, "prep", say.how_to())]
    client = _client(name.strip(), unit)
    if not wish.strip():
        return [_standing(client, person, unit, now)]
    if wish.strip().casefold() in STOPS:
        return _set(None, client, person, unit, now)
    heard = prep_heard(wish)
    if heard.asked is None:
        near = [each for each in heard.near if each] or [say.EXAMPLE]
        raise PrepUnread(written=", ".join(heard.unread) or wish.strip(), near="; ".join(near))
    return _set(heard.asked, client, person, unit, now)


def _client(name: str, unit: Unit) -> Client:
    found = clients_meant(name, unit)
    return ready(found[0]) if is_clear(name, found) else client_named(name, unit)


def _standing(client: Client, person: Person, unit: Unit, now: datetime) -> Send:
    running = unit.daily_preps.running(client.id)
    if running is None:
        return answer(person, "prep", say.nothing_set(client.name))
    return answer(person, "prep", say.read_back(_view(client, running.asked, unit, now)))


def _set(asked: DailyPrep | None, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Start a daily prep, or stop the one that runs, with a way back to what was before."""
    before = unit.daily_preps.running(client.id)
    if asked is None and before is None:
        return [answer(person, "prep", say.nothing_set(client.name))]
    made = _start(asked, client, unit, now)
    facts = {"row": made, "before": before.id if before is not None else None}
    key = f"prep:{person.arrival.update_id if person.arrival else 0}"
    prompt = unit.prompts.open(
        SET,
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        card_key=key,
        facts=facts,
    )
    buttons = say.Buttons(prompt.id, prompt.revision)
    message = say.stopped(client.name) if asked is None else say.read_back(_view(client, asked, unit, now))
    return [Send(person.chat_id, say.undoable(message, buttons), key=key, card=key)]


def _start(asked: DailyPrep | None, client: Client, unit: Unit, now: datetime) -> int | None:
    if asked is None:
        unit.daily_preps.end(client.id, now)
        return None
    return unit.daily_preps.start(client.id, asked, next_due(client, now, unit.rules.policy(client.id)), now)


def _view(client: Client, asked: DailyPrep, unit: Unit, now: datetime) -> say.SetView:
    zone = client.zone or "UTC"
    today = local_date(now, zone)
    done, sent = unit.daily_preps.done_since(client.id, KIND, now - CALM)
    return say.SetView(
        name=client.name,
        asked=asked,
        steps=daily_now(asked, client, unit, today),
        left_out=tuple(left_out_now(asked, client, unit, today)),
        limited=tuple(each.name for each in limited(asked, client, unit, today)),
        due_at=next_due(client, now, unit.rules.policy(client.id)),
        zone=zone,
        done=done,
        sent=sent,
    )


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take back what was set or stopped: what was before runs again."""
    if person.role != "coach" or tap.action is not Action.CANCEL:
        return []
    client = unit.clients.get(prompt.subject or 0)
    running = unit.daily_preps.running(client.id)
    row = running.id if running is not None else None
    if row != prompt.facts["row"]:
        return refreshed(prompt, person, unit, now)
    before = unit.daily_preps.get(prompt.facts["before"]) if prompt.facts["before"] is not None else None
    _start(before.asked if before is not None else None, client, unit, now)
    unit.prompts.close(prompt.id, now)
    return [_shown(prompt, say.taken_back(client.name, before.asked if before is not None else None))]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Say how it stands now, after a tap on a button that is no longer good."""
    if person.role != "coach":
        return []
    client = unit.clients.get(prompt.subject or 0)
    running = unit.daily_preps.running(client.id)
    if running is None:
        return [_shown(prompt, say.nothing_set(client.name))]
    return [_shown(prompt, say.read_back(_view(client, running.asked, unit, now)))]


def _shown(prompt: Prompt, message: Message) -> EditCard:
    return EditCard(prompt.card_key or f"prep:{prompt.id}", prompt.chat_id, message)
