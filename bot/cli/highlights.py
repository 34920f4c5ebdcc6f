"""What a demo prints of a story: a client's day, a load that changed and why, alerts."""

import html
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from bot.assembly.story import Stage
from bot.localchat.records import Recorded
from bot.render.loads import load_words
from bot.render.reasons import row_words, why_line
from core.loads.decision import Decision, Kind
from core.loads.proposals import RISES
from core.loads.reasons import ReasonCode
from core.local_time import local_date
from core.programme.prescription import LoadKind


@dataclass(frozen=True, slots=True)
class Shown:
    """One thing worth printing."""

    title: str
    text: str


def day_of(stage: Stage, key: str, on: date) -> str:
    """Return what somebody saw and did on a day, in order; cards as they changed."""
    cast = stage.people.named(key)
    lines: list[str] = []
    for each in stage.network.record:
        if each.chat_id != cast.phone or local_date(each.at, cast.zone) != on:
            continue
        if each.sender == "person":
            lines += [f"                    {cast.name}: {_said(each)}", ""]
        else:
            lines += [*each.text.splitlines(), *(_row(row) for row in each.buttons), ""]
    return "\n".join(lines).rstrip()


def _said(each: Recorded) -> str:
    if each.kind in ("text", "edit"):
        return each.text
    return f"[{each.text}]" if each.kind == "tap" else f"({each.kind}) {each.text}".strip()


def _row(labels: tuple[str, ...]) -> str:
    return " ".join(f"[{label}]" for label in labels)


def decided(stage: Stage, key: str, wanted: Callable[[Decision], bool]) -> str | None:
    """Return the newest decision that is wanted, of a main lift if one is, in words with its reason; None for none."""
    cast = stage.people.named(key)
    with stage.house.units.read(None) as house:
        account = house.accounts.find(cast.phone)
        if account is None or account.client_id is None:
            return None
        unit = house.of(account.coach_id)
        kept, exercises = unit.decisions.of_client(account.client_id), unit.exercises.catalogue()
        by_weight = sorted(kept, key=lambda each: not exercises[each.exercise].main_lift)
        found = next((each for each in by_weight if wanted(each.value)), None)
    if found is None:
        return None
    decision, exercise = found.value, exercises[found.exercise]
    load = load_words(decision.load, exercise.basis) or "no load"
    log = ", ".join(str(row) if row > 0 else row_words(row) for row in decision.used) or "none"
    pain = f"; of reports: {', '.join(str(row) for row in decision.pain_used)}" if decision.pain_used else ""
    return (
        f"{cast.name}, {exercise.name}: {decision.kind}, {load}, {decision.sets} × {decision.target}.\n"
        f"{html.unescape(why_line(decision))}\n"
        f"(decision {found.id}, rules {decision.rules}; rows of the log: {log}{pain})"
    )


def rose(decision: Decision) -> bool:
    """Return whether a load went up for work that was done."""
    is_load = decision.load is not None and decision.load.kind is LoadKind.MASS
    return decision.kind is Kind.RAISE and is_load and decision.reasons[0].code in RISES


def lowered_by_pain(decision: Decision) -> bool:
    """Return whether pain brought a load down."""
    is_load = decision.load is not None and decision.load.kind is LoadKind.MASS
    return is_load and any(one.code == ReasonCode.PAIN_DROP for one in decision.reasons)


def came_back(decision: Decision) -> bool:
    """Return whether a load was on the way back after a break."""
    is_load = decision.load is not None and decision.load.kind is LoadKind.MASS
    return is_load and any(one.code == ReasonCode.COMEBACK for one in decision.reasons)


def alerts_of(stage: Stage, coach: str, words: tuple[str, ...]) -> list[str]:
    """Return, for each of `words`, the first message to a coach that holds it."""
    chat_id = stage.people.named(coach).phone
    texts = [each.text for each in stage.network.record if each.chat_id == chat_id and each.sender == "bot"]
    found = [next((text for text in texts if word in text), None) for word in words]
    return [text for text in found if text is not None]


def last_picture(stage: Stage, key: str, words: str = "") -> bytes | None:
    """Return the newest picture that the bot sent somebody, of those with some words under them."""
    sent = [
        each
        for each in stage.phone(key).screen
        if each.kind == "photo" and not each.mine and words in each.text
    ]
    return sent[-1].file if sent else None


def documents(stage: Stage, key: str) -> dict[str, bytes]:
    """Return by name the newest of each file that the bot sent somebody."""
    found: dict[str, bytes] = {}
    for each in stage.phone(key).screen:
        name = each.content.get("document", {}).get("file_name")
        if name and each.file is not None and not each.mine:
            found[Path(name).name] = each.file
    return found


def highlights(stage: Stage) -> list[Shown]:
    """Return what is worth a newcomer's minute."""
    shown = [
        Shown("Ingrid's Monday, as she sees it", day_of(stage, "ingrid", date(2026, 4, 27))),
        Shown("Jonas stands a watch on Wednesday", day_of(stage, "jonas", date(2026, 5, 6))),
        Shown("Tom's knee, the morning after", day_of(stage, "tom", date(2026, 4, 14))),
    ]
    for title, key, wanted in (
        ("A load that went up, and why", "ingrid", rose),
        ("A load that pain brought down", "tom", lowered_by_pain),
        ("Back from the sea", "astrid", came_back),
    ):
        text = decided(stage, key, wanted)
        if text is not None:
            shown.append(Shown(title, text))
    shown += [
        Shown("What reached the coach", text)
        for text in alerts_of(stage, "marit", ("Tom: left knee", "Lars: stop sign", "Maya has not answered"))
    ]
    shown += [
        Shown("Her digest, Sunday at six", text)
        for text in alerts_of(stage, "marit", ("Mon 20 April to Sun 26 April: kept",))
    ]
    return shown


def season_highlights(stage: Stage) -> list[Shown]:
    """Return what of the season is worth a newcomer's minute."""
    told = (
        ("What reached her at once", "Sven: left knee, 7 of 10"),
        ("Unseen for an hour and a quarter", "Klara: stop sign"),
        ("Her digest, in the second week", "Mon 31 August to Sun 6 September"),
        ("The end of a block", "Report, Pia: Orchard base"),
        ("Why a load, back to the sets", "Sven, decision"),
        ("A lighter week, read back", "Pia: lighter from"),
        ("The season, six days before the run", "harvest run: Sat 17 October, in 6 days"),
    )
    shown = [Shown(title, text) for title, words in told for text in alerts_of(stage, "edda", (words,))]
    second = alerts_of(stage, "jorun", ("has not seen this",))
    return [*shown[:2], *(Shown("To whom she had named", text) for text in second), *shown[2:]]
