"""A coach's own exercises: kept from her file, shown with the form to add more, and taken out."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Message, Person, Send
from bot.render import own_exercises as words
from bot.store.units import Unit
from bot.usecases.block_files import only_for_coaches
from bot.usecases.leaving import answer
from core.programme.catalogue import named, suggestions
from core.programme.exercise_reading import is_own
from core.programme.exercises import Exercise

FORM = "my-exercises.xlsx"
REMOVE = "remove"


@dataclass(frozen=True, slots=True)
class ExercisesAsked:
    """`/exercises`, or `/exercises remove NAME`.

    Attributes:
        text: What stands after the command.
        content: The form; None where nobody made it, since whoever asks is no coach.
    """

    text: str = ""
    content: bytes | None = None


def exercises_asked(command: ExercisesAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show what a coach has added and send the form for more; or take an exercise out."""
    if person.role != "coach":
        return only_for_coaches(person)
    word, _, name = command.text.strip().partition(" ")
    if word.casefold() == REMOVE:
        return [answer(person, "exercises", _removed(name, unit))]
    pages = words.added(unit.exercises.own())
    effects: list[Effect] = [answer(person, f"exercises-{number}", page) for number, page in enumerate(pages)]
    if command.content is not None:
        picture_id = unit.oversight.add_picture(FORM, command.content, now)
        form = Message(words.form(), silent=True, media_kind="document", picture_id=picture_id)
        effects.append(Send(person.chat_id, form, key=f"exercises-form:{_update(person)}"))
    return effects


def _removed(text: str, unit: Unit) -> Message:
    """Take an exercise out, where no block that runs names it and no session that is open has it."""
    own = {one.key: one for one in unit.exercises.own()}
    found = named(text, unit.exercises.catalogue())
    if found is None:
        return words.unknown(text, suggestions(text, catalogue=own))
    if not is_own(found):
        return words.is_ours(found)
    used = _used_in(found, unit)
    if used:
        return words.in_use(found, used)
    unit.exercises.retire(found.key)
    return words.removed(found)


def _used_in(exercise: Exercise, unit: Unit) -> list[tuple[str, str]]:
    """Return client and block of each that runs with an exercise in it, as a stand-in or on a path too."""
    written = f'"{exercise.key}"'
    found = []
    for client in unit.clients.roster():
        running = unit.blocks.running(client.id)
        course = unit.versions.course(running) if running is not None else None
        if course is not None and written in course.model_dump_json():
            found.append((client.name, course.first.name))
            continue
        session = unit.sessions.open_one(client.id)
        items = unit.sessions.items(session.id) if session is not None else []
        if any(item.exercise == exercise.key for item in items):
            found.append((client.name, ""))
    return found


def _update(person: Person) -> int:
    return person.arrival.update_id if person.arrival else 0
