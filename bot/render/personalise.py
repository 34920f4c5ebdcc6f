"""A block made to fit a client, in words: what is done in place of what, and what her coach is asked."""

from collections.abc import Mapping, Sequence
from datetime import date
from html import escape

from bot.render.clinicians import BY
from bot.render.dates import day_words
from bot.render.exercise_names import in_sentence
from core.loads.limits import Clinician
from core.loads.personalise import Change, Elsewhere
from core.loads.substitutes import Against, Why
from core.programme.exercises import Exercise, Implement

MOST_LINES = 30
"""Most changes that are told one by one. Our proposal: over any block that was made for her at all."""

LACKS = {
    Implement.BARBELL: "no bar",
    Implement.DUMBBELL: "no dumbbells",
    Implement.KETTLEBELL: "no kettlebells",
    Implement.STACK: "no machine",
    Implement.BAND: "no band",
    Implement.BODYWEIGHT: "nothing to add",
}
"""What a kit has not, by what is lifted."""

INSTEAD = {
    Against.LIMIT.value: "which a clinician's limit rules out",
    Against.RESTRICTION.value: "which your limits rule out",
    Against.ALONE.value: "which is not for training alone",
    Against.LEVEL.value: "which comes later",
    "chosen": "as your coach chose",
}
"""Why a client does another exercise than the one written, by code; what is not here cannot be loaded."""

KEPT = {
    Against.ALONE: "kept as written; alone, with 2 left",
    Against.LEVEL: "kept as written; for trained people",
}
LEAVE_OUT = "Leave it out"
KEEP = "Keep it"


def instead_because(code: str | None) -> str:
    """Say why another exercise stands in for the one that is written: `which comes later`."""
    return INSTEAD.get(code or "", "which cannot be loaded here")


def why_words(why: Why) -> str:
    """Say what stands against an exercise: `no bar at home`."""
    match why.code:
        case Against.LIMIT:
            until = why.facts.get("until")
            ends = f", until {day_words(date.fromisoformat(until))}" if until is not None else ""
            return f"{BY[Clinician(why.facts['by'])]}'s limit{ends}"
        case Against.RESTRICTION:
            return why.facts["restriction"]
        case Against.KIT:
            place = why.facts["place"]
            return (
                f"{LACKS[Implement(why.facts['lacks'])]} at {'the gym' if place == 'gym' else escape(place)}"
            )
        case Against.ALONE:
            return f"to the limit, alone without safeties; {why.facts['left']} left are safe"
        case Against.LEVEL:
            return "for trained people"


def changes_part(client: str, changes: Sequence[Change], catalogue: Mapping[str, Exercise]) -> list[str]:
    """Return the lines that tell a coach what changes for a client, and how to choose otherwise."""
    if not changes:
        return []
    told = [change_line(one, catalogue) for one in changes[:MOST_LINES]]
    if len(changes) > MOST_LINES:
        told.append(f"… and {len(changes) - MOST_LINES} more.")
    example = escape(in_sentence(catalogue[changes[0].exercise].name))
    return [
        f"\nChanged for {escape(client)}:",
        *told,
        f"To choose otherwise, type <code>{example}: leave out</code>, or an exercise after the colon.",
    ]


def change_line(change: Change, catalogue: Mapping[str, Exercise]) -> str:
    """Tell one change: `Back squat → goblet squat: no bar at home`."""
    name = escape(catalogue[change.exercise].name)
    if change.kept:
        return f"{name}: {KEPT[change.why[0].code]}"
    if change.instead is None:
        return f"{name}: left out, as you said"
    other = escape(in_sentence(catalogue[change.instead].name))
    because = "as you said" if change.chosen else why_words(change.why[0])
    return f"{name} → {other}: {because}"


def elsewhere_part(elsewhere: Sequence[Elsewhere], catalogue: Mapping[str, Exercise]) -> list[str]:
    """Return the lines that tell what is swapped on the day at other places."""
    return [
        f"\nNo load for it at {escape(one.place)}, swapped on the day: "
        f"{escape(', '.join(catalogue[key].name for key in one.exercises))}."
        for one in elsewhere
    ]


def question(client: str, change: Change, left: int, catalogue: Mapping[str, Exercise]) -> str:
    """Ask what a client is to do in place of what she cannot be given."""
    name = escape(catalogue[change.exercise].name)
    more = f" {left - 1} more to come." if left > 1 else ""
    why = "; ".join(why_words(one) for one in change.why)
    return (
        f"<b>{escape(client)}</b> cannot do {in_sentence(name)}: {why}. Nothing near it fits. What instead?{more}\n"
        "Tap, or type the name of an exercise, or <code>leave out</code>."
    )


def no_such_exercise(text: str, near: Sequence[Exercise]) -> str:
    """Say that there is no exercise of a name."""
    like = f" Like it: {escape(', '.join(one.name for one in near))}." if near else ""
    return f"I know no exercise called {escape(text[:60])}.{like}"


def not_in_block(exercise: Exercise) -> str:
    """Say that an exercise is not in the block, so that nothing can stand in for it."""
    return f"{escape(exercise.name)} is not in this block."


def cannot_be_given(client: str, exercise: Exercise) -> str:
    """Say that a client cannot be given an exercise."""
    return (
        f"{escape(exercise.name)} is nothing for {escape(client)}: limits or kit do not allow it. "
        "Another one?"
    )


def nothing_left(day: str) -> str:
    """Say that a day would be left with nothing on it."""
    return f"Then nothing would be left on {escape(day)}. Something has to stay."
