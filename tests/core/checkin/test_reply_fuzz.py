import json
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.checkin.body_words import score_of
from core.checkin.reading import BodyRead, Reading, SetRead
from core.checkin.reading_json import as_json
from core.checkin.replies import read_reply
from core.units import Mass, Unit
from tests.core.checkin.reply_contexts import CONTEXTS, in_short

QUESTIONS = ("reps left", "pain score", "load", "bodyweight", "something else", None)
CODECS = ("utf-8", "utf-16", "utf-16-be", "latin-1", "cp1252", "cp1256", "shift_jis", "koi8-r")
LONGEST = 4000
PIECES = [
    *"0123456789 ,./x@+-()[]#?!~&|:;\n\x00'",
    *("8 ", "80", "92,5", "1:00", "bw", "kg", "lb", "s ", "min", "left ", "right ", "rir", "rpe", "pain", "sore"),
    *("knee ", "back ", "done", "skip", "undo", "all ", "sets", "reps", "to failure", " a side", "total", "no "),
    *("😟", "٣", "\uff18", "½", "é", "\u202e", "עברית ", "/log ", "1) ", "of ", "each ", "8️⃣", "🔟", "e\u0301\u0323"),
    *("eighty ", "eight ", "hundred ", "and a half ", "point ", "sorry ", "no wait ", "hip thrust ", "thursts "),
    # The Arabic decimal mark is meant.
    *("999999999999", "1e9", "-0", "nan ", "inf ", "0.0000001", "\u066b", "fives ", "1st ", "set 1 ", "more ", "or "),
    *("could have done ", "instead of ", "3-4 ", "quads ", "weight ", "\u0000", "\ud800", "4/5 "),
]  # fmt: skip

contexts = st.sampled_from(sorted(CONTEXTS))
heaps = st.lists(st.sampled_from(PIECES), max_size=60).map("".join)


def sensible_set(one: SetRead) -> bool:
    load = Decimal((one.load or "0").removeprefix("bw") or "0")
    kg = Mass(load, one.unit or Unit.KG).kg
    return (
        load.is_finite()
        and abs(kg) <= 500
        and (kg >= 0 or (one.load or "").startswith("bw"))
        and 0 <= (one.reps or 0) <= 200
        and 0 <= (one.seconds or 0) <= 3600
        and (one.rir is None or 0 <= one.rir <= 10)
        and (one.rpe is None or 1 <= Decimal(one.rpe) <= 10)
    )


def sensible_body(one: BodyRead) -> bool:
    return one.score is None or score_of(Decimal(one.score)) is not None


def assert_sensible(reading: Reading) -> None:
    for each in (reading, *reading.ask):
        assert all(sensible_set(one) for one in each.sets), in_short(reading)
        assert all(sensible_body(one) for one in (*each.pain, *each.soreness))
        assert each.effort.rir is None or 0 <= each.effort.rir <= 10
        assert each.effort.rpe is None or 1 <= Decimal(each.effort.rpe) <= 10
        assert len(each.sets) <= 120
    assert len(reading.ask) <= 6
    assert not (reading.ask and (reading.sets or reading.as_written or reading.skip or reading.undo))
    assert Reading.model_validate(reading.model_dump()) == reading
    assert json.loads(json.dumps(as_json(reading)))["understood"] is reading.understood


@given(heaps, contexts, st.sampled_from(QUESTIONS))
def test_no_heap_of_pieces_raises_or_gives_absurd_numbers(
    text: str, context: str, question: str | None
) -> None:
    asked = CONTEXTS[context].model_copy(update={"open_question": question})

    assert_sensible(read_reply(text, asked))


@given(st.text(alphabet=st.characters(codec=None), max_size=200), contexts)
def test_no_text_raises_and_none_is_lost(text: str, context: str) -> None:
    reading = read_reply(text, CONTEXTS[context])

    assert_sensible(reading)
    assert reading.understood or reading.note is not None or not text.strip()


@given(st.binary(max_size=300), st.sampled_from(CODECS), contexts)
def test_no_bytes_raise_however_they_are_decoded(raw: bytes, codec: str, context: str) -> None:
    assert_sensible(read_reply(raw.decode(codec, "replace"), CONTEXTS[context]))


@given(st.lists(st.sampled_from(PIECES), min_size=1, max_size=4), contexts)
def test_no_text_of_four_thousand_characters_raises(pieces: list[str], context: str) -> None:
    piece = "".join(pieces)
    text = (piece * (LONGEST // len(piece)))[:LONGEST]

    assert_sensible(read_reply(text, CONTEXTS[context]))


@given(
    st.lists(st.integers(0, 12), min_size=2, max_size=8),
    st.sampled_from([" ", ", ", ",", "-", "/", "\n"]),
    st.sampled_from(["80", "77,5", "82.5"]),
)
def test_sets_come_back_as_they_were_written(counts: list[int], between: str, load: str) -> None:
    reading = read_reply(f"{load} kg {between.join(map(str, counts))}", CONTEXTS["hip80"])

    if reading.sets:
        assert [each.reps for each in reading.sets] == counts
        assert {each.load for each in reading.sets} == {load.replace(",", ".")}


@given(st.decimals(0, 99999, places=2), st.lists(st.integers(0, 40), min_size=1, max_size=5))
def test_a_load_far_from_all_that_is_known_is_never_kept_unasked(load: Decimal, counts: list[int]) -> None:
    reading = read_reply(f"{load} kg {' '.join(map(str, counts))}", CONTEXTS["hip80"])

    assert all(40 <= Decimal(each.load or 0) <= 96 for each in reading.sets)


LONG = [
    "8 " * 2000,
    "8," * 2000,
    "8x" * 2000,
    "92,5 " * 800,
    "my left knee hurts " * 210,
    "no chest pain or " * 235,
    "9" * 4000,
    "½" * 4000,
    "knee and " * 444,
    "qauds " * 666,
    "\n" * 4000,
    "عربي " * 800,
    "80x8x3 8 @8 " * 10,
    "92,5 " * 24,
    "eighty eight " * 9,
    "1 min 1 min 45 s " * 12,
    "sorry 8 " * 500,
    "hip thrust " * 360,
    "hundred and a half " * 200,
]


@each_row("text", LONG)
def test_a_long_text_gives_a_small_reading(text: str) -> None:
    assert_sensible(read_reply(text, CONTEXTS["hip"]))
