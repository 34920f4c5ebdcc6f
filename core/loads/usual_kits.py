"""Usual kits, until a client has said what there really is."""

from functools import cache

from core.loads.kit import Kit, Plates
from core.units import Mass, Unit

_PLATES = {
    Unit.KG: ("25", "20", "15", "10", "5", "2.5", "1.25"),
    Unit.LB: ("45", "35", "25", "10", "5", "2.5"),
}
_DUMBBELLS = {
    Unit.KG: (
        *(str(mass) for mass in range(1, 11)),
        *(str(mass) for mass in range(12, 31, 2)),
        *("32.5", "35", "37.5", "40", "42.5", "45", "47.5", "50"),
    ),
    Unit.LB: ("2.5", "5", "7.5", "10", "12.5", "15", *(str(mass) for mass in range(20, 101, 5))),
}
_KETTLEBELLS = {
    Unit.KG: ("8", "12", "16", "20", "24", "28", "32"),
    Unit.LB: ("18", "26", "35", "44", "53", "62", "70"),
}


@cache
def default_kit(kind: str, unit: Unit) -> Kit:
    """Return a usual kit of a kind, until the client has said more.

    Args:
        kind: "bar" (a gym with bar, plates and machines), "dumbbells", "both" or "bodyweight".
        unit: Unit it is marked in.

    Raises:
        ValueError: There is no such kind.

    Common practice, no source: bar 20 kg or 45 lb, plates to 1.25 kg or 2.5 lb, dumbbells a kilogram apart to 10,
    two to 30, two and a half to 50 kg (2.5 lb apart to 15, then 5), kettlebells 4 kg apart, stacks 5 kg or 10 lb.
    """
    if kind not in {"bar", "dumbbells", "both", "bodyweight"}:
        raise ValueError(f"no kind of kit is called {kind!r}")
    gym, hands = kind in {"bar", "both"}, kind in {"dumbbells", "both"}
    kg = unit is Unit.KG
    belt = ("2.5" if kg else "5") if gym else (("2" if kg else "5") if hands else None)
    return Kit(
        place="gym" if gym else "home",
        unit=unit,
        bar=Mass.of(20 if kg else 45, unit) if gym else None,
        plates=tuple(Plates(mass=mass) for mass in _masses(_PLATES[unit], unit)) if gym else (),
        dumbbells=_masses(_DUMBBELLS[unit] if gym else _DUMBBELLS[unit][:-8], unit) if hands else (),
        kettlebells=_masses(_KETTLEBELLS[unit], unit) if kind == "both" else (),
        stack_step=Mass.of(5 if kg else 10, unit) if gym else None,
        bodyweight_step=None if belt is None else Mass.of(belt, unit),
    )


def _masses(texts: tuple[str, ...], unit: Unit) -> tuple[Mass, ...]:
    return tuple(Mass.of(text, unit) for text in texts)
