"""What a practitioner is told of a client, gathered from the rows."""

from datetime import date

from bot.render import physio_summary as say
from bot.render.clinician_limits import limit_line
from bot.render.loads import load_words
from bot.render.pain import place_words
from bot.store.body import BodyReport
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.progress_seen import seen
from core.loads.asked import amount


def summary_of(client: Client, unit: Unit, today: date) -> say.Summary:
    """Gather what a practitioner is told of twelve weeks."""
    found = seen(client, unit, today)
    catalogue = unit.exercises.catalogue()
    limits = unit.clinician_limits.standing(client.id, today)
    reports = unit.body.since(client.id, found.first)
    return say.Summary(
        client=client.name,
        coach=unit.coaches.get(unit.tenant).name,
        first=found.first,
        today=today,
        sites=found.sites,
        hurts=tuple(_hurt(each, unit) for each in reversed(reports) if each.exercise and each.score != 0),
        limits=tuple(
            limit_line(each, catalogue).replace("until you take it out", "no end named") for each in limits
        ),
        kept=found.kept,
        policy=unit.rules.policy(client.id),
    )


def _hurt(report: BodyReport, unit: Unit) -> say.Hurt:
    exercise = unit.exercises.get(report.exercise or "")
    pain = report.as_pain()
    done = unit.sets.standing([report.item_id]) if report.item_id is not None else []
    loads = [(amount(each.load, exercise), each.load) for each in done if each.load is not None]
    masses = [(mass, load) for mass, load in loads if mass is not None]
    heaviest = max(masses, key=lambda each: each[0].kg)[1] if masses else None
    return say.Hurt(
        exercise=exercise.name,
        place=place_words(pain.site, report.side),
        score=report.score,
        on=report.local_on,
        load=load_words(heaviest, exercise.basis),
    )
