"""Looks at the platform: whether it can be reached, knows the bot, lets it have updates, and what time it has."""

from collections.abc import Callable
from datetime import datetime, timedelta
from email.utils import parsedate_to_datetime
from typing import Any

import httpx

from bot.cli.findings import Finding, good, told, wrong
from bot.settings import Settings

PATIENCE_S = 10.0
"""How long an answer may take. [s]"""

CLOCKS_APART = timedelta(seconds=60)
"""How far the two clocks may be apart: sessions go out by the minute. Our proposal."""

NOT_ASKED = "not looked at: the platform did not answer."


def platform_findings(settings: Settings, now: Callable[[], datetime]) -> list[Finding]:
    """Look at the platform; asks nothing that a running program could notice."""
    if settings.token is None:
        return [
            wrong("token", "it is not set. Set PLIMSOLL_TOKEN to the token that the platform gave your bot.")
        ]
    # The address holds the token: no error of the client is ever printed.
    root = f"{str(settings.api_url).rstrip('/')}/bot{settings.token.get_secret_value()}"
    try:
        with httpx.Client(timeout=PATIENCE_S) as client:
            asked = now()
            me = client.get(f"{root}/getMe")
            answered = now()
            token = _token(me)
            hook = client.get(f"{root}/getWebhookInfo") if token.said == "" else None
    except (httpx.HTTPError, httpx.InvalidURL) as error:
        cause = type(error).__name__
        return [
            wrong(
                "platform",
                f"the server cannot be reached ({cause}). Look at the network of this machine, and at "
                "PLIMSOLL_API_URL if you have set it. The token was not looked at.",
            )
        ]
    webhook = [webhook_finding(hook, settings)] if hook is not None else []
    return [good("platform"), token, *webhook, _clock(me, asked + (answered - asked) / 2)]


def _body(answer: httpx.Response) -> dict[str, Any] | None:
    try:
        found = answer.json()
    except ValueError:
        return None
    return found if isinstance(found, dict) and isinstance(found.get("ok"), bool) else None


def _token(answer: httpx.Response) -> Finding:
    body = _body(answer)
    if body is None or (not body["ok"] and answer.status_code not in {401, 403, 404}):
        return wrong(
            "token",
            f"not looked at: the server answered with HTTP {answer.status_code}. Try again in a while; if it stays "
            "so, PLIMSOLL_API_URL is not the root of a Bot API server.",
        )
    if not body["ok"]:
        return wrong(
            "token",
            "the platform refused it. Set PLIMSOLL_TOKEN to the token that it gave your bot; it may have been "
            "replaced by a new one.",
        )
    return good("token")


def webhook_finding(answer: httpx.Response, settings: Settings) -> Finding:
    """Return whether the platform does with updates what the settings ask for, as it says of its webhook."""
    body = _body(answer)
    if body is None or not body["ok"] or not isinstance(body.get("result"), dict):
        return wrong(
            "webhook",
            f"not looked at: the server answered with HTTP {answer.status_code}. Try again in a while.",
        )
    if settings.webhook_url is not None:
        return _brought(body["result"], str(settings.webhook_url))
    if body["result"].get("url"):
        return wrong(
            "webhook",
            "one is set, and PLIMSOLL_WEBHOOK_URL is not: the platform brings this bot's messages there, and refuses "
            "fetching. plimsoll serve removes it (deleteWebhook) when it begins to fetch; if it is there again, "
            "another program sets it: stop that one.",
        )
    return good("webhook", "none is set")


def _brought(found: dict[str, Any], url: str) -> Finding:
    """Return whether messages are brought where they should be, and get through."""
    there = str(found.get("url") or "")
    if not there:
        return told(
            "webhook",
            "it is not set yet. plimsoll serve sets it at its start; if it runs, look at its log.",
        )
    if there.rstrip("/").lower() != url.rstrip("/").lower():
        return wrong(
            "webhook",
            "the platform brings this bot's messages to another address than PLIMSOLL_WEBHOOK_URL. Stop the other "
            "program, and start plimsoll serve.",
        )
    if found.get("pending_update_count") and found.get("last_error_message"):
        return wrong(
            "webhook",
            f"{found['pending_update_count']} messages wait at the platform, which says of its last try: "
            f"{found['last_error_message']}. See to the proxy before plimsoll serve, and whether that runs.",
        )
    return good("webhook", "it is set")


def _clock(answer: httpx.Response, ours: datetime) -> Finding:
    try:
        theirs = parsedate_to_datetime(answer.headers["Date"])
        apart = ours - theirs
    except (KeyError, ValueError, TypeError):
        return told("clock", "not looked at: the platform did not say what time it is.")
    if abs(apart) > CLOCKS_APART:
        way = "ahead of" if apart > timedelta(0) else "behind"
        return wrong(
            "clock",
            f"this machine's is {abs(apart).total_seconds():.0f} s {way} the platform's: sessions go out at the "
            "wrong time. Have the machine set its clock from the network.",
        )
    return good("clock")
