"""Counts what became of calls, for whoever watches over the program."""

from collections import Counter

from bot.messages import Lane
from bot.outbound import policy
from bot.outbound.policy import Outcome
from bot.outbound.transport import Transport
from bot.store.outbox import OutboxRow

WORDS: dict[type[Outcome], str] = {
    policy.Delivered: "delivered",
    policy.NotDelivered: "not_delivered",
    policy.InDoubt: "in_doubt",
    policy.Blocked: "blocked",
    policy.WrongToken: "wrong_token",
    policy.TooFast: "too_fast",
    policy.MessageGone: "message_gone",
    policy.MarkupRefused: "markup_refused",
    policy.FileUnknown: "file_unknown",
    policy.ChatMoved: "chat_moved",
}
"""Every outcome, as its figure is labelled."""


class Tally:
    """A transport that counts what became of each call of another.

    Attributes:
        outcomes: How many calls ended so, by lane and a word of `WORDS`.
    """

    def __init__(self, transport: Transport) -> None:
        self._transport = transport
        self.outcomes: Counter[tuple[Lane, str]] = Counter()

    async def deliver(self, row: OutboxRow) -> Outcome:
        """Make the call, and count it."""
        outcome = await self._transport.deliver(row)
        self.outcomes[row.lane, WORDS[type(outcome)]] += 1
        return outcome
