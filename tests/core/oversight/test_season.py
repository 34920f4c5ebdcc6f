"""A season: what is looked at, what falls into blocks, what lies before an event, and what runs for whom."""

from datetime import date, timedelta

import pytest

from core.oversight.season import (
    Runs,
    SeasonRow,
    Span,
    SpanKind,
    clashes,
    countdown,
    gaps,
    mondays,
    running,
    season,
)
from core.policy import Policy

TODAY = date(2026, 4, 15)


def span(kind: SpanKind, first: str, last: str | None = None, name: str = "") -> Span:
    return Span(kind=kind, name=name, first=date.fromisoformat(first), last=date.fromisoformat(last or first))


BLOCK = span(SpanKind.BLOCK, "2026-04-07", "2026-05-04", "Harbour strength")
HOLIDAY = span(SpanKind.HOLIDAY, "2026-05-03", "2026-05-10")
ROW = span(SpanKind.EVENT, "2026-06-14", name="10k row")
NOBODY = SeasonRow(name=None, spans=())


def test_a_season_is_whole_weeks_from_four_back_to_twelve_ahead() -> None:
    seen = season(TODAY, [SeasonRow(name="Ada", spans=())])

    assert seen.first == date(2026, 3, 16)
    assert seen.last == date(2026, 7, 12)
    assert (seen.first.weekday(), seen.last.weekday()) == (0, 6)


def test_a_season_begins_with_a_block_that_still_runs_and_ends_with_what_is_planned_last() -> None:
    long = span(SpanKind.BLOCK, "2026-02-03", "2026-04-20")
    late = span(SpanKind.EVENT, "2026-09-02")

    seen = season(TODAY, [SeasonRow(name="Ada", spans=(late, long))])

    assert (seen.first, seen.last) == (date(2026, 2, 2), date(2026, 9, 6))
    assert seen.rows[0].spans == (long, late)


def test_a_season_is_a_year_at_most_and_leaves_out_what_lies_outside() -> None:
    old = span(SpanKind.BLOCK, "2025-01-06", "2025-02-02")
    far = span(SpanKind.EVENT, "2028-01-01")

    seen = season(TODAY, [SeasonRow(name="Ada", spans=(old, far))], [far])

    assert seen.last - seen.first < timedelta(weeks=53)
    assert seen.rows[0].spans == seen.everybody.spans == ()


def test_days_off_are_told_with_the_weeks_of_the_block_that_they_fall_in() -> None:
    away = span(SpanKind.AWAY, "2026-04-12", "2026-04-15")
    after = span(SpanKind.HOLIDAY, "2026-05-05", "2026-05-06")
    row = SeasonRow(name="Ada", spans=(BLOCK, ROW, after))

    found = clashes(row, SeasonRow(name=None, spans=(HOLIDAY, away)))

    assert [(each.off, each.weeks) for each in found] == [(away, (1, 2)), (HOLIDAY, (4,))]
    assert {each.block for each in found} == {BLOCK}


def test_days_without_a_block_before_an_event_are_counted() -> None:
    (gap,) = gaps(SeasonRow(name="Ada", spans=(BLOCK, ROW)), NOBODY, TODAY)

    assert (gap.first, gap.last, gap.days) == (date(2026, 5, 5), date(2026, 6, 13), 40)
    assert gap.event == ROW


def test_an_event_of_everybody_counts_and_one_that_is_over_does_not() -> None:
    over = span(SpanKind.EVENT, "2026-04-15")

    (gap,) = gaps(SeasonRow(name="Ada", spans=(over,)), SeasonRow(name=None, spans=(ROW,)), TODAY)

    assert (gap.first, gap.event) == (TODAY, ROW)


def test_a_block_up_to_the_day_before_an_event_leaves_no_gap() -> None:
    block = BLOCK.model_copy(update={"last": date(2026, 6, 13)})

    assert gaps(SeasonRow(name="Ada", spans=(block, ROW)), NOBODY, TODAY) == ()


@pytest.mark.parametrize(
    ("on", "left"),
    [
        (date(2026, 6, 14), (0, 0)),
        (date(2026, 6, 13), (0, 1)),
        (date(2026, 6, 7), (1, 0)),
        (date(2026, 4, 15), (8, 4)),
        (date(2026, 6, 15), (0, -1)),
    ],
)
def test_it_is_so_long_to_an_event(on: date, left: tuple[int, int]) -> None:
    assert countdown(ROW, on) == left


def test_weeks_are_told_from_this_one_on() -> None:
    found = mondays(season(TODAY, []))

    assert (found[0], found[-1], len(found)) == (date(2026, 4, 13), date(2026, 7, 6), 13)


def runs(name: str, last: str | None, block: str | None = "Harbour strength") -> Runs:
    return Runs(
        name=name, block=block, week=2, weeks=4, last=date.fromisoformat(last) if last is not None else None
    )


def test_what_runs_is_told_by_block_with_who_runs_out_and_who_has_none() -> None:
    ada, ben, cleo = runs("Ada", "2026-05-20"), runs("Ben", "2026-04-29"), runs("Cleo", "2026-04-14")
    dan, esme = runs("Dan", None, None), runs("Esme", "2026-04-15", "A block")

    found = running([dan, ada, ben, cleo, esme], TODAY, Policy())

    assert found.blocks == (("A block", (esme,)), ("Harbour strength", (ben, ada)))
    assert found.ending == (esme, ben)
    assert found.without == (cleo, dan)


def test_how_soon_somebody_runs_out_is_the_coachs_to_set() -> None:
    found = running([runs("Ben", "2026-04-29")], TODAY, Policy(block_ends=7))

    assert found.ending == ()
