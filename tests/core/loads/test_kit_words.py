from decimal import Decimal

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from rows import each_row

from core.loads.equipment import Bar, Handles, Kit, Plates, Run, Stack, default_kit
from core.loads.kit_masses import Wrong
from core.loads.kit_text import kit_lines
from core.loads.kit_words import place_name, read_kit
from core.units import Mass, Unit

EMPTY = Kit(place="shed", unit=Unit.KG)
GYM = default_kit("both", Unit.KG)


def kg(*values: str) -> tuple[Mass, ...]:
    return tuple(Mass.of(value) for value in values)


def lb(*values: str) -> tuple[Mass, ...]:
    return tuple(Mass.of(value, Unit.LB) for value in values)


def plates(**pairs: int | None) -> tuple[Plates, ...]:
    return tuple(
        Plates(mass=Mass.of(mass[1:].replace("_", ".")), pairs=count) for mass, count in pairs.items()
    )


def run(first: str, last: str, step: str) -> Run:
    return Run(first=Mass.of(first), last=Mass.of(last), step=Mass.of(step))


def stack(start: str, top: str, step: str, *adds: str, exercises: tuple[str, ...] = ()) -> Stack:
    return Stack(
        start=Mass.of(start), top=Mass.of(top), step=Mass.of(step), adds=kg(*adds), exercises=exercises
    )


