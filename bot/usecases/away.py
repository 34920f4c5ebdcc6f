"""`/away` and `/back`: days away, training there or not, said back before they hold; and coming back."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from bot.messages import Action, EditCard, Effect, Level, Person, Tap, Tell
from bot.render import away as say
from bot.render.dates import day_words
from bot.store.aways import Away
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import away_card, silence, stop_signs, travelling
from bot.usecases.away_card import KIND, KINDS, Draft, buttons, card, coming, opened, overlapping, sent, shown
from bot.usecases.away_plan import follow_time_off
from bot.usecases.coming_back import said_of_break
from bot.usecases.forwarding import words_passed_on
from bot.usecases.layout import carry_on
from bot.usecases.leaving import answer
from bot.usecases.today import client_of
from core.checkin.away_words import PLACE, AwaySaid, away_line, away_said, is_back, kit_kind
from core.checkin.stop_signs import scan
from core.loads.equipment import default_kit
from core.local_time import local_date
from core.units import Unit as MassUnit

ONE_DAY = timedelta(days=1)
_YES = ("yes", "yes note it", "note it", "right", "that is right", "ok", "note that i am away")
_CLOCK = ("use the clock", "with the clock", "their clock", "the clock there")
_NO = ("no", "i am not away", "i'm not away", "not away", "never mind", "leave it")
_AGAIN = ("other dates", "back", "change the dates")
_LIKE_DATES = re.compile(r"\b(?:until|till|from|20\d\d)\b")
_UNDO = ("take it back", "undo that", "i am not away", "i'm not away")


@dataclass(frozen=True, slots=True)
class AwaySet:
    """`/away`, with what stands after it."""

    text: str = ""


@dataclass(frozen=True, slots=True)
class Back:
    """`/back`."""


def away(command: AwaySet, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask what is not said yet of an absence, or say it back. A stop sign in it comes first."""
    sign = scan(command.text) if person.role == "client" else None
    if sign is not None:
        return stop_signs.found(sign, command.text, person, unit, now)
    client, answered = client_of(person, unit, now)
    if client is None:
        return answered
    said = away_line(command.text, local_date(now, client.zone or "UTC"))
    note = say.NOT_READ_DATES if command.text.strip() and said.first is None else ""
    return _begun(said, client, person, unit, now, note)


def _begun(
    said: AwaySaid, client: Client, person: Person, unit: Unit, now: datetime, note: str = ""
) -> list[Effect]:
    draft, wrong = _checked(Draft().with_said(said), client, unit, now)
    prompt = opened(draft, draft.screen, client, person, unit, now)
    return [sent(prompt, client, unit, wrong or note)]


