"""The card's screens where a talk seldom comes: nothing left to do, no load, holds for time."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from setting_out import labels, plain_text

from bot.render.closing import done_line, next_load_lines
from bot.render.dates import day_words
from bot.render.examples import typed_example
from bot.render.loads import dose_words, load_words
from bot.render.session import session_card
from bot.render.session_views import ItemView, SessionView
from core.checkin.training_log import Item
from core.loads.decision import Decision
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Dose, Load, Prescription, Rpe, Span
from core.programme.set_styles import SetStyle, StyleKind
from core.units import Mass
from tests.core.loads.lifts import BARE, GYM, decide, dose

TUESDAY = date(2026, 4, 7)


def item(
    key: str, given: Dose, state: str = "open", *, decision: Decision | None = None, **written: object
) -> ItemView:
    prescription = Prescription(order="A", exercise=key, dose=given, **written)
    kept = Item(7, 1, 0, key, prescription, given, None, state, None, None)
    return ItemView(kept, CATALOGUE[key], decision, (), ())


def view(
    *items: ItemView, screen: str = "item", cursor: int | None = 7, state: str = "started"
) -> SessionView:
    return SessionView(
        day="Lower A",
        week_no=1,
        weeks=4,
        local_on=TUESDAY,
        late=False,
        state=state,
        screen=screen,
        items=items,
        cursor=cursor,
        prompt_id=1,
        revision=2,
    )


@pytest.mark.parametrize(
    ("key", "given", "expected"),
    [
        ("hip-thrust", dose(4, "8", "92.5"), "92.5 8 8 8 7"),
        ("calf-raise", dose(3, "12", "find"), "20 12 12 11"),
        ("push-up", dose(3, "8", "bw"), "bw 8 8 7"),
        ("pull-up", dose(3, "5", "bw+5"), "bw+5 5 5 4"),
        (
            "hip-thrust",
            dose(4, "8", "92.5").model_copy(update={"style": SetStyle(kind=StyleKind.ASCENDING)}),
            "74x8, 92.5x8",
        ),
        (
            "hip-thrust",
            dose(4, "8", "find").model_copy(update={"style": SetStyle(kind=StyleKind.ASCENDING)}),
            "20 8 8 8 7",
        ),
        ("plank", dose(3, "30", timed=True), "30s 30s 29s"),
        ("dead-bug", Dose(sets=2, reps=Span(low=1, high=1)), "1 1"),
        ("farmer-carry", Dose(sets=2, metres=Span(low=40, high=40), load=Load.of(24)), "24 40 39"),
        ("band-pull-apart", Dose(sets=2, to_left=True, left=2, load=Load.banded("light")), "8 7"),
    ],
)
def test_an_example_fits_its_exercise(key: str, given: Dose, expected: str) -> None:
    assert typed_example(item(key, given)) == expected


def test_where_nothing_can_be_done_there_is_nothing_to_start() -> None:
    card = session_card(
        view(item("hip-thrust", dose(4, "8", "90"), "skipped"), screen="overview", state="sent")
    )

    assert labels(card) == ["Not today", "Why these loads", "Something hurts"]
    assert "Nothing of it can be done today" in plain_text(card)


@pytest.mark.parametrize("screen", ["item", "change"])
def test_without_an_open_exercise_the_overview_is_shown(screen: str) -> None:
    card = session_card(view(item("hip-thrust", dose(4, "8", "90")), screen=screen, cursor=None))

    assert labels(card)[0] == "All done as written"


def test_a_hold_without_a_load_is_changed_by_typing_alone() -> None:
    card = session_card(view(item("plank", dose(3, "30", timed=True)), screen="change"))

    assert (labels(card), plain_text(card).splitlines()[-1]) == (
        ["Back"],
        "Or type each set, like 30s 30s 29s.",
    )


def test_a_load_to_be_found_without_a_decision_is_still_asked_for() -> None:
    card = session_card(view(item("calf-raise", dose(3, "12", "find"))))

    assert "Type the load and each set, like 20 12 12 11." in plain_text(card)


def test_an_exercise_without_a_decision_is_as_the_coach_wrote_it() -> None:
    card = session_card(view(item("hip-thrust", dose(4, "8", "90")), screen="why"))

    assert plain_text(card).splitlines()[-1] == "A  Hip thrust: As your coach wrote it."


def test_the_main_lift_is_named_by_its_kind_where_none_was_done() -> None:
    card = session_card(view(item("hip-thrust", dose(4, "8", "90")), screen="left"))

    assert "Main lift, last set: how many more could you have done?" in plain_text(card)


def test_rest_and_tempo_are_left_out_where_nobody_wrote_them() -> None:
    card = session_card(view(item("hip-thrust", dose(4, "8", "90", left=None), cue="Ribs <down>.")))

    assert plain_text(card).splitlines()[2:] == ["A  Hip thrust  4 × 8 at 90 kg", "Ribs <down>."]


@pytest.mark.parametrize(
    ("rest_s", "tempo", "said"),
    [(90, None, "Rest 1:30 min"), (45, None, "Rest 45 s"), (None, "3010", "Tempo 3010")],
)
def test_rest_and_tempo_are_said_as_written(rest_s: int | None, tempo: str | None, said: str) -> None:
    each = item("hip-thrust", dose(4, "8", "90", left=None), rest_s=rest_s, tempo=tempo)

    assert said in plain_text(session_card(view(each))).splitlines()


def test_more_exercises_than_a_thumb_can_hit_have_no_button_of_their_own() -> None:
    first = item("hip-thrust", dose(4, "8", "90"))
    others = [item("push-up", dose(3, "8", "bw")) for _ in range(9)]
    card = session_card(view(first, *others))

    assert labels(card).count("A") == 6


@pytest.mark.parametrize(
    ("load", "expected"),
    [
        (None, ""),
        (Load.find(), "find the load"),
        (Load.bodyweight(), "bodyweight"),
        (Load.bodyweight(Mass.of("-20")), "bw-20 kg"),
        (Load.of("92.5"), "92.5 kg"),
    ],
)
def test_a_load_in_words(load: Load | None, expected: str) -> None:
    assert load_words(load) == expected


def test_a_dose_in_words() -> None:
    assert (
        dose_words(dose(3, "10", "16"), CATALOGUE["one-leg-hinge"]) == "3 × 10 a side at <b>16 kg a hand</b>"
    )


def test_what_cannot_be_loaded_next_time_is_said_when_a_session_closes() -> None:
    asked = dose(4, "8", "90")
    swapped = decide("hip-thrust", asked, kit=BARE)
    same = decide("hip-thrust", asked, kit=GYM)
    thrust = CATALOGUE["hip-thrust"]

    assert next_load_lines([(thrust, asked, swapped), (CATALOGUE["leg-press"], asked, swapped)]) == (
        "Hip thrust, Leg press: something else next time. There is nothing here to load it with.",
    )
    assert next_load_lines([(thrust, asked, same)]) == ()


@pytest.mark.parametrize(
    ("done", "expected"),
    [
        (0, "The session is closed. Nothing was logged."),
        (2, "2 of 5 exercises done. Logged."),
        (5, "All done. Logged."),
    ],
)
def test_how_much_was_done_is_said_without_praise(done: int, expected: str) -> None:
    assert done_line(done, 5) == expected


def test_a_date_is_written_as_people_say_it() -> None:
    assert day_words(date(2026, 11, 1)) == "Sun 1 November"


def rpe(low: str, high: str) -> Rpe:
    return Rpe(low=Decimal(low), high=Decimal(high))


@pytest.mark.parametrize(
    ("effort", "line"),
    [
        ({"left": 1}, "Keep 1 rep left"),
        ({"left": 1, "left_high": 2}, "Keep 1-2 reps left"),
        ({"left": 2, "rpe": rpe("8", "8")}, "RPE 8: 2 left"),
        ({"left": 1, "rpe": rpe("8.5", "8.5")}, "RPE 8.5: 1, maybe 2 left"),
        ({"left": 2, "left_high": 3, "rpe": rpe("7", "8")}, "RPE 7-8: 2-3 left"),
    ],
)
def test_effort_is_said_as_the_coach_wrote_it(effort: dict[str, object], line: str) -> None:
    given = Dose(sets=3, reps=Span(low=8, high=8), load=Load.of(60)).model_copy(update=effort)

    assert line in plain_text(session_card(view(item("bench-press", given))))


OPEN = Dose(sets=3, to_left=True, left=2, load=Load.of(60))
MORE = Dose(sets=3, reps=Span(low=8, high=8), or_more=True, load=Load.of(60))


@pytest.mark.parametrize("given", [OPEN, MORE])
def test_what_is_open_is_typed_and_not_tapped(given: Dose) -> None:
    card = session_card(view(item("bench-press", given)))
    changed = session_card(view(item("bench-press", given), screen="change"))

    assert "Done as written" not in labels(card)
    assert "Type what you did, like 60 8 8 7." in plain_text(card)
    assert [label for label in labels(changed) if label.startswith("Last set")] == []


def test_a_set_that_ends_by_itself_has_no_second_line_on_effort() -> None:
    assert "Keep" not in plain_text(session_card(view(item("bench-press", OPEN))))


def test_with_a_band_only_sets_are_typed() -> None:
    banded = Dose(sets=2, reps=Span(low=15, high=15), load=Load.banded("light"))
    card = session_card(view(item("band-pull-apart", banded), screen="change"))

    assert "Or type each set, like 15 14." in plain_text(card)


def in_turn(
    order: str, key: str, item_id: int, *, state: str = "open", rest_s: int | None = None
) -> ItemView:
    given = dose(3, "8", None)
    prescription = Prescription(order=order, exercise=key, dose=given, rest_s=rest_s)
    kept = Item(item_id, 1, 0, key, prescription, given, None, state, None, None)
    return ItemView(kept, CATALOGUE[key], None, (), ())


def test_what_goes_in_turn_stands_together_on_the_card() -> None:
    items = (
        in_turn("A", "push-up", 7),
        in_turn("B1", "dip", 8, rest_s=30),
        in_turn("B2", "curl", 9, rest_s=90),
        in_turn("C1", "plank", 10),
        in_turn("C2", "lateral-raise", 11),
        in_turn("C3", "calf-raise", 12),
    )
    lines = plain_text(session_card(view(*items, screen="overview"))).splitlines()

    assert [line for line in lines if line.endswith(":")] == [
        "B1 and B2 in turn, rest 1:30 min:",
        "C1, C2 and C3 in turn:",
    ]
    assert lines.index("B1 and B2 in turn, rest 1:30 min:") + 1 == next(
        number for number, line in enumerate(lines) if line.startswith("B1  ")
    )


@pytest.mark.parametrize(
    ("rests", "state", "said"),
    [
        (
            (30, 90),
            "open",
            "In turn with B2 Curl, 3 × 8: a set of each with 30 s between, then rest 1:30 min.",
        ),
        ((None, 90), "open", "In turn with B2 Curl, 3 × 8: a set of each, then rest 1:30 min."),
        ((60, 60), "open", "In turn with B2 Curl, 3 × 8: a set of each, then rest 1:00 min."),
        ((None, None), "open", "In turn with B2 Curl, 3 × 8: a set of each, then rest."),
        ((30, 90), "done", "Keep 2 reps left · Rest 30 s"),
    ],
)
def test_an_open_exercise_says_what_it_goes_in_turn_with(
    rests: tuple[int | None, int | None], state: str, said: str
) -> None:
    items = (
        in_turn("B1", "dip", 7, rest_s=rests[0]),
        in_turn("B2", "curl", 8, state=state, rest_s=rests[1]),
    )

    assert said in plain_text(session_card(view(*items))).splitlines()


@pytest.mark.parametrize(
    ("kind", "said"), [("lighter_week", "lighter week"), ("testing_week", "testing week")]
)
def test_the_kind_of_week_stands_beside_its_number(kind: str, said: str) -> None:
    shown = replace(view(in_turn("A", "push-up", 7)), **{kind: True})

    assert plain_text(session_card(shown)).splitlines()[0] == f"Lower A · week 1 of 4 · {said} · Tue 7 April"
