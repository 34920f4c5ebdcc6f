"""The script goes on for whoever is not spoken for; what does not fit any more is left out."""

from collections.abc import Callable, Sequence
from datetime import datetime

from bot.assembly.story import SETTLE, Act, Script, Stage, Step
from bot.localchat.screen import button_with
from bot.tryout.opening import names_any


class Acting:
    """Acts of a script that are still to come.

    Args:
        stage: Where they are played.
        script: All of it.
        hers: Keys of the people who are spoken for by whoever tries the program out. It grows.
    """

    def __init__(self, stage: Stage, script: Script, hers: set[str]) -> None:
        self._stage = stage
        self._hers = hers
        self._acts: Sequence[Act] = stage.in_order(script)
        self.done = 0

    def before(self, instant: datetime) -> int:
        """Return how many acts begin up to an instant, those that were played among them."""
        return sum(self._stage.instant(act) <= instant for act in self._acts)

    def next_at(self) -> datetime | None:
        """Return when the next act begins; None after the last."""
        return self._stage.instant(self._acts[self.done]) if self.done < len(self._acts) else None

    async def go_to(self, instant: datetime, told: Callable[[Act], None]) -> None:
        """Move the clock on, and have everybody do meanwhile what the script has them do.

        Args:
            instant: Where to; acts that begin before it are played to their end.
            told: Called with each act when it begins.
        """
        while (at := self.next_at()) is not None and at <= instant:
            act = self._acts[self.done]
            self.done += 1
            if act.who not in self._hers:
                await self._play(act, told)
        await self._stage.go_to(max(instant, self._stage.clock.now()))

    async def _play(self, act: Act, told: Callable[[Act], None]) -> None:
        """Play an act as far as it fits what is on the screens."""
        stage = self._stage
        await stage.go_to(max(stage.instant(act), stage.clock.now()))
        told(act)
        for step in act.steps:
            if act.who in self._hers or self._is_about_hers(act.who, step):
                return
            try:
                stage.take(act.who, step)
            except (LookupError, RuntimeError):
                return  # somebody else's doing took away what it was about, or blocked the bot
            await stage.go_to(stage.clock.now() + SETTLE)

    def _is_about_hers(self, who: str, step: Step) -> bool:
        """Return whether a step is about somebody who is spoken for: it names them, or is on a message that does."""
        people = self._stage.people
        hers = [people.named(key) for key in self._hers if key != who]
        if not hers or who not in {each.key for each in people.coaches}:
            return False
        words = [step.say or "", step.answers or ""]
        if step.tap is not None:
            phone = self._stage.phone(who)
            found = button_with(step.tap, [each for each in phone.screen if (step.of or "") in each.text])
            words.append(found[0].text if found else "")
        return any(names_any(each, hers) for each in words)
