"""Mistakes a person can put right: facts, never sentences.

Each is raised by a rule or a use-case, rolls back what was begun, and is answered in the words of `bot.render.errors`.
"""


class DomainError(Exception):
    """Base class. Raise a subclass with keyword facts; catch this one at the rim."""

    def __init__(self, **facts: object) -> None:
        super().__init__(*facts.values())
        self.facts = facts


class TooFewTrainingDays(DomainError):
    """A client trains on fewer days of the week than the block has: `needed`, `given`."""


class NameTaken(DomainError):
    """A coach invites somebody under the name of a client she has: `name`."""


class NameTooLong(DomainError):
    """A name is longer than is kept: `limit`."""


class InviteUnread(DomainError):
    """What a coach says beforehand of whom she invites cannot be read: `written`."""


class NobodyToAssign(DomainError):
    """No client has joined yet."""


class NoBlockYet(DomainError):
    """The coach has sent no block yet."""


class UnknownClient(DomainError):
    """A name is no client's: `written`, `known` (the likeliest first)."""


class NotJoinedYet(DomainError):
    """A client has not ended joining: `name`."""


class UnknownBlock(DomainError):
    """A name is no block's: `written`, `known` (the likeliest first)."""


class StartUnreadable(DomainError):
    """A start is no date: `written`, `example`."""


class StartOutside(DomainError):
    """A start is too soon or too far off: `written`, `first`, `last`."""


class UnknownZone(DomainError):
    """The time zone database has no such zone: `zone`."""


class PrepUnread(DomainError):
    """A daily prep names what is no site, drill or time: `written`, `near` (what may have been meant)."""


class UnknownDrill(DomainError):
    """A name is no prep drill's: `written`, `known` (the likeliest, or some)."""


class LinkUnreadable(DomainError):
    """A clip's address is none: `written`."""
