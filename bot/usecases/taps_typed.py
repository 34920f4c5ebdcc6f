"""Typed words that stand for a button of a coach's question about care: referrals, limits, reminders."""

from collections.abc import Mapping

from bot.messages import Action, Tap
from bot.store.prompts import Prompt


def typed_tap(text: str, prompt: Prompt, words: Mapping[str, Action]) -> Tap | None:
    """Return the tap that words stand for, at the question's own revision; None for other words."""
    action = words.get(" ".join(text.casefold().strip(" .!").split()))
    return None if action is None else Tap(prompt.id, prompt.revision, action)
