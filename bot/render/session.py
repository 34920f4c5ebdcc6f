"""The session card: one message that is edited as a session goes on."""

from html import escape

from bot.messages import Action, Button, Message, Rows
from bot.render.examples import typed_example
from bot.render.exercise_names import in_sentence
from bot.render.in_turn import in_turn_line, in_turn_with
from bot.render.loading import loading_lines
from bot.render.loads import rest_words
from bot.render.personalise import instead_because
from bot.render.place_today import kind_screen, place_buttons, place_screen
from bot.render.prepping import prep_label, prep_line, prep_screen
from bot.render.reasons import why_line
from bot.render.resting import reminder_buttons
from bot.render.session_end import (
    closed_screen,
    feel_screen,
    held_screen,
    left_screen,
    not_today_screen,
    other_day_screen,
)
from bot.render.session_lines import head, item_line, last_time, weaker_side
from bot.render.session_views import ItemView, SessionView
from bot.render.short_on_time import short_screen
from bot.render.showing import clip_buttons, cue_of
from bot.render.swapping import swap_screen
from core.programme.effort_cells import left_text
from core.programme.prescription import Dose, LoadKind

MOST_JUMPS = 6
"""Most exercises that have a button of their own under the open one; more would be too narrow for a thumb."""


def session_card(view: SessionView) -> Message:
    """Show a session at the screen it is on."""
    shown = SCREENS[view.screen](view)
    note = f"{view.note}\n\n" if view.note else ""
    return Message(f"{note}{shown.html}", rows=shown.rows, silent=shown.silent, protect=True)


def _overview(view: SessionView) -> Message:
    lines = [prep_line(view.prep, view.prepped)] if view.prep else []
    for each in view.items:
        lines += [line for line in (in_turn_line(each, view.items), item_line(each)) if line]
        if each.item.state == "open" and (before := last_time(each, view.local_on)):
            lines.append(f"     {before}")
        if each.item.state == "open" and each.video:
            lines.append(f"     {each.video}")
    first: Rows = (
        (view.button("All done as written", Action.ALL_DONE),),
        (
            view.button("Start", Action.START),
            view.button("Not today", Action.NOT_TODAY),
            view.button("Short on time", Action.SHORT),
        ),
    )
    if not any(each.item.state == "open" for each in view.items):
        lines += ["", "Nothing of it can be done today: see Why these loads."]
        first = ((view.button("Not today", Action.NOT_TODAY),),)
    more: tuple[Button, ...] = (view.button(prep_label(view), Action.PREP),) if view.prep else ()
    if any(each.item.state == "skipped" and each.item.cause == "time" for each in view.items):
        more = (*more, view.button("Undo", Action.UNDO))
    last = (view.button("Why these loads", Action.WHY), view.button("Something hurts", Action.HURTS))
    places = place_buttons(view) if view.several_places else ()
    rows = (*first, *(each for each in (more, places) if each), last)
    return Message("\n".join([head(view), "", *lines]), rows=rows)


def _item(view: SessionView) -> Message:
    each = view.current()
    if each is None:
        return _overview(view)
    others = [other for other in view.items if other.item.state == "open" and other is not each]
    done = [other for other in view.items if other.item.state == "done"]
    lines = [head(view), "", item_line(each), *_how(each, view)]
    if done or others:
        lines.append("")
    if done:
        lines.append("Done: " + ", ".join(_short(other) for other in done))
    if others:
        lines.append("To come: " + ", ".join(_short(other) for other in others))
    return Message("\n".join(lines), rows=_item_rows(view, each, others))


def _how(each: ItemView, view: SessionView) -> list[str]:
    """Return how the open exercise is done: last time, ramp, plates, effort, rest and tempo, cue."""
    lines = []
    if before := last_time(each, view.local_on):
        lines.append(before[0].upper() + before[1:])
    if each.to_find:
        lines += _search(each)
    elif not each.item.given.told_by_tap:
        lines.append(f"Type what you did, like <code>{escape(typed_example(each))}</code>.")
    lines += loading_lines(each)
    in_turn = in_turn_with(each, view.items)
    details = _details(each, in_turn=in_turn is not None)
    lines += [line for line in (details, in_turn) if line]
    if weaker := weaker_side(each):
        lines.append(weaker)
    cue = cue_of(each)
    if cue:
        lines.append(escape(cue))
    if each.video:
        lines.append(each.video)
    return lines


def _search(each: ItemView) -> list[str]:
    facts = each.search
    if not facts:
        return [f"Type the load and each set, like <code>{escape(typed_example(each))}</code>."]
    return [
        (
            f"Find the load today: begin with {facts['first']}, add {facts['low']} to {facts['high']} % a set, "
            f"stop when {facts['left']} more would go, after {facts['sets']} sets at the latest."
        ),
        f"Then type the load and each set, like <code>{escape(typed_example(each))}</code>.",
    ]


