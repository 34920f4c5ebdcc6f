"""Where words and taps go: by who speaks, and by what was asked."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from bot.messages import Effect, Person, Tap, encode
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import (
    alert_answers,
    answering,
    away,
    block_end,
    block_views,
    block_voice,
    blocks_running,
    check_in,
    check_in_questions,
    client_file,
    client_why,
    clinician_limits,
    coach_away,
    coach_settings,
    coach_talk,
    correcting,
    corrections,
    cues,
    daily_card,
    daily_prep,
    drawn_taps,
    goals,
    illness,
    invitations,
    join,
    join_kit,
    join_pain,
    kit,
    last_loads,
    misses,
    orders_list,
    orders_said,
    other_training,
    own_data,
    own_settings,
    pain,
    pausing,
    physio_summary,
    plan_week,
    previewing,
    progress,
    questionnaire,
    raises,
    readings,
    referring,
    releasing,
    reminding,
    replies,
    report,
    roster,
    rules,
    season,
    second,
    session,
    setting_up,
    silence,
    stop_signs,
    strangers,
    telling_many,
    versions,
    video_asked,
    video_cue,
    way_out,
    week_changes,
    week_clock,
    week_files,
)
from core.checkin.stop_signs import scan


@dataclass(frozen=True, slots=True)
class Heard:
    """Somebody typed something.

    Attributes:
        text: As typed.
        edited: True when it corrects an earlier message.
        summary: What it hands on, where it may be a client's yes; made before.
    """

    text: str
    edited: bool = False
    summary: physio_summary.Made | None = None


@dataclass(frozen=True, slots=True)
class Tapped:
    """Somebody tapped a button; None when the data was not ours.

    Attributes:
        tap: What the button says.
        drawn: What it asks for, drawn or written before.
    """

    tap: Tap | None
    drawn: drawn_taps.Drawn = drawn_taps.NOTHING


def heard(command: Heard, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Answer what was typed. A stop sign comes before everything else, whoever writes it."""
    if person.role == "coach":
        return coach_talk.heard(command.text, person, unit, now, edited=command.edited)
    sign = scan(command.text)
    if sign is not None:
        return stop_signs.found(sign, command.text, person, unit, now)
    if person.role != "client" or person.client_id is None:
        return strangers.answered(person, unit, now)
    client = unit.clients.get(person.client_id)
    if client.state == "joining":
        return join_pain.heard(command.text, client, person, unit, now)
    if client.state == "stopped":
        return join.stopped_speaks(person)
    if not command.edited and answering.answers_coach(person, unit):
        return answering.passed_back(command.text, client, person, unit, now)
    if command.edited:
        return corrections.corrected(command.text, client, person, unit, now)
    if command.summary is not None:
        agreed = physio_summary.typed(command.text, client, person, unit, now, command.summary)
        if agreed is not None:
            return agreed
    return replies.heard(command.text, client, person, unit, now)


Tapping = Callable[[Tap, Prompt, Person, Unit, datetime], Sequence[Effect]]
Refreshing = Callable[[Prompt, Person, Unit, datetime], Sequence[Effect]]