def _checked(draft: Draft, client: Client, unit: Unit, now: datetime) -> tuple[Draft, str]:
    """Return what was said without dates that cannot be, and what to say of them."""
    if draft.first is None or draft.last is None:
        return draft, ""
    if draft.last < local_date(now, client.zone or "UTC"):
        return replace(draft, first=None, last=None), say.OVER
    if (draft.last - draft.first).days >= unit.rules.policy(client.id).away_most:
        return replace(draft, first=None, last=None), say.TOO_LONG
    return draft, ""


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take what was tapped."""
    client = unit.clients.get(prompt.subject or 0)
    found = _acted(tap.action, tap.argument, client, prompt, person, unit, now)
    return refreshed(prompt, person, unit, now) if found is None else found


def _acted(
    action: Action, argument: int, client: Client, prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect] | None:
    if client.state not in ("active", "paused"):
        return [card(prompt, say.settled())]
    draft, today = Draft.of(prompt.facts), local_date(now, client.zone or "UTC")
    match prompt.facts["screen"], action:
        case "held", Action.UNDO:
            return _undone(client, prompt, unit, now)
        case "held", _:
            return None
        case _, Action.CANCEL:
            unit.prompts.close(prompt.id, now)
            return [card(prompt, say.not_noted())]
        case _, Action.BACK:
            return [shown(prompt, client, unit, replace(draft, first=None, last=None))]
        case "offer", Action.CONFIRM:
            return [shown(prompt, client, unit, draft)]
        case "right", Action.CONFIRM:
            return _noted(client, prompt, unit, now, clock=argument == 1)
    changed = _chosen(prompt.facts["screen"], action, argument, draft, today, away_card.places(client, unit))
    return None if changed is None else [shown(prompt, client, unit, changed)]


def _chosen(
    screen: str, action: Action, argument: int, draft: Draft, today: date, places: Sequence[str]
) -> Draft | None:
    """Return the absence with what was chosen; None where there is no such button."""
    ends = {1: today + ONE_DAY * (6 - today.weekday()), 2: today + ONE_DAY * 6, 3: today + ONE_DAY * 13}
    match screen, action:
        case "until", Action.PICK if argument in ends:
            return replace(draft, first=today, last=ends[argument])
        case "training", Action.PICK if argument < 2:
            return replace(draft, training=argument == 1)
        case "kit", Action.SKIP:
            return replace(draft, training=False)
        case "kit", Action.PICK if argument < len(KINDS):
            return replace(draft, kit=KINDS[argument])
        case "kit", Action.PICK if argument < len(KINDS) + len(places):
            return replace(draft, place=places[argument - len(KINDS)])
    return None


def typed(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take what answers an open question, words of being back, and offer to note what tells of an absence."""
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is not None and prompt.kind == KIND:
        answered = _answered(text, client, prompt, person, unit, now)
        if answered is not None:
            return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in answered]
    today = local_date(now, client.zone or "UTC")
    if is_back(text) and unit.aways.on(client.id, today) is not None:
        return [*_come_back(client, person, unit, now)]
    said = away_said(text, today)
    if said is None or client.frozen_at is not None:
        return None
    draft, _ = _checked(Draft().with_said(said), client, unit, now)
    offered = opened(draft, away_card.OFFER, client, person, unit, now)
    return [*words_passed_on(text, client, person, unit, now), sent(offered, client, unit)]


