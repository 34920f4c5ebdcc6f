import pytest
from rows import each_row

from bot.localchat.answers import Refused
from bot.localchat.keyboards import Markup, inline_only, markup_of


def inline(*rows):
    return {"inline_keyboard": [list(row) for row in rows]}


def data(value, label="OK"):
    return {"text": label, "callback_data": value}


URL = {"text": "Read", "url": "https://sea.example/a"}
COPY = {"text": "Copy", "copy_text": {"text": "80x5"}}


@pytest.mark.parametrize(
    ("given", "keys"),
    [
        (inline([data("1")]), ((("OK", "1"),),)),
        (inline([data("1"), URL], [COPY]), ((("OK", "1"), ("Read", None)), (("Copy", None),))),
        (inline([data("é" * 32)]), ((("OK", "é" * 32),),)),
        (inline([], [data("1")]), ((("OK", "1"),),)),
        (inline(), ()),
        (
            inline(*[[data("1")] * 8] * 12, [data("1")] * 4),
            ((("OK", "1"),) * 8,) * 12 + ((("OK", "1"),) * 4,),
        ),
    ],
)
def test_buttons_in_the_message(given, keys):
    assert markup_of(given).keys == keys
    assert inline_only(given) == markup_of(given)


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        (None, Markup()),
        ({"force_reply": True}, Markup(asks_reply=True)),
        ({"force_reply": True, "input_field_placeholder": "80x5"}, Markup(asks_reply=True)),
        ({"force_reply": False}, Markup()),
        ({"keyboard": [["1", {"text": "2"}]], "resize_keyboard": True}, Markup(typed=(("1", "2"),))),
        ({"remove_keyboard": True}, Markup(typed=())),
        ({"remove_keyboard": False}, Markup()),
    ],
)
def test_other_kinds_are_taken(given, expected):
    assert markup_of(given) == expected


@each_row(
    ("given", "words"),
    [
        (inline([data("é" * 33)]), "BUTTON_DATA_INVALID"),
        (inline([data("")]), "BUTTON_DATA_INVALID"),
        (inline([data(5)]), "BUTTON_DATA_INVALID"),
        (inline([data("1", "")]), "text must be non-empty"),
        (inline([data("1", " ")]), "text must be non-empty"),
        (inline([{"callback_data": "1"}]), "text must be non-empty"),
        (inline(["OK"]), "text must be non-empty"),
        (inline([{"text": "OK"}]), "exactly one action"),
        (inline([data("1") | {"url": "https://sea.example"}]), "exactly one action"),
        (inline([{"text": "OK", "pay": True}]), "exactly one action"),
        (inline([{"text": "OK", "url": "sea"}]), "Wrong HTTP URL"),
        (inline([{"text": "OK", "copy_text": {"text": "x" * 257}}]), "BUTTON_COPY_TEXT_INVALID"),
        (inline(*[[data("1")]] * 101), "REPLY_MARKUP_TOO_LONG"),
        (inline([data("1")] * 9), "REPLY_MARKUP_TOO_LONG"),
        ({"inline_keyboard": data("1")}, "rows of buttons expected"),
        ({"inline_keyboard": [data("1")]}, "rows of buttons expected"),
        ({"keyboard": []}, "it has no buttons"),
        ({"keyboard": [[""]]}, "not empty expected"),
        ({"keyboard": [[{"text": "1", "request_contact": True}]]}, "nothing else"),
        ({"force_reply": True, "input_field_placeholder": "x" * 65}, "placeholder"),
        ({"force_reply": True, "colour": "red"}, "no other field"),
        ({}, "one of the four kinds"),
        (inline([data("1")]) | {"force_reply": True}, "no other field"),
    ],
)
def test_what_breaks_a_limit_is_refused(given, words):
    with pytest.raises(Refused) as refused:
        markup_of(given)
    assert refused.value.status == 400
    assert words in refused.value.words


@pytest.mark.parametrize("given", [{"force_reply": True}, {"keyboard": [["1"]]}, {"remove_keyboard": True}])
def test_an_edit_takes_only_buttons_in_the_message(given):
    with pytest.raises(Refused, match="inline keyboard expected"):
        inline_only(given)
