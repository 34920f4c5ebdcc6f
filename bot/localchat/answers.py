"""What the service answers."""

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Answer:
    """What the service answers."""

    status: int
    body: dict[str, Any]


class Pending:
    """Nothing to give yet: whoever asked for updates waits."""


@dataclass(frozen=True, slots=True)
class UploadedFile:
    """A file in a call."""

    name: str
    content: bytes


class Refused(Exception):
    """The service refuses a call."""

    def __init__(self, status: int, words: str, **parameters: object) -> None:
        super().__init__(words)
        self.status = status
        self.words = words
        self.parameters = parameters
