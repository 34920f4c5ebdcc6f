"""The training log of one simulated client, and the inputs of her decisions: the same as for anybody real.

A decision rests on at most twelve exposures of the exercise, on pain of 56 days and whatever still locks, and on the
days trained in the last 84.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from core.checkin.pain import PainReport
from core.loads.decision import Decision, Inputs, Kind
from core.loads.looking_back import LOOK_BACK, TRAINED_BEARS, last_trained
from core.loads.past import Exposure, Lifter, Moment
from core.loads.personalise import replacement
from core.loads.substitutes import Circumstances, substitutes
from core.oversight.simulated_lifter import SimulatedLifter
from core.policy import Policy
from core.programme.exercises import Exercise
from core.programme.prescription import Prescription

Decide = Callable[[Inputs], Decision]


@dataclass(frozen=True, slots=True)
class Decided:
    """An exercise with what was decided for it.

    Attributes:
        prescription: As it is done: the written one, or what stands in for it.
        inputs: What the decision rests on.
        decision: What was decided.
        instead: True where it stands in for what is written.
    """

    prescription: Prescription
    inputs: Inputs
    decision: Decision
    instead: bool = False


class RehearsalLog:
    """What one simulated client has done, as decisions see it.

    Args:
        lifter: Who she is.
        catalogue: Exercises by key.
        decide: Makes a decision.
        policy: The coach's settings.
    """

    def __init__(
        self, lifter: SimulatedLifter, catalogue: Mapping[str, Exercise], decide: Decide, policy: Policy
    ) -> None:
        self._lifter, self._catalogue = lifter, catalogue
        self._decide, self._policy = decide, policy
        self._about = Circumstances(kits=(lifter.kit,), new=lifter.new)
        self._history: dict[str, tuple[Exposure, ...]] = {}
        self._trained: tuple[date, ...] = ()

    def decided(
        self, asked: Prescription, moment: Moment, pain: tuple[PainReport, ...]
    ) -> tuple[Decided, ...]:
        """Decide for what is written, and where nothing here can load it for its equals, nearest first.

        Returns every decision that was made; the last one holds, unless it was a swap or a pause too: then the first.
        """
        made = [self._one(asked, moment, pain, instead=False)]
        if made[0].decision.kind is Kind.SWAP:
            own = self._catalogue[asked.exercise]
            for key in substitutes(own, asked.instead, self._about, self._catalogue):
                stands_in = replacement(asked, self._catalogue[key])
                made.append(self._one(stands_in, moment, pain, instead=True))
                if made[-1].decision.kind not in (Kind.SWAP, Kind.PAUSE):
                    break
        return tuple(made)

    def keep(self, exercise: str, exposure: Exposure) -> None:
        """Keep what was done of an exercise, newest last."""
        self._history[exercise] = (*self._history.get(exercise, ()), exposure)[-LOOK_BACK:]

    def trained(self, on: date) -> None:
        """Keep that anything was trained on a day."""
        self._trained = (*self._trained, on)

    def _one(
        self, asked: Prescription, moment: Moment, pain: tuple[PainReport, ...], *, instead: bool
    ) -> Decided:
        history = self._history.get(asked.exercise, ())
        since = moment.today - TRAINED_BEARS
        inputs = Inputs(
            exercise=self._catalogue[asked.exercise],
            dose=asked.dose,
            history=history,
            kit=self._lifter.kit,
            policy=self._policy,
            lifter=Lifter(age_band=self._lifter.age_band, new=self._lifter.new, pain=pain),
            moment=moment,
            last_trained=last_trained(history),
            trained_on=tuple(on for on in self._trained if since <= on < moment.today),
        )
        return Decided(asked, inputs, self._decide(inputs), instead)
