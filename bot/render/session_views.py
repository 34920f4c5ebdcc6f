"""A session and its exercises as they are shown."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from bot.messages import Action, Button, Tap, encode
from bot.render.moving import Move, TakenIn
from core.checkin.training_log import Item, LoggedSet
from core.loads.bars import BarLoad
from core.loads.decision import Decision
from core.loads.outcome import SetPlan
from core.loads.reasons import ReasonCode
from core.loads.warmup import Ramp
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.last_loads import LastLoad
from core.programme.prep import PrepStep
from core.programme.prescription import LoadKind

NO_RAMP = Ramp()


@dataclass(frozen=True, slots=True)
class ItemView:
    """One exercise as it is shown.

    Attributes:
        item: Its row in the session.
        exercise: What is done, from the catalogue.
        decision: Why it is so; None where nothing was decided.
        last: What was done last time.
        sets: What is logged today.
        made: The bar made up to today's load; None where it is no bar or none makes it.
        bars: How many bars there are to choose from.
        ramp: Its warm-up sets, and what stands against them.
        lighter: Name of what goes lighter, where the empty bar is too heavy and something does.
        chosen: True where the client chose it today.
        because: Why it stands in for another.
        written: What was written, where that is in nobody's catalogue but the coach's.
        own_cue: Her coach's cue for her.
        coach_cue: Her coach's cue for all.
        noted: The last load that her coach noted.
        video: What her coach would like to see of it, ready to show; None where nothing.
    """

    item: Item
    exercise: Exercise
    decision: Decision | None
    last: tuple[LoggedSet, ...]
    sets: tuple[LoggedSet, ...]
    made: BarLoad | None = None
    bars: int = 1
    ramp: Ramp = NO_RAMP
    lighter: str | None = None
    chosen: bool = False
    because: str | None = None
    written: Exercise | None = None
    own_cue: str | None = None
    coach_cue: str | None = None
    noted: LastLoad | None = None
    video: str | None = None

    @property
    def to_find(self) -> bool:
        """True while no load is known for it."""
        load = self.item.given.load
        return load is not None and load.kind is LoadKind.FIND

    @property
    def plan(self) -> SetPlan | None:
        """The sets with loads of their own; None where there are none, or another load was taken since."""
        made = self.decision
        return made.plan if made is not None and made.load == self.item.given.load else None

    @property
    def stands_in(self) -> bool:
        """True when it stands in for the exercise that was written."""
        return self.item.exercise != self.item.prescription.exercise

    @property
    def written_name(self) -> str:
        """Name of the exercise that was written."""
        return (self.written or CATALOGUE[self.item.prescription.exercise]).name

    @property
    def search(self) -> Mapping[str, str]:
        """Facts of the search for a load: where to begin, how to rise, when to end; empty where none is on."""
        found = self.decision.reasons if self.decision else ()
        return next((each.facts for each in found if each.code == ReasonCode.START_FIND), {})


@dataclass(frozen=True, slots=True)
class SessionView:
    """A session as it is shown."""

    day: str
    week_no: int
    weeks: int
    local_on: date
    late: bool
    state: str
    screen: str
    items: tuple[ItemView, ...]
    cursor: int | None
    prompt_id: int
    revision: int
    note: str | None = None
    closing: tuple[str, ...] = ()
    pained: bool = False
    asks_signs: bool = False
    swaps: tuple[str, ...] = ()
    swap_back: bool = False
    moves: tuple[Move, ...] = ()
    reason: int = 0
    last_week: date | None = None
    moved_from: date | None = None
    taken_in: TakenIn | None = None
    stays_moved: bool = False
    phase: str | None = None
    prep: tuple[PrepStep, ...] = ()
    clips: Mapping[str, str] = field(default_factory=dict)
    catalogue: Mapping[str, Exercise] = field(default_factory=lambda: CATALOGUE)
    lighter_week: bool = False
    testing_week: bool = False
    place: str | None = None
    usual_place: str | None = None
    places: tuple[str, ...] = ()
    several_places: bool = False
    place_asked: str = ""
    prepped: tuple[str, ...] = ()
    reminder: str = ""

    def button(self, label: str, action: Action, argument: int = 0) -> Button:
        """A button of this card as it now stands."""
        return Button(label, encode(Tap(self.prompt_id, self.revision, action, argument)))

    @property
    def is_away(self) -> bool:
        """True where it is done at another place than usual."""
        return self.place is not None and self.usual_place is not None and self.place != self.usual_place

    @property
    def eased(self) -> bool:
        """True when the coach has eased something of it."""
        told = [each.decision.reasons for each in self.items if each.decision]
        by_order = (ReasonCode.COACH_EASED, ReasonCode.COACH_LIGHTER)
        return any(one.code in by_order for reasons in told for one in reasons)

    @property
    def is_lighter(self) -> bool:
        """True in a lighter week that the coach has not taken out."""
        told = [each.decision.reasons for each in self.items if each.decision]
        out = any(one.code == ReasonCode.COACH_FULL for reasons in told for one in reasons)
        return self.lighter_week and not out

    def current(self) -> ItemView | None:
        """The exercise at the cursor."""
        return next((each for each in self.items if each.item.id == self.cursor), None)

    def main_done(self) -> ItemView | None:
        """The lift whose last set is asked about: the first main lift that was done with a load, or else the first."""
        done = [each for each in self.items if each.item.state == "done" and each.item.given.load]
        return next((each for each in done if each.exercise.main_lift), done[0] if done else None)
