"""Questions asked in turn on one card, each answered by a tap, a word or a line; left and taken up again at will."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import questionnaire as say
from bot.render.setting_up import Buttons
from bot.store.due_questions import DueQuestion
from bot.store.people import Account, Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import pain
from bot.usecases.edited_answers import marked
from bot.usecases.lines_of_body import told_of_body
from bot.usecases.lines_passed_on import is_free_for_words, line_passed_on
from bot.usecases.reply_context import context_for
from bot.usecases.typed_words import is_bare_number
from core.checkin.check_in import Kind, Question, answer_read, is_of_body
from core.checkin.reading import Reading
from core.checkin.replies import read_reply
from core.local_time import local_date

Ended = Callable[["Turn", DueQuestion, bool], tuple[str, list[Effect]]]
"""What is said when all is answered, and what follows; with True something of the body is asked first."""
OPEN_FOR = timedelta(days=1)
"""How many days after its own a question can still be answered. Our proposal."""


@dataclass(frozen=True, slots=True)
class Turn:
    """Somebody answers: who, on which card, and what follows when all is answered."""

    prompt: Prompt
    asked: DueQuestion
    client: Client
    person: Person
    unit: Unit
    now: datetime
    ended: Ended

    @property
    def question(self) -> Question:
        """What is asked now."""
        return _question(self.prompt)

    @property
    def is_over(self) -> bool:
        """Whether it is too late for an answer."""
        return _is_over(self.asked, self.client, self.now)


def begin(
    asked: DueQuestion,
    title: tuple[str, str],
    questions: Sequence[Question],
    client: Client,
    account: Account,
    unit: Unit,
    now: datetime,
    *,
    lead: str = "",
) -> Send:
    """Ask the first question, in a message that nobody asked for.

    Args:
        asked: What fell due.
        title: What it is called: to the client, and to the coach.
        questions: What is asked, in turn.
        client: Whom.
        account: Hers.
        unit: Open transaction.
        now: Instant.
        lead: HTML that stands before the first question.
    """
    prompt = unit.prompts.open(
        asked.kind,
        account.user_id,
        account.chat_id,
        now,
        client_id=client.id,
        subject=asked.id,
        card_key=f"{asked.kind}:{asked.id}",
        facts=_facts(title, questions, lead),
    )
    if is_free_for_words(account.user_id, unit) and unit.sessions.open_one(client.id) is None:
        unit.prompts.expect_text(prompt)
    message = replace(_screen(prompt), silent=False)
    key = prompt.card_key or ""
    return Send(account.chat_id, message, key=f"{key}:ask", card=key, client_id=client.id, unasked=True)


def _facts(title: tuple[str, str], questions: Sequence[Question], lead: str) -> dict[str, Any]:
    return {
        "title": title[0],
        "about": title[1],
        "lead": lead,
        "questions": [each.model_dump(mode="json") for each in questions],
        "step": 0,
        "chosen": {},
        "said": [],
    }


def said_in(asked: DueQuestion) -> tuple[tuple[str, str], ...]:
    """Return what was answered: question and answer, in order."""
    return tuple((str(question), str(answer)) for question, answer in (asked.answers or {}).get("said", ()))


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime, ended: Ended) -> list[Effect]:
    """Take the answer that was tapped."""
    turn = _turn(prompt, person, unit, now, ended)
    if turn.is_over:
        unit.prompts.close(prompt.id, now)
        return [_card(prompt, say.over(_title(prompt)))]
    parts = turn.question.parts
    row, place = divmod(tap.argument, say.ROW)
    if tap.action is Action.LATER:
        return _next(_none(turn.question), turn)
    if tap.action is Action.PICK and row < len(parts) and place < len(parts[row].words):
        return _chosen({row: place}, turn)
    return refreshed(prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the open question again, also where another question has closed it; an answered card stays as it is."""
    asked, client = unit.due_questions.get(prompt.subject or 0), unit.clients.get(prompt.client_id or 0)
    if asked.answered_at is not None:
        return []
    if _is_over(asked, client, now):
        return [_card(prompt, say.over(_title(prompt)))]
    revised = unit.prompts.revise(prompt.id, closed_at=None, expects_text=False)
    unit.prompts.expect_text(revised)
    return [_card(revised, _screen(revised))]


