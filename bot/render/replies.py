"""Words that answer a typed reply."""

from collections.abc import Sequence
from html import escape

from bot.messages import Action, Button, Message, Person, Send, Tap, encode
from bot.render.loads import sets_words
from bot.render.pain import HasRevision
from bot.render.session import ItemView, typed_example
from core.checkin.reading import AskWhy, Reading, SetRead
from core.checkin.training_log import LoggedSet
from core.programme.exercises import Exercise, Side, Site

NO_LOAD_YET = "There is no load to repeat yet. Type the load and each set."


def send(person: Person, message: Message, what: str) -> Send:
    """Answer a person."""
    update_id = person.arrival.update_id if person.arrival else 0
    return Send(person.chat_id, message, key=f"reply:{update_id}:{what}")


def understood(exercise: Exercise, sets: Sequence[LoggedSet], left: int | None) -> str:
    """Say back what was understood."""
    tail = "" if left is None else f", {'4 or more' if left >= 4 else left} left"
    return f"Noted: {escape(exercise.name)} {sets_words(sets)}{tail}."


def left_noted(exercise: Exercise, left: int) -> Message:
    """Say back reps left."""
    return Message(
        f"Noted: {'4 or more' if left >= 4 else left} left in the last set of {escape(exercise.name.lower())}.",
        silent=True,
    )


def left_for_nothing() -> Message:
    """Say that there is no set yet that reps left could belong to."""
    return Message("No set is logged yet, so I stored nothing. Send the sets first.", silent=True)


def corrected(exercise: Exercise, sets: Sequence[LoggedSet]) -> str:
    """Say back a correction."""
    return f"Corrected: {escape(exercise.name)} {sets_words(sets)}."


def soreness_noted(site: Site, score: int | None) -> Message:
    """Say back soreness."""
    number = "" if score is None else f", {score} of 10"
    return Message(
        f"Noted: sore {site.value}{number}. Ordinary soreness; nothing changes for it.", silent=True
    )


def on_hold() -> Message:
    """Say that the plan is on hold; the words go to the coach."""
    return Message(
        "Your plan is on hold, so I log nothing now. I have passed your words on to your coach. "
        "Nobody watches this chat in real time; in an emergency call your local emergency number.",
        silent=True,
    )


def no_session() -> Message:
    """Say that there is no session to log to."""
    return Message(
        "There is no session open, so I stored nothing. Your next card comes at your hour.", silent=True
    )


def all_logged() -> Message:
    """Say that every exercise is logged."""
    return Message(
        "Every exercise of this session is logged, so I stored nothing. "
        "To change one, send <code>undo</code> or edit the message you sent.",
        silent=True,
    )


def passed_on(example: ItemView | None) -> Message:
    """Say that plain words went to the coach, with an example where numbers were in them."""
    if example is None:
        return Message("Passed on to your coach.", silent=True)
    return Message(
        "I could not read that as sets, so I passed it on to your coach. "
        f"For {escape(example.exercise.name.lower())} type, for example, "
        f"<code>{escape(typed_example(example))}</code>.",
        silent=True,
    )


def forwarded(name: str, text: str) -> Message:
    """Show the coach what a client wrote."""
    return Message(f"<b>{escape(name)}</b> writes:\n{escape(text[:3000])}")


def edit_unclear(text: str) -> Message:
    """Say that an edited message could not be read; what it logged stays."""
    return Message(
        f"I could not read your edited message <code>{escape(text[:40])}</code>, so what you logged before stays. "
        "Edit it again, like <code>92.5 8 8 8 7</code>.",
        silent=True,
    )


WHY_WORDS = {
    AskWhy.TWO_READINGS: "That can be read in more than one way. Which is it?",
    AskWhy.FAR_OFF: "That is far from what was planned or done before. Is it right?",
    AskWhy.UNIT: "Which unit was that?",
    AskWhy.SITE: "Where is it?",
    AskWhy.SCORE: "How bad is it?",
    AskWhy.SETS: "How many sets was that?",
    AskWhy.TYPO: "Did you mean this?",
    AskWhy.SIDE: "Which side?",
}


def ask_which(prompt: HasRevision, text: str, reading: Reading) -> Message:
    """Ask which reading is right, a button for each."""
    words = WHY_WORDS[reading.ask_why or AskWhy.TWO_READINGS]
    rows = [
        (
            Button(
                reading_words(each)[:40],
                encode(Tap(prompt.id, prompt.revision, Action.CHOOSE, number)),
            ),
        )
        for number, each in enumerate(reading.ask)
    ]
    neither = Button("Neither, I type again", encode(Tap(prompt.id, prompt.revision, Action.CANCEL)))
    return Message(
        f"<code>{escape(text[:60])}</code>\n{words} Nothing is stored yet.",
        rows=(*rows, (neither,)),
        silent=True,
    )


def chosen(reading: Reading, text: str) -> Message:
    """Say which reading was chosen."""
    return Message(f"<code>{escape(text[:60])}</code>: {escape(reading_words(reading))}.", silent=True)


def none_of_them() -> Message:
    """Say that nothing was stored."""
    return Message("Nothing stored. Type it again, load first, like <code>60 8 8 8</code>.", silent=True)


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
            parts.append(f"{kind} {side}{each.site.value if each.site else ''}{number}".strip())
    if reading.effort.rir is not None:
        parts.append(f"{reading.effort.rir} left")
    if reading.effort.rpe is not None:
        parts.append(f"RPE {reading.effort.rpe}")
    if reading.note and not parts:
        parts.append("a note for the coach")
    return ", ".join(parts)


def _set_words(sets: tuple[SetRead, ...]) -> str:
    groups: list[tuple[str, list[str]]] = []
    for each in sets:
        head = " ".join(part for part in (each.load, each.unit) if part)
        count = str(each.reps) if each.reps is not None else f"{each.seconds}s"
        if each.side:
            count = f"{each.side}{count}"
        if not groups or groups[-1][0] != head:
            groups.append((head, []))
        groups[-1][1].append(count)
    return ", ".join(f"{head} × {' '.join(counts)}" if head else " ".join(counts) for head, counts in groups)
