import pytest
from rows import each_row

from core.programme.problems import FACTS, WARNINGS, Code, Place, Severity, problem


@each_row("code", Code)
def test_a_problem_carries_the_facts_of_its_code_and_no_others(code: Code) -> None:
    found = problem(code, Place(), **dict.fromkeys(FACTS[code], 7))

    assert found.facts == dict.fromkeys(FACTS[code], "7")
    assert (found.severity is Severity.WARNING) == (code in WARNINGS)
    with pytest.raises(ValueError, match=code):
        problem(code, Place(), **dict.fromkeys({*FACTS[code], "one too many"}, "x"))
