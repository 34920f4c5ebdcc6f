"""The peer: a bare bot of python-telegram-bot that says again what it hears, and keeps nothing."""

import sys
from typing import Any

from telegram import Update
from telegram.ext import Application, MessageHandler, filters


async def again(update: Update, context: Any) -> None:
    assert update.message is not None
    await update.message.reply_text(update.message.text or "")


token, api_url = sys.argv[1:3]
application = Application.builder().token(token).base_url(f"{api_url}/bot").build()
application.add_handler(MessageHandler(filters.TEXT, again))
application.run_polling()
