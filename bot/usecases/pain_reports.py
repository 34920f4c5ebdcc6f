"""Reports of pain: what is said to hurt, when it was felt, and how it is kept."""

from dataclasses import dataclass
from datetime import date, datetime

from bot.messages import Person
from bot.store.body import AFTER_BIRTH, BodyReport, NewReport
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.health_known import lifter_health
from core.checkin.pain import Band, Felt, PainReport, band, grave
from core.checkin.pain_course import marked
from core.loads.looking_back import PAIN_BEARS
from core.local_time import local_date
from core.programme.exercises import Site

SITES = tuple(Site)
UNSIDED = frozenset({Site.NECK, Site.UPPER_BACK, Site.LOW_BACK, Site.CHEST, Site.ABDOMEN})
NERVE_SITES = frozenset({Site.NECK, Site.UPPER_BACK, Site.LOW_BACK})
SIDES: dict[int, str | None] = {1: "L", 2: "R", 3: None}
FELT = (Felt.BEFORE, Felt.DURING, Felt.AFTER, Felt.MORNING)
"""When it was felt, as it stands on buttons."""
SEVERE = 7
"""Score from which is asked whether it came suddenly or spreads. [0..10] Our proposal."""
TOOK = "took"
"""Kind of the question whether something was taken for it; of a client and date there is one."""
TAKEN, NOT_TAKEN, UNSAID = "yes", "no", "rather not say"


@dataclass(frozen=True, slots=True)
class Hurt:
    """What is said to hurt; `score` None while no number was given, `felt` None for what follows from the context.

    `exercise` and `on` are only for what is not of the session and the date of now: the answer of a morning.
    """

    site: Site
    side: str | None
    score: int | None
    session_id: int | None = None
    item_id: int | None = None
    sudden: bool = False
    spreading: bool = False
    weak: bool = False
    fever: bool = False
    after_birth: bool = False
    painkiller: bool = False
    felt: Felt | None = None
    answers_to: int | None = None
    exercise: str | None = None
    on: date | None = None


def asks_feel(hurt: Hurt) -> bool:
    """Return whether it must be asked if it spreads or came suddenly: at back and neck, and where it is severe."""
    return bool(hurt.score) and (hurt.site in NERVE_SITES or (hurt.score or 0) >= SEVERE)


def asks_took(kept: BodyReport, client: Client, unit: Unit, now: datetime) -> bool:
    """Ask whether something was taken for it: from 1 on, where it would be read higher, and once a day at most.

    Returns:
        Whether it is asked now; that it was is noted.
    """
    report = kept.as_pain()
    matters = bool(report.score) and not grave(report) and band(report) is not Band.HIGH
    if not matters or report.painkiller:
        return False
    made = unit.due_questions.plan(client.id, TOOK, kept.local_on, now, now, subject=kept.id)
    if made is not None:
        unit.due_questions.sent(made, now)
    return made is not None


def took_today(client_id: int, on: date, unit: Unit) -> bool:
    """Return whether a client has said that she took something for pain on a date; it dulls all that she says then."""
    asked = unit.due_questions.on(client_id, TOOK, on)
    return asked is not None and (asked.answers or {}).get(TOOK) == TAKEN


def took_answered(client_id: int, on: date, answer: str, unit: Unit, now: datetime) -> None:
    """Keep whether something was taken."""
    asked = unit.due_questions.on(client_id, TOOK, on)
    if asked is not None:
        unit.due_questions.answered(asked.id, {TOOK: answer}, now)


def asks_after_birth(client: Client, unit: Unit, today: date) -> bool:
    """Return whether a client gave birth in the last 12 months, so that other signs are asked for too."""
    return lifter_health(client, unit, today)["birth"] is not None


def is_training(session_id: int | None, unit: Unit) -> bool:
    """Return whether a session has its exercises still to be done."""
    return session_id is not None and unit.sessions.get(session_id).state in ("sent", "started")


def felt_now(session_id: int | None, on: date, unit: Unit) -> Felt:
    """Return when pain was felt that is told now: before today's session, in an open one, or after."""
    session = unit.sessions.get(session_id) if session_id is not None else None
    if session is None or (session.state == "sent" and session.local_on != on):
        return Felt.AFTER
    states = {"sent": Felt.BEFORE, "started": Felt.DURING, "asking": Felt.DURING}
    return states.get(session.state, Felt.AFTER)


def known_until(kept: BodyReport, unit: Unit) -> tuple[PainReport, tuple[PainReport, ...]]:
    """Return a report as the rules see it, and all that bear with it."""
    found = marked(each.as_pain() for each in unit.body.bearing(kept.client_id, kept.local_on - PAIN_BEARS))
    return next((each for each in found if each.row_id == kept.id), kept.as_pain()), found


def keep(hurt: Hurt, person: Person, unit: Unit, now: datetime, message_id: int | None = None) -> int:
    """Keep a report of pain."""
    client = unit.clients.get(person.client_id or 0)
    item = unit.sessions.item(hurt.item_id) if hurt.item_id else None
    on = hurt.on or local_date(now, client.zone or "UTC")
    return unit.body.add(
        client.id,
        NewReport(
            kind="pain",
            local_on=on,
            at=now,
            session_id=hurt.session_id,
            item_id=hurt.item_id,
            exercise=item.exercise if item else hurt.exercise,
            site=hurt.site.value,
            side=hurt.side,
            score=hurt.score,
            when_felt=(hurt.felt or felt_now(hurt.session_id, on, unit)).value,
            sudden=hurt.sudden,
            spreading=hurt.spreading,
            weak=hurt.weak,
            fever=hurt.fever,
            painkiller=hurt.painkiller or took_today(client.id, on, unit),
            answers_to=hurt.answers_to,
            rule=AFTER_BIRTH if hurt.after_birth else None,
            message_id=message_id,
        ),
    )
