"""A coach's commands of steering in, use-cases out. No rule and no wording lives here."""

from telegram import Update

from bot.inbound.doors import Context, run
from bot.usecases import orders_list, orders_said, pausing, raises


async def on_order(update: Update, context: Context) -> None:
    """`/order NAME: WHAT`."""
    await run(
        update, context, orders_said.order_asked, orders_said.OrderAsked(text=" ".join(context.args or ()))
    )


async def on_orders(update: Update, context: Context) -> None:
    """`/orders NAME`."""
    await run(
        update, context, orders_list.orders_asked, orders_list.OrdersAsked(text=" ".join(context.args or ()))
    )


async def on_raises(update: Update, context: Context) -> None:
    """`/raises`."""
    await run(update, context, raises.raises_asked, raises.RaisesAsked())


async def on_pause(update: Update, context: Context) -> None:
    """`/pause NAME until DAY`."""
    await run(update, context, pausing.pause_asked, pausing.PauseAsked(text=" ".join(context.args or ())))


async def on_resume(update: Update, context: Context) -> None:
    """`/resume NAME`."""
    await run(update, context, pausing.resume_asked, pausing.ResumeAsked(text=" ".join(context.args or ())))


async def on_end(update: Update, context: Context) -> None:
    """`/end NAME`."""
    await run(update, context, pausing.end_asked, pausing.EndAsked(text=" ".join(context.args or ())))
