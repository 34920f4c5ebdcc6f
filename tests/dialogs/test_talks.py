"""Every talk in this folder brings exactly the messages that stand in it."""

from pathlib import Path

import pytest
from dialogs.talks import played

from bot.store.units import Units

TALKS = sorted(Path(__file__).parent.glob("*.talk"))


@pytest.mark.parametrize("path", TALKS, ids=lambda path: path.stem)
def test_a_talk_goes_as_it_is_written(path: Path, units: Units) -> None:
    text = path.read_text("utf-8")

    assert played(text, units) == text
