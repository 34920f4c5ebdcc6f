"""The button under the last word of joining: what there is to lift, said when it is first needed."""

from collections.abc import Sequence
from datetime import datetime

from bot.messages import Effect, Person, Tap
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import kit
from bot.usecases.join_end import KIT_BUTTON

KIND = KIT_BUTTON


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show what is known of the kit, with how to say more."""
    unit.prompts.revise(prompt.id, facts=dict(prompt.facts))
    return kit.kit_said(kit.KitSaid(), person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show it again after an older tap."""
    return kit.kit_said(kit.KitSaid(), person, unit, now)
