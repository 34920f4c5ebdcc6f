"""Repositories of what a coach keeps beside blocks and sessions, and of what there is none of; a unit has them."""

from functools import cached_property

from sqlalchemy import Connection

from bot.store.clinician_limits import ClinicianLimits
from bot.store.contracts import Contracts
from bot.store.hand_ons import HandOns
from bot.store.presence import Presence
from bot.store.referrals import Referrals
from bot.store.reminders import Reminders
from bot.store.rules import Rules


class CoachSide:
    """What an open transaction has of a coach's own keeping."""

    connection: Connection

    @property
    def tenant(self) -> int:
        """The coach whose rows these are."""
        raise NotImplementedError

    @cached_property
    def rules(self) -> Rules:
        """What the coach has set for herself over the defaults."""
        return Rules(self.connection, self.tenant)

    @cached_property
    def presence(self) -> Presence:
        """Which tables hold nothing of a client, once somebody has looked."""
        return Presence(self.connection, self.tenant)

    @cached_property
    def referrals(self) -> Referrals:
        """To whom clients were sent on."""
        return Referrals(self.connection, self.tenant)

    @cached_property
    def clinician_limits(self) -> ClinicianLimits:
        """What clinicians have limited."""
        return ClinicianLimits(self.connection, self.tenant)

    @cached_property
    def reminders(self) -> Reminders:
        """The coach's reminders to herself."""
        return Reminders(self.connection, self.tenant)

    @cached_property
    def contracts(self) -> Contracts:
        """What the coach has agreed with clients."""
        return Contracts(self.connection, self.tenant)

    @cached_property
    def hand_ons(self) -> HandOns:
        """What clients let be handed on to a practitioner."""
        return HandOns(self.connection, self.tenant)
