"""A season in words and as a picture, and what runs for whom."""

from datetime import date, timedelta
from io import BytesIO

import pytest
from PIL import Image

from bot.render import blocks_running, season
from bot.render.drawing import DRAWING
from bot.render.season_chart import LABEL, MOST_PICTURES, ROWS, SMALLEST, block_label, season_pictures
from bot.render.setting_up import Buttons
from core.oversight.season import Runs, SeasonRow, Span, SpanKind, running
from core.oversight.season import season as seen_season
from core.policy import Policy

TODAY = date(2026, 4, 15)
BUTTONS = Buttons(1, 0)


def span(
    kind: SpanKind, first: str, last: str | None = None, name: str = "", number: int | None = None
) -> Span:
    return Span(
        kind=kind,
        name=name,
        first=date.fromisoformat(first),
        last=date.fromisoformat(last or first),
        number=number,
    )


BLOCK = span(SpanKind.BLOCK, "2026-04-07", "2026-05-04", "A & B")
OFF = span(SpanKind.HOLIDAY, "2026-05-03", "2026-05-10", number=1)
ROW = span(SpanKind.EVENT, "2026-05-24", name="10k <row>", number=2)
AWAY = span(SpanKind.AWAY, "2026-04-18", "2026-04-24", "(trains there)")


def test_one_clients_season_is_told_week_by_week() -> None:
    (message,) = season.season_of_one(
        seen_season(TODAY, [SeasonRow(name="Ada", spans=(BLOCK, ROW, AWAY))], [OFF])
    )

    assert message.html.startswith(
        "<b>Season, Ada</b>, Wed 15 April\n\n"
        "A &amp; B: 7 April to 4 May, now week 2\n"
        "Away (trains there): 18 to 24 April\n"
        "1. Holiday: 3 to 10 May\n"
        "2. Event 10k &lt;row&gt;: Sun 24 May, in 5 weeks and 4 days\n\n"
        "<b>To look at</b>\n"
        "Away (trains there), 18 to 24 April, falls in weeks 2-3 of A &amp; B.\n"
        "Holiday, 3 to 10 May, falls in week 4 of A &amp; B.\n"
        "No block 5 to 23 May: 2 weeks and 5 days before 10k &lt;row&gt;.\n\n"
        "<b>By week</b>, from Monday\n"
        "13 Apr · A &amp; B, week 2; away (trains there)\n"
        "20 Apr · A &amp; B, week 3; away (trains there)\n"
        "27 Apr · A &amp; B, week 4; holiday\n"
        "4 May · A &amp; B, week 4; holiday\n"
        "11 May · no block\n"
        "18 May · no block; <b>10k &lt;row&gt;</b> Sun\n\n"
    )


def test_an_empty_season_says_so() -> None:
    (message,) = season.season_of_one(seen_season(TODAY, [SeasonRow(name="Ada", spans=())]))

    assert message.html.startswith("<b>Season, Ada</b>, Wed 15 April\n\nNothing is planned yet.\n\n")
    (everybody,) = season.season_of_all(seen_season(TODAY, []))
    assert "You have no clients yet." in everybody.html


@pytest.mark.parametrize(
    ("first", "last", "words"),
    [
        ("2026-06-14", "2026-06-14", "Sun 14 June"),
        ("2026-05-03", "2026-05-10", "3 to 10 May"),
        ("2026-04-28", "2026-05-03", "28 April to 3 May"),
        ("2026-12-28", "2027-01-03", "28 December 2026 to 3 January 2027"),
        ("2027-06-14", "2027-06-14", "Mon 14 June 2027"),
    ],
)
def test_days_in_a_row_are_written_short(first: str, last: str, words: str) -> None:
    assert season.span_words(date.fromisoformat(first), date.fromisoformat(last), TODAY) == words


@pytest.mark.parametrize(
    ("days", "words"),
    [
        (-1, "over"),
        (0, "today"),
        (1, "tomorrow"),
        (2, "in 2 days"),
        (7, "in 1 week"),
        (15, "in 2 weeks and 1 day"),
    ],
)
def test_an_events_countdown_is_in_weeks_and_days(days: int, words: str) -> None:
    on = (TODAY + timedelta(days=days)).isoformat()

    assert season.countdown_words(span(SpanKind.EVENT, on), TODAY) == words


