"""What must hold of every message, and of what is kept, whatever anybody did."""

import html
import re
from dataclasses import dataclass
from html.parser import HTMLParser

from sqlalchemy import Connection, func, select

from bot.messages import Message, decode
from bot.store.tables import (
    account,
    body_report,
    client,
    decision,
    item,
    logged_set,
    prompt,
    session,
)
from core.loads.decision import Decision, Kind
from core.programme.prescription import Dose, LoadKind

TAGS = frozenset({"b", "i", "u", "s", "code", "pre", "a", "blockquote"})
MOST_TEXT, MOST_CAPTION = 4096, 1024
RUNNING = ("planned", "sent", "started", "asking")
HURTS = 4


@dataclass(frozen=True)
class Words:
    """Names and words of one tenant, which nobody else may read."""

    chats: frozenset[int]
    pattern: re.Pattern[str]


def words_of(chats: tuple[int, ...], *words: str) -> Words:
    return Words(frozenset(chats), re.compile(rf"\b(?:{'|'.join(words)})\b"))


def wrong_in(message: Message, chat_id: int, theirs: tuple[Words, ...]) -> list[str]:
    """What is wrong with one message."""
    text = html.unescape(re.sub(r"<[^>]*>", "", message.html))
    found = [f"says another tenant's words: {text}" for each in theirs if _leaks(text, chat_id, each)]
    if not text.strip() and message.media_kind is None:
        found.append("has no text")
    most = MOST_TEXT if message.media_kind is None else MOST_CAPTION
    if len(text.encode("utf-16-le")) // 2 > most or len(message.html) > MOST_TEXT:
        found.append(f"is too long: {len(message.html)}, read {len(text)}")
    found += _wrong_markup(message.html)
    for button in (each for row in message.rows for each in row):
        if not 1 <= len(button.label) <= 40:
            found.append(f"has a label of {len(button.label)} letters: {button.label}")
        if button.data is None and button.url is None:
            found.append(f"has a button that does nothing: {button.label}")
        if button.data is not None and (decode(button.data) is None or len(button.data.encode()) > 64):
            found.append(f"has a button that cannot be read: {button.data}")
    return found


def _leaks(text: str, chat_id: int, words: Words) -> bool:
    return chat_id not in words.chats and words.pattern.search(text) is not None


class _Markup(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self.open: list[str] = []
        self.wrong: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:  # noqa: ARG002
        if tag not in TAGS:
            self.wrong.append(f"has a tag {tag}")
        self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.wrong.append(f"ends {tag} where it is not open")


def _wrong_markup(text: str) -> list[str]:
    parser = _Markup()
    parser.feed(text)
    parser.close()
    wrong = [*parser.wrong, *(f"leaves {tag} open" for tag in parser.open)]
    bare = re.sub(r"</?[a-z]+(?: [a-z]+=\"[^\"<>]*\")?>", "", text)
    if "<" in bare or ">" in bare or re.search(r"&(?!(?:lt|gt|amp|quot|#x?[0-9a-f]+);)", bare):
        wrong.append(f"is not escaped: {text}")
    return wrong


def wrong_in_store(connection: Connection) -> list[str]:
    """What is wrong with what is kept."""
    return [
        *_questions_at_once(connection),
        *_sessions_on_one_date(connection),
        *_sets_twice(connection),
        *_over_the_line(connection),
        *_raised_through_pain(connection),
        *_open_while_frozen(connection),
    ]


def _questions_at_once(connection: Connection) -> list[str]:
    query = (
        select(prompt.c.user_id, func.count())
        .where(prompt.c.expects_text.is_(True), prompt.c.closed_at.is_(None))
        .group_by(prompt.c.user_id)
        .having(func.count() > 1)
    )
    return [f"waits for two answers: {row}" for row in connection.execute(query)]


def _sessions_on_one_date(connection: Connection) -> list[str]:
    query = (
        select(session.c.client_id, session.c.local_on, func.count())
        .where(session.c.state.in_(RUNNING))
        .group_by(session.c.client_id, session.c.local_on)
        .having(func.count() > 1)
    )
    return [f"has two sessions on a date: {row}" for row in connection.execute(query)]


def _sets_twice(connection: Connection) -> list[str]:
    query = (
        select(logged_set.c.item_id, logged_set.c.set_no, logged_set.c.side, func.count())
        .where(logged_set.c.voided_at.is_(None))
        .group_by(logged_set.c.item_id, logged_set.c.set_no, logged_set.c.side)
        .having(func.count() > 1)
    )
    return [f"keeps a set twice: {row}" for row in connection.execute(query)]


def _over_the_line(connection: Connection) -> list[str]:
    """Loads that were given over the load line of their decision."""
    query = (
        select(item.c.id, item.c.given, decision.c.output)
        .join(decision, decision.c.id == item.c.decision_id)
        .join(session, session.c.id == item.c.session_id)
        .where(session.c.state.in_(RUNNING))
    )
    wrong = []
    for row in connection.execute(query):
        made, given = Decision.model_validate_json(row.output), Dose.model_validate(row.given)
        line = made.line.mass
        loads = [each for each in (made.load, given.load) if each is not None and each.kind is LoadKind.MASS]
        over = [each for each in loads if line is not None and each.mass is not None and each.mass > line]
        wrong += [f"gives more than the load line: item {row.id}, {each}, line {line}" for each in over]
    return wrong


def _raised_through_pain(connection: Connection) -> list[str]:
    """Raises of what has hurt at 4 and over since it was done, unless the coach has released it."""
    query = (
        select(session.c.client_id, item.c.exercise, decision.c.output, decision.c.made_at)
        .join(decision, decision.c.id == item.c.decision_id)
        .join(session, session.c.id == item.c.session_id)
        .where(session.c.state.in_(RUNNING))
    )
    wrong = []
    for row in connection.execute(query):
        made = Decision.model_validate_json(row.output)
        if made.kind is not Kind.RAISE or not made.used:
            continue
        done_at = connection.scalar(select(func.max(logged_set.c.at)).where(logged_set.c.id.in_(made.used)))
        hurt = connection.execute(
            select(body_report.c.id, body_report.c.score).where(
                body_report.c.client_id == row.client_id,
                body_report.c.exercise == row.exercise,
                body_report.c.kind == "pain",
                body_report.c.voided_at.is_(None),
                body_report.c.released_at.is_(None),
                body_report.c.score >= HURTS,
                body_report.c.at >= done_at,
                body_report.c.at <= row.made_at,
            )
        ).all()
        wrong += [f"raises {row.exercise} through pain: {each}" for each in hurt]
    return wrong


def _open_while_frozen(connection: Connection) -> list[str]:
    query = (
        select(session.c.id, session.c.state)
        .join(client, client.c.id == session.c.client_id)
        .where(client.c.frozen_at.is_not(None), session.c.state.in_(("sent", "started", "asking")))
    )
    return [f"has a session open while the plan is on hold: {row}" for row in connection.execute(query)]


def frozen_chats(connection: Connection) -> frozenset[int]:
    """Chats of clients whose plan is on hold."""
    query = (
        select(account.c.chat_id)
        .join(client, client.c.id == account.c.client_id)
        .where(client.c.frozen_at.is_not(None))
    )
    return frozenset(connection.scalars(query))
