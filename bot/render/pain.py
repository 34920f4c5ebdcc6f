"""Words about pain: the questions, and what is answered."""

from collections.abc import Collection
from dataclasses import replace
from html import escape
from typing import Protocol

from bot.messages import Action, Button, Message, Tap, encode
from bot.render import safety
from core.checkin.pain import Band, Felt, PainAction, PainReport, band, flares, in_session_action
from core.checkin.sites import REGIONS
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
AFTER_BIRTH = 9
"""Argument of the button for the signs of the year after a birth."""
SIGNS = "Heaviness, leaking, doming, bleeding"
OR_SIGNS = (
    "\nOr one of these words: <code>heaviness</code>, <code>leaking</code>, <code>doming</code>, "
    "<code>bleeding</code>."
)


def ask_site(
    prompt: HasRevision,
    sites: tuple[Site, ...],
    likely: Collection[Site],
    unsided: Collection[Site],
    *,
    after_birth: bool = False,
) -> Message:
    """Ask where it hurts: the sites that the open exercise loads, each with its side; or else the common ones.

    In the year after a birth other signs are asked for too.
    """
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
    signs = ((_button(prompt, SIGNS, Action.FEEL, AFTER_BIRTH),),) if after_birth else ()
    told = ASK_SITE + (OR_SIGNS if after_birth else "")
    return Message(told, rows=(*signs, *rows, last), silent=True)


def ask_any_site(prompt: HasRevision, sites: tuple[Site, ...]) -> Message:
    """Ask where it hurts, with every site there is, by region from the head down."""
    rows = [
        row for region in REGIONS.values() for row in _rows([_site(prompt, sites, each) for each in region])
    ]
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


FEELS = {
    3: "New or growing weakness, one leg or arm",
    4: "With a fever",
    1: "Down the leg or arm, numb, tingling",
    2: "Sharp and sudden, or with a pop",
    0: "None of these",
}
"""By what it stands for on a button, the gravest first."""


def ask_feel(prompt: HasRevision, place: str, *, spine: bool) -> Message:
    """Ask for what changes the answer: weakness, a fever with pain of the back or neck, spreading, or sudden."""
    offered = [each for each in FEELS if spine or each != 4]
    return Message(
        f"{place.capitalize()}: is it one of these? Tap the first that fits.",
        rows=tuple((_button(prompt, FEELS[each], Action.FEEL, each),) for each in offered),
        silent=True,
    )


WHENS = ("Before", "During", "After", "Next morning")
WHEN_WORDS = {
    Felt.BEFORE: ", before the session",
    Felt.DURING: ", during the session",
    Felt.AFTER: "",
    Felt.MORNING: ", in the morning",
}
TOOK = "Did you take something for it?"


def ask_when(prompt: HasRevision, place: str) -> Message:
    """Ask when it was felt."""
    made = [_button(prompt, label, Action.WHEN, number) for number, label in enumerate(WHENS)]
    return Message(
        f"{place.capitalize()}: when did you feel it?", rows=(tuple(made[:2]), tuple(made[2:])), silent=True
    )


def with_more(message: Message, prompt: HasRevision, *, took: bool) -> Message:
    """Put under what was kept what is still asked: whether something was taken; and when it was, if not then."""
    answers = [_button(prompt, each, Action.TOOK, place) for place, each in enumerate(TAKES)]
    other = (_button(prompt, "Felt at another time", Action.WHEN, len(WHENS)),)
    html = f"{message.html}\n\n{TOOK}" if took else message.html
    return replace(message, html=html, rows=(tuple(answers), other) if took else (other,))


TAKES = ("No", "Yes", "Rather not say")


def noted(report: PainReport, *, training: bool, cue: str | None = None, goes_on: bool = False) -> Message:
    """Say what was kept and what to do now; with exercises still to come, what to do with the load.

    Args:
        report: As kept.
        training: True while exercises are still to come.
        cue: What the coach says of pain like this; shown at 1 to 3 alone.
        goes_on: True where the coach lets raises go on at this.
    """
    if report.after_birth:
        return Message(f"{safety.AFTER_BIRTH_NOTED}", silent=True)
    place = place_words(report.site, report.side.value if report.side else None)
    head = f"Noted: {place}, {report.score} of 10{WHEN_WORDS[report.felt]}."
    match in_session_action(report):
        case PainAction.STOP_SESSION | PainAction.STOP_EXERCISE:
            return Message(f"{head} Your coach has been told.", silent=True)
        case _ if band(report) is Band.NONE:
            return Message(head, silent=True)
        case PainAction.NOTE if not flares(report):
            said = f"\nYour coach for this: {escape(cue)}" if cue else ""
            return Message(f"{head}\n{safety.GOES_ON if goes_on else safety.LOW_PAIN}{said}", silent=True)
        case _:
            what = safety.EASE_TODAY if training and band(report) is not Band.LOW else safety.EASE_NEXT
            return Message(f"{head}\n{what}\nYour coach will see it today.", silent=True)


def taken_back() -> Message:
    """Say that what a question is about was taken back."""
    return Message("You took this back, so there is nothing to add to it.", silent=True)


def never_mind() -> Message:
    """Close the question unanswered."""
    return Message("All right, nothing noted.", silent=True)


def stop_here(*, spreading: bool, ends: bool, after_birth: bool = False) -> Message:
    """Tell the client to stop; the fixed texts of `bot.render.safety`."""
    if after_birth:
        return Message(safety.AFTER_BIRTH)
    if not ends:
        return Message(safety.SPREADING)
    return Message(safety.STOP_AND_SPREADING if spreading else safety.STOP_THIS_SESSION)
