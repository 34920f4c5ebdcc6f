"""A question as it is shown: what its words and buttons are made from."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import time
from typing import Any

from bot.messages import Action, Button, Rows, Tap, encode


@dataclass(frozen=True, slots=True)
class JoinView:
    """A joining question as it is shown.

    Attributes:
        step: Which question.
        number: Its place, from 1.
        of: How many there are.
        name: The client's name.
        coach: The coach's name.
        prompt_id: Prompt that the buttons answer.
        revision: Revision of that prompt.
        facts: What the prompt remembers: days chosen, zones suggested, whether arms matter.
        hours: Hours to choose from.
        lengths: Lengths of a session to choose from. [min]
        known: What the coach has filled in, in words, as its questions stand in `facts`.
        can_go_back: True when there is a way to the question before.
        note: Line above the question: what was understood, or what was not.
    """

    step: str
    number: int
    of: int
    name: str
    coach: str
    prompt_id: int
    revision: int
    facts: dict[str, Any] = field(default_factory=dict)
    hours: tuple[time, ...] = ()
    lengths: tuple[int, ...] = ()
    known: tuple[str, ...] = ()
    can_go_back: bool = False
    note: str | None = None

    def button(self, label: str, action: Action, argument: int = 0) -> Button:
        """A button of this question as it now stands."""
        return Button(label, encode(Tap(self.prompt_id, self.revision, action, argument)))

    def picks(self, labels: Sequence[str], width: int = 1) -> Rows:
        """One choice a button, `width` in a row."""
        buttons = [self.button(label, Action.PICK, number) for number, label in enumerate(labels)]
        return tuple(tuple(buttons[at : at + width]) for at in range(0, len(buttons), width))
