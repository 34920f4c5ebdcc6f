"""What is not to be traced for coverage is not, also where tests run side by side."""

import sys

import pytest
from coverage import Coverage
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.untraced
def test_what_is_marked_so_is_traced_by_nobody() -> None:
    assert (Coverage.current(), sys.gettrace()) == (None, None)


@given(st.booleans())
def test_a_property_is_traced_by_nobody(either: bool) -> None:
    assert (Coverage.current(), either) in ((None, True), (None, False))


def test_any_other_test_is_traced_where_coverage_is_asked_for(pytestconfig: pytest.Config) -> None:
    asked = bool(pytestconfig.getoption("cov_source")) and not pytestconfig.getoption("no_cov")

    assert (Coverage.current() is not None) is asked