FIVES = stack("5", "100", "5")
READ = [
    ("bar 20", {"bar": Mass.of(20)}),
    ("Bar: 20 kg.", {"bar": Mass.of(20)}),
    ("• BAR = 20kilos", {"bar": Mass.of(20)}),
    ("bar 45 lb", {"bar": Mass.of(45, Unit.LB)}),
    ("bars 20, 15", {"bar": Mass.of(20), "bars": (Bar(name="15 kg bar", mass=Mass.of(15)),)}),
    ("bars 20; light bar 7,5", {"bar": Mass.of(20), "bars": (Bar(name="light bar", mass=Mass.of("7.5")),)}),
    (
        "bars 20, trap bar 25 for trap bar deadlift and barbell curl",
        {
            "bar": Mass.of(20),
            "bars": (
                Bar(name="trap bar", mass=Mass.of(25), exercises=("trap-bar-deadlift", "barbell-curl")),
            ),
        },
    ),
    ("bars 15 20", {"bar": Mass.of(15), "bars": (Bar(name="20 kg bar", mass=Mass.of(20)),)}),
    ("bar none", {"bar": None, "bars": ()}),
    ("no barbell", {"bar": None, "bars": ()}),
    ("collars 2.5 each", {"collars": Mass.of(5)}),
    ("collars 5 together", {"collars": Mass.of(5)}),
    ("collars 0", {"collars": None}),
    ("plates 20x2 10 x 1 2,5", {"plates": plates(m20=2, m10=1, m2_5=None)}),
    ("plates 5, 20 and 10", {"plates": plates(m20=None, m10=None, m5=None)}),
    ("plates 20 10 plenty", {"plates": plates(m20=None, m10=None)}),
    ("discs 20×2 10 plenty of each", {"plates": plates(m20=2, m10=None)}),
    ("full size 20 10", {"full_size": kg("10", "20")}),
    ("dumbbells 2-30 by 2", {"dumbbells": (), "dumbbell_runs": (run("2", "30", "2"),)}),
    (
        "dumbbells 1 to 10 by 1, 12.5 up to 20 in steps of 2.5, 24",
        {"dumbbells": kg("24"), "dumbbell_runs": (run("1", "10", "1"), run("12.5", "20", "2.5"))},
    ),
    ("dumbbells 4 6 8 10 12.5", {"dumbbells": kg("4", "6", "8", "10", "12.5")}),
    ("dumbbells 8, 4, 8", {"dumbbells": kg("4", "8")}),
    ("dumbbells 4 6 8 lb", {"dumbbells": lb("4", "6", "8")}),
    ("dumbbells 4 kg 10 lb", {"dumbbells": (Mass.of(4), Mass.of(10, Unit.LB))}),
    ("one dumbbell 40", {"lone_dumbbells": kg("40")}),
    (
        "adjustable handles 2 kg, plates 5x4 2.5x4",
        {"handles": Handles(mass=Mass.of(2), plates=plates(m5=4, m2_5=4))},
    ),
    ("handle 2, up to 24, one handle", {"handles": Handles(mass=Mass.of(2), most=Mass.of(24), count=1)}),
    ("handles 2 each, 4 handles", {"handles": Handles(mass=Mass.of(2), count=4)}),
    ("handles none", {"handles": None}),
    ("kettlebells 8 12 16", {"kettlebells": kg("8", "12", "16")}),
    ("kettlebells 8-16 by 4", {"kettlebells": kg("8", "12", "16")}),
    ("single kettlebell 24", {"lone_kettlebells": kg("24")}),
    ("stack by 5", {"stack_step": Mass.of(5)}),
    ("stack 5 to 100 by 5", {"stacks": (FIVES,)}),
    ("machine 5 to 100 by 5, add 2.5", {"stacks": (stack("5", "100", "5", "2.5"),)}),
    (
        "stack 5 to 100 by 5 add-ons 1.25 2.5 for leg press",
        {"stacks": (stack("5", "100", "5", "1.25", "2.5", exercises=("leg-press",)),)},
    ),
    (
        "stack 5 to 100 by 5\nstacks 10 to 200 by 10 for leg press\nstack by 5",
        {"stack_step": Mass.of(5), "stacks": (FIVES, stack("10", "200", "10", exercises=("leg-press",)))},
    ),
    ("no machines", {"stack_step": None, "stacks": ()}),
    ("assistance 5 to 60 by 5", {"assistance": stack("5", "60", "5")}),
    ("bands Red, light blue, black", {"bands": ("red", "light blue", "black")}),
    ("band extra-heavy", {"bands": ("extra-heavy",)}),
    ("bands extra heavy,", {"bands": ("extra heavy",)}),
    ("belt by 1.25", {"bodyweight_step": Mass.of("1.25")}),
    ("belt 2", {"bodyweight_step": Mass.of(2)}),
    ("belt with plates\nbelt by 1", {"belt": True, "bodyweight_step": Mass.of(1)}),
    ("vests 5 10", {"added": kg("5", "10")}),
    ("safety arms yes\nalone no", {"safety_arms": True, "usually_alone": False}),
    ("no safety arms", {"safety_arms": False}),
    ("unit lb\nbar 45", {"unit": Unit.LB, "bar": Mass.of(45, Unit.LB)}),
    ("\uff42ar \uff12\uff10", {"bar": Mass.of(20)}),
    ("bar ٢٠", {"bar": Mass.of(20)}),
    ("\nbar 20\n\n", {"bar": Mass.of(20)}),
]


@each_row(("text", "fields"), READ)
def test_a_line_says_all_there_is_of_its_kind(text: str, fields: dict[str, object]) -> None:
    for base in (EMPTY, GYM):
        found = read_kit(text, (base,))

        assert (found.problems, found.kit) == ((), base.model_copy(update=fields))
        assert found.before == base


