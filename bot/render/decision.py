"""A decision with what it rests on, as plain lines for whoever wants to check it."""

import re
from collections.abc import Iterator
from html import unescape

from bot.render.loads import dose_words
from bot.render.pain import place_words
from bot.render.reasons import reason_line, rests_on_note, row_words
from core.loads.decision import Ceiling, Decision, Exposure, Inputs, Reason, SetDone


def decision_lines(inputs: Inputs, decision: Decision, *, coach: bool = False) -> list[str]:
    """Say what was decided and why, the load line with every ceiling, and what was known.

    The reasons are in the client's words, or in those for her coach where `coach`.
    """
    exercise = inputs.exercise
    asked = _plain(dose_words(inputs.dose, exercise))
    given = "nothing" if decision.load is None else str(decision.load)
    left = "" if decision.left is None else f", {decision.left} left"
    sets = "1 set" if decision.sets == 1 else f"{decision.sets} sets"
    lines = [
        f"{exercise.name}, week {inputs.moment.week_no}, {inputs.moment.today.isoformat()}",
        f"Written: {asked}",
        f"Decided: {decision.kind}, {given}, {sets} of {decision.target}{left}",
        "",
        "Why, by authority:",
        *(f"  {_reason(one, noted=rests_on_note(decision), coach=coach)}" for one in decision.reasons),
        "",
        f"Load line: {'none' if decision.line.mass is None else decision.line.mass}",
        *(f"  {_ceiling(one)}" for one in decision.line.ceilings),
        "",
        "What was known:",
        *(f"  {line}" for line in _known(inputs)),
    ]
    rests = [*(row_words(row) for row in decision.used), *(f"report {row}" for row in decision.pain_used)]
    if rests:
        lines += ["", f"Rests on: {', '.join(rests)}"]
    return lines


def _plain(html: str) -> str:
    return unescape(re.sub(r"<[^>]+>", "", html))


def _reason(one: Reason, *, noted: bool, coach: bool) -> str:
    source = f" [{one.source}]" if one.source else ""
    return f"{_plain(reason_line(one, noted=noted, coach=coach))} ({one.code}){source}"


def _ceiling(one: Ceiling) -> str:
    most = "nothing" if one.mass is None else f"at most {one.mass}"
    return f"{most}: {one.reason.code}"


def _known(inputs: Inputs) -> Iterator[str]:
    lifter = inputs.lifter
    new = ", in the first three months" if lifter.new else ""
    frozen = ", plan on hold" if lifter.frozen else ""
    yield f"Age band {lifter.age_band}{new}{frozen}; place: {inputs.kit.place}"
    for exposure in inputs.history:
        yield _exposure(exposure)
    if not inputs.history:
        yield "No history of this exercise."
    for report in lifter.pain:
        where = place_words(report.site, report.side)
        score = "no number" if report.score is None else f"{report.score} of 10"
        yield f"{report.on.isoformat()}  pain {where}: {score}"
    for order in inputs.orders:
        yield f"Order of the coach: {order.kind}"


def _exposure(exposure: Exposure) -> str:
    asked = "none" if exposure.dose.load is None else str(exposure.dose.load)
    sets = ", ".join(_set(each) for each in exposure.sets) or "nothing"
    tail = f", {exposure.outcome}" + (f" ({exposure.cause})" if exposure.cause else "")
    marks = [
        word
        for word, stands in (
            ("noted by the coach", exposure.session_id < 0),
            ("taps alone", exposure.by_tap and exposure.session_id >= 0),
            ("lighter week", exposure.deload or exposure.dose.lighter),
            ("eased", exposure.eased),
            ("two sessions in one", exposure.merged),
        )
        if stands
    ]
    effort = [] if exposure.effort is None else [f"effort {exposure.effort} of 5"]
    return f"{exposure.on.isoformat()}  asked {asked}: {sets}{tail}{''.join(f', {one}' for one in marks + effort)}"


def _set(one: SetDone) -> str:
    side = f"{one.side} " if one.side else ""
    load = "" if one.load is None else f"{one.load} "
    counted = (
        (one.reps, "×{}"),
        (one.seconds, "{} s"),
        (one.metres, "{} m"),
    )
    done = " ".join(words.format(count) for count, words in counted if count is not None)
    left = "" if one.left is None else f" ({one.left} left)"
    return f"{side}{load}{done}{left}"
