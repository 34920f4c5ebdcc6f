"""Prompts: our questions, which a reply or a tap answers."""

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import bindparam, insert, select, update

from bot.store.read_once import read_once
from bot.store.rows import Rows, given, made_row, not_by, one, rows_of, settable, this
from bot.store.tables import account, prompt


@dataclass(frozen=True, slots=True)
class Prompt:
    """A question of ours."""

    id: int
    user_id: int
    chat_id: int
    client_id: int | None
    kind: str
    subject: int | None
    card_key: str | None
    facts: dict[str, Any]
    revision: int
    expects_text: bool
    closed_at: datetime | None


_ONE = rows_of(Prompt, prompt).where(given(prompt.c.id), given(prompt.c.coach_id))
_NEWEST = (
    rows_of(Prompt, prompt)
    .where(not_by(prompt.c.coach_id) == bindparam("coach_id"), given(prompt.c.kind), given(prompt.c.subject))
    .order_by(prompt.c.id.desc())
    .limit(1)
)
_OPEN = _NEWEST.where(prompt.c.closed_at.is_(None))
_EXPECTING = rows_of(Prompt, prompt).where(
    not_by(prompt.c.coach_id) == bindparam("coach_id"),
    given(prompt.c.user_id),
    prompt.c.expects_text.is_(True),
    prompt.c.closed_at.is_(None),
)
_OPEN_NEW = insert(prompt)
_EXPECT = update(prompt).where(
    not_by(prompt.c.coach_id) == bindparam("whose"),
    prompt.c.user_id == bindparam("who"),
    prompt.c.expects_text.is_(True),
)


_CHANGE = update(prompt).where(this(prompt.c.id), this(prompt.c.coach_id))
_REVISE = _CHANGE.values(revision=prompt.c.revision + 1)


