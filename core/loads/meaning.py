"""What a dose means before anything is decided: shares of a maximum, steps up, bands, lighter weeks, the way up."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from core.loads.one_rep_max import unworn
from core.loads.order import OrderKind, lightened_by, newest, standing_on
from core.loads.past import Inputs
from core.loads.references import reference
from core.programme.prescription import Load, LoadKind, PercentOf
from core.programme.ways_up import WayKind, WayUp
from core.units import Mass


@dataclass(frozen=True, slots=True)
class Meaning:
    """What the rules need of the writing beside the load itself.

    Attributes:
        way: The way up, as written or by what is written.
        percent: A share that was written. [%]
        percent_of: What it is of.
        maximum: That maximum, where the log has one.
        step: Step up from last time that was written.
        next_variant: Key of the harder exercise of a path; None at its end, and without a path.
        left_high: Most reps left that were asked for, of a range. [reps]
        today: The client's local date.
    """

    way: WayKind
    percent: Decimal | None = None
    percent_of: PercentOf | None = None
    maximum: Mass | None = None
    step: Mass | None = None
    next_variant: str | None = None
    left_high: int | None = None
    today: date | None = None

    @property
    def follows_row(self) -> bool:
        """True where the load is that of the row and no other."""
        return self.way is WayKind.AS_WRITTEN and self.step is None


def meaning_of(inputs: Inputs) -> Meaning:
    """Return what the dose of `inputs` means."""
    dose, load = inputs.dose, inputs.dose.load
    shares = load is not None and load.kind is LoadKind.PERCENT
    way = dose.way_up
    return Meaning(
        way=way.kind,
        percent=load.percent if load is not None and shares else None,
        percent_of=load.percent_of if load is not None and shares else None,
        maximum=reference(inputs.history, load.percent_of) if load is not None and load.percent_of else None,
        step=load.mass if load is not None and load.kind is LoadKind.UP else None,
        next_variant=_next(way, inputs.exercise.key),
        left_high=dose.left_high,
        today=inputs.moment.today,
    )


def _next(way: WayUp, exercise: str) -> str | None:
    if exercise not in way.path[:-1]:
        return None
    return way.path[way.path.index(exercise) + 1]


def settled(inputs: Inputs, meant: Meaning) -> Inputs:
    """Return `inputs` with a load that the rules know: a mass, bodyweight, `find` or none; and the lighter week set.

    A share is that share of the maximum, and a load to be found where there is no maximum. A step up is counted from
    last time, so that the load itself is not written. A band is no load that is counted.
    """
    dose, moment = inputs.dose, inputs.moment
    load = _settled(dose.load, meant)
    lighter = dose.lighter and not taken_out(inputs)
    if load is dose.load and (moment.deload or not lighter):
        return inputs
    moment = moment.model_copy(update={"deload": moment.deload or lighter})
    return inputs.model_copy(update={"dose": dose.model_copy(update={"load": load}), "moment": moment})


def taken_out(inputs: Inputs) -> bool:
    """Return whether a planned lighter week is one no more, by the coach's order: then nothing rises in it.

    Where she has ordered a lighter one as well, it stays lighter.
    """
    standing = standing_on(inputs.orders, inputs.moment.today)
    ordered = newest(standing, OrderKind.FULL, inputs.exercise) is not None
    return inputs.dose.lighter and ordered and not lightened_by(standing, inputs.exercise)


def _settled(load: Load | None, meant: Meaning) -> Load | None:
    if load is None or load.kind in (LoadKind.MASS, LoadKind.BODYWEIGHT, LoadKind.FIND):
        return load
    if load.kind is LoadKind.BAND:
        return None
    if meant.maximum is not None and meant.percent is not None:
        return Load(LoadKind.MASS, unworn(meant.maximum * (meant.percent / 100)))
    return Load.find()
