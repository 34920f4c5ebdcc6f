"""What there is to lift, as it is shown and read back; and every problem with what would be right."""

import pytest
from rows import each_row
from setting_out import labels, plain_text

from bot.render.kit import (
    Buttons,
    KitView,
    asked,
    by_coach,
    for_coach,
    kept,
    known,
    no_place,
    problems,
    usual_already,
    usual_by_coach,
    usual_for_coach,
    usual_now,
)
from core.loads.equipment import ladder_for
from core.loads.kit import Kit
from core.loads.kit_masses import Wrong
from core.loads.kit_text import kit_lines
from core.loads.kit_words import read_kit
from core.programme.catalogue import exercise
from core.units import Unit


def view(text: str, place: str = "shed", *, alone: bool = False) -> KitView:
    kit = read_kit(text, (Kit(place=place, unit=Unit.KG),)).kit
    return KitView(
        kit=kit,
        lines=kit_lines(kit),
        is_kind_alone=alone,
        bar=ladder_for(exercise("back-squat"), kit).steps,
        hands=ladder_for(exercise("dumbbell-bench-press"), kit).steps,
    )


def said(text: str, unit: Unit = Unit.KG) -> list[str]:
    """Return the message without its first lines and the line that it is about."""
    message = problems(read_kit(text, (Kit(place="shed", unit=unit),)).problems, unit)
    return plain_text(message).splitlines()[2:]


def read_back(text: str) -> list[str]:
    return plain_text(asked(view(text), (), None, Buttons(1, 2))).split("\n\n")[2:]


def test_what_was_typed_is_read_back_with_what_it_makes_and_what_it_replaces() -> None:
    was = kit_lines(view("bar 20\nplates 20 10\nalone yes").kit)
    card = asked(
        view("bars 20, light bar 15\nplates 20x1 10x1\ndumbbells 4 6 8 10\nalone yes"),
        was,
        None,
        Buttons(1, 2),
    )

    assert plain_text(card).split("\n\n") == [
        "Shed. Is this right?",
        "bars 20, light bar 15\nplates 20x1 10x1\ndumbbells 4, 6, 8, 10",
        "In place of:\nbar 20\nplates 20 10 plenty",
        "This makes 15, 20, 35 … 80 kg on the bar.\nIn each hand: 4, 6, 8, 10 kg.",
        "Counted in pairs: 20x2 is two pairs of 20, so four plates. Of one alone write “single dumbbells 16”.",
    ]
    assert labels(card) == ["Keep", "Leave it"]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("bar 20\nbelt by 2", ["This makes 20 kg on the bar."]),
        ("bar 20\nplates 10 5x1", ["This makes 20, 30, 40 kg and so on on the bar.", "Counted"]),
        ("dumbbells 2-30 by 2", ["In each hand: 2, 4, 6 … 30 kg.", "Counted"]),
        (
            "plates 5\nadjustable handles 2",
            ["In each hand: 2, 12, 22 kg and so on.", "Counted"],
        ),
        ("bands red, blue", []),
        ("bar 20 kg\nkettlebells 18 lb", ["This makes 20 kg on the bar.", "Not in kg: 18 lb.", "Counted"]),
    ],
)
def test_only_what_is_there_is_said_to_make_loads(text: str, parts: list[str]) -> None:
    assert [part if not part.startswith("Counted") else "Counted" for part in read_back(text)] == parts


SHED = (
    "Shed, the usual place, in kg",
    "Only the kind was said; these are the usual ones.",
    "bar 20",
    "safety arms no",
    "alone yes",
)


def test_a_client_sees_each_place_and_how_to_say_more() -> None:
    message = plain_text(known([view("bar 20", alone=True), view("bands red", "home")], None)).split("\n\n")

    assert message[:3] == [
        "What you have to lift",
        "\n".join(SHED),
        "Home, in kg\nbands red\nsafety arms no\nalone yes",
    ]
    assert message[3] == "To make another place the usual one: /kit home: usual."
    assert message[4].startswith(
        "To change it: /kit shed: bar 20, one kind a line, as many lines as you like:\n"
    )


def test_a_coach_sees_whose_it_is_and_the_example_names_her_client() -> None:
    whole = plain_text(known([view("bar 20")], "A<da"))
    one = plain_text(known([view("bar 20")], "Ada", place="shed"))
    none = plain_text(known([], "Ada", place="attic"))

    assert whole.startswith("What A<da has to lift\n\nShed, in kg\nbar 20\n")
    assert "To change it: /kit A<da, shed: bar 20," in whole
    assert one.endswith("\n\n/kit Ada alone says how to change it.")
    assert "\n\nNothing is known of attic yet.\n\nTo change it: /kit Ada, attic: bar 20," in none


