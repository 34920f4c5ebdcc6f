"""Words that answer a typed reply."""

from collections.abc import Sequence
from html import escape

from bot.messages import Action, Button, Message, Person, Send, Tap, encode
from bot.render.examples import typed_example
from bot.render.exercise_names import in_sentence
from bot.render.loads import sets_words
from bot.render.pain import SITE_WORDS, HasRevision
from bot.render.session_views import ItemView
from core.checkin.reading import AskWhy, Reading, SetRead
from core.checkin.sites import JOINT_SITES
from core.checkin.training_log import LoggedSet
from core.programme.exercises import Exercise, Side, Site
from core.units import plain

NEXT_CHANGED = "What comes next has changed with it:"


def load_missing(each: ItemView) -> str:
    """Ask for the load that is to be found, or for sets that nobody knows before, with an example."""
    if not each.to_find:
        return (
            f"How many in each set? Nothing is stored yet. For {escape(in_sentence(each.exercise.name))} type them, "
            f"like <code>{escape(typed_example(each))}</code>."
        )
    return (
        f"With which load? Nothing is stored yet. For {escape(in_sentence(each.exercise.name))} type the load first, "
        f"like <code>{escape(typed_example(each))}</code>."
    )


def send(person: Person, message: Message, what: str) -> Send:
    """Answer a person."""
    update_id = person.arrival.update_id if person.arrival else 0
    return Send(person.chat_id, message, key=f"reply:{update_id}:{what}")


def understood(exercise: Exercise, sets: Sequence[LoggedSet], left: int | None) -> str:
    """Say back what was understood, with effort as it was said: for the last set, or for each."""
    return f"Noted: {escape(exercise.name)} {sets_words(sets)}{_effort_said(sets, left)}."


def _effort_said(sets: Sequence[LoggedSet], left: int | None) -> str:
    """Write effort: `, 2 left`, `, RPE 8.5`, `, RPE 8 8 9`, `, reps left 2 1 0`, `, set 2 RPE 9`."""
    by_set = {each.set_no: each for each in sorted(sets, key=lambda one: one.set_no)}
    said = {number: each for number, each in by_set.items() if each.rpe is not None or each.rir is not None}
    if len(said) > 1 and len(said) == len(by_set) and all(each.rpe is not None for each in said.values()):
        return f", RPE {' '.join(plain(each.rpe) for each in said.values() if each.rpe is not None)}"
    if len(said) > 1 and len(said) == len(by_set) and all(each.rpe is None for each in said.values()):
        return f", reps left {' '.join(_left(each.rir or 0) for each in said.values())}"
    last = by_set.get(max(by_set, default=0))
    if len(said) > 1 or (said and (last is None or last.set_no not in said)):
        return "".join(f", set {number} {_effort_of(each)}" for number, each in said.items())
    if last is not None and last.rpe is not None:
        return f", RPE {plain(last.rpe)}"
    left = left if left is not None or last is None else last.rir
    return "" if left is None else f", {_left(left, ' or more')} left"


def _left(left: int, more: str = "+") -> str:
    return f"4{more}" if left >= 4 else str(left)


def _effort_of(each: LoggedSet) -> str:
    return f"RPE {plain(each.rpe)}" if each.rpe is not None else f"{_left(each.rir or 0)} left"


LEFT_UNREAD = "I could not read that as reps left. Tap a number, or type one from 0 to 4."


def left_noted(exercise: Exercise, left: int) -> Message:
    """Say back reps left."""
    return Message(f"Noted: {_left_in(exercise, left)}.", silent=True)


def left_corrected(exercise: Exercise, left: int) -> str:
    """Say back a correction of reps left."""
    return f"Corrected: {_left_in(exercise, left)}."


def _left_in(exercise: Exercise, left: int) -> str:
    return (
        f"{'4 or more' if left >= 4 else left} left in the last set of {escape(in_sentence(exercise.name))}"
    )


