"""Prompts: our questions, which a reply or a tap answers; and alerts and forwarded messages."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import insert, update

from bot.store.rows import Rows, one, rows_of
from bot.store.tables import alert, forwarded, prompt


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
            self.connection.execute(
                update(prompt)
                .where(
                    prompt.c.coach_id == self.coach_id,
                    prompt.c.user_id == user_id,
                    prompt.c.expects_text.is_(True),
                    prompt.c.closed_at.is_(None),
                )
                .values(closed_at=now)
            )
        made = self.connection.execute(
            insert(prompt)
            .values(
                coach_id=self.coach_id,
                user_id=user_id,
                chat_id=chat_id,
                client_id=client_id,
                kind=kind,
                subject=subject,
                card_key=card_key,
                facts=facts or {},
                expects_text=expects_text,
                opened_at=now,
            )
            .returning(prompt.c.id)
        ).scalar_one()
        found = self.get(int(made))
        if found is None:
            raise LookupError("a prompt vanished in its own transaction")
        return found

    def get(self, prompt_id: int) -> Prompt | None:
        """Return one prompt of this coach's people; None when it is not hers."""
        query = rows_of(Prompt, prompt).where(prompt.c.id == prompt_id, prompt.c.coach_id == self.coach_id)
        return one(Prompt, self.connection.execute(query).first())

    def of(self, kind: str, subject: int) -> Prompt | None:
        """Return the open prompt of a kind about a subject, the newest."""
        query = (
            rows_of(Prompt, prompt)
            .where(
                prompt.c.coach_id == self.coach_id,
                prompt.c.kind == kind,
                prompt.c.subject == subject,
                prompt.c.closed_at.is_(None),
            )
            .order_by(prompt.c.id.desc())
            .limit(1)
        )
        return one(Prompt, self.connection.execute(query).first())

    def newest(self, kind: str, subject: int) -> Prompt | None:
        """Return the newest prompt of a kind about a subject, open or closed."""
        query = (
            rows_of(Prompt, prompt)
            .where(prompt.c.coach_id == self.coach_id, prompt.c.kind == kind, prompt.c.subject == subject)
            .order_by(prompt.c.id.desc())
            .limit(1)
        )
        return one(Prompt, self.connection.execute(query).first())

    def expecting_text(self, user_id: int) -> Prompt | None:
        """Return the open prompt of a person that a typed reply answers."""
        query = rows_of(Prompt, prompt).where(
            prompt.c.coach_id == self.coach_id,
            prompt.c.user_id == user_id,
            prompt.c.expects_text.is_(True),
            prompt.c.closed_at.is_(None),
        )
        return one(Prompt, self.connection.execute(query).first())

    def revise(self, prompt_id: int, **values: Any) -> Prompt:
        """Count the revision up, so that older buttons are stale; set other columns."""
        self.connection.execute(
            update(prompt)
            .where(prompt.c.id == prompt_id, prompt.c.coach_id == self.coach_id)
            .values(revision=prompt.c.revision + 1, **values)
        )
        found = self.get(prompt_id)
        if found is None:
            raise LookupError(f"no prompt {prompt_id} here")
        return found

    def set_card(self, prompt_id: int, card_key: str) -> None:
        """Say which card shows the question."""
        self.connection.execute(
            update(prompt)
            .where(prompt.c.id == prompt_id, prompt.c.coach_id == self.coach_id)
            .values(card_key=card_key)
        )

    def note(self, prompt_id: int, facts: dict[str, Any]) -> None:
        """Keep facts without making older buttons stale."""
        self.connection.execute(
            update(prompt)
            .where(prompt.c.id == prompt_id, prompt.c.coach_id == self.coach_id)
            .values(facts=facts)
        )

    def close(self, prompt_id: int, now: datetime) -> None:
        """The question is answered, or no longer asked."""
        self.connection.execute(
            update(prompt)
            .where(prompt.c.id == prompt_id, prompt.c.coach_id == self.coach_id)
            .values(closed_at=now)
        )

    def close_kind(self, kind: str, subject: int, now: datetime) -> None:
        """Close every open prompt of a kind about a subject."""
        self.connection.execute(
            update(prompt)
            .where(
                prompt.c.coach_id == self.coach_id,
                prompt.c.kind == kind,
                prompt.c.subject == subject,
                prompt.c.closed_at.is_(None),
            )
            .values(closed_at=now)
        )

    def close_about(self, client_id: int, now: datetime) -> None:
        """Close every open prompt about a client, whoever was asked."""
        self.connection.execute(
            update(prompt)
            .where(
                prompt.c.coach_id == self.coach_id,
                prompt.c.client_id == client_id,
                prompt.c.closed_at.is_(None),
            )
            .values(closed_at=now)
        )


@dataclass(frozen=True, slots=True)
class Alert:
    """A matter that a coach must hear."""

    id: int
    client_id: int
    key: str
    level: int
    grown: int
    at: datetime
    told_at: datetime | None
    seen_at: datetime | None
    closed_at: datetime | None


MATTER_LASTS = timedelta(days=14)
"""After this long the same again is a new matter. Our proposal."""


class Alerts(Rows):
    """Matters of one coach: told once, again only when grown."""

    def grow(self, client_id: int, key: str, level: int, grown: int, now: datetime) -> Alert | None:
        """Keep a matter; return it when it is new or has grown, None when there is nothing new to tell."""
        found = self.open_one(key)
        if found is not None and now - (found.told_at or found.at) > MATTER_LASTS:
            self.close(key, now)
            found = None
        if found is None:
            self.connection.execute(
                insert(alert).values(
                    coach_id=self.coach_id, client_id=client_id, key=key, level=level, grown=grown, at=now
                )
            )
            return self.open_one(key)
        if grown <= found.grown and level <= found.level:
            return None
        self.connection.execute(
            update(alert)
            .where(alert.c.id == found.id)
            .values(grown=max(grown, found.grown), level=max(level, found.level), seen_at=None)
        )
        return self.open_one(key)

    def open_one(self, key: str) -> Alert | None:
        """Return the open matter of a key."""
        query = rows_of(Alert, alert).where(
            alert.c.coach_id == self.coach_id, alert.c.key == key, alert.c.closed_at.is_(None)
        )
        return one(Alert, self.connection.execute(query).first())

    def told(self, alert_id: int, now: datetime) -> None:
        """Note that the coach's message is queued."""
        self.connection.execute(update(alert).where(alert.c.id == alert_id).values(told_at=now))

    def close_of(self, client_id: int, now: datetime) -> None:
        """End every matter of a client."""
        self.connection.execute(
            update(alert)
            .where(
                alert.c.coach_id == self.coach_id, alert.c.client_id == client_id, alert.c.closed_at.is_(None)
            )
            .values(closed_at=now)
        )

    def close(self, key: str, now: datetime) -> None:
        """End a matter; the same again would be a new one."""
        self.connection.execute(
            update(alert)
            .where(alert.c.coach_id == self.coach_id, alert.c.key == key, alert.c.closed_at.is_(None))
            .values(closed_at=now)
        )


class Forwards(Rows):
    """Messages of clients passed on to their coach."""

    def add(
        self,
        client_id: int,
        outbox_key: str,
        chat_id: int,
        from_message_id: int | None,
        kind: str,
        at: datetime,
    ) -> None:
        """Keep whose words a message to the coach holds, so that a reply finds its way."""
        self.connection.execute(
            insert(forwarded).values(
                coach_id=self.coach_id,
                client_id=client_id,
                outbox_key=outbox_key,
                chat_id=chat_id,
                from_message_id=from_message_id,
                kind=kind,
                at=at,
            )
        )
