"""The week as a coach should hear it: who needs a word, who does well, what was kept, what comes, what runs out.

Pure: facts of the log in, one value out. `bot.render.digest` has the words.
"""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from decimal import Decimal

from core.loads.decision import Kind
from core.loads.reasons import ReasonCode
from core.oversight.facts import Ahead, Beside, ClientFacts, Lifted
from core.oversight.misses import KEPT, SETTLED, Past, Tally, percentage, tally
from core.oversight.waiting import Reminder, Waits
from core.oversight.words import Why, reasons_for_a_word
from core.policy import Policy
from core.programme.prescription import Load, LoadKind
from core.value import Value

WEEK = timedelta(days=6)
"""From the first day of the digest's week to its last."""
MONTH = timedelta(days=27)
"""From the first of the last four weeks' days to the last."""


class Word(Value):
    """Somebody who needs a word, and why, the gravest reason first."""

    name: str
    reasons: tuple[Why, ...]


class Change(Value):
    """A load that is not the same as before.

    Attributes:
        exercise: Key in the catalogue.
        before: Last load done.
        now: Load that comes; None when the exercise is on hold or swapped.
        kind: As decided.
    """

    exercise: str
    before: Load | None
    now: Load | None
    kind: Kind


class Well(Value):
    """Somebody who is doing well: loads that rose this week, sessions kept."""

    name: str
    rose: tuple[Change, ...]
    week: Tally


class Kept(Value):
    """Sessions kept of due, of one client.

    Attributes:
        name: Hers.
        week: This week.
        month: The last four weeks.
        percent: Of the four weeks; None under the least number due.
        reasons: Why sessions of this week were not kept, where she said so; also those that are then not due.
        paused_until: First day of training again, where she chose a pause.
        on_hold: True while a stop sign or a health question holds her plan.
    """

    name: str
    week: Tally
    month: Tally
    percent: int | None
    reasons: tuple[str, ...] = ()
    paused_until: date | None = None
    on_hold: bool = False


class Coming(Value):
    """What changes for one client in the coming week."""

    name: str
    changes: tuple[Change, ...]


class Ending(Value):
    """Somebody whose block runs out; `block` None when she has none."""

    name: str
    block: str | None
    ends: date | None


class Said(Value):
    """What somebody answered in the check-in: question and answer, in order."""

    name: str
    said: tuple[tuple[str, str], ...]


class Other(Value):
    """What somebody trained beside the block, oldest first."""

    name: str
    trained: tuple[Beside, ...]


class Digest(Value):
    """The week in one value.

    Attributes:
        first: First day of the week.
        last: Its last day.
        words: Who needs a word. Everyone with a safety matter, then others up to the number of the policy.
        more: How many others need a word and are not named.
        well: Who is doing well.
        kept: Kept of due, for everyone.
        coming: What changes next week.
        ending: Whose block runs out.
        said: What was answered in check-ins.
        unanswered: Whose check-in stayed unanswered.
        other: What was trained beside the blocks.
        waits: What waits for the coach, for whom anything does: videos, raises, referrals, lifts to look at.
        reminders: What she wanted to be reminded of, soonest first.
    """

    first: date
    last: date
    words: tuple[Word, ...]
    more: int
    well: tuple[Well, ...]
    kept: tuple[Kept, ...]
    coming: tuple[Coming, ...]
    ending: tuple[Ending, ...]
    said: tuple[Said, ...] = ()
    unanswered: tuple[str, ...] = ()
    other: tuple[Other, ...] = ()
    waits: tuple[Waits, ...] = ()
    reminders: tuple[Reminder, ...] = ()

    @property
    def week(self) -> Tally:
        """Kept of due of everyone together."""
        return sum((each.week for each in self.kept), Tally())

    @property
    def is_quiet(self) -> bool:
        """Whether there is nothing that a coach has to do about the week."""
        heard = self.said or self.unanswered or self.other
        waits = self.waits or self.reminders or any(each.reasons for each in self.kept)
        told = self.words or self.ending or heard or waits
        return not told and self.week.kept == self.week.due


def digest(
    clients: Sequence[ClientFacts], on: date, policy: Policy, reminders: Sequence[Reminder] = ()
) -> Digest:
    """Return the digest of the seven days that end on `on`.

    Args:
        clients: Facts of everyone who has joined and not stopped.
        on: Date on the coach's calendar.
        policy: The coach's thresholds.
        reminders: What she wanted to be reminded of in the week that comes.
    """
    by_name = sorted(clients, key=lambda each: (each.name.casefold(), each.client_id))
    found = {each.client_id: reasons_for_a_word(each, on, policy) for each in by_name}
    words, more = _named(
        [Word(name=each.name, reasons=found[each.client_id]) for each in by_name if found[each.client_id]],
        policy,
    )
    calm = [each for each in by_name if not found[each.client_id]]
    return Digest(
        first=on - WEEK,
        last=on,
        words=words,
        more=more,
        well=tuple(well for each in calm if (well := _well(each, on)) is not None),
        kept=tuple(_kept(each, on, policy) for each in by_name),
        coming=tuple(coming for each in by_name if (coming := _coming(each)).changes),
        ending=tuple(ending for each in by_name if (ending := _ending(each, on, policy)) is not None),
        said=tuple(
            Said(name=each.name, said=each.check_in.said)
            for each in by_name
            if each.check_in is not None and each.check_in.said
        ),
        unanswered=tuple(
            each.name for each in by_name if each.check_in is not None and not each.check_in.said
        ),
        other=tuple(Other(name=each.name, trained=each.beside) for each in by_name if each.beside),
        waits=tuple(waits for each in by_name if (waits := each.waits).is_anything),
        reminders=tuple(sorted(reminders, key=lambda each: (each.on, each.name or "", each.text))),
    )


