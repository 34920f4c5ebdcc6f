"""A coach's commands in, use-cases out. No rule and no wording lives here."""

import asyncio
from dataclasses import replace

from telegram import Update

from bot.files.template import template
from bot.inbound.doors import Context, catalogue_for, doors, run
from bot.usecases import block_copies, invitations, previewing, roster, setting_up


async def on_invite(update: Update, context: Context) -> None:
    """`/invite NAME`."""
    name = " ".join(context.args or ()).strip() or None
    code = doors(context).ids.word(20)
    command = setting_up.Invite(name=name, code=code, bot_name=context.bot.username)
    await run(update, context, setting_up.invite, command)


async def on_assign(update: Update, context: Context) -> None:
    """`/assign`, alone or in one line."""
    await run(update, context, setting_up.assign, setting_up.Assign(text=" ".join(context.args or ())))


async def on_roster(update: Update, context: Context) -> None:
    """`/roster`."""
    await run(update, context, roster.roster, roster.Roster())


async def on_client(update: Update, context: Context) -> None:
    """`/client NAME`."""
    command = roster.ClientAsked(text=" ".join(context.args or ()))
    await run(update, context, roster.client_asked, command)


async def on_preview(update: Update, context: Context) -> None:
    """`/preview`."""
    await run(update, context, previewing.preview, previewing.Preview())


async def on_invites(update: Update, context: Context) -> None:
    """`/invites`."""
    await run(update, context, invitations.invites, invitations.Invites())


async def on_template(update: Update, context: Context) -> None:
    """`/template`."""

    async def made(command: block_copies.FormAsked) -> block_copies.FormAsked:
        catalogue = await catalogue_for(update, context)
        if catalogue is None:
            return command
        return replace(command, content=await asyncio.to_thread(template, catalogue))

    await run(update, context, block_copies.form_asked, block_copies.FormAsked(), made)


async def on_block(update: Update, context: Context) -> None:
    """`/block NAME`."""
    command = block_copies.BlockAsked(text=" ".join(context.args or ()))
    await run(update, context, block_copies.block_asked, command)
