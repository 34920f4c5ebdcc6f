"""What goes into a call and what comes out of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from bot.localchat.network import Network

Body = dict[str, Any]
"""A JSON object."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What the service answers."""

    status: int
    body: Body


class Pending:
    """Nothing to give yet: whoever asked for updates waits."""


@dataclass(frozen=True, slots=True)
class UploadedFile:
    """A file in a call."""

    name: str
    content: bytes


@dataclass(frozen=True, slots=True)
class Call:
    """One call of the bot, its parameters read.

    Attributes:
        network: The service that is called.
        params: Values by name, of the types that the method says.
        files: Uploaded files by the name of their part.
    """

    network: "Network"
    params: Body = field(default_factory=dict)
    files: Mapping[str, UploadedFile] = field(default_factory=dict)


class Refused(Exception):
    """The service refuses a call."""

    def __init__(self, status: int, words: str) -> None:
        super().__init__(words)
        self.status = status
        self.words = words


def bad_request(words: str) -> Refused:
    """Return the refusal of a call that asks for something wrong."""
    return Refused(400, f"Bad Request: {words}")


def refusal(status: int, words: str, **parameters: object) -> Answer:
    """Return a refusal as the answer it goes out in."""
    body: Body = {"ok": False, "error_code": status, "description": words}
    return Answer(status, body | ({"parameters": parameters} if parameters else {}))
