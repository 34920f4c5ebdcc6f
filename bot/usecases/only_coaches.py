"""What only a coach may do, asked for by somebody else."""

from collections.abc import Sequence

from bot.messages import Effect, Person
from bot.render.helping import for_client
from bot.render.setting_up import only_for_coaches as words
from bot.usecases.leaving import answer


def only_for_coaches(person: Person) -> Sequence[Effect]:
    """Answer a client or a stranger who wants what only a coach may; a client with what she can do as well."""
    only = answer(person, "coaches", words())
    return [answer(person, "help", for_client()), only] if person.role == "client" else [only]
