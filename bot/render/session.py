"""The session card: one message that is edited as a session goes on."""

from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Action, Button, Message, Rows, Tap, encode
from bot.render.dates import day_words
from bot.render.loads import dose_words, load_words, sets_words
from bot.render.reasons import why_line
from core.checkin.training_log import Item, LoggedSet
from core.loads.decision import Decision, Kind
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.prescription import LoadKind
from core.units import Mass


@dataclass(frozen=True, slots=True)
class ItemView:
    """One exercise as it is shown."""

    item: Item
    exercise: Exercise
    decision: Decision | None
    last: tuple[LoggedSet, ...]
    sets: tuple[LoggedSet, ...]
    plates: tuple[Mass, ...] | None = None
    ramp: tuple[str, ...] = ()

    @property
    def to_find(self) -> bool:
        """True while no load is known for it."""
        load = self.item.given.load
        return load is not None and load.kind is LoadKind.FIND


@dataclass(frozen=True, slots=True)
class SessionView:
    """A session as it is shown."""

    day: str
    week_no: int
    weeks: int
    local_on: date
    late: bool
    state: str
    screen: str
    items: tuple[ItemView, ...]
    cursor: int | None
    prompt_id: int
    revision: int
    note: str | None = None
    closing: tuple[str, ...] = ()
    pained: bool = False

    def button(self, label: str, action: Action, argument: int = 0) -> Button:
        """A button of this card as it now stands."""
        return Button(label, encode(Tap(self.prompt_id, self.revision, action, argument)))

    def current(self) -> ItemView | None:
        """The exercise at the cursor."""
        return next((each for each in self.items if each.item.id == self.cursor), None)

    def main_done(self) -> ItemView | None:
        """The lift whose last set is asked about: the first main lift that was done with a load, or else the first."""
        done = [each for each in self.items if each.item.state == "done" and each.item.given.load]
        return next((each for each in done if each.exercise.main_lift), done[0] if done else None)


def session_card(view: SessionView) -> Message:
    """Show a session at the screen it is on."""
    shown = SCREENS[view.screen](view)
    note = f"{view.note}\n\n" if view.note else ""
    return Message(f"{note}{shown.html}", rows=shown.rows, silent=shown.silent, protect=True)


def _head(view: SessionView) -> str:
    late = "\nLate today: I was not running at your hour." if view.late else ""
    return (
        f"<b>{escape(view.day)}</b> · week {view.week_no} of {view.weeks} · {day_words(view.local_on)}{late}"
    )


LEFT_OUT_FOR: dict[Kind | None, str] = {
    Kind.PAUSE: "on hold, your coach decides",
    Kind.SWAP: "left out, nothing here to do it with",
}


def _instead(item: Item) -> str:
    if item.exercise == item.prescription.exercise:
        return ""
    return f" (instead of {escape(CATALOGUE[item.prescription.exercise].name.lower())})"


def _line(each: ItemView) -> str:
    item = each.item
    name = f"<b>{item.prescription.order}  {escape(each.exercise.name)}</b>{_instead(item)}"
    if item.state == "done":
        return f"{name}  done: {sets_words(each.sets)}"
    if item.state == "skipped":
        return f"{name}  {LEFT_OUT_FOR.get(each.decision.kind if each.decision else None, 'left out')}"
    return f"{name}  {dose_words(item.given, each.exercise)}"


def _overview(view: SessionView) -> Message:
    lines = []
    for each in view.items:
        lines.append(_line(each))
        if each.item.state == "open" and each.last:
            lines.append(f"     last time {sets_words(each.last)}")
    rows: Rows = (
        (view.button("All done as written", Action.ALL_DONE),),
        (view.button("Start", Action.START), view.button("Not today", Action.NOT_TODAY)),
        (view.button("Why these loads", Action.WHY), view.button("Something hurts", Action.HURTS)),
    )
    return Message("\n".join([_head(view), "", *lines]), rows=rows)


def _item(view: SessionView) -> Message:
    each = view.current()
    if each is None:
        return _overview(view)
    prescription = each.item.prescription
    lines = [_head(view), "", _line(each)]
    if each.plates:
        lines.append("Each side: " + " + ".join(f"{mass.value.normalize():f}" for mass in each.plates))
    if each.ramp:
        lines.append("Ramp: " + ", ".join(each.ramp))
    if each.last:
        lines.append(f"Last time: {sets_words(each.last)}")
    if each.to_find:
        lines.append(
            "Find it today: start light, add a little each set, stop with 3 left. At most five sets. "
            "Then type the load and reps, like <code>40 10 8 8</code>."
        )
    details = _details(prescription.rest_s, prescription.tempo)
    if details:
        lines.append(details)
    cue = prescription.cue or each.exercise.cue
    if cue:
        lines.append(escape(cue))
    others = [other for other in view.items if other.item.state == "open" and other is not each]
    done = [other for other in view.items if other.item.state == "done"]
    if done or others:
        lines.append("")
    if done:
        lines.append("Done: " + ", ".join(_short(other) for other in done))
    if others:
        lines.append("Still to come: " + ", ".join(_short(other) for other in others))
    return Message("\n".join(lines), rows=_item_rows(view, each, others))


