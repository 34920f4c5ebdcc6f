"""A planned lighter week after a light one: told to the coach, and taken out by her alone."""

from datetime import UTC, date, datetime

import pytest
from dialogs.talks import Talk

from bot.store.units import Units
from bot.usecases.layout import lay_out

DAYS = (date(2026, 4, 14), date(2026, 4, 17), date(2026, 4, 21), date(2026, 4, 24))
DONE, MISSED = ("done", None), ("missed", None)
HOLIDAY, PAIN = ("left_out", "holiday"), ("left_out", "pain")


@pytest.fixture
def talk(units: Units) -> Talk:
    return Talk(units, block="Quay_forms", days="Tue,Fri")


def said(talk: Talk, *steps: str) -> str:
    return "\n".join(line for step in steps for line in talk.take(step))


def in_week_4(talk: Talk, *hows: tuple[str, str | None]) -> str:
    """What comes with the first card of the lighter week, after sessions that went so."""
    marit = talk.someone("Marit")
    client = talk.house.client_of(marit, talk.someone("Ada"))
    with talk.units.open(marit.coach_id) as unit:
        lay_out(client.id, unit, datetime(2026, 4, 20, 12, tzinfo=UTC))
        rows = {each.local_on: each.id for each in unit.sessions.of_client(client.id, ("planned",))}
        for on, (state, reason) in zip(DAYS, hows, strict=True):
            unit.sessions.change(rows[on], state=state, left_reason=reason)
    return said(talk, "tick 2026-04-28 07:00")


@pytest.mark.parametrize(
    ("hows", "words"),
    [
        ((DONE, DONE, DONE, DONE), None),
        ((DONE, DONE, DONE, MISSED), "before it 1 of 2 were kept. It stays lighter."),
        ((DONE, DONE, HOLIDAY, HOLIDAY), "before it there was no training for 11 days. It stays lighter."),
        ((DONE, DONE, DONE, PAIN), None),
    ],
)
def test_a_coach_is_told_of_a_lighter_week_after_a_light_one(
    talk: Talk, hows: tuple[tuple[str, str | None], ...], words: str | None
) -> None:
    told = in_week_4(talk, *hows)

    assert "lighter week" in told
    assert ("planned lighter, and" in told) is (words is not None)
    assert words is None or words in told
    assert "planned lighter, and" not in said(talk, "tick 2026-05-01 07:00")


def test_she_takes_it_out_and_puts_it_back(talk: Talk) -> None:
    card = in_week_4(talk, DONE, DONE, HOLIDAY, HOLIDAY)

    read_back = said(talk, "Marit: Ada: no lighter week")
    assert (
        "no lighter week from Tue 28 April until Sun 3 May. All sets, with the load of now and no more."
        in read_back
    )
    full = said(talk, "Marit [Hold it]")
    assert "week 4 of 4 · Easy · lighter week" in card
    assert "week 4 of 4 · Easy · Tue 28 April" in full
    assert "moved for Ada" in said(talk, "Marit [Undo]")
    assert "planned lighter already" in said(talk, "Marit: Ada: lighter this week")


def test_where_no_lighter_week_is_planned_none_is_taken_out(talk: Talk) -> None:
    assert "No lighter week is planned on those days" in said(talk, "Marit: Ada: no lighter week")
