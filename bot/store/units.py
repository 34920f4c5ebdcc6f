"""Units of work: one transaction, one tenant, every repository inside it."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property

from sqlalchemy import Connection, Engine

from bot.store.alerts import Alerts
from bot.store.aways import Aways
from bot.store.blocks import Blocks, Kits
from bot.store.body import Body
from bot.store.cards import Cards
from bot.store.chats import Chats
from bot.store.check_ins import CheckIns
from bot.store.coach_side import CoachSide
from bot.store.cues import Cues
from bot.store.decisions import Decisions
from bot.store.due_questions import DueQuestions
from bot.store.engine import reading
from bot.store.erasing import Erasing
from bot.store.exercises import Exercises
from bot.store.forwards import Forwards
from bot.store.go_aheads import GoAheads
from bot.store.goals import Goals
from bot.store.health_answers import HealthAnswers
from bot.store.illnesses import Illnesses
from bot.store.inbox import Inbox
from bot.store.invites import Invite, Invites, find_invite
from bot.store.last_loads import LastLoads
from bot.store.moves import Moves
from bot.store.orders import Orders
from bot.store.other_training import OtherTraining
from bot.store.outbox import Outbox
from bot.store.oversight import Oversight
from bot.store.people import Accounts, Clients, Coaches
from bot.store.placements import Placements
from bot.store.preps import Clips, DailyPreps
from bot.store.prompts import Prompts
from bot.store.records import Records
from bot.store.restrictions import ClientRestrictions
from bot.store.seasons import Seasons
from bot.store.seconds import Seconds
from bot.store.sessions import Sessions
from bot.store.sets import Sets
from bot.store.talking import Talking
from bot.store.versions import Versions


class Unit(CoachSide):
    """An open transaction. Repositories of a tenant exist only where a tenant is known."""

    def __init__(self, connection: Connection, coach_id: int | None) -> None:
        self.connection = connection
        self.coach_id = coach_id

    @property
    def tenant(self) -> int:
        """The coach whose rows these are.

        Raises:
            RuntimeError: The unit was opened for no coach.
        """
        if self.coach_id is None:
            raise RuntimeError("a tenant's rows were asked for where no tenant is known")
        return self.coach_id

    def of(self, coach_id: int) -> "Unit":
        """Return a unit of one coach in the same transaction."""
        return Unit(self.connection, coach_id)

    def invite_of(self, code: str) -> Invite | None:
        """Return the invitation of a code, whoever's it is."""
        return find_invite(self.connection, code)

    @cached_property
    def inbox(self) -> Inbox:
        """Updates as they came."""
        return Inbox(self.connection)

    @cached_property
    def outbox(self) -> Outbox:
        """Messages on their way out."""
        return Outbox(self.connection)

    @cached_property
    def chats(self) -> Chats:
        """Chats and their pauses."""
        return Chats(self.connection)

    @cached_property
    def accounts(self) -> Accounts:
        """Platform accounts."""
        return Accounts(self.connection)

    @cached_property
    def coaches(self) -> Coaches:
        """Coaches."""
        return Coaches(self.connection)

    @cached_property
    def seconds(self) -> Seconds:
        """Second persons of coaches."""
        return Seconds(self.connection)

    @cached_property
    def clients(self) -> Clients:
        """Clients."""
        return Clients(self.connection, self.tenant)

    @cached_property
    def invites(self) -> Invites:
        """Invitations."""
        return Invites(self.connection, self.tenant)

    @cached_property
    def erasing(self) -> Erasing:
        """Whole clients: their data to hand out, or to delete."""
        return Erasing(self.connection, self.tenant)

    @cached_property
    def exercises(self) -> Exercises:
        """Exercises that the coach may name, hers beside ours."""
        return Exercises(self.connection, self.tenant)

    @cached_property
    def cues(self) -> Cues:
        """The coach's cues, by exercise and by site."""
        return Cues(self.connection, self.tenant)

    @cached_property
    def blocks(self) -> Blocks:
        """Blocks and who runs them."""
        return Blocks(self.connection, self.tenant)

    @cached_property
    def versions(self) -> Versions:
        """Which version of a block holds for whom from when, and weeks changed for one client."""
        return Versions(self.connection, self.tenant, self.blocks)

    @cached_property
    def placements(self) -> Placements:
        """What of a block a client does otherwise than it is written."""
        return Placements(self.connection, self.tenant)

    @cached_property
    def restrictions(self) -> ClientRestrictions:
        """What clients must not do."""
        return ClientRestrictions(self.connection, self.tenant)

    @cached_property
    def kits(self) -> Kits:
        """What clients have to lift."""
        return Kits(self.connection, self.tenant)

    @cached_property
    def sessions(self) -> Sessions:
        """Sessions and their exercises."""
        return Sessions(self.connection, self.tenant)

    @cached_property
    def moves(self) -> Moves:
        """Sessions that come on another day."""
        return Moves(self.connection, self.tenant)

    @cached_property
    def sets(self) -> Sets:
        """Logged sets."""
        return Sets(self.connection, self.tenant)

    @cached_property
    def body(self) -> Body:
        """Reports about the body."""
        return Body(self.connection, self.tenant)

    @cached_property
    def records(self) -> Records:
        """Bests so far."""
        return Records(self.connection, self.tenant)

    @cached_property
    def last_loads(self) -> LastLoads:
        """Last loads that the coach has noted."""
        return LastLoads(self.connection, self.tenant)

    @cached_property
    def decisions(self) -> Decisions:
        """Decisions with their inputs."""
        return Decisions(self.connection, self.tenant)

    @cached_property
    def daily_preps(self) -> DailyPreps:
        """Daily preps that the coach has set."""
        return DailyPreps(self.connection, self.tenant)

    @cached_property
    def due_questions(self) -> DueQuestions:
        """Questions that fall due on a date."""
        return DueQuestions(self.connection, self.tenant)

    @cached_property
    def health_answers(self) -> HealthAnswers:
        """What clients have said of their health when asked."""
        return HealthAnswers(self.connection, self.tenant)

    @cached_property
    def check_ins(self) -> CheckIns:
        """For whom the check-in is off."""
        return CheckIns(self.connection, self.tenant)

    @cached_property
    def goals(self) -> Goals:
        """What clients want to reach."""
        return Goals(self.connection, self.tenant)

    @cached_property
    def other_training(self) -> OtherTraining:
        """What clients train beside their block."""
        return OtherTraining(self.connection, self.tenant)

    @cached_property
    def illnesses(self) -> Illnesses:
        """Illnesses, as clients have said them."""
        return Illnesses(self.connection, self.tenant)

    @cached_property
    def seasons(self) -> Seasons:
        """Holidays and events beside the blocks, and which blocks were run when."""
        return Seasons(self.connection, self.tenant)

    @cached_property
    def talking(self) -> Talking:
        """What the coach says to several: phrases, notes on weeks, absences, videos she asks for."""
        return Talking(self.connection, self.tenant)

    @cached_property
    def aways(self) -> Aways:
        """When clients are away."""
        return Aways(self.connection, self.tenant)

    @cached_property
    def go_aheads(self) -> GoAheads:
        """Where raises go on at a little pain, by the coach's word."""
        return GoAheads(self.connection, self.tenant)

    @cached_property
    def clips(self) -> Clips:
        """Where the coach shows drills."""
        return Clips(self.connection, self.tenant)

    @cached_property
    def prompts(self) -> Prompts:
        """Questions of ours."""
        return Prompts(self.connection, self.tenant)

    @cached_property
    def alerts(self) -> Alerts:
        """Matters the coach must hear."""
        return Alerts(self.connection, self.tenant)

    @cached_property
    def orders(self) -> Orders:
        """What the coach has ordered beside the block."""
        return Orders(self.connection, self.tenant)

    @cached_property
    def forwards(self) -> Forwards:
        """Clients' words passed on."""
        return Forwards(self.connection, self.tenant)

    @cached_property
    def oversight(self) -> Oversight:
        """The log, as what a coach must hear of it."""
        return Oversight(self.connection, self.tenant)

    @cached_property
    def cards(self) -> Cards:
        """Messages that are edited as things go on."""
        return Cards(self.connection, self.tenant)


class Units:
    """Opens units of work on one database."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine
        self._reading = reading(engine)

    @contextmanager
    def open(self, coach_id: int | None) -> Iterator[Unit]:
        """Open a writing transaction; it commits on success and rolls back on any exception."""
        with self.engine.begin() as connection:
            yield Unit(connection, coach_id)

    @contextmanager
    def read(self, coach_id: int | None) -> Iterator[Unit]:
        """Open a transaction that only reads; it waits for nobody, and the database refuses to write in it."""
        with self._reading.connect() as connection:
            yield Unit(connection.execution_options(readonly=True, postgresql_readonly=True), coach_id)
