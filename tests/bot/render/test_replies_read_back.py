"""What a reply was understood to say is said back in words that read as the same again, where the words can hold it."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.render.replies import reading_words, understood
from core.checkin.reading import BodyRead, Effort, Reading, SetRead
from core.checkin.replies import read_reply
from core.checkin.training_log import LoggedSet
from core.programme.exercises import Side, Site
from core.programme.prescription import Load
from core.units import Unit
from tests.core.checkin.reply_contexts import CONTEXTS, THRUST
from tests.core.checkin.test_reply_rows import ROWS

REPS_ON_A_TIMED_EXERCISE = ("plank", "bw × 8 8")
"""Words that do not say that these are reps: nobody plans them."""


def said_of(context: str, text: str) -> list[tuple[Reading, str]]:
    reading = read_reply(text, CONTEXTS[context])
    plain = [one.model_copy(update={"note": None}) for one in reading.ask or (reading,) if one.understood]
    return [(one, words) for one in plain if not one.stop_sign and (words := reading_words(one))]


def test_what_is_said_of_a_reply_reads_as_the_same() -> None:
    said = {(context, words): one for context, text, _ in ROWS for one, words in said_of(context, text)}
    again = {each: read_reply(each[1], CONTEXTS[each[0]]) for each in said}
    otherwise = {each for each, one in said.items() if one not in (again[each], *again[each].ask)}

    assert len(said) > 400
    assert otherwise == {REPS_ON_A_TIMED_EXERCISE}


efforts = st.one_of(
    st.builds(dict),
    st.integers(0, 4).map(lambda left: {"rir": left}),
    st.sampled_from(("7", "8", "8.5", "9", "10")).map(lambda rpe: {"rpe": rpe}),
)
pains = st.lists(
    st.builds(
        BodyRead,
        site=st.sampled_from([Site.KNEE, Site.SHOULDER, Site.WRIST, Site.LOW_BACK, Site.ANKLE]),
        side=st.sampled_from([None, Side.LEFT, Side.RIGHT]),
        score=st.integers(0, 10),
    ),
    max_size=2,
    unique_by=lambda one: one.site,
).map(tuple)


@given(
    st.sampled_from(["70", "77.5", "80", "82.5"]),
    st.lists(st.integers(0, 12), min_size=2, max_size=5),
    efforts,
    pains,
)
def test_a_row_of_sets_comes_back(
    load: str, counts: list[int], effort: dict[str, object], pain: tuple[BodyRead, ...]
) -> None:
    sets = tuple(SetRead(load=load, unit=Unit.KG, reps=count) for count in counts)
    reading = Reading(understood=True, sets=sets, effort=Effort.model_validate(effort), pain=pain)

    again = read_reply(reading_words(reading), CONTEXTS["hip80"])

    assert reading in (again, *again.ask)


@given(
    st.lists(st.tuples(st.integers(1, 12), st.integers(0, 4)), min_size=2, max_size=5),
    st.sampled_from(["rir", "rpe"]),
)
def test_effort_of_each_set_comes_back(counts: list[tuple[int, int]], scale: str) -> None:
    said = [{"rir": left} if scale == "rir" else {"rpe": str(10 - left)} for _, left in counts]
    sets = tuple(
        SetRead.model_validate({"load": "80", "unit": "kg", "reps": count, **one})
        for (count, _), one in zip(counts, said, strict=True)
    )
    reading = Reading(understood=True, sets=sets)

    again = read_reply(reading_words(reading), CONTEXTS["hip80"])

    assert reading in (again, *again.ask)


@given(st.lists(st.tuples(st.integers(0, 12), st.integers(0, 12)), min_size=1, max_size=5))
def test_two_sides_come_back(pairs: list[tuple[int, int]]) -> None:
    sets = tuple(
        SetRead(load="16", unit=Unit.KG, reps=count, side=side)
        for pair in pairs
        for count, side in zip(pair, (Side.LEFT, Side.RIGHT), strict=True)
    )
    reading = Reading(understood=True, sets=sets)

    again = read_reply(reading_words(reading), CONTEXTS["step"])

    assert reading in (again, *again.ask)


def logged(number: int, reps: int, rir: int | None, rpe: Decimal | None) -> LoggedSet:
    return LoggedSet(number, 1, number, "", Load.of("80"), reps, None, rir, False, 1, None, rpe=rpe)


NOTED = [
    ([(8, None, None), (8, None, None), (7, None, None)], None, "Noted: Hip thrust 80 kg × 8 8 7."),
    ([(8, None, None), (8, None, None), (7, 2, None)], 2, "Noted: Hip thrust 80 kg × 8 8 7, 2 left."),
    ([(8, None, None), (7, 4, None)], 4, "Noted: Hip thrust 80 kg × 8 7, 4 or more left."),
    ([(8, None, None), (7, 1, "8.5")], 1, "Noted: Hip thrust 80 kg × 8 7, RPE 8.5."),
    ([(8, 2, "8"), (8, 2, "8"), (7, 1, "9")], None, "Noted: Hip thrust 80 kg × 8 8 7, RPE 8 8 9."),
    ([(8, 2, None), (8, 4, None), (7, 0, None)], None, "Noted: Hip thrust 80 kg × 8 8 7, reps left 2 4+ 0."),
    ([(8, None, None), (8, 1, "9"), (7, None, None)], None, "Noted: Hip thrust 80 kg × 8 8 7, set 2 RPE 9."),
    (
        [(8, 2, None), (8, 1, "9"), (7, None, None)],
        None,
        "Noted: Hip thrust 80 kg × 8 8 7, set 1 2 left, set 2 RPE 9.",
    ),
    ([(8, None, None), (7, 2, None)], None, "Noted: Hip thrust 80 kg × 8 7, 2 left."),
    ([(8, None, "5")], None, "Noted: Hip thrust 80 kg × 8, RPE 5."),
]


@pytest.mark.parametrize(("sets", "left", "expected"), NOTED)
def test_what_was_kept_is_said_with_its_effort(
    sets: list[tuple[int, int | None, str | None]], left: int | None, expected: str
) -> None:
    kept = [
        logged(number, reps, rir, Decimal(rpe) if rpe else None)
        for number, (reps, rir, rpe) in enumerate(sets, start=1)
    ]

    assert understood(THRUST, kept, left) == expected


@pytest.mark.parametrize("scale", ["RPE", "reps left"])
def test_effort_of_each_set_as_it_was_noted_reads_as_the_same(scale: str) -> None:
    kept = [logged(1, 8, 2, None), logged(2, 8, 1, None), logged(3, 7, 0, None)]
    if scale == "RPE":
        kept = [logged(each.set_no, each.reps or 0, None, Decimal(10 - (each.rir or 0))) for each in kept]
    again = read_reply(understood(THRUST, kept, None).removeprefix("Noted: "), CONTEXTS["hip80"])

    assert [each.reps for each in again.sets] == [8, 8, 7]
    said = [(each.rir, each.rpe) for each in again.sets]
    assert said == (
        [(None, "8"), (None, "9"), (None, "10")] if scale == "RPE" else [(2, None), (1, None), (0, None)]
    )
