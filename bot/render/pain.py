"""Words about pain: the questions, what is answered, what the coach reads."""

from collections.abc import Iterable
from html import escape
from typing import Protocol

from bot.messages import Action, Button, Message, Rows, Tap, encode
from bot.render import safety
from bot.render.dates import day_words
from core.checkin.pain import Band, PainAction, PainReport, band, in_session_action
from core.programme.exercises import Site


class HasRevision(Protocol):
    """What a button needs to know of its prompt."""

    @property
    def id(self) -> int:
        """Row of the prompt."""
        ...

    @property
    def revision(self) -> int:
        """Its revision now."""
        ...


SIDE_WORDS = {"L": "left ", "R": "right "}
SITE_WORDS = {Site.CHEST: "chest muscle", Site.ABDOMEN: "belly"}


def place_words(site: Site, side: str | None) -> str:
    """Write a site with its side: `left knee`, `low back`."""
    return f"{SIDE_WORDS.get(side or '', '')}{SITE_WORDS.get(site, site.value)}"


def _button(prompt: HasRevision, label: str, action: Action, argument: int = 0) -> Button:
    return Button(label, encode(Tap(prompt.id, prompt.revision, action, argument)))


def ask_site(prompt: HasRevision, sites: tuple[Site, ...], likely: Iterable[Site]) -> Message:
    """Ask where it hurts; the sites that the exercise loads come first."""
    first = [site for site in sites if site in set(likely)]
    ordered = first + [site for site in sites if site not in first]
    buttons = [
        _button(prompt, SITE_WORDS.get(site, site.value).capitalize(), Action.SITE, sites.index(site))
        for site in ordered
    ]
    rows: Rows = tuple(tuple(buttons[i : i + 3]) for i in range(0, len(buttons), 3))
    return Message(
        "Where does it hurt?\nOr type it in one line, like <code>pain left knee 4</code>.",
        rows=(*rows, (_button(prompt, "Never mind", Action.CANCEL),)),
        silent=True,
    )


def ask_side(prompt: HasRevision, site: Site) -> Message:
    """Ask for the side."""
    return Message(
        f"{SITE_WORDS.get(site, site.value).capitalize()}: which side?",
        rows=(
            (
                _button(prompt, "Left", Action.SIDE, 1),
                _button(prompt, "Right", Action.SIDE, 2),
                _button(prompt, "Both", Action.SIDE, 3),
            ),
        ),
        silent=True,
    )


def ask_score(prompt: HasRevision, place: str) -> Message:
    """Ask for a number from 0 to 10."""
    numbers = [_button(prompt, str(score), Action.SCORE, score) for score in range(11)]
    return Message(
        f"{place.capitalize()}: how bad is it at its worst, from 0 to 10?\n0 is no pain, 10 the worst you can imagine.",
        rows=(tuple(numbers[:6]), tuple(numbers[6:])),
        silent=True,
    )


def ask_feel(prompt: HasRevision, place: str) -> Message:
    """Ask for what changes the answer: spreading, or sudden."""
    return Message(
        f"{place.capitalize()}: is it one of these?",
        rows=(
            (_button(prompt, "Goes down the leg or arm, numb, tingling", Action.FEEL, 1),),
            (_button(prompt, "Came suddenly, or with a pop", Action.FEEL, 2),),
            (_button(prompt, "Neither", Action.FEEL, 0),),
        ),
        silent=True,
    )


def noted(report: PainReport) -> Message:
    """Say what was kept and what to do now."""
    place = place_words(report.site, report.side.value if report.side else None)
    head = f"Noted: {place}, {report.score} of 10."
    match in_session_action(report):
        case _ if band(report) is Band.NONE:
            return Message(f"{head} Good.", silent=True)
        case PainAction.STOP_SESSION | PainAction.STOP_EXERCISE:
            return Message(f"{head} Your coach has been told.", silent=True)
        case PainAction.NOTE:
            return Message(f"{head}\n{safety.LOW_PAIN}", silent=True)
        case _:
            return Message(f"{head}\n{safety.EASE_TODAY}\nYour coach will see it today.", silent=True)


def never_mind() -> Message:
    """Close the question unanswered."""
    return Message("All right, nothing noted.", silent=True)


def stop_here(*, spreading: bool) -> Message:
    """Tell the client to stop; the fixed texts of `bot.render.safety`."""
    return Message(safety.SPREADING if spreading else safety.STOP_THIS_SESSION)


def alert(name: str, report: PainReport, *, exercise: str | None, rows: Rows = ()) -> Message:
    """Tell the coach of pain: who, what, since when, what was done about it."""
    number = "no number given, read as 4–6" if report.score is None else f"{report.score} of 10"
    during = f", during {escape(exercise.lower())}" if exercise else ""
    place = place_words(report.site, report.side.value if report.side else None)
    lines = [f"<b>{escape(name)}</b>: {place}, {number}{during} ({day_words(report.on)})."]
    if report.spreading:
        lines.append("Goes down a leg or arm, or numb or tingling.")
    if report.sudden:
        lines.append("Came suddenly or with a pop.")
    lines.append(DID[in_session_action(report)])
    return Message("\n".join(lines), rows=rows)


DID = {
    PainAction.STOP_SESSION: (
        "I ended the session and sent the text that says to stop. "
        "This exercise and the ones like it stay locked until you release them."
    ),
    PainAction.STOP_EXERCISE: (
        "I took out bending under load and load on the back, and said that a physiotherapist should look. "
        "Both stay out until you release them."
    ),
    PainAction.EASE: "I said: lighter or shorter, one try, else leave it. Next time 20 % less, and no raise near it.",
    PainAction.SWAP: "I said: leave it out. Next time 20 % less, and no raise near it.",
    PainAction.NOTE: "No raise while it is there.",
}
