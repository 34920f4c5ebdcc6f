"""What a reply was read as, on a button of 40 characters."""

from rows import each_row

from bot.render.replies import overtaken, reading_words
from core.checkin.reading import BodyRead, Effort, Reading, SetRead
from core.programme.exercises import Side, Site
from core.units import Unit

L, R = Side.LEFT, Side.RIGHT


def read(*sets: SetRead, **more: object) -> Reading:
    return Reading(understood=True, sets=sets, **more)


def count(reps: int, load: str | None = None, side: Side | None = None) -> SetRead:
    return SetRead(load=load, unit=Unit.KG if load else None, reps=reps, side=side)


def held(seconds: int) -> SetRead:
    return SetRead(load=None, unit=None, reps=None, seconds=seconds)


@each_row(
    ("reading", "expected"),
    [
        (read(count(8, "92.5"), count(7, "92.5")), "92.5 kg × 8 7"),
        (read(count(8, "90"), count(8, "85")), "90 kg × 8, 85 kg × 8"),
        (read(count(15), count(14)), "reps 15 14"),
        (read(held(45), held(40)), "45s 40s"),
        (read(count(10, side=L), count(9, side=R)), "reps 10/9 left/right"),
        (read(count(10, "16", L), count(9, "16", L)), "16 kg × 10 9, left side"),
        (read(count(10, side=L), count(9, side=L), count(8, side=R)), "reps left 10 left 9 right 8"),
        (read(as_written=True), "done as written"),
        (read(skip=True), "skip this one"),
        (read(undo=True), "take back the last"),
        (read(effort=Effort(rir=2)), "2 reps left"),
        (read(count(8, "90"), effort=Effort(rpe="8.5")), "90 kg × 8, RPE 8.5"),
        (read(pain=(BodyRead(site=Site.KNEE, side=L, score=4),)), "pain left knee 4"),
        (read(pain=(BodyRead(site=None),)), "pain"),
        (read(soreness=(BodyRead(site=Site.THIGH, score=6),)), "sore thigh 6"),
        (read(note="see you"), "a note for the coach"),
        (read(count(8, "90"), note="see you"), "90 kg × 8"),
    ],
)
def test_a_reading_is_said_in_a_few_words(reading: Reading, expected: str) -> None:
    assert reading_words(reading) == expected


def test_what_was_typed_cannot_break_the_markup() -> None:
    assert overtaken("<b>8").html.startswith("<code>&lt;b&gt;8</code>")
