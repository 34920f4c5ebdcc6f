"""Who a simulated client is: kit, age, strength, how reps fall with load, what is told, what is missed.

People invented by number. Numbers with a source say so; all others are invented for the rehearsal: they make people
who differ, and say nothing about anybody's real clients.
"""

from dataclasses import dataclass

from core.loads.equipment import Kit, default_kit
from core.oversight.chance import Chance, bell, between, by_share, factor, happens
from core.units import Unit

KITS: tuple[tuple[str, float], ...] = (("both", 0.45), ("bar", 0.25), ("dumbbells", 0.30))
"""Share of each kind of kit: a gym with everything, a gym without dumbbells, dumbbells at home. Invented for the
rehearsal."""
NEW = 0.30
"""Share in the first three months of lifting. Invented for the rehearsal."""
OLDER = 0.15
"""Share of 60 and over. Invented for the rehearsal."""
MIDDLE_AGED = 0.40
"""Share of 40 to 59, of those under 60. Invented for the rehearsal."""
ALONE = 0.35
"""Share that usually trains alone, of those with a bar. Invented for the rehearsal."""
SAFETY_ARMS = 0.60
"""Share whose bar has safety arms. Invented for the rehearsal."""
BODY_KG, BODY_SPREAD = 76.0, 0.15
"""Bodyweight in the middle, and the spread of its factor. [kg] Invented for the rehearsal."""
STRENGTH, STRENGTH_SPREAD = 1.04, 0.09
"""Strength against what the block is written for, in the middle, and the spread of its factor. Invented for the
rehearsal: a block starts a little light, and fits nobody exactly."""
EPLEY = 30.0
"""Reps for which the load falls from all to half of the maximum, by the common line. Source: [Epley1985]."""
REPS_SPREAD = 0.37
"""Spread of the personal factor on those reps: lifters did 6 to 26 reps at 70 % of their maximum, where the line says
13. Source: [Zourdos2021]; that the range is two standard deviations each way is our reading."""
REPS_LEAST, REPS_MOST = 13.0, 65.0
"""Nobody is further out than those lifters were. Source: [Zourdos2021], by the same line."""
GAIN_NEW, GAIN_TRAINED, GAIN_SPREAD = 0.0020, 0.0008, 0.5
"""Growth of the maximum with each hard set of its pattern, and the spread of its factor. [fraction] Invented for the
rehearsal: with five such sets a week about 1 % a week for the new, and 0.4 % for others."""
GAIN_OLDER = 0.7
"""Share of that growth from 60 on. Invented for the rehearsal."""
SIDE_GAP = 0.03
"""Spread of how much weaker one side is. [fraction] Invented for the rehearsal."""
KEEPS_ONE = 0.5
"""Share that ends a set with one left sooner than try the last rep. Invented for the rehearsal."""
TAPS = (0.4, 0.95)
"""How often somebody taps "done as written" where all was done, from person to person. Invented for the rehearsal."""
TELLS_LEFT = (0.05, 0.7)
"""How often somebody gives a number of reps left where it is asked. Invented for the rehearsal."""
TELLS_EFFORT = (0.1, 0.8)
"""How often somebody says how hard a session was. Invented for the rehearsal."""
MISSES = (0.02, 0.28)
"""Share of sessions that somebody misses, from person to person. Invented for the rehearsal."""


@dataclass(frozen=True, slots=True)
class SimulatedLifter:
    """A simulated client.

    Attributes:
        kit_kind: As `default_kit` calls it.
        kit: What there is to lift.
        age_band: As the rules know it.
        new: True in the first three months.
        body_kg: Bodyweight. [kg]
        strength: Against what the block is written for. [factor]
        reps: Reps by which the load falls from all to half of the maximum; 30 for the common line. [reps]
        gain: Growth of the maximum with each hard set. [fraction]
        side_gap: How much weaker the left side is; negative where the right one is. [fraction]
        keeps: Reps that are kept in hand whatever is asked. [reps]
        taps: How often "done as written" is tapped. [0..1]
        tells_left: How often reps left are given. [0..1]
        tells_effort: How often the effort of a session is given. [0..1]
        misses: Share of sessions missed. [0..1]
    """

    kit_kind: str
    kit: Kit
    age_band: str
    new: bool
    body_kg: float
    strength: float
    reps: float
    gain: float
    side_gap: float
    keeps: int
    taps: float
    tells_left: float
    tells_effort: float
    misses: float

    @property
    def alone_under_bar(self) -> bool:
        """True where a failed lift would leave a bar on somebody with nobody there."""
        return self.kit.bar is not None and self.kit.usually_alone and not self.kit.safety_arms


def simulated_lifter(chance: Chance, unit: Unit) -> SimulatedLifter:
    """Return somebody new; every draw is made whatever comes of those before, so that people stay comparable.

    Args:
        chance: This person's own stream.
        unit: Unit that the kit is marked in.
    """
    kind = by_share(chance, KITS)
    alone, arms = happens(chance, ALONE), happens(chance, SAFETY_ARMS)
    kit = default_kit(kind, unit).model_copy(update={"usually_alone": alone, "safety_arms": arms})
    older, middle = happens(chance, OLDER), happens(chance, MIDDLE_AGED)
    new = happens(chance, NEW)
    gain = (GAIN_NEW if new else GAIN_TRAINED) * (GAIN_OLDER if older else 1.0)
    return SimulatedLifter(
        kit_kind=kind,
        kit=kit,
        age_band="60+" if older else "40-59" if middle else "18-39",
        new=new,
        body_kg=BODY_KG * factor(chance, BODY_SPREAD),
        strength=STRENGTH * factor(chance, STRENGTH_SPREAD),
        reps=min(max(EPLEY * factor(chance, REPS_SPREAD), REPS_LEAST), REPS_MOST),
        gain=gain * factor(chance, GAIN_SPREAD),
        side_gap=bell(chance, SIDE_GAP),
        keeps=int(happens(chance, KEEPS_ONE)),
        taps=between(chance, *TAPS),
        tells_left=between(chance, *TELLS_LEFT),
        tells_effort=between(chance, *TELLS_EFFORT),
        misses=between(chance, *MISSES),
    )