class Prompts(Rows):
    """Prompts of one coach's people."""

    def open(
        self,
        kind: str,
        user_id: int,
        chat_id: int,
        now: datetime,
        *,
        client_id: int | None = None,
        subject: int | None = None,
        card_key: str | None = None,
        facts: dict[str, Any] | None = None,
        expects_text: bool = False,
    ) -> Prompt:
        """Ask something. At most one prompt that expects text is open for a person: an older one closes."""
        if expects_text:
            self._stop_expecting(user_id, now)
        kept = json.loads(json.dumps(facts or {}))  # as it will be read, and nobody's to change
        values = {
            "coach_id": self.coach_id,
            "user_id": user_id,
            "chat_id": chat_id,
            "client_id": client_id,
            "kind": kind,
            "subject": subject,
            "card_key": card_key,
            "facts": kept,
            "expects_text": expects_text,
            "opened_at": now,
            "revision": 0,
        }
        made = made_row(self.connection.execute(_OPEN_NEW, values))
        return Prompt(made, user_id, chat_id, client_id, kind, subject, card_key, kept, 0, expects_text, None)

    def _stop_expecting(self, user_id: int, now: datetime) -> None:
        self.connection.execute(
            update(prompt)
            .where(
                not_by(prompt.c.coach_id) == self.coach_id,
                prompt.c.user_id == user_id,
                prompt.c.expects_text.is_(True),
                prompt.c.closed_at.is_(None),
            )
            .values(closed_at=now)
        )

    def expect_text(self, asked: Prompt) -> None:
        """Have a typed reply answer this question; what else expected one of this person no longer does."""
        self.expect_no_text(asked.user_id)
        self.connection.execute(
            update(prompt)
            .where(prompt.c.coach_id == self.coach_id, prompt.c.id == asked.id)
            .values(expects_text=True)
        )

    def expect_no_text(self, user_id: int) -> None:
        """Have a typed reply answer no question any more, for a newer one is asked by buttons; those stay good."""
        asked = {"whose": self.coach_id, "who": user_id, "expects_text": False}
        self.connection.execute(_EXPECT, asked)

    def get(self, prompt_id: int) -> Prompt | None:
        """Return one prompt of this coach's people; None when it is not hers."""
        asked = {"id": prompt_id, "coach_id": self.coach_id}
        return one(Prompt, self.connection.execute(_ONE, asked).first())

    def of(self, kind: str, subject: int) -> Prompt | None:
        """Return the open prompt of a kind about a subject, the newest."""
        asked = {"coach_id": self.coach_id, "kind": kind, "subject": subject}
        return one(Prompt, self.connection.execute(_OPEN, asked).first())

    @read_once
    def newest(self, kind: str, subject: int) -> Prompt | None:
        """Return the newest prompt of a kind about a subject, open or closed."""
        asked = {"coach_id": self.coach_id, "kind": kind, "subject": subject}
        return one(Prompt, self.connection.execute(_NEWEST, asked).first())

    def newest_of(self, user_id: int, kind: str) -> Prompt | None:
        """Return the newest open prompt of a kind that a person was asked."""
        query = (
            rows_of(Prompt, prompt)
            .where(
                not_by(prompt.c.coach_id) == self.coach_id,
                prompt.c.user_id == user_id,
                prompt.c.kind == kind,
                prompt.c.closed_at.is_(None),
            )
            .order_by(prompt.c.id.desc())
            .limit(1)
        )
        return one(Prompt, self.connection.execute(query).first())

    @read_once
    def expecting_text(self, user_id: int) -> Prompt | None:
        """Return the open prompt of a person that a typed reply answers."""
        asked = {"coach_id": self.coach_id, "user_id": user_id}
        return one(Prompt, self.connection.execute(_EXPECTING, asked).first())

    def revise(self, prompt_id: int, **values: Any) -> Prompt:
        """Count the revision up, so that older buttons are stale; set other columns."""
        self.connection.execute(_REVISE, {**self._this(prompt_id), **settable(prompt, values)})
        found = self.get(prompt_id)
        if found is None:
            raise LookupError(f"no prompt {prompt_id} here")
        return found

    def set_card(self, prompt_id: int, card_key: str) -> None:
        """Say which card shows the question."""
        self.connection.execute(_CHANGE, self._this(prompt_id) | {"card_key": card_key})

    def note(self, prompt_id: int, facts: dict[str, Any]) -> None:
        """Keep facts without making older buttons stale."""
        self.connection.execute(_CHANGE, self._this(prompt_id) | {"facts": facts})

    def close(self, prompt_id: int, now: datetime) -> None:
        """The question is answered, or no longer asked."""
        self.connection.execute(_CHANGE, self._this(prompt_id) | {"closed_at": now})

    def _this(self, prompt_id: int) -> dict[str, Any]:
        return {"this_id": prompt_id, "this_coach_id": self.coach_id}

    def close_kind(self, kind: str, subject: int, now: datetime) -> None:
        """Close every open prompt of a kind about a subject."""
        self.connection.execute(
            update(prompt)
            .where(
                not_by(prompt.c.coach_id) == self.coach_id,
                prompt.c.kind == kind,
                prompt.c.subject == subject,
                prompt.c.closed_at.is_(None),
            )
            .values(closed_at=now)
        )

    def follow(self, client_id: int, user_id: int, chat_id: int) -> None:
        """Have what a client was asked go on with her new account; her coach's questions about her stay."""
        theirs = select(account.c.user_id).where(
            account.c.coach_id == self.coach_id, account.c.role == "coach"
        )
        self.connection.execute(
            update(prompt)
            .where(
                not_by(prompt.c.coach_id) == self.coach_id,
                prompt.c.client_id == client_id,
                prompt.c.user_id.not_in(theirs),
            )
            .values(user_id=user_id, chat_id=chat_id)
        )

    def close_about(self, client_id: int, now: datetime) -> None:
        """Close every open prompt about a client, whoever was asked."""
        self.connection.execute(
            update(prompt)
            .where(
                not_by(prompt.c.coach_id) == self.coach_id,
                prompt.c.client_id == client_id,
                prompt.c.closed_at.is_(None),
            )
            .values(closed_at=now)
        )
