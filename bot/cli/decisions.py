"""`plimsoll decision show`: a decision with what it rests on, made once more."""

from rich.console import Console

from bot.assembly.refusals import REFUSALS
from bot.cli.given_settings import settings_or_none
from bot.cli.serving import prepare
from bot.render.decision import decision_lines
from bot.settings import Settings
from bot.store.decisions import KeptDecision, find_decision
from bot.store.engine import make_engine
from core.loads.decision import RULES_VERSION, Inputs, replay


def show(decision_id: int, console: Console, errors: Console) -> int:
    """Print a decision and make it once more; 1 where the same rules come to something else, or there is none."""
    settings = settings_or_none(errors, token=False)
    if settings is None:
        return 2
    try:
        prepare(settings)
    except REFUSALS as refusal:
        errors.print(str(refusal), markup=False, highlight=False, soft_wrap=True)
        return 2
    kept = _found(settings, decision_id)
    if kept is None:
        errors.print(f"There is no decision {decision_id}.", markup=False, highlight=False)
        return 1
    anew = replay(kept.inputs)
    made = f"Decision {kept.id} for client {kept.client_id}, made {kept.made_at:%Y-%m-%d %H:%M} UTC"
    later = "" if kept.superseded_by is None else f"; replaced by {kept.superseded_by}"
    lines = [
        f"{made}, rules {kept.rules_version}{later}",
        "",
        *decision_lines(Inputs.model_validate_json(kept.inputs), kept.value),
        "",
        _verdict(kept, same=anew == kept.output),
    ]
    console.print("\n".join(lines), markup=False, highlight=False, soft_wrap=True)
    return 0 if anew == kept.output or kept.rules_version != RULES_VERSION else 1


def _verdict(kept: KeptDecision, *, same: bool) -> str:
    if same:
        return "Made once more from the same inputs: the same, to the byte."
    if kept.rules_version != RULES_VERSION:
        return f"Rules {RULES_VERSION} of this program would decide otherwise than rules {kept.rules_version} did."
    return "Made once more from the same inputs: NOT the same. That is a fault of this program; please report it."


def _found(settings: Settings, decision_id: int) -> KeptDecision | None:
    engine = make_engine(settings.database_url)
    try:
        with engine.connect() as connection:
            return find_decision(connection, decision_id)
    finally:
        engine.dispose()
