"""A coach's commands for blocks in time, reports, logs and reasons. No rule and no wording lives here."""

import asyncio
from collections.abc import Awaitable, Callable
from datetime import datetime
from typing import TypeVar

from telegram import Update

from bot.inbound.doors import Context, doors, run
from bot.store.units import Units
from bot.usecases import blocks_running, client_papers, client_why, report, season
from core.oversight.season import SpanKind

C = TypeVar("C")


def _prepared(
    update: Update, context: Context, work: Callable[[Units, int, C, datetime], C]
) -> Callable[[C], Awaitable[C]]:
    """Return what reads and draws for whoever sent an update, in a thread of its own."""
    runner, user = doors(context).runner, update.effective_user

    async def made(command: C) -> C:
        user_id = user.id if user is not None else 0
        return await asyncio.to_thread(work, runner.units, user_id, command, runner.clock.now())

    return made


def _text(context: Context) -> str:
    return " ".join(context.args or ())


async def on_blocks(update: Update, context: Context) -> None:
    """`/blocks`."""
    await run(update, context, blocks_running.blocks_asked, blocks_running.BlocksAsked())


async def on_season(update: Update, context: Context) -> None:
    """`/season`, `/season NAME`, `/season remove NUMBER`."""
    made = _prepared(update, context, season.prepared)
    await run(update, context, season.season_asked, season.SeasonAsked(_text(context)), made)


async def on_holiday(update: Update, context: Context) -> None:
    """`/holiday DAYS`, `/holiday NAME DAYS`."""
    await run(update, context, season.entry_said, season.EntrySaid(SpanKind.HOLIDAY, _text(context)))


async def on_event(update: Update, context: Context) -> None:
    """`/event NAME: WHAT DAY`."""
    await run(update, context, season.entry_said, season.EntrySaid(SpanKind.EVENT, _text(context)))


async def on_report(update: Update, context: Context) -> None:
    """`/report NAME`."""
    made = _prepared(update, context, report.prepared)
    await run(update, context, report.report_asked, report.ReportAsked(_text(context)), made)


async def on_log_file(update: Update, context: Context) -> None:
    """`/logfile NAME`."""
    made = _prepared(update, context, client_papers.prepared)
    await run(update, context, client_papers.log_asked, client_papers.LogAsked(_text(context)), made)


async def on_why(update: Update, context: Context) -> None:
    """`/why NAME, EXERCISE`."""
    await run(update, context, client_why.why_asked, client_why.WhyAsked(_text(context)))
