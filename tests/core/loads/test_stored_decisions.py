"""Decisions as they were stored by the rules of 2026.2, before limits, health and caps a week: replayed to the byte.

What the rules were given since is left out of what was stored, and says nothing where it is missing.
"""

import json
from pathlib import Path

import pytest

from core.loads.decision import Decision, Inputs, Lifter, Moment, replay
from core.loads.past import WEEK_CAPS

STORED = [
    json.loads(line)
    for line in (Path(__file__).parent / "stored_decisions.jsonl").read_text(encoding="utf-8").splitlines()
]
RULES = "2026.2"


@pytest.mark.parametrize("stored", STORED)
def test_a_decision_of_older_rules_is_replayed_to_the_same_bytes(stored: dict[str, str]) -> None:
    made = replay(stored["inputs"])

    # The version is that of the program; everything else is as it was.
    assert json.dumps(json.loads(made) | {"rules": RULES}) == json.dumps(json.loads(stored["output"]))
    assert made == stored["output"].replace(RULES, json.loads(made)["rules"])


@pytest.mark.parametrize("stored", STORED)
def test_what_came_later_is_not_written_where_it_says_nothing(stored: dict[str, str]) -> None:
    before = json.loads(stored["inputs"])
    again = json.loads(Inputs.model_validate_json(stored["inputs"]).model_dump_json())

    assert set(again) == set(before)
    assert (set(again["lifter"]), set(again["moment"])) == (set(before["lifter"]), set(before["moment"]))
    assert [again["policy"][name] for name in WEEK_CAPS] == [None, None]
    assert Decision.model_validate_json(stored["output"]).model_dump_json() == stored["output"]


def test_what_came_later_is_written_where_it_says_something() -> None:
    lifter = Lifter(pregnant=True)

    assert "pregnant" in lifter.model_dump_json()
    assert Lifter.model_validate_json(lifter.model_dump_json()) == lifter
    assert "birth" not in lifter.model_dump_json()
    assert "deload_due" not in Moment(today="2026-04-14", week_no=1).model_dump_json()