def left_for_nothing() -> Message:
    """Say that there is no set yet that reps left could belong to."""
    return Message("No set is logged yet, so I stored nothing. Send the sets first.", silent=True)


def corrected(exercise: Exercise, sets: Sequence[LoggedSet], left: int | None) -> str:
    """Say back a correction."""
    return understood(exercise, sets, left).replace("Noted", "Corrected", 1)


def soreness_noted(site: Site, score: int | None) -> Message:
    """Say back soreness, and how to say that it is pain."""
    number = "" if score is None else f", {score} of 10"
    pain = f"pain {site.value} {score or 4}"
    return Message(
        f"Noted as sore muscle: {SITE_WORDS.get(site, site.value)}{number}. No load changes for it. "
        f"If it is pain, send <code>{pain}</code>.",
        silent=True,
    )


def on_hold() -> Message:
    """Say that the plan is on hold; the words go to the coach."""
    return Message(
        "Your plan is on hold, so I log nothing now. I have passed your words on to your coach. "
        "Nobody watches this chat in real time; in an emergency call your local emergency number.",
        silent=True,
    )


def on_hold_tapped() -> Message:
    """Say that a button does nothing while the plan is on hold."""
    return Message("Your plan is on hold, so nothing is stored.", silent=True)


def no_session() -> Message:
    """Say that there is no session to log to."""
    return Message(
        "There is no session open, so I stored nothing. Your next card comes at your hour.", silent=True
    )


def all_logged(other: Exercise | None = None) -> Message:
    """Say that every exercise is logged, or that this one is."""
    what = "Every exercise of this session" if other is None else other.name
    return Message(
        f"{escape(what)} is logged or left out already, so I stored nothing. "
        "To change one, send <code>undo</code> or edit the message you sent.",
        silent=True,
    )


def passed_on(example: ItemView | None) -> Message:
    """Say that plain words went to the coach, with an example where numbers were in them."""
    if example is None:
        return Message("Passed on to your coach.", silent=True)
    return Message(
        "Passed on to your coach. No sets are stored of it. If it was "
        f"{escape(in_sentence(example.exercise.name))}, type it like <code>{escape(typed_example(example))}</code>.",
        silent=True,
    )


def lock_stays(place: str) -> Message:
    """Say that pain which locks is not taken back by an edit."""
    return Message(
        f"What is locked for your {place} stays locked until your coach has looked. "
        "Your new words have gone to your coach. If another place hurts, send it as a new message.",
        silent=True,
    )


def edit_unclear(text: str) -> Message:
    """Say that an edited message could not be read; what it logged stays."""
    return Message(
        f"I could not use your edited message <code>{escape(text[:40])}</code>, so what you logged before stays. "
        "Edit it again with numbers alone, or send <code>undo</code>.",
        silent=True,
    )


WHY_WORDS = {
    AskWhy.TWO_READINGS: "That can be read in more than one way. Which is it?",
    AskWhy.FAR_OFF: "That is far from what was planned or done before. Did you mean this?",
    AskWhy.UNIT: "Which unit was that?",
    AskWhy.SITE: "Where is it?",
    AskWhy.SCORE: "How bad is it?",
    AskWhy.SETS: "How many sets was that?",
    AskWhy.TYPO: "Did you mean this?",
    AskWhy.SIDE: "The left side, or reps left?",
}


def ask_which(prompt: HasRevision, text: str, reading: Reading) -> Message:
    """Ask which reading is right, a button for each."""
    words = WHY_WORDS[reading.ask_why or AskWhy.TWO_READINGS]
    if len(reading.ask) > 1:
        words = words.replace("Did you mean this?", "Which is right?")
    rows = [
        (
            Button(
                reading_words(each)[:40],
                encode(Tap(prompt.id, prompt.revision, Action.CHOOSE, number)),
            ),
        )
        for number, each in enumerate(reading.ask)
    ]
    none = "No, I type again" if len(reading.ask) == 1 else "Neither, I type again"
    neither = Button(none, encode(Tap(prompt.id, prompt.revision, Action.CANCEL)))
    return Message(
        f"<code>{escape(text[:60])}</code>\n{words} Nothing is stored yet.",
        rows=(*rows, (neither,)),
        silent=True,
    )


