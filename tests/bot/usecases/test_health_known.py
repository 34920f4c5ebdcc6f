"""What was said of health, through to the decision: the lift has gone well twice, so that it would rise."""

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

import pytest
from dialogs.talks import Talk

from bot.store.units import Unit, Units
from bot.usecases.decisions import inputs_for, kit_of
from bot.usecases.health_known import lifter_health
from core.loads.decision import Decision, Exposure, Kind, Moment, SetDone, next_decision
from core.loads.health import Birth
from core.loads.reasons import ReasonCode
from core.programme.prescription import Dose, Load, Span

LIFT = "hip-thrust"
TODAY = date(2026, 4, 9)
DATES = (date(2026, 3, 26), date(2026, 4, 2))


def dose_of(load: int) -> Dose:
    return Dose(sets=4, reps=Span(low=8, high=8), load=Load.of(load))


def session(number: int, on: date, dose: Dose) -> Exposure:
    """The lift as written, with two reps left."""
    sets = tuple(
        SetDone(row_id=10 * number + each, set_no=each, load=dose.load, reps=8, left=2)
        for each in range(1, 5)
    )
    return Exposure(session_id=number, on=on, week_no=number, dose=dose, sets=sets)


@dataclass
class Trained:
    """Ada has done the same lift as written in two sessions."""

    play: Talk

    def decided(self, load: int = 90) -> Decision:
        client_id, dose = self.client_id, dose_of(load)
        history = tuple(session(number, on, dose) for number, on in enumerate(DATES, 1))

        def look(unit: Unit) -> Decision:
            client = unit.clients.get(client_id)
            moment = Moment(today=TODAY, week_no=3)
            inputs = inputs_for(client, LIFT, dose, moment, kit_of(client, unit), unit)
            trained = {"history": history, "last_trained": DATES[-1], "trained_on": DATES}
            return next_decision(inputs.model_copy(update=trained))

        found: Decision = self.play.house.reading(self.play.someone("Marit"), look)
        return found

    @property
    def client_id(self) -> int:
        client: int = self.play.house.client_of(self.play.someone("Marit"), self.play.someone("Ada")).id
        return client

    def says(self, *steps: str) -> None:
        for step in steps:
            self.play.take(step)

    def reasons(self) -> set[ReasonCode]:
        return {each.code for each in self.decided().reasons}


@pytest.fixture
def ada(units: Units) -> Trained:
    return Trained(Talk(units))


def mass(decision: Decision) -> Decimal:
    assert decision.load is not None
    assert decision.load.mass is not None
    return decision.load.mass.value


def test_without_an_answer_two_sessions_done_raise_the_load(ada: Trained) -> None:
    assert ada.decided().kind is Kind.RAISE


def test_in_pregnancy_nothing_rises_and_three_or_more_are_left(ada: Trained) -> None:
    ada.says("Ada: I am pregnant")

    decided = ada.decided()

    assert decided.kind is not Kind.RAISE
    assert ReasonCode.PREGNANT in {each.code for each in decided.reasons}
    assert mass(decided) == 90
    assert decided.left is not None
    assert decided.left >= 3


def test_what_is_over_still_binds_until_the_release(ada: Trained) -> None:
    ada.says("Ada: I am pregnant", "Ada: I am no longer pregnant")
    assert ReasonCode.PREGNANT in ada.reasons()

    ada.says("Marit [Let loads rise again]", "Marit [Yes, release]")

    assert ada.decided().kind is Kind.RAISE


def test_a_birth_pauses_until_the_coach_releases_and_then_starts_as_new(ada: Trained) -> None:
    ada.says("Ada: I gave birth", "Ada: 1 April")
    assert ada.decided().kind is Kind.PAUSE
    ada.says("Marit [Release the plan]", "Marit [Yes, release]")

    decided = ada.decided()

    assert decided.kind is not Kind.PAUSE
    assert decided.load == Load.find()


def test_a_birth_over_a_year_ago_no_longer_counts(ada: Trained) -> None:
    ada.says("Ada: I gave birth", "Ada: 1 April")
    client_id = ada.client_id

    def known(on: date):
        def look(unit: Unit):
            return lifter_health(unit.clients.get(client_id), unit, on)["birth"]

        return ada.play.house.reading(ada.play.someone("Marit"), look)

    born = date(2026, 4, 1)
    assert known(born + timedelta(days=364)) == Birth(on=born)
    assert known(born + timedelta(days=365)) is None


def test_untreated_pressure_reaches_the_rules(ada: Trained) -> None:
    ada.says("Ada: /settings blood pressure", "Ada: rather not say")
    client_id = ada.client_id

    def look(unit: Unit) -> bool:
        return lifter_health(unit.clients.get(client_id), unit, TODAY)["pressure_untreated"]

    assert ada.play.house.reading(ada.play.someone("Marit"), look) is True


def test_from_60_on_the_caps_are_half_and_two_or_more_are_left(ada: Trained) -> None:
    # From 40 kg the next step, 2.5 kg, is 6.25 %: under the cap of 10 %, over half of it.
    before, client_id = ada.decided(load=40), ada.client_id
    assert (before.kind, mass(before)) == (Kind.RAISE, Decimal("42.5"))

    def older(unit: Unit) -> None:
        unit.clients.change(client_id, age_band="60+")

    ada.play.house.reading(ada.play.someone("Marit"), older)
    after = ada.decided(load=40)

    assert mass(after) == 40
    assert after.left is not None
    assert after.left >= 2
