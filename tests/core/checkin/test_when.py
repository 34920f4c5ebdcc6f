from datetime import time

from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.checkin.when import clock_time, weekdays


@each_row(
    ("typed", "expected"),
    [
        ("18:40", time(18, 40)),
        ("6:30", time(6, 30)),
        ("6.30", time(6, 30)),
        ("18", time(18)),
        ("18h", time(18)),
        ("18h40", time(18, 40)),
        ("1840", time(18, 40)),
        ("630", time(6, 30)),
        ("6 pm", time(18)),
        ("6:30pm", time(18, 30)),
        ("6:30 p.m.", time(18, 30)),
        ("12am", time(0)),
        ("12 pm", time(12)),
        (" At 7:05 ", time(7, 5)),
        ("0:00", time(0)),
        ("23:59", time(23, 59)),
        ("24:00", None),
        ("25", None),
        ("18:60", None),
        ("13 pm", None),
        ("0 am", None),
        ("9999", None),
        ("18:4", None),
        ("-6", None),
        ("soon", None),
        ("", None),
        ("80 8 8 7", None),
    ],
)
def test_a_time_of_day_is_read_as_people_type_it(typed: str, expected: time | None) -> None:
    assert clock_time(typed) == expected


@given(st.times())
def test_every_minute_of_the_day_is_read_back(at: time) -> None:
    assert clock_time(f"{at:%H:%M}") == time(at.hour, at.minute)


@given(st.text(max_size=20))
def test_any_text_is_a_time_or_none_and_never_an_error(text: str) -> None:
    assert clock_time(text) is None or isinstance(clock_time(text), time)
    assert weekdays(text) is None or set(weekdays(text) or ()) <= set(range(7))


@each_row(
    ("typed", "expected"),
    [
        ("mon tue thu", (0, 1, 3)),
        ("Mon, Tue and Thu", (0, 1, 3)),
        ("thu mon tue mon", (0, 1, 3)),
        ("mo we fr", (0, 2, 4)),
        ("Mondays and Thursdays", (0, 3)),
        ("tues thurs weds", (1, 2, 3)),
        ("wednesday", (2,)),
        ("mon-fri", (0, 1, 2, 3, 4)),
        ("Mon – Wed", (0, 1, 2)),
        ("fri to mon", (0, 4, 5, 6)),
        ("mon/wed/sat", (0, 2, 5)),
        ("weekdays", (0, 1, 2, 3, 4)),
        ("weekend", (5, 6)),
        ("every day", (0, 1, 2, 3, 4, 5, 6)),
        ("t", None),
        ("mon t", None),
        ("mon someday", None),
        ("mon-", None),
        ("mon-tue-wed", None),
        ("and", None),
        ("", None),
        ("3", None),
    ],
)
def test_days_are_read_by_name_or_not_at_all(typed: str, expected: tuple[int, ...] | None) -> None:
    assert weekdays(typed) == expected
