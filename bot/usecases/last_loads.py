"""Last loads that a coach sends in a sheet: shown first, kept when she says so, and waiting for those not here yet."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import last_loads as say
from bot.render.setting_up import problem_pages
from bot.store.invites import Invite
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.leaving import answer
from core.local_time import local_date
from core.programme.folding import folded
from core.programme.last_loads import LastLoad, LastLoadsFile, newest_rows, person_named, problems_with
from core.programme.problems import Severity

KIND = "last loads"
IN_INVITE = "last_loads"
"""Where an invitation keeps the last loads of somebody who has not joined yet."""
YES, NO = ("keep", "keep them", "keep it", "yes"), ("leave it", "leave them", "no")


@dataclass(frozen=True, slots=True)
class Whom:
    """Somebody whose last loads can be kept: a client, or one who is invited.

    Attributes:
        name: As the coach has it.
        client_id: For a client.
        invite: For somebody who has not joined yet.
    """

    name: str
    client_id: int | None = None
    invite: Invite | None = None


def sheet_read(name: str, file: LastLoadsFile, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Tell every problem of a sheet, or show what it says and ask whether it is to be kept.

    Args:
        name: What the coach calls the file.
        file: What is in it.
        person: The coach.
        unit: Open transaction.
        now: Instant.
    """
    people = [whom.name for whom in whom_there_is(unit, now)]
    today = local_date(now, unit.coaches.get(unit.tenant).zone)
    problems = problems_with(file, today, people)
    if any(one.severity is Severity.ERROR for one in problems):
        pages = problem_pages(name, problems)
        return [answer(person, f"problems-{number}", page) for number, page in enumerate(pages)]
    rows = [
        {"client": row.client, **row.load.model_dump(mode="json")}
        for row in newest_rows(file)
        if row.load is not None
    ]
    warnings = [one.model_dump(mode="json") for one in problems]
    key = f"last-loads:{person.arrival.update_id if person.arrival else 0}"
    prompt = unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        card_key=key,
        facts={"file": name, "rows": rows, "warnings": warnings},
        expects_text=True,
    )
    *before, last = _pages(prompt, unit, now)
    effects: list[Effect] = [
        Send(person.chat_id, page, key=f"{key}:{number}") for number, page in enumerate(before)
    ]
    return [*effects, Send(person.chat_id, last, key=key, card=key)]


