"""Questions of the check-in: what is read of an answer, what is asked about, what a coach's line changes."""

import pytest
from pydantic import ValidationError
from rows import each_row

from core.checkin.check_in import (
    BLOCK_END,
    CHECK_IN,
    MOST,
    PARTS,
    Answer,
    Change,
    Kind,
    Question,
    answer_read,
    asks_for_number,
    change_read,
    changed,
    is_of_body,
)

HARD, REST, WORRY, WIN = CHECK_IN
YES_NO = Question(text="Did you eat enough?", kind=Kind.YES_NO)
FIVE = Question(text="How was your sleep?", kind=Kind.FIVE)


@pytest.mark.parametrize(
    ("text", "question", "chosen"),
    [
        ("hard", HARD, {0: 1}),
        ("Very hard.", HARD, {0: 0}),
        ("just right", HARD, {0: 2}),
        ("easy", HARD, {0: 3}),
        ("good, low", REST, {0: 0, 1: 0}),
        ("sleep bad, stress high", REST, {0: 2, 1: 2}),
        ("stress was high and sleep ok", REST, {0: 1, 1: 2}),
        ("sleep: good; stress: medium", REST, {0: 0, 1: 1}),
        ("sleep good", REST, {0: 0}),
        ("yes", YES_NO, {0: 0}),
        ("nope", YES_NO, {0: 1}),
        ("very good", FIVE, {0: 4}),
        ("so so", FIVE, {0: 2}),
        ("too long", BLOCK_END[1], {0: 0}),
    ],
)
def test_words_of_ours_are_read_in_any_order(text: str, question: Question, chosen: dict[int, int]) -> None:
    assert answer_read(text, question) == Answer(chosen=chosen)


@pytest.mark.parametrize(
    ("text", "question"),
    [
        ("nothing", WORRY),
        ("skip", WIN),
        ("no", WORRY),
        ("Nothing really.", WIN),
        ("skip", HARD),
        ("skip", YES_NO),
    ],
)
def test_somebody_may_have_nothing_to_say(text: str, question: Question) -> None:
    assert answer_read(text, question) == Answer(none=True)


@pytest.mark.parametrize(
    ("text", "question"), [("very hrad", HARD), ("medum", REST), ("agout right", HARD), ("very god", FIVE)]
)
def test_a_slip_is_asked_about_and_never_taken(text: str, question: Question) -> None:
    assert answer_read(text, question) == Answer(near=True)


@pytest.mark.parametrize(
    ("text", "question"),
    [
        ("my new shifts make the mornings hard", HARD),
        ("I worry about my left knee", WORRY),
        ("sleep good but I was up for the baby", REST),
        ("7", HARD),
        ("hard", WORRY),
        ("", WIN),
    ],
)
def test_anything_else_is_a_line_of_her_own(text: str, question: Question) -> None:
    assert answer_read(text, question) is None


def test_what_we_ask_fits_its_own_rules() -> None:
    assert len(CHECK_IN) == len(BLOCK_END) == MOST
    assert not any(asks_for_number(each.text) for each in (*CHECK_IN, *BLOCK_END))
    words = [word for parts in PARTS.values() for part in parts for word in part.words]
    assert not any(letter.isdigit() for word in words for letter in word)


@pytest.mark.parametrize("words", [part.words for parts in PARTS.values() for part in parts])
def test_no_row_names_a_word_twice(words: tuple[str, ...]) -> None:
    assert len(set(words)) == len(words)


@pytest.mark.parametrize(
    "text",
    [
        "How was your sleep from 1 to 10?",
        "Stress, 0-10?",
        "How tired are you, on a scale?",
        "Mood out of ten",
        "Energy 1–5",
        "Energy: x/10",
        "Rate it one to five",
    ],
)
def test_a_scale_of_numbers_is_seen(text: str) -> None:
    assert asks_for_number(text)


@pytest.mark.parametrize(
    "text", ["Did you walk 10 minutes a day?", "What are your top 3 wins?", "Sleep by 11?"]
)
def test_other_numbers_are_no_scale(text: str) -> None:
    assert not asks_for_number(text)


@pytest.mark.parametrize(
    ("text", "expected"), [("Any pain this week?", True), ("Does it hurt?", True), ("Paint?", False)]
)
def test_words_of_the_body_are_seen(text: str, expected: bool) -> None:
    assert is_of_body(text) is expected


@each_row(
    ("text", "change"),
    [
        ("3 How was your sleep?", Change(what="put", number=3, text="How was your sleep?")),
        ("3: How was your sleep?", Change(what="put", number=3, text="How was your sleep?")),
        ("3 yes or no: Any pain?", Change(what="put", number=3, text="Any pain?", kind=Kind.YES_NO)),
        ("3 yes or no", Change(what="kind", number=3, kind=Kind.YES_NO)),
        ("3 as free line", Change(what="kind", number=3, kind=Kind.FREE)),
        ("out 2", Change(what="out", number=2)),
        ("2 out", Change(what="out", number=2)),
        ("add Did you eat enough?", Change(what="add", text="Did you eat enough?")),
        ("add five words: Your mood?", Change(what="add", text="Your mood?", kind=Kind.FIVE)),
        ("add Note: your mood?", Change(what="add", text="Note: your mood?")),
        ("off Ada", Change(what="off", text="Ada")),
        ("On Ada Berg", Change(what="on", text="Ada Berg")),
        ("reset", Change(what="reset")),
        ("how are you", None),
        ("", None),
    ],
)
def test_a_coachs_line_is_read(text: str, change: Change | None) -> None:
    assert change_read(text) == change


def test_a_question_that_is_worded_anew_keeps_its_kind_where_that_fits_any() -> None:
    after = changed(CHECK_IN, Change(what="put", number=1, text="Your week?"))
    again = changed((FIVE,), Change(what="put", number=1, text="Your mood?"))

    assert after is not None
    assert after[0] == Question(text="Your week?", kind=Kind.FREE)
    assert again == (Question(text="Your mood?", kind=Kind.FIVE),)


def test_questions_are_taken_out_added_and_put_back() -> None:
    fewer = changed(CHECK_IN, Change(what="out", number=2))
    assert fewer == (HARD, WORRY, WIN)
    assert changed(fewer, Change(what="add", text="Your mood?", kind=Kind.FIVE)) == (
        *fewer,
        Question(text="Your mood?", kind=Kind.FIVE),
    )
    assert changed(fewer, Change(what="add", text="Your mood?")) == (
        *fewer,
        Question(text="Your mood?", kind=Kind.FREE),
    )
    assert changed(fewer, Change(what="reset")) == CHECK_IN


def test_a_kind_is_changed_and_the_words_stay() -> None:
    after = changed(CHECK_IN, Change(what="kind", number=4, kind=Kind.YES_NO))

    assert after is not None
    assert after[3] == Question(text=WIN.text, kind=Kind.YES_NO)
    assert changed((FIVE,), Change(what="kind", number=1)) == (FIVE,)


@pytest.mark.parametrize(
    "change",
    [Change(what="out", number=5), Change(what="put", number=0, text="x"), Change(what="add", text="x")],
)
def test_what_is_not_there_changes_nothing(change: Change) -> None:
    assert changed(CHECK_IN, change) is None


def test_a_question_has_its_bounds() -> None:
    with pytest.raises(ValidationError):
        Question(text="", kind=Kind.FREE)
    with pytest.raises(ValidationError):
        Question(text="x" * 121, kind=Kind.FREE)