def _answered(
    text: str, client: Client, prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect] | None:
    words = " ".join(text.casefold().replace("’", "'").replace(",", " ").split()).strip(" .!")
    screen, draft = prompt.facts["screen"], Draft.of(prompt.facts)
    if screen == away_card.HELD:
        return _undone(client, prompt, unit, now) if words in _UNDO else None
    if words in _NO and not (screen == away_card.TRAINING and words == "no"):
        return _acted(Action.CANCEL, 0, client, prompt, person, unit, now)
    if words in _AGAIN:
        return _acted(Action.BACK, 0, client, prompt, person, unit, now)
    if words in _YES and screen in (away_card.RIGHT, away_card.OFFER):
        return _acted(Action.CONFIRM, 0, client, prompt, person, unit, now)
    if screen == away_card.RIGHT and words.startswith(_CLOCK):
        return _acted(Action.CONFIRM, 1, client, prompt, person, unit, now)
    if screen == away_card.OFFER:
        return None
    said = away_line(text, local_date(now, client.zone or "UTC"))
    if screen == away_card.TRAINING and words in ("no", "yes"):
        said = said._replace(training=words == "yes")
    if screen == away_card.KIT and words in away_card.places(client, unit):
        return [shown(prompt, client, unit, replace(draft, place=words))]
    if screen == away_card.KIT and said.training is not False:
        said = said._replace(kit=kit_kind(text))
    if said == AwaySaid():
        unread = screen == away_card.UNTIL and _LIKE_DATES.search(words) is not None
        return [shown(prompt, client, unit, draft, say.NOT_READ_DATES)] if unread else None
    changed, wrong = _checked(draft.with_said(said), client, unit, now)
    return [shown(prompt, client, unit, changed, wrong)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show how it stands, after a tap on a button that is no longer good."""
    client = unit.clients.get(prompt.subject or 0)
    if prompt.closed_at is not None or prompt.facts["screen"] == away_card.HELD:
        return [card(prompt, say.settled())]
    return [card(prompt, away_card.message_of(prompt, client, unit))]


def _noted(client: Client, prompt: Prompt, unit: Unit, now: datetime, *, clock: bool) -> list[Effect]:
    """Keep an absence in place of those that it overlaps; what is planned follows at once, and the coach is told."""
    draft, wrong = _checked(Draft.of(prompt.facts), client, unit, now)
    if wrong or draft.first is None or draft.last is None:
        return [shown(prompt, client, unit, draft, wrong)]
    view = away_card.view_of(draft, client, unit, clock=clock)
    for each in overlapping(draft, client, unit):
        ended = {"voided_at": now} if each.from_on >= draft.first else {"ended_on": draft.first}
        unit.aways.change(each.id, **ended)
    kept = unit.aways.add(
        client.id,
        draft.first,
        draft.last,
        now,
        training=bool(draft.training),
        place=_place(draft, client, unit),
        zone=view.zone if clock else None,
    )
    _plan_follows(client, unit, now)
    facts = {**prompt.facts, "screen": away_card.HELD, "away": kept}
    held = unit.prompts.revise(prompt.id, facts=facts)
    told = Tell(client.id, f"away:{client.id}:{kept}", 1, Level.TODAY, say.for_coach(client.name, view))
    return [card(held, say.held(buttons(held), view, coming(unit.clients.get(client.id), unit))), told]


def _place(draft: Draft, client: Client, unit: Unit) -> str | None:
    """Return the place of an absence, its kit kept; each absence has its own, so that machines are found anew."""
    if not draft.training or draft.first is None:
        return None
    if draft.kit is None:
        return draft.place
    name = f"{PLACE}{draft.first.day} {day_words(draft.first).split()[-1].lower()} {draft.first.year}"
    there = default_kit(draft.kit, MassUnit(client.unit or "kg"))
    unit.kits.keep(client.id, there.model_copy(update={"place": name}))
    return name


def _plan_follows(client: Client, unit: Unit, now: datetime) -> None:
    """Next in line, dates pass over an absence; by the calendar, what falls into it is left out."""
    carry_on(client.id, unit, now)
    follow_time_off(client, unit, now)


def _undone(client: Client, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Take an absence back, while it can be: what it had left out comes again, if its hour is still to come."""
    kept = unit.aways.get(int(prompt.facts["away"]))
    unit.prompts.close(prompt.id, now)
    if kept.voided_at is not None or kept.ended_on is not None:
        return [card(prompt, say.settled())]
    unit.aways.change(kept.id, voided_at=now)
    turned = travelling.turned_back(kept, unit, now) if kept.zone_before is not None else []
    changed = unit.clients.get(client.id)
    _plan_follows(changed, unit, now)
    unit.alerts.close(f"away:{client.id}:{kept.id}", now)
    told = say.not_away_for_coach(client.name, kept.from_on, kept.until_on)
    return [
        card(prompt, say.taken_back(coming(changed, unit))),
        Tell(client.id, f"not away:{client.id}:{kept.id}", 1, Level.DIGEST, told),
        *turned,
    ]


def back(command: Back, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """End an absence that has begun, and say what comes next and what is lighter."""
    client, answered = client_of(person, unit, now)
    return answered if client is None else _come_back(client, person, unit, now)


def _come_back(client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    today = local_date(now, client.zone or "UTC")
    standing = unit.aways.standing(client.id, today)
    paused = unit.prompts.of("silence", client.id)
    if not standing and paused is not None and client.paused_until is not None:
        return silence.tapped(Tap(paused.id, paused.revision, Action.CONFIRM), paused, person, unit, now)
    if not standing:
        return [answer(person, "back", say.not_away())]
    effects = _ended(standing[0], today, client, unit, now)
    changed = unit.clients.get(client.id)
    _plan_follows(changed, unit, now)
    following = unit.sessions.next_planned(client.id)
    comeback = said_of_break(client, following.local_on, unit) if following is not None else ""
    message = say.back(coming(changed, unit), comeback)
    return [answer(person, "back", message), *effects]


def _ended(kept: Away, today: date, client: Client, unit: Unit, now: datetime) -> list[Effect]:
    """End an absence today, or take it back where it has not begun."""
    ended = {"ended_on": today} if kept.from_on < today else {"voided_at": now}
    unit.aways.change(kept.id, **ended)
    unit.prompts.close_kind(KIND, client.id, now)
    turned = (
        travelling.turned_back(unit.aways.get(kept.id), unit, now) if kept.zone_before is not None else []
    )
    told = say.back_for_coach(client.name)
    if kept.from_on > today:
        told = say.not_away_for_coach(client.name, kept.from_on, kept.until_on)
    return [Tell(client.id, f"back:{client.id}:away:{kept.id}", 1, Level.DIGEST, told), *turned]
