"""Words about pain: the questions, what is answered, what the coach reads."""

from collections.abc import Collection
from html import escape
from typing import Protocol

from bot.messages import Action, Button, Message, Rows, Tap, encode
from bot.render import safety
from bot.render.dates import day_words
from bot.render.loads import load_words
from core.checkin.pain import Band, PainAction, PainReport, band, in_session_action
from core.programme.exercises import Exercise, Site
from core.programme.prescription import Load, LoadKind


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


SITE_CODES = 32
"""A site on a button is its place in the list, plus this for each step of the side: 1 left, 2 right."""
COMMON = (
    Site.LOW_BACK,
    Site.NECK,
    Site.UPPER_BACK,
    Site.SHOULDER,
    Site.ELBOW,
    Site.WRIST,
    Site.HIP,
    Site.KNEE,
    Site.ANKLE,
)
"""Offered first where no exercise is open. Common practice, no source."""
ASK_SITE = "Where does it hurt?\nOr type it in one line, like <code>pain left knee 4</code>."


def ask_site(
    prompt: HasRevision, sites: tuple[Site, ...], likely: Collection[Site], unsided: Collection[Site]
) -> Message:
    """Ask where it hurts: the sites that the open exercise loads, each with its side; or else the common ones."""
    rows: list[tuple[Button, ...]] = []
    if likely:
        middle = [_site(prompt, sites, site) for site in sites if site in likely and site in unsided]
        rows += _rows(middle)
        rows += [
            (_site(prompt, sites, site, 1), _site(prompt, sites, site, 2))
            for site in sites
            if site in likely and site not in unsided
        ]
    else:
        rows += _rows([_site(prompt, sites, site) for site in COMMON])
    last = (_button(prompt, "Somewhere else", Action.PICK), _button(prompt, "Never mind", Action.CANCEL))
    return Message(ASK_SITE, rows=(*rows, last), silent=True)


def ask_any_site(prompt: HasRevision, sites: tuple[Site, ...]) -> Message:
    """Ask where it hurts, with every site there is."""
    rows = _rows([_site(prompt, sites, site) for site in sites])
    return Message(ASK_SITE, rows=(*rows, (_button(prompt, "Never mind", Action.CANCEL),)), silent=True)


def _site(prompt: HasRevision, sites: tuple[Site, ...], site: Site, side: int = 0) -> Button:
    label = place_words(site, {1: "L", 2: "R"}.get(side)).capitalize()
    return _button(prompt, label, Action.SITE, sites.index(site) + SITE_CODES * side)


def _rows(buttons: list[Button]) -> list[tuple[Button, ...]]:
    return [tuple(buttons[i : i + 3]) for i in range(0, len(buttons), 3)]


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


def noted(report: PainReport, *, training: bool, cue: str | None = None) -> Message:
    """Say what was kept and what to do now; with exercises still to come, what to do with the load.

    Args:
        report: As kept.
        training: True while exercises are still to come.
        cue: What the coach says of pain like this; shown at 1 to 3 alone.
    """
    place = place_words(report.site, report.side.value if report.side else None)
    head = f"Noted: {place}, {report.score} of 10."
    match in_session_action(report):
        case PainAction.STOP_SESSION | PainAction.STOP_EXERCISE:
            return Message(f"{head} Your coach has been told.", silent=True)
        case _ if band(report) is Band.NONE:
            return Message(head, silent=True)
        case PainAction.NOTE:
            said = f"\nYour coach for this: {escape(cue)}" if cue else ""
            return Message(f"{head}\n{safety.LOW_PAIN}{said}", silent=True)
        case _:
            what = safety.EASE_TODAY if training else safety.EASE_NEXT
            return Message(f"{head}\n{what}\nYour coach will see it today.", silent=True)


def never_mind() -> Message:
    """Close the question unanswered."""
    return Message("All right, nothing noted.", silent=True)


def stop_here(*, spreading: bool, ends: bool) -> Message:
    """Tell the client to stop; the fixed texts of `bot.render.safety`."""
    if not ends:
        return Message(safety.SPREADING)
    return Message(safety.STOP_AND_SPREADING if spreading else safety.STOP_THIS_SESSION)


def during(exercise: Exercise, load: Load | None) -> str:
    """Say what was being done, and with which load."""
    known = load is not None and load.kind is not LoadKind.FIND
    at = f" at {load_words(load, exercise.basis)}" if known and load_words(load) != "bodyweight" else ""
    return f", during {escape(exercise.name.lower())}{at}"


def alert(name: str, report: PainReport, doing: str, *, training: bool, rows: Rows = ()) -> Message:
    """Tell the coach of pain: who, what, since when, what was done about it."""
    number = "no number given, read as 4–6" if report.score is None else f"{report.score} of 10"
    place = place_words(report.site, report.side.value if report.side else None)
    lines = [f"<b>{escape(name)}</b>: {place}, {number}{doing} ({day_words(report.on)})."]
    if report.spreading:
        lines.append("Goes down a leg or arm, or numb or tingling.")
    if report.sudden:
        lines.append("Came suddenly or with a pop.")
    lines.append((DID if training else DID_OUTSIDE)[in_session_action(report)])
    return Message("\n".join(lines), rows=rows)


SAID_STOP = "I sent the text that says to stop. All that loads it stays locked until you release it."
NEXT_EASED = "Next time 20 % less where it hurt, and no raise near it."

DID = {
    PainAction.STOP_SESSION: f"I ended the session. {SAID_STOP}",
    PainAction.STOP_EXERCISE: (
        "I took out bending under load and load on the back, and said that a physiotherapist should look. "
        "Both stay out until you release them."
    ),
    PainAction.EASE: f"I said: lighter or shorter, one try, else leave it. {NEXT_EASED}",
    PainAction.SWAP: f"I said: leave it out. {NEXT_EASED}",
    PainAction.NOTE: "No raise while it is there.",
}
DID_OUTSIDE = {
    **DID,
    PainAction.STOP_SESSION: SAID_STOP,
    PainAction.EASE: NEXT_EASED,
    PainAction.SWAP: NEXT_EASED,
}
