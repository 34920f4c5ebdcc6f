from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.loads.health import IllnessKind
from core.loads.illness_words import IllSaid, WellSaid, ill_said, since_said, well_said

COLD, GENERAL, CLINICIAN = IllnessKind.COLD, IllnessKind.GENERAL, IllnessKind.CLINICIAN
TODAY = date(2026, 4, 29)
"""A Wednesday."""


@each_row(
    ("typed", "kind"),
    [
        ("sick", None),
        ("I'm sick", None),
        ("ill", None),
        ("I am ill today", None),
        ("Feeling unwell.", None),
        ("not feeling well", None),
        ("sorry, i'm still sick", None),
        ("a bit under the weather", None),
        ("I have a fever", GENERAL),
        ("fever", GENERAL),
        ("I’ve got a temperature", GENERAL),
        ("got the flu", GENERAL),
        ("I have covid", GENERAL),
        ("stomach bug", GENERAL),
        ("I am down with flu", GENERAL),
        ("I have a cold", COLD),
        ("a cold", COLD),
        ("head cold", COLD),
        ("got a runny nose", COLD),
        ("a bit of a cold", COLD),
        ("I'm in hospital", CLINICIAN),
        ("I had an operation", CLINICIAN),
    ],
)
def test_words_of_being_ill_name_a_class_or_none(typed: str, kind: IllnessKind | None) -> None:
    assert ill_said(typed) == IllSaid(kind)


@pytest.mark.parametrize(
    ("typed", "kind"),
    [
        ("I'm sick, can't come today", None),
        ("ill since monday", None),
        ("I have a fever and my throat is sore", GENERAL),
        ("got a cold but could train light", COLD),
    ],
)
def test_what_is_said_beside_it_is_noticed(typed: str, kind: IllnessKind | None) -> None:
    assert ill_said(typed) == IllSaid(kind, more=True)


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "sick of lunges",
        "that was sick",
        "sick session",
        "ill-fitting belt",
        "i'm cold",
        "cold",
        "my kid is ill",
        "no fever",
        "sore quads 6",
        "80 8 8 8",
        "still",
        "better",
    ],
)
def test_other_words_are_of_something_else(typed: str) -> None:
    assert ill_said(typed) is None


@pytest.mark.parametrize(
    ("typed", "on"),
    [
        ("better", None),
        ("I'm well again", None),
        ("feeling much better now", None),
        ("Free of symptoms", None),
        ("no more fever", None),
        ("better since yesterday", "2026-04-28"),
        ("I am free of it since monday", "2026-04-27"),
        ("symptom free today", "2026-04-29"),
        ("well for two days", "2026-04-28"),
        ("recovered since 20 April", "2026-04-20"),
    ],
)
def test_being_well_again_is_read_with_its_day(typed: str, on: str | None) -> None:
    assert well_said(typed, TODAY) == WellSaid(date.fromisoformat(on) if on else None)


@pytest.mark.parametrize(
    "typed", ["better since tomorrow", "better than last week", "bench felt better", "ok", ""]
)
def test_what_does_not_say_so_is_not_being_well_again(typed: str) -> None:
    assert well_said(typed, TODAY) is None


def test_no_days_are_counted_from_nothing() -> None:
    assert since_said("for 0 days", TODAY) is None
    assert since_said("since ages", TODAY) is None


@given(st.text(max_size=60))
def test_any_text_is_read_without_an_error(typed: str) -> None:
    assert ill_said(typed) is None or isinstance(ill_said(typed), IllSaid)
    assert well_said(typed, TODAY) is None or isinstance(well_said(typed, TODAY), WellSaid)
