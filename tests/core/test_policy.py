"""The settings of caps, illness, sets and lighter weeks: default, range and source as they stand beside each."""

import inspect
from decimal import Decimal

import pytest

from core import policy as module
from core.policy import Policy

SETTINGS = [  # name, default, least, most; unit and source beside it
    ("cap_week_upper", Decimal("0.05"), Decimal("0.01"), Decimal("0.10"), "[fraction] Our proposal"),
    ("cap_week_lower", Decimal("0.10"), Decimal("0.01"), Decimal("0.10"), "[fraction] Our proposal"),
    ("ill_drop", Decimal("0.20"), Decimal("0.10"), Decimal("0.20"), "[fraction] Our proposal"),
    ("ill_wait", 2, 1, 7, "[days] Our proposal"),
]


@pytest.mark.parametrize(("name", "default", "least", "most", "beside"), SETTINGS)
def test_a_setting_has_a_default_in_its_range_with_unit_and_source(
    name: str, default: object, least: object, most: object, beside: str
) -> None:
    assert getattr(Policy(), name) == default
    assert [getattr(Policy.model_validate({name: edge}), name) for edge in (least, most)] == [least, most]
    assert beside in " ".join(inspect.getsource(module).split(f"    {name}: ")[1].split('"""')[1].split())


@pytest.mark.parametrize(
    ("name", "outside"),
    [
        ("cap_week_upper", Decimal("0.11")),
        ("cap_week_upper", Decimal(0)),
        ("cap_week_lower", Decimal("0.11")),
        ("ill_drop", Decimal("0.09")),
        ("ill_drop", Decimal("0.21")),
        ("ill_wait", 0),
        ("ill_wait", 8),
    ],
)
def test_outside_its_range_a_setting_is_refused(name: str, outside: object) -> None:
    with pytest.raises(ValueError, match=name):
        Policy.model_validate({name: outside})


def test_what_a_coach_must_want_is_off_until_she_does() -> None:
    assert (Policy().deload_by_itself, Policy().limit_from_60) == (False, False)


def test_a_cap_a_week_may_be_left_off() -> None:
    off = Policy(cap_week_upper=None, cap_week_lower=None)

    assert (off.cap_week_upper, off.cap_week_lower) == (None, None)