def _short(each: ItemView) -> str:
    return f"{each.item.prescription.order} {escape(each.exercise.name)}"


def _details(rest_s: int | None, tempo: str | None) -> str:
    parts = []
    if rest_s:
        minutes, seconds = divmod(rest_s, 60)
        parts.append(f"Rest {minutes}:{seconds:02d} min" if minutes else f"Rest {seconds} s")
    if tempo:
        parts.append(f"Tempo {tempo}")
    return " · ".join(parts)


def _item_rows(view: SessionView, each: ItemView, others: list[ItemView]) -> Rows:
    item_id = each.item.id
    rows: list[tuple[Button, ...]] = []
    if not each.to_find:
        rows.append((view.button("Done as written", Action.DONE, item_id),))
        rows.append(
            (
                view.button("Change numbers", Action.CHANGE, item_id),
                view.button("Skip", Action.SKIP, item_id),
            )
        )
    else:
        rows.append((view.button("Skip", Action.SKIP, item_id),))
    if others:
        rows.append(
            tuple(
                view.button(other.item.prescription.order, Action.JUMP, other.item.id) for other in others[:8]
            )
        )
    rows.append(
        (
            view.button("Undo", Action.UNDO),
            view.button("Why", Action.WHY),
            view.button("Hurts", Action.HURTS, item_id),
        )
    )
    return tuple(rows)


def _change(view: SessionView) -> Message:
    each = view.current()
    if each is None:
        return _overview(view)
    item_id = each.item.id
    counted = each.item.given.reps is not None
    rows: list[tuple[Button, ...]] = []
    if counted:
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
    return Message(
        f"{_line(each)}\n\nOr type the load and each set, like <code>{escape(typed_example(each))}</code>.",
        rows=tuple(rows),
    )


def typed_example(each: ItemView) -> str:
    """Return a reply that fits the exercise: its load and one set shorter at the end."""
    given = each.item.given
    span = given.reps or given.seconds
    low = span.low if span else 8
    tail = [str(low)] * (given.sets - 1) + [str(max(low - 1, 1))]
    if given.reps is None:
        tail = [f"{number}s" for number in tail]
    load = given.load
    if load is None or load.kind is LoadKind.FIND:
        return " ".join(tail if load is None else ["40", *tail])
    head = "bw" if load.kind is LoadKind.BODYWEIGHT and load.mass is None else load_words(load).split(" ")[0]
    return " ".join([head, *tail])


def _why(view: SessionView) -> Message:
    lines = [
        f"<b>{each.item.prescription.order}  {escape(each.exercise.name)}</b>: "
        f"{why_line(each.decision) if each.decision else 'as written'}"
        for each in view.items
    ]
    return Message("\n".join([_head(view), "", *lines]), rows=((view.button("Back", Action.BACK),),))


def _not_today(view: SessionView) -> Message:
    return Message(
        f"{_head(view)}\n\nLeave this session out? What is in the way?",
        rows=(
            (view.button("No time", Action.LEAVE_OUT, 1), view.button("Away", Action.LEAVE_OUT, 4)),
            (view.button("Ill", Action.LEAVE_OUT, 2), view.button("Pain", Action.LEAVE_OUT, 3)),
            (view.button("Back", Action.BACK),),
        ),
    )


def _feel(view: SessionView) -> Message:
    asked = "Does anything else hurt?" if view.pained else "Does anything hurt?"
    lines = [_head(view), "", *(_line(each) for each in view.items), "", asked]
    return Message(
        "\n".join(lines),
        rows=(
            (view.button("Nothing else" if view.pained else "Nothing hurts", Action.NOTHING_HURTS),),
            (view.button("Something hurts", Action.HURTS), view.button("Undo", Action.UNDO)),
        ),
    )


def _left(view: SessionView) -> Message:
    main = view.main_done()
    name = escape(main.exercise.name) if main else "Main lift"
    return Message(
        f"{_head(view)}\n\n{name}, last set: how many more could you have done?",
        rows=(
            tuple(
                view.button("4+" if number == 4 else str(number), Action.LEFT, number) for number in range(5)
            ),
            (view.button("Not sure", Action.LATER),),
        ),
    )


def _closed(view: SessionView) -> Message:
    done = [] if view.state == "left_out" else ["", *(_line(each) for each in view.items)]
    end = ["", *view.closing] if view.closing else []
    return Message("\n".join([_head(view), *done, *end]), silent=True)


def _held(view: SessionView) -> Message:
    return Message(
        f"{_head(view)}\n\nYour plan is on hold. Only your coach can take it up again.", silent=True
    )


SCREENS = {
    "overview": _overview,
    "item": _item,
    "change": _change,
    "why": _why,
    "not_today": _not_today,
    "feel": _feel,
    "left": _left,
    "closed": _closed,
    "held": _held,
}