ASKED = [
    ("rower 1", Wrong.WORD, "rower 1"),
    ("barn 20", Wrong.WORD, "barn 20"),
    ("", Wrong.EMPTY, ""),
    ("bar", Wrong.EMPTY, "bar"),
    ("dumbbells ,", Wrong.EMPTY, ""),
    ("dumbbells heavy", Wrong.NUMBER, "heavy"),
    ("dumbbells 4x2", Wrong.NUMBER, "4x2"),
    ("dumbbells 20kgs5", Wrong.NUMBER, "20kgs5"),
    ("no dumbbells 4", Wrong.NUMBER, "no"),
    ("plates 20x2 plenty", Wrong.NUMBER, "plenty"),
    ("plates 5-20 by 5", Wrong.NUMBER, "5-20"),
    ("adjustable handles 2, up to some", Wrong.NUMBER, "some"),
    ("dumbbells 4,6,8", Wrong.COMMA, "4,6,8"),
    ("dumbbells 4,6", Wrong.COMMA, "4,6"),
    ("bar 1.234.5", Wrong.COMMA, "1.234.5"),
    ("dumbbells 0 2", Wrong.ZERO, "0"),
    ("bar 200000", Wrong.HEAVY, "200000"),
    ("collars 400 each", Wrong.HEAVY, "800"),
    ("plates 16.38", Wrong.FINE, "16.38"),
    ("dumbbells 2-30", Wrong.STEP, "2-30"),
    ("stack 100", Wrong.STEP, "100"),
    ("stack 5 to 10 by 5, 20", Wrong.STEP, "5 to 10 by 5, 20"),
    ("dumbbells 2-31 by 2", Wrong.OFF_STEP, "30 kg"),
    ("dumbbells 30-2 by 2", Wrong.FALLS, "30-2 by 2"),
    ("stack 1 to 500 by 1", Wrong.STEPS, "1 to 500 by 1"),
    (f"added {' '.join(map(str, range(1, 62)))}", Wrong.MANY, "60"),
    (f"plates {' '.join(map(str, range(1, 18)))}", Wrong.MANY, "16"),
    ("stack 5 to 10 by 5, add 1 2 3 4 5", Wrong.MANY, "4"),
    ("plates 2x20", Wrong.PAIRS, "2x20"),
    ("plates 20x0", Wrong.PAIRS, "20x0"),
    ("dumbbells 4 kg 6 8 lb", Wrong.UNITS, "6"),
    ("dumbbells 4 kg to 20 lb by 2 lb", Wrong.UNITS, "4 kg to 20 lb by 2 lb"),
    ("unit stone", Wrong.UNITS, "stone"),
    ("belt by 1 2", Wrong.ONE, "1 2"),
    ("light bar 15 20", Wrong.WORD, "light bar 15 20"),
    ("bars 20, light bar 15 16", Wrong.ONE, " 15 16"),
    ("collars 2.5", Wrong.EACH, "2.5"),
    ("collars some each", Wrong.NUMBER, "some"),
    ("bar 20\nbars 15", Wrong.TWICE, "bar"),
    ("bars 20, light bar 15, light bar 10", Wrong.TWICE, "light bar"),
    ("plates 20x2 20", Wrong.TWICE, "20"),
    ("handles 2, up to 20, up to 30", Wrong.TWICE, "up to 30"),
    ("handles 2, plates 5x2, one handle extra", Wrong.NUMBER, "one handle extra"),
    ("bands red, blue, red", Wrong.TWICE, "red, blue, red"),
    ("bands ,", Wrong.TWICE, ","),
    ("place home\nplace gym", Wrong.TWICE, "place"),
    ("bar 20 for juggling", Wrong.EXERCISE, "juggling"),
    ("stack 5 to 10 by 5 for leg press and juggling", Wrong.EXERCISE, "juggling"),
    ("alone sometimes", Wrong.YES_NO, "sometimes"),
    ("place ???", Wrong.PLACE, "???"),
    ("place plates", Wrong.PLACE, "plates"),
    ("bands red blue", Wrong.BANDS, "red blue"),
    ("bands red, <b>", Wrong.NAME, "<b>"),
    ("bars <i> 20", Wrong.NAME, "<i>"),
]


@each_row(("text", "code", "fact"), ASKED)
def test_what_is_not_clear_is_never_guessed(text: str, code: Wrong, fact: str) -> None:
    found = read_kit(text, (EMPTY,))

    assert [(each.code, each.fact) for each in found.problems] == [(code, fact)]


