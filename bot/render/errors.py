"""The words for `core.errors`, and for a fault of ours."""

from html import escape

from bot.messages import Message
from core import errors

WORDING: dict[type[errors.DomainError], str] = {
    errors.TooFewTrainingDays: "The block has {needed} sessions a week, and the client trains on {given} days. "
    "Nothing was changed. Choose another block, or agree on more days.",
    errors.NameTaken: "You have a client called {name}. Give the new one another name, like "
    "<code>/invite {name} B</code>.",
    errors.NameTooLong: "That name is too long: up to {limit} letters are kept. No link was made.",
    errors.InviteUnread: "I could not read <b>{written}</b>, so no link was made. After the name, with commas: unit, "
    "hour, days, city, place, kit, length and experience. Like "
    "<code>/invite Ada: kg, 7:00, mon tue thu, Lisbon, home, dumbbells, 60 min, new</code>.",
    errors.NobodyToAssign: "Nobody has joined yet, so there is nobody to put on a block. "
    "<code>/invite Ada</code> makes a link.",
    errors.NoBlockYet: "You have no block yet. Send me one as a file (xlsx, csv or yaml). "
    "/template sends you a form.",
    errors.UnknownClient: "I know no client called {written}. Yours: {known}. Nothing was changed.",
    errors.NotJoinedYet: "{name} has not ended joining yet, so days and hour are not known. Nothing was changed.",
    errors.UnknownBlock: "I know no block called {written}. Yours: {known}. Nothing was changed.",
    errors.StartUnreadable: "{written} is not a date I can read. Write it like <code>{example}</code>.",
    errors.UnknownZone: "I know no time zone called {zone}. Write its name like <code>Europe/Lisbon</code>.",
    errors.PrepUnread: "I could not read {written}. Write for instance {near}, and up to 15 min. Nothing was changed.",
    errors.UnknownDrill: "I know no prep drill called {written}. There is: {known}. Nothing was changed.",
    errors.LinkUnreadable: "{written} is not the address of a page. It begins with https://. Nothing was changed.",
    errors.StartOutside: "{written} cannot be the start: choose a day from {first} to {last}.",
}


def apology(error: errors.DomainError) -> Message:
    """Tell a person what to put right."""
    facts = {name: escape(str(fact)) for name, fact in error.facts.items()}
    return Message(WORDING[type(error)].format(**facts), silent=True)


def incident(reference: str) -> Message:
    """Tell a person that the fault is ours, with a reference to quote."""
    return Message(
        "Something broke on my side, and your last message was not stored. "
        f"Please send it once more later. Reference <code>{escape(reference)}</code>."
    )