def chosen(reading: Reading, text: str) -> Message:
    """Say which reading was chosen."""
    return Message(
        f"<code>{escape(text[:60])}</code>: taken as {escape(reading_words(reading))}.", silent=True
    )


def overtaken(text: str) -> Message:
    """Say of a question that nothing hangs on it any more."""
    return Message(f"<code>{escape(text[:60])}</code>: settled, nothing more to choose here.", silent=True)


def none_of_them(example: ItemView | None) -> Message:
    """Say that nothing was stored, and how to type it."""
    like = f", like <code>{escape(typed_example(example))}</code>" if example is not None else ""
    return Message(f"Nothing stored. Type it again{like}.", silent=True)


def reading_words(reading: Reading) -> str:
    """Write a reading on a button: `60 kg × 8 8 8`, `pain left knee 4`, `done as written`."""
    parts = []
    if reading.as_written:
        parts.append("done as written")
    if reading.skip:
        parts.append("skip this one")
    if reading.undo:
        parts.append("take back the last")
    if reading.sets:
        parts.append(_set_words(reading.sets))
    for kind, found in (("pain", reading.pain), ("sore", reading.soreness)):
        for each in found:
            side = {Side.LEFT: "left ", Side.RIGHT: "right ", None: ""}[each.side]
            number = "" if each.score is None else f" {each.score}"
            muscle = " muscle" if kind == "sore" and each.site in JOINT_SITES else ""
            parts.append(f"{kind} {side}{each.site.value if each.site else ''}{muscle}{number}".strip())
    if reading.effort.rir is not None:
        parts.append(f"{reading.effort.rir} reps left")
    if reading.effort.rpe is not None:
        parts.append(f"RPE {reading.effort.rpe}")
    if reading.note and not parts:
        parts.append("a note for the coach")
    return ", ".join(parts)


def _set_words(sets: tuple[SetRead, ...]) -> str:
    groups: list[tuple[str, list[SetRead]]] = []
    for each in sets:
        head = " ".join(part for part in (each.load, each.unit) if part)
        if not groups or groups[-1][0] != head:
            groups.append((head, []))
        groups[-1][1].append(each)
    return ", ".join(f"{head} × {_counts(found)}" if head else _bare(found) for head, found in groups)


def _bare(sets: list[SetRead]) -> str:
    return _counts(sets) if sets[0].reps is None else f"reps {_counts(sets)}"


def _count(each: SetRead) -> str:
    """Write a set: `8`, `45s`, `8@9`, `8 rir 2`."""
    count = str(each.reps) if each.reps is not None else f"{each.seconds}s"
    if each.rpe is not None:
        return f"{count}@{each.rpe}"
    return count if each.rir is None else f"{count} rir {each.rir}"


def _counts(sets: list[SetRead]) -> str:
    """Write counts: `8 8 7`, `45s 40s`, `10/9 10/10 left/right`, `left 8 8`."""
    counts = [_count(each) for each in sets]
    sides = [each.side for each in sets]
    plain_pairs = all(each.rpe is None and each.rir is None for each in sets)
    if plain_pairs and sides == [Side.LEFT, Side.RIGHT] * (len(sets) // 2):
        return " ".join("/".join(counts[i : i + 2]) for i in range(0, len(counts), 2)) + " left/right"
    named = {Side.LEFT: "left ", Side.RIGHT: "right ", None: ""}
    if len(set(sides)) == 1:
        return " ".join(counts) + (f", {named[sides[0]]}side" if sides[0] else "")
    return " ".join(f"{named[side]}{count}" for side, count in zip(sides, counts, strict=True))
