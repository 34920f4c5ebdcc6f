import io

import pytest
from rich.console import Console
from setting_out import NOW, House
from sqlalchemy import update

from bot.cli.decisions import show
from bot.store.engine import make_engine
from bot.store.tables import decision
from bot.store.units import Units
from core.loads.decision import RULES_VERSION, next_decision
from tests.core.loads.lifts import dose, inputs


class Desk:
    """Where an operator asks, with one decision kept."""

    def __init__(self, url: str) -> None:
        self.out, self.wrong = io.StringIO(), io.StringIO()
        self.engine = make_engine(url)
        house = House(Units(self.engine))
        house.coach("Orla", 900)
        coach = house.coach("Marit", 100)
        client = house.client_of(coach, house.invited(coach, "Ada", 201))
        given = inputs("back-squat", dose(3, "5", "100"))
        with Units(self.engine).open(coach.coach_id) as unit:
            self.kept = unit.decisions.keep(client.id, None, "closing", given, next_decision(given), NOW)

    def asks(self, decision_id: int) -> int:
        return show(decision_id, Console(file=self.out, width=200), Console(file=self.wrong, width=200))

    def changes(self, **values: object) -> None:
        with self.engine.begin() as connection:
            connection.execute(update(decision).values(**values))


@pytest.fixture
def desk(database_url: str, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.setenv("PLIMSOLL_DATABASE_URL", database_url)
    return Desk(database_url)


def test_a_decision_is_shown_and_made_once_more(desk: Desk) -> None:
    assert desk.asks(desk.kept) == 0
    lines = desk.out.getvalue().splitlines()
    assert lines[0] == f"Decision {desk.kept} for client 1, made 2026-04-06 16:40 UTC, rules {RULES_VERSION}"
    assert "Decided: start, 100 kg, 3 sets of 5, 2 left" in lines
    assert lines[-1] == "Made once more from the same inputs: the same, to the byte."


def test_a_decision_that_the_same_rules_would_make_otherwise_is_a_fault(desk: Desk) -> None:
    given = inputs("back-squat", dose(3, "5", "90"))
    desk.changes(output=next_decision(given).model_dump_json())

    assert desk.asks(desk.kept) == 1
    assert "NOT the same" in desk.out.getvalue()


def test_a_decision_of_older_rules_may_be_another(desk: Desk) -> None:
    given = inputs("back-squat", dose(3, "5", "90"))
    desk.changes(output=next_decision(given).model_dump_json(), rules_version="2025.1", superseded_by=7)

    assert desk.asks(desk.kept) == 0
    assert desk.out.getvalue().splitlines()[0].endswith("rules 2025.1; replaced by 7")
    assert f"Rules {RULES_VERSION} of this program would decide otherwise" in desk.out.getvalue()


def test_a_decision_that_is_not_there_is_said(desk: Desk) -> None:
    assert desk.asks(999) == 1
    assert desk.wrong.getvalue() == "There is no decision 999.\n"


def test_without_a_database_address_that_holds_it_is_refused(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PLIMSOLL_DATABASE_URL", "no address")

    assert desk.asks(desk.kept) == 2
    assert desk.wrong.getvalue()
