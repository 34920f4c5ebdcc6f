"""A client on a new account: `/invite again NAME` makes a link that ties who she is here to it.

Her log and what she has said of her health stay; the old account is a stranger again and gets nothing more.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.messages import Effect, Level, Person, Send, Tell
from bot.render import join_again as say
from bot.store.invites import Invite
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import leaving
from bot.usecases.assigning import client_named
from bot.usecases.block_files import only_for_coaches
from bot.usecases.session_view import show
from core.programme.folding import folded

IN_INVITE = "again"
"""Where an invitation keeps whose it is."""
GOOD_FOR = timedelta(days=14)
RUNNING = ("sent", "started", "asking")


@dataclass(frozen=True, slots=True)
class InviteAgain:
    """A coach wants a link for a client who has a new account.

    Attributes:
        name: Which client.
        code: Unguessable, made for this.
        bot_name: The bot's name on the platform.
    """

    name: str
    code: str
    bot_name: str


def invite_again(command: InviteAgain, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Make a link for a client of this coach, good once and for 14 days; an older one no longer works."""
    if person.role != "coach":
        return only_for_coaches(person)
    if not command.name.strip():
        return [leaving.answer(person, "invite", say.how_to())]
    client = _named(command.name.strip(), unit)
    for one in unit.invites.open_ones(now):
        if one.prefill.get(IN_INVITE) == client.id:
            unit.invites.revoke(one.id, now)
    until = now + GOOD_FOR
    made = unit.invites.add(command.code, "client", client.name, until, now)
    unit.invites.note(made, {IN_INVITE: client.id})
    unit.invites.belongs_to(made, client.id)
    coach = unit.coaches.get(unit.tenant).name
    return [
        leaving.answer(person, "invite", say.link_made(client.name, until)),
        leaving.answer(person, "link", say.invitation(client.name, coach, command.bot_name, command.code)),
    ]


def _named(name: str, unit: Unit) -> Client:
    """Return a client by her name, one who has stopped too where the name is hers alone."""
    same = [each for each in unit.clients.everybody() if folded(each.name) == folded(name)]
    return same[0] if len(same) == 1 else client_named(name, unit)


def client_in(invite: Invite, unit: Unit) -> Client | None:
    """Return the client whom an invitation brings to a new account; None for one that brings somebody new."""
    client_id = invite.prefill.get(IN_INVITE)
    return None if client_id is None else unit.clients.get(client_id)


def is_open_to(client: Client, invite: Invite) -> bool:
    """Return whether a client may use an invitation: not one that brings another client to a new account."""
    return bool(invite.prefill.get(IN_INVITE, client.id) == client.id)


def bound(client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Tie a client to the account that is speaking: what is open goes on there, and nothing more goes to the old."""
    before = unit.accounts.of_client(client.id)
    if before is not None:
        unit.outbox.cancel_chat(before.chat_id)
        unit.accounts.unbind(before.user_id)
    unit.accounts.bind(person.user_id, person.chat_id, unit.tenant, "client", client.id)
    unit.prompts.follow(client.id, person.user_id, person.chat_id)
    unit.cards.follow(client.id, person.chat_id, before.chat_id if before is not None else None)
    unit.alerts.close(f"unreachable:{client.id}", now)
    arrival = person.arrival.update_id if person.arrival else 0
    told = Tell(
        client.id,
        key=f"again:{client.id}:{arrival}",
        grown=1,
        level=Level.NOW,
        message=say.has_come_again(client.name),
    )
    if client.state not in ("active", "paused"):
        return [told]
    welcome = Send(person.chat_id, say.welcome_again(), key=f"again:{arrival}", client_id=client.id)
    return [welcome, told, *_cards(client, unit)]


def _cards(client: Client, unit: Unit) -> list[Effect]:
    """Show the sessions that are out on the new account."""
    return [
        effect
        for session in reversed(unit.sessions.of_client(client.id, RUNNING))
        for effect in show(session.id, unit, moved=True)
    ]


def goes_on(client: Client, prompt: Prompt, unit: Unit, now: datetime, *, moved: bool) -> list[Effect]:
    """Take up where a client was, once she has agreed to the consent as it now reads."""
    state = "paused" if client.paused_until is not None else "active"
    unit.clients.change(client.id, state=state, join_step=None)
    unit.prompts.close_kind("join", client.id, now)
    return [leaving.card_shown(prompt, client.id, say.consent_kept(), moved=moved)]
