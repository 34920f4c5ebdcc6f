from pathlib import Path
from typing import Any

import pytest
from dialogs.talks import played

from bot.store.read_once import Memory
from bot.store.units import Units

TALK = Path(__file__).parent / "edited.talk"
"""One in which what was logged is taken back and logged anew in one transaction."""


def test_what_is_remembered_in_a_talk_is_what_the_database_says(
    units: Units, monkeypatch: pytest.MonkeyPatch
) -> None:
    known, differing = Memory.recall, []

    def both(memory: Memory, key: Any, read: Any) -> Any:
        recalled, now = known(memory, key, read), read()
        if recalled != now:
            differing.append((key, recalled, now))
        return recalled

    monkeypatch.setattr(Memory, "recall", both)
    text = TALK.read_text("utf-8")

    assert played(text, units) == text
    assert differing == []
