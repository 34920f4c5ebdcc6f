import ast
from itertools import pairwise

import pytest
from house.tree import modules

PARTS = ("attendance", "simulated_body", "simulated_lifter", "simulated_pain", "simulated_session")
MARKS = ("Invented for the rehearsal", "Source: [", "Common practice, no source", "Our proposal")
PLAIN = {
    "HAIR": "rounding",
    "MOST_SAID": "the rules' own scale",
    "STOPS": "names",
    "HURTS": "names",
}
"""Constants that are no number of a person."""


def unmarked(source: str) -> list[str]:
    """Constants of a module that say neither where they come from nor that they are invented."""
    found = []
    for each, after in pairwise([*ast.parse(source).body, ast.Pass()]):
        match each:
            case ast.Assign(targets=[target]) | ast.AnnAssign(target=target):
                names = ast.unparse(target).strip("()")
                words = ast.get_docstring(ast.Module([after], [])) or ""
                if not any(mark in " ".join(words.split()) for mark in MARKS) and names not in PLAIN:
                    found.append(names)
            case _:
                pass
    return found


@pytest.mark.parametrize("part", PARTS)
def test_every_number_of_a_simulated_person_has_a_source_or_is_called_an_invention(part: str) -> None:
    assert unmarked(modules("core")[f"core/oversight/{part}.py"]) == []


def test_a_number_out_of_nowhere_is_found() -> None:
    source = 'A = 1\n"""Words."""\nB, C = 1, 2\n"""x. Invented for\nthe rehearsal."""\nD: int = 3\nHAIR = 4\n'

    assert unmarked(source) == ["A", "D"]
