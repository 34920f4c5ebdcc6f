"""What every handler needs: the runner behind the doors, and where an update came from."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from telegram import Message, Update
from telegram.ext import ContextTypes

from bot.clock import Ids
from bot.inbound.menus import Menus
from bot.inbound.worker import Worker
from bot.messages import Arrival
from bot.usecases.runner import Runner
from core.policy import Policy
from core.programme.exercises import Exercise

Context = ContextTypes.DEFAULT_TYPE


@dataclass
class Doors:
    """What handlers need; kept in the application's `bot_data`."""

    runner: Runner
    ids: Ids
    worker: Worker | None = None
    menus: Menus | None = None


def doors(context: Context) -> Doors:
    """Return what handlers need."""
    found: Doors = context.bot_data["doors"]
    return found


def arrival_of(update: Update) -> Arrival | None:
    """Return where an update came from; None when nobody can be answered."""
    user, chat = update.effective_user, update.effective_chat
    if user is None:
        return None
    query = update.callback_query
    message = query.message if query else update.effective_message
    reply = message.reply_to_message if isinstance(message, Message) and query is None else None
    return Arrival(
        update_id=update.update_id,
        user_id=user.id,
        chat_id=chat.id if chat else user.id,
        message_id=message.message_id if message else None,
        reply_to=reply.message_id if reply else None,
    )


async def run(update: Update, context: Context, usecase: Any, command: Any, prepare: Any = None) -> None:
    """Run a use-case for whoever sent an update; `prepare` does before what must not sit in a transaction."""
    arrival = arrival_of(update)
    if arrival is None:
        return
    await doors(context).runner.run(usecase, command, arrival, prepare)
    menus = doors(context).menus
    if menus is not None:
        menus.heard(arrival.user_id, arrival.chat_id)


async def policy_for(update: Update, context: Context) -> Policy:
    """Return what the coach who sent an update has set for herself; the defaults when no coach sent it."""
    user = update.effective_user
    if user is None:
        return Policy()
    return await doors(context).runner.for_coach(user.id, lambda unit, _: unit.rules.policy()) or Policy()


async def catalogue_for(update: Update, context: Context) -> Mapping[str, Exercise] | None:
    """Return the exercises that the coach who sent an update may name; None when no coach sent it."""
    user = update.effective_user
    return None if user is None else await doors(context).runner.catalogue_of(user.id)