def test_every_problem_is_told_with_its_line_in_their_order() -> None:
    found = read_kit("rower\nbar 20\nalone maybe\nplace !!\n\ncollars 5", (EMPTY,))

    assert [(each.line, each.text, each.code) for each in found.problems] == [
        (1, "rower", Wrong.WORD),
        (3, "alone maybe", Wrong.YES_NO),
        (4, "place", Wrong.EMPTY),
        (6, "collars 5", Wrong.EACH),
    ]


def test_the_place_decides_what_the_lines_stand_on() -> None:
    gym, home = GYM, EMPTY.model_copy(update={"place": "home", "unit": Unit.LB, "belt": True})

    assert read_kit("bar 15", (gym, home)).kit == gym.model_copy(update={"bar": Mass.of(15)})
    for found in (
        read_kit("bar 15", (gym, home), place="home"),
        read_kit("bar 15\nplace Home", (gym, home)),
        read_kit("place home\nbar 15", (gym, home), place="home"),
    ):
        assert (found.problems, found.before) == ((), home)
        assert found.kit == home.model_copy(update={"bar": Mass.of(15, Unit.LB)})
    away = read_kit("place Aunt Jo's\nbar 15", (gym, home))
    assert (away.before, away.kit) == (None, Kit(place="aunt jo's", unit=Unit.KG, bar=Mass.of(15)))
    odd = read_kit("place gym\nbar 15", (gym, home), place="home")
    assert [(each.code, each.fact) for each in odd.problems] == [(Wrong.PLACE, "gym")]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Home", "home"),
        (" Aunt  Jo’s ", "aunt jo's"),
        ("gym-2", "gym-2"),
        ("", None),
        ("bar", None),
        ("plates 20", None),
        ("a" * 31, None),
        ("<b>", None),
    ],
)
def test_a_place_has_a_short_name_that_begins_no_line(text: str, name: str | None) -> None:
    assert place_name(text) == name


@pytest.mark.parametrize("kind", ["bar", "dumbbells", "both", "bodyweight"])
@pytest.mark.parametrize("unit", list(Unit))
def test_a_usual_kit_is_written_and_read_back(kind: str, unit: Unit) -> None:
    kit = default_kit(kind, unit)

    assert read_kit("\n".join(kit_lines(kit)), (Kit(place=kit.place, unit=unit),)).kit == kit


def test_a_whole_kit_is_written_as_it_is_typed() -> None:
    lines = (
        "bars 20, light bar 15, 10 for bench press and curl",
        "collars 5 together",
        "plates 20x2 10 2.5 plenty",
        "full size 10 20",
        "dumbbells 32.5, 2 to 30 by 2",
        "single dumbbells 40",
        "adjustable handles 2, plates 5x4 2.5x4, up to 30, 1 handle",
        "kettlebells 8 12",
        "single kettlebells 24",
        "stack by 5",
        "stack 5 to 100 by 5, add 2.5 for leg press",
        "assistance 5 to 60 by 5",
        "bands red, light blue",
        "belt by 1.25",
        "belt with plates",
        "added 5 10",
        "safety arms yes",
        "alone no",
    )
    read = read_kit("\n".join(lines), (EMPTY,))

    assert read.problems == ()
    assert kit_lines(read.kit) == (
        "bars 20, light bar 15, 10 for bench press and curl",
        *lines[1:],
    )
    assert kit_lines(read.kit, {})[0] == "bars 20, light bar 15, 10 for bench-press and curl"


def test_a_line_with_another_unit_writes_it_with_every_mass() -> None:
    text = "bars 20, 45 lb\nplates 20 kg x2, 45 lb x1, 10 kg\nhandles 5 lb\nbands very light,"

    assert kit_lines(read_kit(text, (EMPTY,)).kit)[:4] == (
        "bars 20 kg, 45 lb",
        "plates 45 lb x1 20 kg x2 10 kg plenty",
        "adjustable handles 5 lb",
        "bands very light,",
    )


def test_handles_are_counted_where_they_are_not_two() -> None:
    assert kit_lines(read_kit("handles 2, 3 handles", (EMPTY,)).kit)[0] == "adjustable handles 2, 3 handles"


