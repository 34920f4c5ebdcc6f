"""A coach's commands in, use-cases out. No rule and no wording lives here."""

import asyncio
from dataclasses import replace

from telegram import Update

from bot.files.exercise_form import exercise_form
from bot.files.last_loads_form import last_loads_form
from bot.files.template import template
from bot.inbound.doors import Context, catalogue_for, doors, run
from bot.usecases import (
    block_copies,
    clinician_limits,
    clips,
    contract,
    cues,
    daily_prep,
    goals,
    invitations,
    own_exercises,
    physio_summary,
    previewing,
    referring,
    reminding,
    restrictions,
    roster,
    rules,
    second_named,
    setting_up,
    week_changes,
)
from bot.usecases.last_loads_form import LastLoadsAsked, last_loads_asked, names_in


async def on_invite(update: Update, context: Context) -> None:
    """`/invite NAME`."""
    name = " ".join(context.args or ()).strip() or None
    code = doors(context).ids.word(20)
    command = setting_up.Invite(name=name, code=code, bot_name=context.bot.username)
    await run(update, context, setting_up.invite, command)


async def on_assign(update: Update, context: Context) -> None:
    """`/assign`, alone or in one line."""
    await run(update, context, setting_up.assign, setting_up.Assign(text=" ".join(context.args or ())))


async def on_second(update: Update, context: Context) -> None:
    """`/second`, `/second NAME`, `/second off`."""
    code = doors(context).ids.word(20)
    command = second_named.SecondAsked(" ".join(context.args or ()), code, context.bot.username)
    await run(update, context, second_named.second_asked, command)


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


async def on_change(update: Update, context: Context) -> None:
    """`/change NAME, WEEK`."""
    command = week_changes.ChangeAsked(text=" ".join(context.args or ()))
    await run(update, context, week_changes.change_asked, command)


async def on_block(update: Update, context: Context) -> None:
    """`/block NAME`."""
    command = block_copies.BlockAsked(text=" ".join(context.args or ()))
    await run(update, context, block_copies.block_asked, command)


async def on_last_loads(update: Update, context: Context) -> None:
    """`/lastloads`."""

    async def made(command: LastLoadsAsked) -> LastLoadsAsked:
        catalogue = await catalogue_for(update, context)
        user = update.effective_user
        names = None if user is None else await doors(context).runner.for_coach(user.id, names_in)
        if catalogue is None or names is None:
            return command
        return replace(command, content=await asyncio.to_thread(last_loads_form, names, catalogue))

    await run(update, context, last_loads_asked, LastLoadsAsked(), made)


async def on_exercises(update: Update, context: Context) -> None:
    """`/exercises`, or `/exercises remove NAME`."""

    async def made(command: own_exercises.ExercisesAsked) -> own_exercises.ExercisesAsked:
        catalogue = await catalogue_for(update, context)
        if catalogue is None or command.text:
            return command
        return replace(command, content=await asyncio.to_thread(exercise_form, catalogue))

    command = own_exercises.ExercisesAsked(text=" ".join(context.args or ()))
    await run(update, context, own_exercises.exercises_asked, command, made)


async def on_cue(update: Update, context: Context) -> None:
    """`/cue WHAT: WORDS`."""
    await run(update, context, cues.cue, cues.CueSaid(text=" ".join(context.args or ())))


async def on_cues(update: Update, context: Context) -> None:
    """`/cues`, or `/cues remove WHAT`."""
    await run(update, context, cues.cues_asked, cues.CuesAsked(text=" ".join(context.args or ())))


async def on_prep(update: Update, context: Context) -> None:
    """`/prep NAME: places, drills`."""
    command = daily_prep.PrepAsked(text=" ".join(context.args or ()))
    await run(update, context, daily_prep.prep_asked, command)


async def on_clip(update: Update, context: Context) -> None:
    """`/clip DRILL ADDRESS`."""
    await run(update, context, clips.clip_asked, clips.ClipAsked(text=" ".join(context.args or ())))


async def on_goal(update: Update, context: Context) -> None:
    """`/goal NAME WHAT`."""
    await run(update, context, goals.goal_said, goals.GoalSaid(text=" ".join(context.args or ())))


async def on_rules(update: Update, context: Context) -> None:
    """`/rules`, alone or in one line."""
    await run(update, context, rules.rules_asked, rules.RulesAsked(text=" ".join(context.args or ())))


async def on_limits(update: Update, context: Context) -> None:
    """`/limits NAME: WHAT`."""
    command = restrictions.LimitsSaid(text=" ".join(context.args or ()))
    await run(update, context, restrictions.limits, command)


async def on_refer(update: Update, context: Context) -> None:
    """`/refer NAME WHOM: WHY`."""
    await run(update, context, referring.refer_said, referring.ReferSaid(text=" ".join(context.args or ())))


async def on_referrals(update: Update, context: Context) -> None:
    """`/referrals`, or `/referrals NAME`."""
    command = referring.ReferralsAsked(text=" ".join(context.args or ()))
    await run(update, context, referring.referrals_asked, command)


async def on_limit(update: Update, context: Context) -> None:
    """`/limit NAME: WHAT`."""
    command = clinician_limits.LimitSaid(text=" ".join(context.args or ()))
    await run(update, context, clinician_limits.limit_said, command)


async def on_remind(update: Update, context: Context) -> None:
    """`/remind NAME WHEN: WHAT`."""
    await run(update, context, reminding.remind_said, reminding.RemindSaid(text=" ".join(context.args or ())))


async def on_contract(update: Update, context: Context) -> None:
    """`/contract NAME WHAT`."""
    await run(
        update, context, contract.contract_said, contract.ContractSaid(text=" ".join(context.args or ()))
    )


async def on_summary(update: Update, context: Context) -> None:
    """`/summary NAME`."""
    user = update.effective_user
    runner = doors(context).runner

    async def drawn(command: physio_summary.SummaryAsked) -> physio_summary.SummaryAsked:
        user_id = user.id if user is not None else 0
        return await asyncio.to_thread(
            physio_summary.prepared, runner.units, user_id, command, runner.clock.now()
        )

    command = physio_summary.SummaryAsked(text=" ".join(context.args or ()))
    await run(update, context, physio_summary.summary_asked, command, drawn)
