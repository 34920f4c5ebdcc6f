"""A coach's cues in one line: `/cue hip thrust: ribs down`, for one client or all, by exercise and by site."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import cues as say
from bot.store.cues import About, KeptCue
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.block_files import only_for_coaches
from bot.usecases.cue_lines import Unclear, about_in
from bot.usecases.leaving import answer
from core.checkin.cues import LONGEST
from core.programme.exercises import Site

REMOVE = "remove"
KIND, LIST = "cue", "cues"


@dataclass(frozen=True, slots=True)
class CueSaid:
    """`/cue`, with what stands after it."""

    text: str


@dataclass(frozen=True, slots=True)
class CuesAsked:
    """`/cues`, or `/cues remove WHAT`."""

    text: str = ""


def cue(command: CueSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep a cue and read it back, with a way to take it back. One about the same is replaced."""
    if person.role != "coach":
        return only_for_coaches(person)
    what, _, words = command.text.partition(":")
    text = " ".join(words.split())
    if not what.strip() or not text:
        return [answer(person, "cue", say.how_to())]
    if len(text) > LONGEST:
        return [answer(person, "cue", say.too_long(len(text), LONGEST))]
    about = about_in(what, unit)
    if isinstance(about, Unclear):
        return [answer(person, "cue", say.unclear(about))]
    return kept(about, text, person, unit, now)


def kept(about: About, text: str, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Keep a cue in place of one about the same, and read it back with a way to take it back."""
    before = [each for each in unit.cues.standing() if each.about == about]
    for each in before:
        unit.cues.void(each.id, now)
    earlier = before[-1].text if before else None
    facts = {"before": earlier}
    kept_id = unit.cues.add(about, text, now)
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, client_id=about.client_id, subject=kept_id, facts=facts
    )
    unit.prompts.set_card(prompt.id, _key(prompt))
    message = say.kept(_view(about, text, unit), earlier, say.Buttons(prompt.id, prompt.revision))
    return [Send(person.chat_id, message, key=f"{_key(prompt)}:said", card=_key(prompt))]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take the cue back that was just kept; the one that it replaced stands again."""
    if person.role != "coach":
        return []
    kept = unit.cues.get(prompt.subject or 0)
    if tap.action is not Action.UNDO or kept is None or kept.voided_at is not None:
        return refreshed(prompt, person, unit, now)
    unit.cues.void(kept.id, now)
    before = prompt.facts["before"]
    if before is not None:
        unit.cues.add(kept.about, before, now)
    unit.prompts.close(prompt.id, now)
    return [EditCard(_key(prompt), prompt.chat_id, say.taken_back(_view_of(kept, unit), before))]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Say what became of a cue whose button is old."""
    kept = unit.cues.get(prompt.subject or 0)
    if person.role != "coach" or kept is None:
        return []
    return [EditCard(_key(prompt), prompt.chat_id, say.overtaken(_view_of(kept, unit)))]


def cues_asked(command: CuesAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """List the cues that stand, with a button to take each back; or take back the one that is named."""
    if person.role != "coach":
        return only_for_coaches(person)
    word, _, what = command.text.strip().partition(" ")
    if word.casefold() == REMOVE:
        return [answer(person, "cues", _removed(what, unit, now))]
    prompt = unit.prompts.open(LIST, person.user_id, person.chat_id, now)
    unit.prompts.set_card(prompt.id, _key(prompt))
    return [Send(person.chat_id, _listed(prompt, unit), key=f"{_key(prompt)}:list", card=_key(prompt))]


def _removed(what: str, unit: Unit, now: datetime) -> Message:
    about = about_in(what, unit)
    if isinstance(about, Unclear):
        return say.unclear(about)
    found = [kept for kept in unit.cues.standing() if kept.about == about]
    if not found:
        return say.none_about(_view(about, "", unit))
    for each in found:
        unit.cues.void(each.id, now)
    return say.taken_back(_view_of(found[-1], unit), None)


def list_tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take back the cue that was tapped in the list, while it stands and is hers."""
    if person.role != "coach":
        return []
    kept = next((each for each in unit.cues.standing() if each.id == tap.argument), None)
    if tap.action is not Action.PICK or kept is None:
        return list_refreshed(prompt, person, unit, now)
    unit.cues.void(kept.id, now)
    revised = unit.prompts.revise(prompt.id)
    note = say.taken_back(_view_of(kept, unit), None).html
    return [EditCard(_key(prompt), prompt.chat_id, _listed(revised, unit, note))]


def list_refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show what stands now, after a tap on an old button."""
    if person.role != "coach":
        return []
    revised = unit.prompts.revise(prompt.id)
    return [EditCard(_key(prompt), prompt.chat_id, _listed(revised, unit, say.OLD))]


def _listed(prompt: Prompt, unit: Unit, note: str | None = None) -> Message:
    views = [(kept.id, _view_of(kept, unit)) for kept in unit.cues.standing()]
    return say.listed(views, say.Buttons(prompt.id, prompt.revision), note)


def _view_of(kept: KeptCue, unit: Unit) -> say.CueView:
    return _view(kept.about, kept.text, unit)


def _view(about: About, text: str, unit: Unit) -> say.CueView:
    return say.CueView(
        client=unit.clients.get(about.client_id).name if about.client_id is not None else None,
        exercise=unit.exercises.get(about.exercise).name if about.exercise is not None else None,
        site=Site(about.site) if about.site is not None else None,
        side=about.side,
        text=text,
    )


def _key(prompt: Prompt) -> str:
    return f"{prompt.kind}:{prompt.id}"
