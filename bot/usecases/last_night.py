"""A session that goes on past midnight still belongs to its day."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from bot.store.rules import DEFAULTS
from core.checkin.training_log import Session
from core.local_time import local_date
from core.policy import Policy


def is_of_last_night(session: Session, now: datetime, zone: str, policy: Policy = DEFAULTS) -> bool:
    """Return whether a session is yesterday's and the night after it is not over, on the clock of `zone`."""
    yesterday = local_date(now, zone) - timedelta(days=1)
    return session.local_on == yesterday and now.astimezone(ZoneInfo(zone)).time() < policy.quiet_to