def taken_up(kind: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show what of a kind is open, at the end of the chat; nothing where none is."""
    newest = unit.due_questions.since(kind, _today(client, now) - OPEN_FOR).get(client.id, [])
    prompts = [unit.prompts.newest(kind, each.id) for each in newest if each.answered_at is None]
    for prompt in prompts:
        if prompt is not None:
            return _below(refreshed(prompt, person, unit, now))
    return []


def typed(
    text: str, kind: str, client: Client, person: Person, unit: Unit, now: datetime, ended: Ended
) -> list[Effect] | None:
    """Take a typed answer to the open question; None where none is open, or the words are of something else.

    What is said of pain or soreness goes its own way first, and the line is kept as the answer too.
    """
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is None or prompt.kind != kind:
        return None
    turn = _turn(prompt, person, unit, now, ended)
    if turn.is_over:
        return None
    read = answer_read(text, turn.question)
    in_session = unit.sessions.open_one(client.id) is not None
    odd = is_bare_number(text) and not in_session and turn.question.kind is not Kind.FREE
    if read.near if read is not None else odd:
        revised = unit.prompts.revise(prompt.id)
        return _below([_card(revised, _screen(revised, say.NEAR))])
    if read is not None:
        return _below(_next(_none(turn.question), turn) if read.none else _chosen(read.chosen, turn))
    reading = read_reply(text, context_for(client, None, None, unit))
    if _is_of_another(reading, turn.question, in_session=in_session):
        return None
    unit.prompts.expect_no_text(person.user_id)
    body = told_of_body(reading, text, client, person, unit, now)
    effects = _next(text, turn, waits=bool(body), note=say.NOTED)
    return [
        *body,
        *line_passed_on(text, str(prompt.facts["about"]), turn.question.text, client, person, unit, now),
        *(effects if body else _below(effects)),
    ]


def waits_for(kind: str, person: Person, unit: Unit, now: datetime) -> tuple[str, str] | None:
    """Return the title and the question that a voice message answers; None where none waits for a line."""
    prompt = unit.prompts.expecting_text(person.user_id) if kind == "voice" else None
    if prompt is None or "questions" not in prompt.facts:
        return None
    return str(prompt.facts["about"]), _question(prompt).text


def media(kind: str, person: Person, unit: Unit, now: datetime, ends: Mapping[str, Ended]) -> list[Effect]:
    """Take a voice message as the answer to the open question; it goes to the coach by itself."""
    prompt = unit.prompts.expecting_text(person.user_id) if kind == "voice" else None
    if prompt is None or prompt.kind not in ends:
        return []
    turn = _turn(prompt, person, unit, now, ends[prompt.kind])
    return [] if turn.is_over else _below(_next("(a voice message)", turn, note=say.HEARD))


def _turn(prompt: Prompt, person: Person, unit: Unit, now: datetime, ended: Ended) -> Turn:
    asked, client = unit.due_questions.get(prompt.subject or 0), unit.clients.get(prompt.client_id or 0)
    return Turn(prompt, asked, client, person, unit, now, ended)


def _is_of_another(reading: Reading, question: Question, *, in_session: bool) -> bool:
    """Return whether a line is a reply to the training card, or of the body where a word is asked for."""
    said = bool(reading.sets or reading.as_written or reading.skip)
    said = said or any(each.sets for each in reading.ask)
    lined = question.kind in (Kind.FREE, Kind.PICK)
    body = any(each.pain or each.soreness for each in (reading, *reading.ask))
    return reading.undo or (said and (in_session or not lined)) or (body and not lined)


def _chosen(places: Mapping[int, int], turn: Turn) -> list[Effect]:
    """Keep words that were chosen; go on when each row has one."""
    question, unit = turn.question, turn.unit
    chosen = {**_chosen_of(turn.prompt), **places}
    if len(chosen) < len(question.parts):
        facts = {**turn.prompt.facts, "chosen": {str(row): place for row, place in chosen.items()}}
        revised = unit.prompts.revise(turn.prompt.id, facts=facts)
        unit.prompts.expect_text(revised)
        return [_card(revised, _screen(revised))]
    rows = [(part.name.lower(), part.words[chosen[row]].lower()) for row, part in enumerate(question.parts)]
    said = ", ".join(f"{name} {word}".strip() for name, word in rows)
    hurts = (question.kind is Kind.YES_NO and said == "yes" and is_of_body(question.text)) or (
        question.kind is Kind.PICK and is_of_body(said)
    )
    asks = pain.begin(turn.person, unit, turn.now, session_id=None, item=None) if hurts else []
    return [*_next(said, turn, waits=hurts), *asks]


def _next(said: str | None, turn: Turn, *, waits: bool = False, note: str = "") -> list[Effect]:
    """Keep an answer and ask the next question; with `waits` only when it is asked for, for something comes first."""
    prompt, unit, facts = turn.prompt, turn.unit, marked(turn.prompt, turn.person)
    answers = [*facts["said"], *([[turn.question.text, said]] if said else [])]
    step = int(facts["step"]) + 1
    if step >= len(facts["questions"]):
        unit.prompts.close(prompt.id, turn.now)
        unit.prompts.revise(prompt.id, facts={**facts, "said": answers}, expects_text=False)
        unit.due_questions.answered(turn.asked.id, {"said": answers}, turn.now)
        asked = unit.due_questions.get(turn.asked.id)
        last, follow = turn.ended(turn, asked, waits)
        return [_card(prompt, say.ended(_title(prompt), last)), *follow]
    unit.due_questions.note(turn.asked.id, {"said": answers})
    revised = unit.prompts.revise(prompt.id, facts={**facts, "said": answers, "step": step, "chosen": {}})
    if waits:
        buttons = Buttons(revised.id, revised.revision)
        return [_card(revised, say.waits(_title(prompt), step + 1, len(facts["questions"]), buttons))]
    unit.prompts.expect_text(revised)
    return [_card(revised, _screen(revised, note))]


def _none(question: Question) -> str | None:
    return None if question.none == "Skip" else question.none.lower()


def _question(prompt: Prompt) -> Question:
    return Question.model_validate(prompt.facts["questions"][int(prompt.facts["step"])])


def _title(prompt: Prompt) -> str:
    return str(prompt.facts["title"])


def _chosen_of(prompt: Prompt) -> dict[int, int]:
    kept: dict[str, Any] = prompt.facts["chosen"]
    return {int(row): int(place) for row, place in kept.items()}


def _screen(prompt: Prompt, note: str = "") -> Message:
    facts = prompt.facts
    view = say.View(
        title=_title(prompt),
        number=int(facts["step"]) + 1,
        of=len(facts["questions"]),
        question=_question(prompt),
        chosen=_chosen_of(prompt),
        lead=str(facts["lead"]),
        note=note,
    )
    return say.screen(view, Buttons(prompt.id, prompt.revision))


def _card(prompt: Prompt, message: Message) -> EditCard:
    key = prompt.card_key or f"{prompt.kind}:{prompt.subject}"
    return EditCard(key, prompt.chat_id, message, client_id=prompt.client_id)


def _below(effects: list[Effect]) -> list[Effect]:
    """Move the card down under what was typed."""
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]


def _is_over(asked: DueQuestion, client: Client, now: datetime) -> bool:
    return _today(client, now) > asked.local_on + OPEN_FOR or client.state not in ("active", "paused")


def _today(client: Client, now: datetime) -> date:
    return local_date(now, client.zone or "UTC")