KINDS: dict[str, tuple[Tapping, Refreshing]] = {
    "join": (join.tapped, join.refreshed),
    join_kit.KIND: (join_kit.tapped, join_kit.refreshed),
    "session": (session.tapped, session.refreshed),
    "reading": (replies.tapped, readings.refreshed),
    "pain": (pain.tapped, pain.refreshed),
    way_out.KIND: (way_out.tapped, way_out.refreshed),
    "stopped": (stop_signs.tapped, stop_signs.refreshed),
    progress.KIND: (progress.tapped, progress.refreshed),
    "missed": (misses.tapped, misses.refreshed),
    own_data.KIND: (own_data.tapped, own_data.refreshed),
    "settings": (own_settings.tapped, own_settings.refreshed),
    "coach settings": (coach_settings.tapped, coach_settings.refreshed),
    "silence": (silence.tapped, silence.refreshed),
    "away": (away.tapped, away.refreshed),
    "illness": (illness.tapped, illness.refreshed),
    "release": (releasing.tapped, releasing.refreshed),
    "assign": (setting_up.tapped, setting_up.refreshed),
    "alert": (alert_answers.tapped, alert_answers.refreshed),
    "write": (answering.tapped, answering.refreshed),
    "whom": (answering.tapped, answering.refreshed),
    "roster": (roster.tapped, roster.refreshed),
    "client": (client_file.tapped, client_file.refreshed),
    "correct": (correcting.tapped, correcting.refreshed),
    "preview": (previewing.tapped, previewing.refreshed),
    "block": (block_views.tapped, block_views.refreshed),
    "invites": (invitations.tapped, invitations.refreshed),
    versions.KIND: (versions.tapped, versions.refreshed),
    week_changes.KIND: (week_changes.tapped, week_changes.refreshed),
    week_files.KIND: (week_files.tapped, week_files.refreshed),
    cues.KIND: (cues.tapped, cues.refreshed),
    cues.LIST: (cues.list_tapped, cues.list_refreshed),
    last_loads.KIND: (last_loads.tapped, last_loads.refreshed),
    kit.KIND: (kit.tapped, kit.refreshed),
    daily_prep.SET: (daily_prep.tapped, daily_prep.refreshed),
    daily_card.KIND: (daily_card.tapped, daily_card.refreshed),
    week_clock.CHECK_IN: (check_in.tapped, questionnaire.refreshed),
    week_clock.BLOCK_END: (block_end.tapped, questionnaire.refreshed),
    week_clock.PLAN: (plan_week.tapped, plan_week.refreshed),
    check_in_questions.KIND: (check_in_questions.tapped, check_in_questions.refreshed),
    other_training.KIND: (other_training.tapped, other_training.refreshed),
    goals.KIND: (goals.tapped, goals.refreshed),
    orders_said.KIND: (orders_said.tapped, orders_said.refreshed),
    orders_list.KIND: (orders_list.tapped, orders_list.refreshed),
    raises.KIND: (raises.tapped, raises.refreshed),
    pausing.KIND: (pausing.tapped, pausing.refreshed),
    blocks_running.KIND: (blocks_running.tapped, blocks_running.refreshed),
    season.KIND: (season.tapped, season.refreshed),
    report.KIND: (report.tapped, report.refreshed),
    client_why.KIND: (client_why.tapped, client_why.refreshed),
    rules.KIND: (rules.tapped, rules.refreshed),
    clinician_limits.KIND: (clinician_limits.tapped, clinician_limits.refreshed),
    referring.KIND: (referring.tapped, referring.refreshed),
    referring.LIST: (referring.list_tapped, referring.list_refreshed),
    reminding.KIND: (reminding.tapped, reminding.refreshed),
    physio_summary.KIND: (physio_summary.tapped, physio_summary.refreshed),
    telling_many.KIND: (telling_many.tapped, telling_many.refreshed),
    video_asked.KIND: (video_asked.tapped, video_asked.refreshed),
    video_cue.KIND: (video_cue.tapped, video_cue.refreshed),
    block_voice.KIND: (block_voice.tapped, block_voice.refreshed),
    coach_away.KIND: (coach_away.tapped, coach_away.refreshed),
    second.KIND: (second.tapped, second.refreshed),
}
"""For each kind of prompt: what a tap does, and how its card is shown again when the tap was stale."""


def tapped(command: Tapped, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Do what a tap asks: once for a prompt and revision.

    The tap is checked for sender and tenant (the prompt must be this person's), for an open prompt and for its
    revision. The same tap again does nothing; a stale one shows the card as it stands, and says so.
    """
    tap = command.tap
    if tap is None or person.coach_id is None:
        return []
    prompt = unit.prompts.get(tap.prompt)
    if prompt is None or prompt.user_id != person.user_id or prompt.kind not in KINDS:
        return []
    if person.role == second.ROLE and prompt.kind != second.KIND:
        return []
    act, refresh = KINDS[prompt.kind]
    data = encode(tap)
    if prompt.facts.get("last") == data:
        return []
    if prompt.closed_at is not None or tap.revision != prompt.revision:
        return refresh(prompt, person, unit, now)
    marked = {**prompt.facts, "last": data}
    unit.prompts.note(prompt.id, marked)
    seen = replace(prompt, facts=marked)
    drawn = drawn_taps.answered(tap, seen, person, unit, now, command.drawn)
    return drawn if drawn is not None else act(tap, seen, person, unit, now)
