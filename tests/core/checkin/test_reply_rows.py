from rows import each_row

from core.checkin.replies import read_reply
from tests.core.checkin import (
    reply_rows,
    reply_rows_asked,
    reply_rows_doubted,
    reply_rows_other,
    reply_rows_traps,
    reply_rows_writers,
)
from tests.core.checkin.reply_contexts import CONTEXTS, in_short

MODULES = (
    reply_rows,
    reply_rows_other,
    reply_rows_asked,
    reply_rows_writers,
    reply_rows_doubted,
    reply_rows_traps,
)
ROWS = [row for module in MODULES for row in module.ROWS]
ASKED = [row for row in ROWS if "ASK " in row[2]]


@each_row(("context", "text", "expected"), ROWS)
def test_a_reply_is_read(context: str, text: str, expected: str) -> None:
    assert in_short(read_reply(text, CONTEXTS[context])) == expected


@each_row(("context", "text"), [row[:2] for row in ASKED])
def test_a_reply_in_doubt_stores_nothing_before_it_is_answered(context: str, text: str) -> None:
    reading = read_reply(text, CONTEXTS[context])

    assert reading.ask
    assert (reading.sets, reading.as_written, reading.skip, reading.undo) == ((), False, False, False)


def test_the_table_holds_many_distinct_replies_of_which_many_are_asked_about() -> None:
    texts = {" ".join(text.casefold().split()) for _, text, _ in ROWS}
    asked = {" ".join(text.casefold().split()) for _, text, _ in ASKED}

    assert len({(context, text) for context, text, _ in ROWS}) == len(ROWS)
    assert len(texts) >= 750
    assert len(asked) >= 180
