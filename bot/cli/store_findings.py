"""Looks at the database, at who serves it, at what was fetched, and at what went wrong with messages."""

from datetime import datetime, timedelta

from bot.cli.findings import Finding, good, span, told, wrong
from bot.settings import Settings
from bot.store.condition import Condition, Standing
from bot.store.heartbeat import Heartbeat, Mark
from core.errors import UnknownZone
from core.local_time import zone_named

LISTED = 5

WAITS_TOO_LONG = timedelta(minutes=15)
"""A passing fault is tried again within minutes. Our proposal."""

RESTORE = "Put a backup in its place with plimsoll restore."

STANDINGS = {
    Standing.ABSENT: "it is not there yet. Run plimsoll migrate; or PLIMSOLL_DATABASE_URL points to another place.",
    Standing.UNREACHABLE: "it cannot be reached. See that the server runs and that PLIMSOLL_DATABASE_URL is right.",
    Standing.NO_DRIVER: "the driver for PostgreSQL is not installed. Install plimsoll with its extra postgres.",
    Standing.DAMAGED: f"it is damaged. Stop plimsoll serve and make a copy of the file. {RESTORE}",
    Standing.EMPTY: "it is empty. Run plimsoll migrate.",
}


def store_findings(condition: Condition) -> list[Finding]:
    """Return what is to say of the database."""
    standing, schema = condition.standing, condition.revision
    if standing in STANDINGS:
        return [wrong("database", STANDINGS[standing])]
    found = [good("database"), _schema(standing, schema)]
    if standing is Standing.NEWER:
        return found
    if condition.writable:
        found.append(good("writing"))
    else:
        found.append(
            wrong(
                "writing",
                "the database cannot be written. It may be locked for long by another program, read-only, or "
                "somebody else's: see to its owner and mode, and to space on the disk.",
            )
        )
    if standing is Standing.AT_HEAD:
        found += [_zones(condition.zones), _failed(condition.failed), _doubtful(condition.doubtful)]
        found += _left_out(condition.left_out) + _unbound(condition.unbound)
    return found


def _schema(standing: Standing, revision: str | None) -> Finding:
    if standing is Standing.NEWER:
        return wrong(
            "schema",
            f"it is {revision}, which this version of Plimsoll does not know: a later one has written it. Install "
            "that version, or restore a backup from before.",
        )
    if standing is Standing.BEHIND:
        return wrong("schema", f"it is {revision}, which is an earlier one. Run plimsoll migrate.")
    return good("schema", str(revision))


def _zones(zones: dict[str, int]) -> Finding:
    """Return whether everybody's time zone is known; somebody's local time cannot be told otherwise."""
    unknown = {zone: count for zone, count in zones.items() if not _is_known(zone)}
    if unknown:
        people = sum(unknown.values())
        return wrong(
            "zones of people",
            f"{people} of {sum(zones.values())} people live in a zone that this machine does not know: nothing can "
            "be sent to them at their hour. Bring the package tzdata up to date.",
        )
    return good("zones of people")


def _is_known(zone: str) -> bool:
    try:
        zone_named(zone)
    except UnknownZone:
        return False
    return True


def _failed(references: list[str]) -> Finding:
    if not references:
        return good("incoming messages")
    more = f" and {len(references) - LISTED} more" if len(references) > LISTED else ""
    return wrong(
        "incoming messages",
        f"the program failed on {len(references)}: {', '.join(references[:LISTED])}{more}. The log says where. Their "
        "words are kept for 7 days: once the fault is mended, take each up again with plimsoll inbox replay.",
    )


def _left_out(count: int) -> list[Finding]:
    """Return that rules of coaches do not fit any more, where there are any."""
    if not count:
        return []
    return [
        told("rules of coaches", f"{count} do not fit any more and are left out; /rules shows her which.")
    ]


def _unbound(count: int) -> list[Finding]:
    """Return that coaches cannot be told anything, where there are any."""
    if not count:
        return []
    return [
        told(
            "coaches",
            f"{count} cannot be written to: no account is bound yet, or it lets nothing through. Whoever has lost her "
            "code, or let it run out, needs a new one from plimsoll coach add.",
        )
    ]


def _doubtful(count: int) -> Finding:
    if not count:
        return good("outgoing messages")
    return told("outgoing messages", f"of {count} nobody knows whether they arrived; the coaches were told.")


def waiting_findings(*, is_served: bool, since: datetime | None, now: datetime) -> list[Finding]:
    """Return that a message waits too long though the program runs."""
    if not is_served or since is None or now - since < WAITS_TOO_LONG:
        return []
    return [
        wrong(
            "waiting messages",
            f"the oldest has waited {span(now - since)} for an answer, and plimsoll serve runs. See its log; then "
            "stop it and start it again.",
        )
    ]


def serving_findings(
    is_served: bool, heartbeat: Heartbeat, settings: Settings, now: datetime
) -> list[Finding]:
    """Return whether the program runs, and when the platform last answered a fetch."""
    fetched, started = heartbeat.at(Mark.FETCHED), heartbeat.at(Mark.STARTED)
    last = "never" if fetched is None else f"{span(now - fetched)} ago"
    if not is_served:
        return [
            told("serving", "plimsoll serve does not run on this database now."),
            told("last good fetch", f"{last}."),
        ]
    since = max((at for at in (fetched, started) if at is not None), default=None)
    if since is not None and now - since < timedelta(seconds=settings.silence_s):
        return [good("serving", "plimsoll serve runs"), good("last good fetch", last)]
    return [
        good("serving", "plimsoll serve runs"),
        wrong(
            "last good fetch",
            f"{last}, and plimsoll serve runs: it gets no messages. See its log and the lines above; then stop it "
            "and start it again.",
        ),
    ]