def _short(each: ItemView) -> str:
    return f"{each.item.prescription.order} {escape(each.exercise.name)}"


def _details(each: ItemView, *, in_turn: bool) -> str:
    written, left = each.item.prescription, each.item.given.left
    parts = []
    if left and not each.to_find and not each.item.given.to_left:
        parts.append(_keep(each.item.given))
    if written.rest_s and not in_turn:
        parts.append(f"Rest {rest_words(written.rest_s)}")
    if written.tempo and not each.stands_in:
        parts.append(f"Tempo {written.tempo}")
    return " · ".join(parts)


def _keep(given: Dose) -> str:
    if given.rpe is None:
        text = left_text(given)
        return f"Keep {text} rep{'' if text == '1' else 's'} left"
    fewest, most = given.rpe.left
    between = given.rpe.low == given.rpe.high and given.rpe.low % 1
    left = (
        f"{fewest}, maybe {fewest + 1}" if between else f"{fewest}" if fewest == most else f"{fewest}-{most}"
    )
    return f"{given.rpe}: {left} left"


def _item_rows(view: SessionView, each: ItemView, others: list[ItemView]) -> Rows:
    item_id = each.item.id
    skip = view.button("Skip", Action.SKIP, item_id)
    swap = view.button("Swap", Action.SWAP, item_id)
    rows: list[tuple[Button, ...]] = [(swap, skip)]
    if each.item.given.told_by_tap:
        rows = [
            (view.button("Done as written", Action.DONE, item_id),),
            (view.button("Change numbers", Action.CHANGE, item_id), swap, skip),
        ]
    if others:
        rows.append(
            tuple(
                view.button(other.item.prescription.order, Action.JUMP, other.item.id)
                for other in others[:MOST_JUMPS]
            )
        )
    short = (view.button("Short on time", Action.SHORT),) if others else ()
    reminders = reminder_buttons(view, each)
    beside = reminders if len(reminders) == 1 else ()
    if shown := (*clip_buttons(each), *short, *beside):
        rows.append(shown)
    if len(reminders) > 1:
        rows.append(reminders)
    rows.append(
        (
            view.button("Undo", Action.UNDO),
            view.button("Why", Action.WHY),
            view.button("End here", Action.NOT_TODAY),
            view.button("Hurts", Action.HURTS, item_id),
        )
    )
    return tuple(rows)


def _change(view: SessionView) -> Message:
    each = view.current()
    if each is None:
        return _overview(view)
    item_id = each.item.id
    rows: list[tuple[Button, ...]] = []
    if each.item.given.reps is not None and each.item.given.told_by_tap:
        rows.append(
            (
                view.button("Last set −1", Action.LAST_LESS, item_id * 4 + 1),
                view.button("Last set −2", Action.LAST_LESS, item_id * 4 + 2),
            )
        )
    load = each.item.given.load
    if load is not None and load.kind is LoadKind.MASS:
        rows.append(
            (
                view.button("Lighter", Action.LIGHTER, item_id),
                view.button("Heavier", Action.HEAVIER, item_id),
            )
        )
    rows.append((view.button("Back", Action.BACK),))
    counted = load is not None and load.kind is not LoadKind.BAND
    what = "the load and each set" if counted else "each set"
    return Message(
        f"{item_line(each)}\n\nOr type {what}, like <code>{escape(typed_example(each))}</code>.",
        rows=tuple(rows),
    )


def _why(view: SessionView) -> Message:
    named: dict[str, list[str]] = {}
    for each in view.items:
        named.setdefault(_reason(each), []).append(
            f"<b>{each.item.prescription.order}  {escape(each.exercise.name)}</b>"
        )
    lines = [f"{', '.join(names)}: {reason}" for reason, names in named.items()]
    return Message("\n".join([head(view), "", *lines]), rows=((view.button("Back", Action.BACK),),))


def _reason(each: ItemView) -> str:
    why = why_line(each.decision) if each.decision else "As your coach wrote it."
    if not each.stands_in:
        return why
    because = "as you chose" if each.chosen else instead_because(each.because)
    return f"In place of {escape(in_sentence(each.written_name))}, {because}. {why}"


SCREENS = {
    "overview": _overview,
    "item": _item,
    "change": _change,
    "swap": swap_screen,
    "short": short_screen,
    "why": _why,
    "prep": prep_screen,
    "place": place_screen,
    "place_kind": kind_screen,
    "not_today": not_today_screen,
    "other_day": other_day_screen,
    "feel": feel_screen,
    "left": left_screen,
    "closed": closed_screen,
    "held": held_screen,
}
