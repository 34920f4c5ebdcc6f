"""What a cue is about, as a coach writes it: a client, an exercise, a site, each where she names one, in that order."""

from dataclasses import replace

from bot.render.cues import Unclear
from bot.store.cues import About
from bot.store.units import Unit
from bot.usecases.finding_clients import clients_meant, is_clear
from core.checkin.cues import place_named
from core.programme.catalogue import named, suggestions

__all__ = ["Unclear", "about_in"]

MOST_PARTS = 3


def about_in(text: str, unit: Unit) -> About | Unclear:
    """Return what `Ada, hip thrust, left knee` is about; or what of it cannot be told, or may be two things.

    A cue is about an exercise or a site at least.
    """
    parts = [" ".join(part.split()) for part in text.split(",") if part.strip()]
    if not 1 <= len(parts) <= MOST_PARTS:
        return Unclear(written=text.strip())
    found: list[tuple[int, About]] = [(0, About())]
    for part in parts:
        meant = _meanings(part, unit)
        if not meant:
            near = suggestions(part, catalogue=unit.exercises.catalogue())
            return Unclear(written=part, near=tuple(one.name for one in near))
        found = [(kind, _joined(about, said)) for last, about in found for kind, said in meant if kind > last]
    whole = {about for _, about in found if about.exercise is not None or about.site is not None}
    if len(whole) == 1:
        return whole.pop()
    return Unclear(written=text.strip(), is_several=len(whole) > 1)


def _meanings(part: str, unit: Unit) -> list[tuple[int, About]]:
    """Return what a part may be: 1 a client, 2 an exercise, 3 a place that hurts."""
    meant: list[tuple[int, About]] = []
    clients = clients_meant(part, unit)
    if is_clear(part, clients):
        meant.append((1, About(client_id=clients[0].id)))
    exercise = named(part, unit.exercises.catalogue())
    if exercise is not None:
        meant.append((2, About(exercise=exercise.key)))
    place = place_named(part)
    if place is not None:
        side = place.side.value if place.side is not None else None
        meant.append((3, About(site=place.site.value, side=side)))
    return meant


def _joined(about: About, said: About) -> About:
    return replace(
        about,
        client_id=about.client_id if said.client_id is None else said.client_id,
        exercise=about.exercise or said.exercise,
        site=about.site or said.site,
        side=about.side or said.side,
    )
