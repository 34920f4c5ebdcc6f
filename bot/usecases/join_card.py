"""The card of a joining question, and the prompt behind it."""

from datetime import datetime
from typing import Any

from bot.messages import EditCard, Effect, Person, Send
from bot.render.join import JoinView, known_words, question
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.join_answers import HOURS, MINUTES
from bot.usecases.join_known import known_of, said_now
from bot.usecases.join_steps import FIRST_BACK, KNOWN, STEPS, UNDER, asked_steps, can_go_back


def open_prompt(
    client: Client, person: Person, unit: Unit, now: datetime, *, anew: bool = False
) -> tuple[Prompt, bool]:
    """Return the open joining prompt and False; a new one and True when there is none, or one is wanted anew."""
    found = unit.prompts.expecting_text(person.user_id)
    if found is not None and found.kind == "join" and found.subject == client.id and not anew:
        return found, False
    arrival = person.arrival.update_id if person.arrival else 0
    made = unit.prompts.open(
        "join",
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        card_key=f"join:{client.id}:{arrival}",
        facts=fresh_facts(client.join_step or STEPS[0], client, unit),
        expects_text=True,
    )
    return made, True


def fresh_facts(step: str, client: Client, unit: Unit) -> dict[str, Any]:
    """Return what the prompt knows when a question is first put: days so far, the coach's zone, whether arms matter."""
    if step == "days":
        return {"days": client.days or []}
    if step == "zone":
        return {"zones": [unit.coaches.get(unit.tenant).zone]}
    if step == "alone":
        return {"arms": client.kit_kind in ("bar", "both")}
    if step == KNOWN:
        return {"known": list(known_of(client, unit))}
    return {}


def step_of(client: Client, prompt: Prompt) -> str:
    """Return which question is open: where joining stands, or what of the coach's words is being changed."""
    return str(prompt.facts.get("changing") or client.join_step or STEPS[0])


def shown(
    client: Client,
    prompt: Prompt,
    unit: Unit,
    *,
    is_new: bool = False,
    moved: bool = False,
    note: str | None = None,
) -> Effect:
    """Show the open question on its card."""
    step = step_of(client, prompt)
    known = known_of(client, unit)
    asked = asked_steps(known)
    at = client.join_step or STEPS[0]
    said = said_now(client, known, unit) if step == KNOWN else {}
    message = question(
        JoinView(
            step=step,
            number=asked.index(UNDER.get(at, at)) + 1 if UNDER.get(at, at) in asked else FIRST_BACK + 1,
            of=len(asked),
            name=client.name,
            coach=unit.coaches.get(unit.tenant).name,
            prompt_id=prompt.id,
            revision=prompt.revision,
            facts=prompt.facts,
            hours=HOURS,
            lengths=MINUTES,
            known=tuple(known_words(each, said[each]) for each in prompt.facts.get("known", ()))
            if step == KNOWN
            else (),
            can_go_back=can_go_back(step),
            note=note,
        )
    )
    card = prompt.card_key or f"join:{client.id}"
    if is_new:
        return Send(prompt.chat_id, message, key=f"{card}:card", card=card, client_id=client.id)
    return EditCard(card, prompt.chat_id, message, moved=moved, client_id=client.id)