def test_who_did_not_type_it_is_told() -> None:
    shed = view("bar 20\nsafety arms yes")

    assert plain_text(kept(shed, None)) == (
        "Shed: kept. It holds from the next card on.\nbar 20\nsafety arms yes\nalone yes"
    )
    assert plain_text(kept(shed, "Ada")).startswith("Ada, shed: kept. ")
    assert plain_text(for_coach("Ada", shed)) == "Ada has said what there is: shed."
    assert plain_text(by_coach(shed)) == (
        "Your coach has written down what there is to lift, shed:\nbar 20\nsafety arms yes\nalone yes\n"
        "Not so? /kit changes it."
    )
    assert "“<b>” cannot be a place." in plain_text(no_place("<b>"))


PROBLEMS = [
    (
        "rower",
        "Begin with what it is: bar, plates, dumbbells, kettlebells, stack, bands, belt. /kit shows all.",
    ),
    (
        "dumbbells heavy",
        "“heavy” does not fit here. Write masses like 20 or 2.5, and a range like 2-30 by 2.",
    ),
    ("dumbbells 4,6", "“4,6” may be one number or several. Write 2.5, or 2, 5 with a space."),
    ("bar 20\nplates 20 0", "Nothing weighs 0. Write “none” where there is none."),
    ("bar 2000", "2000 is more than 500. Is a decimal point missing?"),
    ("plates 16.38", "No plate weighs 16.38. Write it as it is marked."),
    ("dumbbells 2-30", "“2-30” needs its steps. Write from, to and step: 2-30 by 2."),
    ("dumbbells 2-31 by 2", "The last one does not lie on a step; the nearest below is 30 kg."),
    ("dumbbells 30-2 by 2", "“30-2 by 2” does not rise. Write the lightest first: 2-30 by 2."),
    ("stack 1-500 by 1", "“1-500 by 1” has too many steps. Is the step right?"),
    (
        "stack 1-5 by 1, add 1 2 3 4 5",
        "That is more than 4 of a kind. Write fewer, or a range like 2-30 by 2.",
    ),
    (
        "plates 2x20",
        "“2x20”: the mass comes first, then the pairs, 1 to 9: 20x2. Without x it is plenty.",
    ),
    ("dumbbells 4 kg 6 8 lb", "“6”: kg or lb? Write the unit with every number of this line."),
    ("belt by 1 2", "“1 2” is not one mass. Write one, like 20 or 2.5 kg."),
    ("collars 2.5", "One, or both? Write “collars 2.5 each” or “collars 2.5 together”."),
    ("plates 20 20", "“20” is here twice. Say it once, all of it in one line."),
    ("bar 20 for a <b>", "I know no exercise “a <b>”. Write its name as it stands on the card."),
    ("alone often", "Write yes or no."),
    ("bar", "Something is missing. Write what there is, or “none”."),
    ("place 1", "“1” cannot be the place here. Use one short name, like home or gym."),
    ("bands red blue", "Put a comma after each band, the lightest first: red, blue, black."),
    ("bands a, 1", "“1” cannot be a name. Use a few letters, like light bar."),
]


@each_row(("text", "right"), PROBLEMS)
def test_a_problem_says_what_would_be_right(text: str, right: str) -> None:
    assert said(text) == [f"• {text.splitlines()[-1]}", right]


def test_every_problem_has_its_words() -> None:
    empty = (Kit(place="shed", unit=Unit.KG),)
    met = {each.code for text, _ in PROBLEMS for each in read_kit(text, empty).problems}

    assert met == set(Wrong)


def test_all_problems_are_told_at_once() -> None:
    both = read_kit("rower\nalone often", (Kit(place="shed", unit=Unit.KG),)).problems

    assert plain_text(problems(both, Unit.KG)).startswith(
        "These 2 lines I cannot read for sure, so nothing was kept.\n\n• rower\n"
    )
    assert plain_text(problems(both[:1], Unit.KG)).startswith("This line I cannot read for sure,")


def test_which_place_is_usual_is_said_with_the_way_back() -> None:
    assert plain_text(usual_now("home", "gym", None)) == (
        "Home: the usual place, from the next card on. Back to the other: /kit gym: usual."
    )
    assert plain_text(usual_now("home", "gym", "A<da")) == (
        "A<da, home: the usual place, from the next card on. Back to the other: /kit A<da, gym: usual."
    )
    assert plain_text(usual_already("home", None)) == "Home is the usual place already."
    assert plain_text(usual_already("home", "Ada")) == "Ada, home is the usual place already."
    assert plain_text(usual_for_coach("Ada", "home")) == "Ada trains at another place now: home."
    assert plain_text(usual_by_coach("home", "gym")) == (
        "Your coach has made home your usual place, from the next card on. "
        "Not so? /kit gym: usual takes it back."
    )