def whom_there_is(unit: Unit, now: datetime) -> list[Whom]:
    """Return the coach's clients, and those whom she has invited under another name."""
    clients = [Whom(each.name, client_id=each.id) for each in unit.clients.roster()]
    known = {folded(each.name) for each in clients}
    invited = [each for each in unit.invites.open_ones(now) if each.kind == "client" and each.name]
    return clients + [
        Whom(each.name or "", invite=each) for each in invited if folded(each.name or "") not in known
    ]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep what was shown, or leave it."""
    if person.role != "coach":
        return []
    match tap.action:
        case Action.CONFIRM:
            return [_shown(prompt, _kept(prompt, unit, now))]
        case Action.CANCEL:
            return [_shown(prompt, _left(prompt, unit, now))]
        case _:
            return refreshed(prompt, person, unit, now)


def typed(text: str, prompt: Prompt, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take what a coach typed while she is asked; other words show the question again."""
    said = " ".join(text.casefold().strip(" .!").split())
    if said in YES:
        return [_shown(prompt, _kept(prompt, unit, now), moved=True)]
    if said in NO:
        return [_shown(prompt, _left(prompt, unit, now), moved=True)]
    return [_shown(prompt, _pages(prompt, unit, now)[-1], moved=True)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show how it stands, after a tap on a button that is no longer good."""
    if person.role != "coach":
        return []
    message = say.settled() if prompt.closed_at is not None else _pages(prompt, unit, now)[-1]
    return [_shown(prompt, message)]


def come_with(client_id: int, unit: Unit, now: datetime) -> None:
    """Keep for a client who has joined what waited with her invitation."""
    for invite in unit.invites.of_client(client_id):
        waiting = [LastLoad.model_validate(each) for each in invite.prefill.get(IN_INVITE, ())]
        for value in waiting:
            _keep(client_id, value, unit, now)
        if waiting:
            _note(invite, [], unit)


def carried_over(name: str, invite_id: int, unit: Unit) -> None:
    """Let a new invitation of the same name wait with what older ones, never used, were waiting with."""
    same = [each for each in unit.invites.unused() if folded(each.name or "") == folded(name)]
    older = [each for each in same if each.id != invite_id and each.prefill.get(IN_INVITE)]
    waiting = [value for each in older for value in _waiting(each).values()]
    for each in same:
        if each.id == invite_id and waiting:
            _note(each, waiting, unit)
    for each in older:
        _note(each, [], unit)


def _rows(prompt: Prompt) -> list[tuple[str, LastLoad]]:
    return [
        (
            row["client"],
            LastLoad.model_validate({name: fact for name, fact in row.items() if name != "client"}),
        )
        for row in prompt.facts["rows"]
    ]


def _pages(prompt: Prompt, unit: Unit, now: datetime) -> list[Message]:
    """Return what the sheet comes to, on as many messages as it takes; the last one asks."""
    there = {whom.name: whom for whom in whom_there_is(unit, now)}
    by_name: dict[str, list[say.Line]] = {}
    for written, value in _rows(prompt):
        name = person_named(written, list(there)) or written
        by_name.setdefault(name, []).append(_line(value, there.get(name), unit))
    parts = [
        say.Part(name, there[name].invite is not None if name in there else False, tuple(lines))
        for name, lines in by_name.items()
    ]
    today = local_date(now, unit.coaches.get(unit.tenant).zone)
    buttons = say.Buttons(prompt.id, prompt.revision)
    return say.preview(str(prompt.facts["file"]), parts, prompt.facts["warnings"], today, buttons)


def _line(value: LastLoad, whom: Whom | None, unit: Unit) -> say.Line:
    before: LastLoad | None = None
    logged = None
    if whom is not None and whom.client_id is not None:
        kept = unit.last_loads.standing(whom.client_id).get(value.exercise)
        before = kept.value if kept is not None else None
        logged = unit.last_loads.first_logged(whom.client_id).get(value.exercise)
    elif whom is not None and whom.invite is not None:
        before = _waiting(whom.invite).get(value.exercise)
    counts = logged is None or value.on < logged
    return say.Line(unit.exercises.get(value.exercise), value, before, counts=counts)


def _waiting(invite: Invite) -> dict[str, LastLoad]:
    found = [LastLoad.model_validate(each) for each in invite.prefill.get(IN_INVITE, ())]
    return {each.exercise: each for each in found}


def _kept(prompt: Prompt, unit: Unit, now: datetime) -> Message:
    """Keep all of it, or nothing where a name is nobody's any more."""
    there = {whom.name: whom for whom in whom_there_is(unit, now)}
    rows = [(person_named(written, list(there)), written, value) for written, value in _rows(prompt)]
    gone = list(dict.fromkeys(written for name, written, _ in rows if name is None))
    unit.prompts.close(prompt.id, now)
    if gone:
        return say.nobody_any_more(gone)
    count = 0
    by_invite: dict[str, list[LastLoad]] = {}
    for name, _, value in rows:
        whom = there[name or ""]
        if whom.client_id is not None:
            count += _keep(whom.client_id, value, unit, now)
        elif whom.invite is not None:
            count += _waiting(whom.invite).get(value.exercise) != value
            by_invite.setdefault(whom.name, []).append(value)
    for name, values in by_invite.items():
        invite = there[name].invite
        if invite is not None:
            _note(invite, values, unit)
    return say.kept(count, len(rows), len({name for name, _, _ in rows}))


def _keep(client_id: int, value: LastLoad, unit: Unit, now: datetime) -> bool:
    return unit.last_loads.keep(client_id, value, unit.exercises.get(value.exercise).basis.value, now)


def _note(invite: Invite, values: Sequence[LastLoad], unit: Unit) -> None:
    """Have an invitation wait with these last loads beside its others; none of them at all where none is given."""
    waiting = {**_waiting(invite), **{each.exercise: each for each in values}} if values else {}
    noted = [each.model_dump(mode="json") for each in waiting.values()]
    unit.invites.note(invite.id, {**invite.prefill, IN_INVITE: noted})


def _left(prompt: Prompt, unit: Unit, now: datetime) -> Message:
    unit.prompts.close(prompt.id, now)
    return say.left()


def _shown(prompt: Prompt, message: Message, *, moved: bool = False) -> EditCard:
    return EditCard(prompt.card_key or f"last-loads:{prompt.id}", prompt.chat_id, message, moved=moved)
