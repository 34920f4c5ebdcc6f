"""A coach's rules in plain words: for each setting its name, what it does, its group, and how far it reaches."""

from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType

from core.oversight.rule import Group, Kind, Reach, Rule
from core.programme.exercises import Region

_UPPER = ("upper cap", "cap upper", "raise upper", "raise by", "raise at most", "raise cap", "cap")
_LOWER = ("lower cap", "cap lower", "raise lower", "raise by", "raise at most", "raise cap", "cap")
_WEEK = ("week cap", "cap a week", "weekly cap", "raise a week")
_MONTH = ("four week cap", "cap four weeks", "month cap", "raise in four weeks")


def _share(field: str, name: str, does: str, group: Group, reach: Reach, **more: object) -> Rule:
    values = {"step": Decimal("0.01"), **more}
    made = {"field": field, "name": name, "does": does, "group": group, "reach": reach, "kind": Kind.SHARE}
    return Rule.model_validate({**made, **values})


def _mass(field: str, name: str, does: str, group: Group, reach: Reach, **more: object) -> Rule:
    made = {"field": field, "name": name, "does": does, "group": group, "reach": reach, "kind": Kind.MASS}
    return Rule.model_validate({**made, "step": Decimal("0.5"), **more})


def _count(
    field: str, name: str, does: str, unit: str, group: Group, reach: Reach = Reach.CLIENT, **more: object
) -> Rule:
    made = {"field": field, "name": name, "does": does, "group": group, "reach": reach, "kind": Kind.COUNT}
    return Rule.model_validate({**made, "unit": unit, **more})


def _hour(field: str, name: str, does: str, *others: str) -> Rule:
    made = {"field": field, "name": name, "does": does, "group": Group.HOURS, "reach": Reach.CLIENT}
    return Rule.model_validate({**made, "kind": Kind.HOUR, "step": Decimal(30), "others": others})


def _switch(field: str, name: str, does: str, *others: str) -> Rule:
    made = {"field": field, "name": name, "does": does, "group": Group.LOADS, "reach": Reach.CLIENT}
    return Rule.model_validate({**made, "kind": Kind.SWITCH, "others": others})