def test_a_number_that_is_none_is_told() -> None:
    assert season.no_such_number(0).html == "Nothing was changed. There is nothing to take out."


def drawn(rows: int) -> tuple[bytes, ...]:
    made = [SeasonRow(name=f"Client {number}", spans=(BLOCK, AWAY, OFF, ROW)) for number in range(rows)]
    return season_pictures(seen_season(TODAY, made, [OFF]))


@pytest.mark.parametrize(("rows", "pictures"), [(1, 1), (ROWS - 1, 1), (ROWS, 2), (4 * ROWS, MOST_PICTURES)])
def test_a_picture_fits_a_phone(rows: int, pictures: int) -> None:
    found = drawn(rows)

    assert len(found) == pictures
    with Image.open(BytesIO(found[0])) as image:
        assert image.width == 900
        assert image.height <= 1280


def test_nothing_is_drawn_of_nothing_and_the_same_is_the_same() -> None:
    assert season_pictures(seen_season(TODAY, [SeasonRow(name="Ada", spans=())])) == ()
    assert drawn(2) == drawn(2)


def test_names_are_written_where_there_is_room_and_a_short_block_has_its_weeks_alone() -> None:
    short = span(SpanKind.BLOCK, "2026-04-07", "2026-04-20", "Long name")
    day = span(SpanKind.BLOCK, "2026-04-24", "2026-04-24", "A day")
    crowded = [
        span(SpanKind.HOLIDAY, f"2026-05-{day:02}", name="Somewhere far away") for day in (3, 6, 9, 12)
    ]

    found = season_pictures(seen_season(TODAY, [SeasonRow(name="Ada", spans=(short, day, *crowded))]))

    assert len(found) == 1


def test_a_blocks_name_is_cut_only_where_even_small_letters_have_no_room() -> None:
    name = "Slipway full body"
    with DRAWING:
        found = [block_label(name, "4 wk", room) for room in (220, 160, 130, 80, 46, 10)]
        assert block_label("Base", "2 wk", 40) == ("Base", SMALLEST)

    assert found == [
        (f"{name} 4 wk", LABEL),
        (name, LABEL),
        (name, SMALLEST),
        ("Slipway f…", SMALLEST),
        ("4 wk", LABEL),
        ("", LABEL),
    ]


def test_what_runs_is_told_with_who_runs_out_and_who_has_none() -> None:
    found = running(
        [
            Runs(name="A<da", block="Harbour", week=2, weeks=4, last=date(2026, 5, 4)),
            Runs(name="Ben", block="Harbour", week=4, weeks=4, last=date(2026, 4, 19)),
            Runs(name="Cleo", block="Harbour", week=5, weeks=4, last=date(2026, 4, 12)),
            Runs(name="Dan"),
        ],
        TODAY,
        Policy(),
    )

    (message,) = blocks_running.pages(found, 14, BUTTONS)

    assert message.html == (
        "<b>What runs</b>, Wed 15 April\n\n"
        "<b>Harbour</b>\n"
        "Ben · week 4 of 4 · until Sun 19 April\n"
        "A&lt;da · week 2 of 4 · until Mon 4 May\n\n"
        "<b>Runs out within 14 days</b>\n"
        "Ben: Harbour until Sun 19 April\n\n"
        "<b>No block</b>\n"
        "Cleo: Harbour ended Sun 12 April\n"
        "Dan\n"
        "/assign puts somebody on one."
    )
    assert [each.label for each in message.rows[0]] == ["Preview", "Season"]


def test_two_hundred_clients_take_several_messages_and_the_last_has_the_buttons() -> None:
    names = [f"Client {number}" for number in range(200)]
    found = running(
        [Runs(name=each, block="Harbour", week=1, weeks=4, last=TODAY) for each in names], TODAY, Policy()
    )

    pages = blocks_running.pages(found, 14, BUTTONS)

    assert len(pages) > 1
    assert [bool(each.rows) for each in pages] == [False] * (len(pages) - 1) + [True]
    assert all(len(each.html) <= 4096 for each in pages)
    assert sum(each.html.count("· week 1 of 4") for each in pages) == 200


def test_a_coach_without_clients_is_told_how_to_begin() -> None:
    (message,) = blocks_running.pages(running([], TODAY, Policy()), 14, BUTTONS)

    assert message.html.endswith("You have no clients yet. <code>/invite Ada</code> makes a link.")