def _named(words: list[Word], policy: Policy) -> tuple[tuple[Word, ...], int]:
    """Return who is named, the gravest first, and how many are not. A safety matter is never left out."""
    words.sort(key=lambda each: each.reasons[0].rank)
    safe = sum(each.reasons[0].is_safety for each in words)
    shown = max(safe, policy.digest_words)
    return tuple(words[:shown]), max(0, len(words) - shown)


def _kept(client: ClientFacts, on: date, policy: Policy) -> Kept:
    month = tally(client.past, on - MONTH, on)
    return Kept(
        name=client.name,
        week=tally(client.past, on - WEEK, on),
        month=month,
        percent=percentage(month, policy),
        reasons=tuple(dict.fromkeys(_said(client.past, on - WEEK, on))),
        paused_until=client.paused_until,
        on_hold=client.frozen_on is not None,
    )


def _said(past: Sequence[Past], first: date, last: date) -> Iterator[str]:
    """Return the reasons that were given for sessions left out or missed."""
    for each in past:
        if first <= each.on <= last and each.state in SETTLED - KEPT and each.reason is not None:
            yield each.reason


def _well(client: ClientFacts, on: date) -> Well | None:
    """Return what goes well. Nothing is praised in a week of pain or sickness: not even what was lifted through it."""
    week = tally(client.past, on - WEEK, on)
    hurt = any(each.score != 0 for each in client.pain if on - WEEK <= each.on <= on)
    hurt |= any(each in ("ill", "pain") for each in _said(client.past, on - WEEK, on))
    rose = rises(client.lifted, on - WEEK, on)
    if hurt or not (rose or (week.due > 1 and week.kept == week.due)):
        return None
    return Well(name=client.name, rose=rose, week=week)


def rises(lifted: Sequence[Lifted], first: date, last: date) -> tuple[Change, ...]:
    """Return exercises whose load in the week from `first` to `last` was over all of the four weeks before it.

    A rise counts when all that was asked for was done with it. What only comes back, after a lighter week or a break,
    is none.
    """
    found: list[Change] = []
    for key in dict.fromkeys(each.exercise for each in lifted):
        mine = [each for each in lifted if each.exercise == key and each.on <= last]
        before = [each for each in mine if each.on < first]
        now = [each.load for each in mine if each.on >= first and each.full]
        if before and now:
            recent = [each.load for each in before if each.on >= first - MONTH]
            most = heaviest(recent, before[-1].load) or before[-1].load
            if (top := heaviest(now, most)) is not None:
                found.append(Change(exercise=key, before=most, now=top, kind=Kind.RAISE))
    return tuple(found)


def heaviest(loads: Sequence[Load], over: Load) -> Load | None:
    """Return the heaviest of loads of the same kind that is heavier than `over`; None when none is."""
    heavier = [each for each in loads if each.kind is over.kind and _mass(each) > _mass(over)]
    return max(heavier, key=_mass, default=None)


def _mass(load: Load) -> Decimal:
    return load.mass.kg if load.mass is not None else Decimal(0)


def _coming(client: ClientFacts) -> Coming:
    """Return the decisions that give something else than was done last; nothing while the plan is on hold."""
    if client.frozen_on is not None or client.state != "active":
        return Coming(name=client.name, changes=())
    found = (_change(each, _before(each, client.lifted)) for each in client.ahead)
    return Coming(name=client.name, changes=tuple(each for each in found if each is not None))


def _before(ahead: Ahead, lifted: Sequence[Lifted]) -> Load | None:
    """Return the load that the next one is held against: the last, or after a lighter week the one before that."""
    mine = [each for each in lifted if each.exercise == ahead.exercise]
    over = next((one for one in ahead.decision.reasons if one.code == ReasonCode.LIGHTER_OVER), None)
    if over is not None:
        mine = [each for each in mine if each.on <= date.fromisoformat(over.facts["date"])]
    return mine[-1].load if mine else None


def _change(ahead: Ahead, before: Load | None) -> Change | None:
    decision = ahead.decision
    if decision.kind in (Kind.PAUSE, Kind.SWAP):
        return Change(exercise=ahead.exercise, before=before, now=None, kind=decision.kind)
    now = decision.load
    if before is None or now is None or now.kind is LoadKind.FIND or now == before:
        return None
    kind = Kind.RAISE if _mass(now) > _mass(before) else Kind.LOWER
    return Change(exercise=ahead.exercise, before=before, now=now, kind=kind)


def _ending(client: ClientFacts, on: date, policy: Policy) -> Ending | None:
    if client.block_ends is not None and client.block_ends > on + timedelta(days=policy.block_ends):
        return None
    return Ending(name=client.name, block=client.block, ends=client.block_ends)