NUMBERS = st.decimals(Decimal("0.25"), Decimal(400), places=2).map(lambda n: n - n % Decimal("0.25"))


@st.composite
def lines(draw: st.DrawFn) -> str:
    """A message of valid lines, each kind at most once."""

    def listed(most: int = 5) -> str:
        bare = draw(st.sampled_from(["", " kg", " lb"]))
        numbers = draw(st.lists(NUMBERS.filter(bool), min_size=1, max_size=most, unique=True))
        return ", ".join(f"{number}{bare}" for number in numbers)

    def ran() -> str:
        first, step, count = draw(st.tuples(st.integers(1, 20), st.integers(1, 5), st.integers(1, 30)))
        unit = draw(st.sampled_from(["", " kg", " lb"]))
        return f"{first} to {first + step * count} by {step}{unit}"

    def counted() -> str:
        numbers = draw(
            st.lists(st.sampled_from(["25", "20", "10", "2,5", "1.25", "0.5"]), unique=True, min_size=1)
        )
        pairs = [draw(st.sampled_from(["", "x1", "x2", "x9"])) for _ in numbers]
        return " ".join(map("".join, zip(numbers, pairs, strict=True)))

    names = st.sampled_from(["light bar", "ez", "fat", "old one"])
    bands = st.lists(st.sampled_from(["red", "blue", "very light", "x-heavy"]), min_size=1, unique=True)
    made = {
        "bar": lambda: f"{listed(1)}, {draw(names)} {listed(1)} for back squat and barbell curl, {listed(1)}",
        "collars": lambda: (
            f"{draw(st.sampled_from(['2,5', '0.25 lb', '5']))} {draw(st.sampled_from(['each', 'together']))}"
        ),
        "plates": counted,
        "full size": listed,
        "dumbbells": lambda: f"{listed()}, {ran()}" if draw(st.booleans()) else listed(),
        "single dumbbells": listed,
        "handles": lambda: f"{listed(1)}, plates {counted()}, {draw(st.integers(1, 9))} handles",
        "kettlebells": listed,
        "single kettlebells": listed,
        "stack": lambda: f"{ran()}, add {listed(2)} for leg press" if draw(st.booleans()) else ran(),
        "assistance": ran,
        "bands": lambda: f"{', '.join(draw(bands))},",
        "belt": lambda: draw(st.sampled_from(["with plates", "by 1.25", "by 5 lb"])),
        "added": listed,
        "safety arms": lambda: draw(st.sampled_from(["yes", "no"])),
        "alone": lambda: draw(st.sampled_from(["yes", "no"])),
    }
    kinds = draw(st.lists(st.sampled_from(list(made)), min_size=1, unique=True))
    return "\n".join(f"{kind} {made[kind]()}" for kind in kinds)


@given(lines(), st.sampled_from(list(Unit)))
def test_words_that_are_written_and_read_again_are_the_same_kit(text: str, unit: Unit) -> None:
    empty = Kit(place="shed", unit=unit)
    read = read_kit(text, (empty,))
    assume(all(each.code is not Wrong.UNITS for each in read.problems))
    assert read.problems == ()
    again = read_kit("\n".join(kit_lines(read.kit)), (empty,))

    assert (again.problems, again.kit) == ((), read.kit)


WORDS = (
    "bar bars plates dumbbells handles stack bands belt collars place unit add for by to x - , ; 20 2.5 2,5 0 "
    "kg lb each plenty none no yes and 999999 1.1.1 ٣ ½ <b> 🏋 up handle"
)
PIECES = st.sampled_from([*WORDS.split(), "\n"])


@given(st.one_of(st.text(max_size=200), st.lists(PIECES, max_size=30).map(" ".join)))
@example("bar \x00\u202e" * 400)
@example("9" * 4000)
@example("place\nunit\nplace x")
def test_nothing_that_is_typed_stops_the_reader(text: str) -> None:
    found = read_kit(text, (GYM,))

    assert found.problems or found.kit.place
    assert kit_lines(found.kit)
