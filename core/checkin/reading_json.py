"""A reading as JSON, the way `plimsoll read` prints it."""

from decimal import Decimal

from core.checkin.reading import Effort, Reading


def as_json(reading: Reading) -> dict[str, object]:
    """Return the reading as `plimsoll read` prints it."""
    ask = [_plain_json(each) for each in reading.ask] or None
    return {**_plain_json(reading), "ask": ask, "stop_sign": reading.stop_sign}


def _plain_json(reading: Reading) -> dict[str, object]:
    return {
        "understood": reading.understood,
        "sets": [{**each.model_dump(mode="json"), "rpe": _number(each.rpe)} for each in reading.sets],
        "as_written": reading.as_written,
        "skip": reading.skip,
        "undo": reading.undo,
        "effort": _effort(reading.effort),
        "pain": [each.model_dump(mode="json") for each in reading.pain],
        "soreness": [each.model_dump(mode="json") for each in reading.soreness],
        "note": reading.note,
    }


def _effort(effort: Effort) -> dict[str, object]:
    said = {"rir": effort.rir, "rpe": _number(effort.rpe)}
    return {scale: value for scale, value in said.items() if value is not None}


def _number(text: str | None) -> int | float | None:
    """Return an RPE as a number; halves are exact in binary."""
    if text is None:
        return None
    value = Decimal(text)
    return int(value) if value == int(value) else float(value)
