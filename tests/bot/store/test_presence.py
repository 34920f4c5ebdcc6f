from collections.abc import Callable
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any

from bot.store.body import NewReport
from bot.store.cues import About
from bot.store.tables import body_report
from bot.store.units import Unit, Units
from core.loads.health import IllnessKind
from core.loads.limits import Limit, LimitKind
from core.loads.order import OrderKind
from core.programme.daily_prep import DailyPrep
from core.programme.exercises import Site
from core.programme.last_loads import LastLoad
from core.programme.prescription import Load
from core.programme.restrictions import Restriction
from tests.bot.store.test_read_once import asked, client_of

NOW = datetime(2026, 4, 6, 16, 40, tzinfo=UTC)
TODAY, SINCE = date(2026, 4, 6), date(2026, 2, 1)
PAIN = NewReport(kind="pain", local_on=TODAY, at=NOW, site="knee", score=3)
NOTED = LastLoad(exercise="back-squat", load=Load.of("60"), reps=5, on=date(2026, 3, 30))

Act = Callable[[Unit, int], Any]
CASES: dict[str, tuple[Act, Act]] = {
    "away": (
        lambda unit, her: unit.aways.add(her, TODAY, TODAY, NOW, training=False),
        lambda unit, her: unit.aways.standing(her, TODAY),
    ),
    "pain": (lambda unit, her: unit.body.add(her, PAIN), lambda unit, her: unit.body.bearing(her, SINCE)),
    "since": (lambda unit, her: unit.body.add(her, PAIN), lambda unit, her: unit.body.since(her, SINCE)),
    "limit": (
        lambda unit, her: unit.clinician_limits.add(
            her, Limit(row_id=0, kind=LimitKind.FORBIDDEN, site=Site.KNEE, since=TODAY), NOW
        ),
        lambda unit, her: unit.clinician_limits.kept(her),
    ),
    "coach away": (
        lambda unit, _: unit.talking.absences.add(TODAY, TODAY, None, NOW),
        lambda unit, _: unit.talking.absences.coming(TODAY),
    ),
    "cue": (
        lambda unit, her: unit.cues.add(About(her, "back-squat"), "slowly down", NOW),
        lambda unit, her: unit.cues.for_client(her),
    ),
    "prep": (
        lambda unit, her: unit.daily_preps.start(her, DailyPrep(), NOW, NOW),
        lambda unit, her: unit.daily_preps.running(her),
    ),
    "go-ahead": (
        lambda unit, her: unit.go_aheads.ask(her, Site.KNEE, None, 2, 1, NOW),
        lambda unit, her: unit.go_aheads.of(her),
    ),
    "health": (
        lambda unit, her: unit.health_answers.keep(her, "pregnant", NOW, yes=True),
        lambda unit, her: unit.health_answers.standing(her),
    ),
    "illness": (
        lambda unit, her: unit.illnesses.add(her, IllnessKind.GENERAL, TODAY, NOW),
        lambda unit, her: unit.illnesses.bearing(her, SINCE),
    ),
    "last load": (
        lambda unit, her: unit.last_loads.keep(her, NOTED, "total", NOW),
        lambda unit, her: unit.last_loads.standing(her),
    ),
    "dates of last loads": (
        lambda unit, her: unit.last_loads.keep(her, NOTED, "total", NOW),
        lambda unit, her: unit.last_loads.dates(her, SINCE, TODAY),
    ),
    "order": (
        lambda unit, her: unit.orders.add(her, OrderKind.EASE, NOW),
        lambda unit, her: unit.orders.standing(her) + unit.orders.history(her),
    ),
    "restriction": (
        lambda unit, her: unit.restrictions.say(her, [next(iter(Restriction))], 1, NOW),
        lambda unit, her: unit.restrictions.of(her),
    ),
    "rule": (
        lambda unit, _: unit.rules.set("cap_upper", Decimal("0.04"), 1, NOW),
        lambda unit, _: unit.rules.standing(),
    ),
    "holiday": (
        lambda unit, _: unit.seasons.add(None, "holiday", "Easter", TODAY, TODAY, NOW),
        lambda unit, her: unit.seasons.standing(TODAY, her),
    ),
    "video": (
        lambda unit, her: unit.talking.video_asks.add(her, "back-squat", None, None, NOW),
        lambda unit, her: unit.talking.video_asks.of_client(her),
    ),
}


def test_what_a_look_finds_empty_is_asked_no_more_until_something_of_it_is_kept(units: Units) -> None:
    coach_id, her = client_of(units, "Marit")

    for name, (keep, read) in CASES.items():
        with units.open(coach_id) as unit:
            part = unit.connection.begin_nested()
            unit.presence.look(her)
            with asked(units) as seen:
                assert not read(unit, her), name
            assert seen == [], name
            keep(unit, her)
            assert read(unit, her), name
            part.rollback()
        with units.open(coach_id) as unit:
            assert not read(unit, her), name


def test_what_is_there_is_read_after_a_look_as_before_it(units: Units) -> None:
    coach_id, her = client_of(units, "Marit")
    with units.open(coach_id) as unit:
        for name in ("pain", "away", "limit", "illness", "order", "cue", "rule", "holiday"):
            CASES[name][0](unit, her)

    with units.read(coach_id) as unit:
        without = [repr(read(unit, her)) for _, read in CASES.values()]
    with units.read(coach_id) as unit:
        unit.presence.look(her)
        assert [repr(read(unit, her)) for _, read in CASES.values()] == without


def test_a_look_at_one_client_says_nothing_of_another(units: Units) -> None:
    coach_id, ada = client_of(units, "Marit")
    with units.open(coach_id) as unit:
        ben = unit.clients.add("Ben", NOW)
        unit.body.add(ben, PAIN)

    with units.read(coach_id) as unit:
        unit.presence.look(ada)
        assert unit.body.since(ada, SINCE) == []
        assert [each.site for each in unit.body.since(ben, SINCE)] == ["knee"]


def test_what_rests_on_an_empty_table_is_read_anew_once_that_is_written(units: Units) -> None:
    coach_id, her = client_of(units, "Marit")

    with units.open(coach_id) as unit:
        unit.presence.look(her)
        assert unit.body.bearing(her, SINCE) == []
        assert unit.body.bearing(her, SINCE) == []  # kept, and resting on a table that was not asked
        unit.body.add(her, PAIN)
        assert [each.site for each in unit.body.bearing(her, SINCE)] == ["knee"]


def test_a_savepoint_that_is_taken_back_takes_a_look_with_it(units: Units) -> None:
    coach_id, her = client_of(units, "Marit")
    with units.open(coach_id) as unit:
        unit.body.add(her, PAIN)

    with units.open(coach_id) as unit:
        part = unit.connection.begin_nested()
        report = unit.body.since(her, SINCE)[0]
        unit.connection.execute(body_report.delete().where(body_report.c.id == report.id))
        unit.presence.look(her)
        assert unit.body.since(her, SINCE) == []
        part.rollback()
        assert len(unit.body.since(her, SINCE)) == 1