_OF_LOADS = (
    _share(
        "cap_upper", "raise cap upper", "Most that an upper-body load rises from session to session",
        Group.LOADS, Reach.EXERCISE, region=Region.UPPER, others=_UPPER,
    ),
    _mass(
        "cap_upper_mass", "raise mass upper",
        "Most that an upper-body load rises at once, as a mass; the smaller counts",
        Group.LOADS, Reach.EXERCISE, region=Region.UPPER, others=("raise cap upper", *_UPPER),
    ),
    _share(
        "cap_lower", "raise cap lower", "Most that a lower-body or trunk load rises from session to session",
        Group.LOADS, Reach.EXERCISE, region=Region.LOWER, others=_LOWER,
    ),
    _mass(
        "cap_lower_mass", "raise mass lower",
        "Most that a lower-body or trunk load rises at once, as a mass; the smaller counts",
        Group.LOADS, Reach.EXERCISE, region=Region.LOWER, others=("raise cap lower", *_LOWER),
    ),
    _share(
        "cap_week_upper", "week cap upper", "Most that an upper-body load rises over 7 days",
        Group.LOADS, Reach.EXERCISE, region=Region.UPPER, others=_WEEK,
    ),
    _share(
        "cap_week_lower", "week cap lower", "Most that a lower-body or trunk load rises over 7 days",
        Group.LOADS, Reach.EXERCISE, region=Region.LOWER, others=_WEEK,
    ),
    _share(
        "cap_four_weeks_new", "four-week cap new", "Most that a load rises over 28 days, in the first three months",
        Group.LOADS, Reach.EXERCISE, others=_MONTH,
    ),
    _share(
        "cap_four_weeks_trained", "four-week cap", "Most that a load rises over 28 days, later on",
        Group.LOADS, Reach.EXERCISE, others=("four-week cap trained", *_MONTH),
    ),
    _share(
        "raise_asks_over", "raises wait over", "Raise over which a load waits for your yes",
        Group.LOADS, Reach.EXERCISE, others=("raise asks over", "ask before raises", "raises wait"),
    ),
    _share(
        "miss_drop", "short reps drop", "Fall of a load that was short of reps twice running",
        Group.LOADS, Reach.EXERCISE, others=("drop after short reps", "missed reps drop"),
    ),
    _count(
        "left_default", "reps left", "Reps left asked for where a block says nothing", "reps",
        Group.LOADS, Reach.EXERCISE, others=("default reps left", "left", "rir"),
    ),
    _count(
        "long_reps", "longest reps", "Most reps asked for while a big step up is earned", "reps",
        Group.LOADS, Reach.EXERCISE, others=("long reps", "most reps"),
    ),
    _switch(
        "deload_by_itself", "lighter week by itself", "A lighter week that signs ask for comes without you",
        "deload by itself", "automatic deload", "automatic lighter week",
    ),
    _switch(
        "limit_from_60", "limit from 60", "You order sets to the limit at 60 and over",
        "limit at 60", "to the limit from 60",
    ),
)  # fmt: skip
_OF_SETS = (
    _count(
        "muscle_sets_least", "fewest sets", "Hard sets a week under which a block does little for a large muscle",
        "sets", Group.SETS, Reach.ALL, others=("fewest sets a muscle", "least sets"),
    ),
    _count(
        "muscle_sets_most", "most sets", "Hard sets a week over which a block does much for a muscle",
        "sets", Group.SETS, Reach.ALL, others=("most sets a muscle",),
    ),
    _count(
        "sets_rise", "more sets", "Most hard sets that a muscle has more than in the weeks before", "sets",
        Group.SETS, Reach.CLIENT, others=("sets rise",),
    ),
    _share(
        "sets_rise_share", "more sets share", "The same as a share of the sets; the greater of the two counts",
        Group.SETS, Reach.CLIENT, step=Decimal("0.05"), others=("sets rise share", "more sets", "sets rise"),
    ),
    _count(
        "deload_after", "weeks to a lighter one", "Most weeks of a block without a lighter one", "weeks",
        Group.SETS, Reach.ALL, others=("deload after", "lighter week after"),
    ),
)  # fmt: skip
_OF_BODY = (
    _share(
        "pain_drop", "pain drop", "Fall of the next load after pain of 4 to 6 on an exercise",
        Group.PAIN, Reach.EXERCISE, step=Decimal("0.05"), others=("drop after pain", "pain fall"),
    ),
    _share(
        "ill_drop", "illness drop", "Fall of loads in the first session after an illness",
        Group.ILLNESS, Reach.CLIENT, step=Decimal("0.05"), others=("ill drop", "drop after illness"),
    ),
    _count(
        "ill_wait", "illness wait", "Days free of symptoms before training goes on", "days", Group.ILLNESS,
        others=("ill wait", "wait after illness", "days free of symptoms"),
    ),
    _count(
        "cold_days", "cold days", "Days that a head cold holds every load", "days", Group.ILLNESS,
        others=("head cold", "cold"),
    ),
    _count(
        "away_most", "longest away", "Longest absence that a client can say", "days", Group.ILLNESS,
        step=Decimal(14), others=("away most", "longest absence"),
    ),
)  # fmt: skip
_OF_MISSES = (
    _count(
        "miss_grace", "miss grace", "Time after the end of its day until a session counts as missed", "hours",
        Group.MISSES, step=Decimal(6), others=("grace",),
    ),
    _count(
        "miss_run", "misses in a row", "Misses in a row that you hear of", "sessions", Group.MISSES,
        others=("miss run", "misses running"),
    ),
    _count(
        "miss_window", "miss window", "Time over which you hear of less than half kept", "days", Group.MISSES,
        step=Decimal(7), others=("half window",),
    ),
    _count(
        "miss_least_due", "least due", "Sessions due in that time under which nothing is said of a half", "sessions",
        Group.MISSES, others=("miss least due",),
    ),
    _count(
        "miss_first_days", "first days", "Time from the first session in which you hear of one miss", "days",
        Group.MISSES, step=Decimal(7), others=("miss first days",),
    ),
    _count(
        "silent_stop", "silent stop", "Cards unanswered in a row after which no more are sent", "sessions",
        Group.MISSES, others=("unanswered cards", "cards unanswered"),
    ),
    _count(
        "outage_spares", "outage", "Outage of mine over which a session is no miss", "hours",
        Group.MISSES, Reach.ALL, others=("outage spares",),
    ),
)  # fmt: skip
_OF_HOURS = (
    _hour("quiet_from", "quiet from", "Quiet hours begin", "quiet hours from", "quiet begins"),
    _hour("quiet_to", "quiet to", "Quiet hours end", "quiet hours to", "quiet until", "quiet ends"),
    _hour(
        "week_asked_at",
        "week asked at",
        "The week's questions come",
        "check-in at",
        "plan at",
        "questions at",
    ),
    _hour("late_latest", "late until", "A late session still goes out until", "latest card", "late latest"),
)
_OF_TELLING = (
    _count(
        "digest_words", "named in the digest", "Clients named first in the digest; safety is named beyond it",
        "clients", Group.DIGEST, Reach.ALL, others=("digest names", "digest words"),
    ),
    _count(
        "block_ends", "block ends", "Time within which the digest names blocks that end", "days",
        Group.DIGEST, Reach.ALL, step=Decimal(7), others=("block ends within", "running out"),
    ),
    _count(
        "percent_from", "percentage from", "Sessions due from which kept of due is also a percentage", "sessions",
        Group.DIGEST, Reach.ALL, others=("percent from",),
    ),
    _count(
        "most_unasked", "messages a day", "Most messages a day that a client did not ask for", "messages",
        Group.MESSAGES, others=("most unasked", "unasked messages"),
    ),
    _count(
        "media_an_hour", "media an hour", "Pictures, voice, videos and files of a client passed on in an hour",
        "messages", Group.MESSAGES, step=Decimal(5), others=("files an hour", "pictures an hour"),
    ),
    _count(
        "trend_points", "trend points", "Times a lift was estimated from which a trend is shown", "times", Group.LIFTS,
        others=("trend from",),
    ),
    _count(
        "trend_days", "trend days", "Shortest time that a trend goes over", "days", Group.LIFTS, step=Decimal(7),
    ),
    _share(
        "fall_share", "falling", "Loss over three sessions from which a lift is called falling", Group.LIFTS,
        Reach.CLIENT, others=("lift falling", "fall share"),
    ),
    _count(
        "stall_exposures", "stalled after", "Times without a gain after which a lift is called stalled", "times",
        Group.LIFTS, others=("stall", "stall times", "stall exposures"),
    ),
    _count(
        "stall_days", "stalled days", "Shortest time without a gain after which it is called so", "days",
        Group.LIFTS, step=Decimal(7), others=("stall days",),
    ),
)  # fmt: skip

