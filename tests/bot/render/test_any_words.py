"""No words of anybody change the tags of a message: every function that writes one is tried, a parameter at a time.

Values are made by their types (`any_words`), once with plain words and once with marks of HTML in them. A parameter
that takes HTML which was written and escaped before is listed.
"""

import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from contextlib import suppress
from functools import cache
from importlib import import_module
from typing import Any, get_type_hints

from examples import examples
from hypothesis import given
from hypothesis import strategies as st

import bot.render
from bot.messages import Message
from tests.bot.render.any_words import PLAIN, named

MARKS = '<b>a</i>&amp;"<a href="x">&'
WRITTEN = {
    "about": "questionnaire.passed_on",
    "asks": "goals.listed",
    "before": "contract.kept contract.ended",
    "comeback": "away.back illness.free",
    "coming": "away.taken_back away.back",
    "command": "pausing.how_to season.unread season.who whose.which",
    "contract": "contract.standing contract.kept contract.ends_soon",
    "day": "check_in.listed",
    "doing": "pain_alert.alert",
    "found": "client_log.log",
    "gone": "correcting.told_client",
    "head": "forwarding.carried setting_up.pages",
    "hours": "office_hours.shown office_hours.kept office_hours.outside",
    "html": "alert_answers.grown_since alerts.not_seen",
    "last": "questionnaire.ended",
    "line": "coach_away.kept",
    "lines": "misses.decided setting_up.pages",
    "load": "orders_said.held_by_pain",
    "message": "alerts.second_saw daily_prep.undoable emergency.with_number pain.with_more",
    "note": (
        "away.ask_until away.ask_training check_in.listed check_in.one clinician_limits.standing "
        "coach_settings.menu correcting.ask_sets cues.listed goals.listed illness.ask_kind "
        "illness.ask_well invitations.open_ones leaving.stop_question orders_said.holds "
        "orders_said.standing other_training.kept own_data.forget_question plan_week.week "
        "plan_week.dates previewing.which_block previewing.which_day previewing.which_week "
        "previewing.as_the_client_sees reminding.reminder setting_up.which_client "
        "setting_up.which_block setting_up.which_start setting_up.summary_card "
        "setting_up.which_instead versions.ask versions.ask_date versions.applied "
        "week_changes.which_week week_changes.applied raises.waiting"
    ),
    "notes": "orders_said.read_back",
    "other": "rules_said.in_the_way",
    "over": "orders_said.standing",
    "place": (
        "morning.ask pain.ask_score pain.ask_feel pain.ask_when replies.lock_stays way_out.ask "
        "way_out.answered"
    ),
    "rule": (
        "rules.preview rules_said.not_now rules_said.in_the_way rules_said.only_for_all "
        "rules_said.not_for_exercise"
    ),
    "said": "illness.noted_cold misses.taken_up",
    "span": "coach_away.shown coach_away.kept coach_away.taken_back coach_away.over coach_away.settled",
    "stands": "orders_said.standing",
    "text": "setting_up.which_instead",
    "title": "questionnaire.waits questionnaire.over questionnaire.ended",
    "told": (
        "orders_said.read_back orders_said.holds orders_said.undone orders_said.held_by_pain raises.ask_load"
    ),
    "wanted": "video_asked.asked video_asked.taken_back video_asked.settled",
    "what": "reminding.settled",
    "why": "goals.refused orders_said.cannot orders_said.held_by_pain",
}
"""By parameter, the functions whose parameter of this name takes HTML that was written before, words of our own, or
loads: nobody's words come there as they were typed."""
REACHED = 430
"""Least number of functions that can be called by rule; of the others the walks over talks see what they write."""


@cache
def writers() -> dict[str, Callable[..., Any]]:
    """Every public function of render that gives back messages."""
    found = {}
    for module in pkgutil.iter_modules(bot.render.__path__, "bot.render."):
        for name, value in vars(import_module(module.name)).items():
            if not inspect.isfunction(value) or value.__module__ != module.name or name.startswith("_"):
                continue
            if "Message" in str(value.__annotations__.get("return")):
                found[f"{module.name.rpartition('.')[2]}.{name}"] = value
    return found


def messages_in(value: Any) -> Iterator[Message]:
    if isinstance(value, Message):
        yield value
    elif isinstance(value, tuple | list):
        for each in value:
            yield from messages_in(each)


def arguments(function: Callable[..., Any], marked: str, word: str) -> dict[str, Any]:
    hints = get_type_hints(function)
    return {
        name: named(name, hints[name], word if name == marked else PLAIN)
        for name in inspect.signature(function).parameters
    }


def shape(html: str) -> tuple[list[str], int]:
    """The tags of a text in order, and how many marks in it belong to nothing."""
    bare = re.sub(r"</?[a-z]+(?: [a-z]+=\"[^\"<>]*\")?>", "", html)
    return re.findall(r"<[^>]*>", html), len(re.findall(r"[<>]|&(?!(?:lt|gt|amp|quot|#x?[0-9a-f]+);)", bare))


def changed_by(name: str, word: str) -> list[str]:
    """The parameters of a function whose words change the tags; raises where it cannot be called by rule."""
    function, found = writers()[name], []
    plain_word = re.sub(r"\W", "x", word)
    for each in inspect.signature(function).parameters:
        if name in WRITTEN.get(each, "").split():
            continue
        plain = [shape(one.html) for one in messages_in(function(**arguments(function, each, plain_word)))]
        marked = [shape(one.html) for one in messages_in(function(**arguments(function, each, word)))]
        if plain != marked or any(bare for _, bare in marked):
            found.append(f"{name} {each}")
    return found


@cache
def callable_ones() -> tuple[str, ...]:
    """The functions that can be called with values made by rule."""
    found = []
    for name in writers():
        # Any error: what a made-up value makes a function do is not looked at here.
        with suppress(Exception):
            changed_by(name, PLAIN)
            found.append(name)
    return tuple(found)


def test_no_word_changes_the_tags_of_a_message() -> None:
    assert len(callable_ones()) >= REACHED
    assert [each for name in callable_ones() for each in changed_by(name, MARKS)] == []


@given(st.data(), st.text("<>&\"'/;#=abi", max_size=12))
@examples(60)
def test_no_words_of_any_make_change_them(data: st.DataObject, word: str) -> None:
    name = data.draw(st.sampled_from(callable_ones()))

    assert changed_by(name, f"w{word}") == []


def test_what_is_listed_as_written_before_is_a_parameter_of_what_there_is() -> None:
    listed = [(name, parameter) for parameter, names in WRITTEN.items() for name in names.split()]

    assert [each for each in listed if each[1] not in inspect.signature(writers()[each[0]]).parameters] == []


def test_a_word_that_is_not_escaped_is_found() -> None:
    assert shape("<b>a</b> &amp; x") == (["<b>", "</b>"], 0)
    assert shape(f"<b>{MARKS}</b>") != shape("<b>x</b>")
    assert shape("a & b")[1] == shape("a < b")[1] == 1