_OF_ALERTS = (
    _share(
        "over_line", "over the load line", "A set heavier than the load line by more is told", Group.ALERTS,
        Reach.CLIENT, others=("over line", "set over the line"),
    ),
    _count(
        "left_asked", "none left", "Reps left asked for from which none left, twice running, is told", "reps",
        Group.ALERTS, others=("left asked", "none left twice"),
    ),
    _count(
        "video_hours", "video in the digest", "Time after which an unanswered video stands in the digest", "hours",
        Group.ALERTS, step=Decimal(12), others=("video hours",),
    ),
    _count(
        "video_days", "video told", "Time after which an unanswered video is told the same day", "days",
        Group.ALERTS, others=("video days", "unanswered video"),
    ),
    _count(
        "check_in_days", "check-in told", "Time without an answered check-in that is told the same day", "days",
        Group.ALERTS, step=Decimal(7), others=("check-in days", "unanswered check-in"),
    ),
    _count(
        "block_last_days", "block end told", "Time before a block's end at which you hear that none follows", "days",
        Group.ALERTS, others=("block last days",),
    ),
)  # fmt: skip

RULES: Mapping[str, Rule] = MappingProxyType(
    {
        each.field: each
        for each in (*_OF_LOADS, *_OF_SETS, *_OF_BODY, *_OF_MISSES, *_OF_HOURS, *_OF_TELLING, *_OF_ALERTS)
    }
)
"""By field of `Policy`."""


def rules_of(group: Group) -> tuple[Rule, ...]:
    """Return the rules of a group, in the order that they are shown."""
    return tuple(each for each in RULES.values() if each.group is group)
