from decimal import Decimal

from rows import each_row

from core.loads.decision import Decision, Kind, LoadLine, Reason
from core.loads.given import given_dose
from core.loads.reasons import ReasonCode
from core.programme.prescription import Dose, Load, Rpe, Span
from core.programme.set_styles import SetStyle, StyleKind

SIXTY = Load.of(60)
EIGHT, NINE = Span(low=8, high=8), Span(low=9, high=9)
RPE = Rpe(low=Decimal(8), high=Decimal(8))
CLUSTER = SetStyle(kind=StyleKind.CLUSTER, parts=(4, 4))
DOWN = SetStyle(kind=StyleKind.DESCENDING, steps=2)


def dose(**fields: object) -> Dose:
    return Dose.model_validate({"sets": 3, "reps": EIGHT, "load": Load.of(60), "left": 2, **fields})


def decided(
    target: int = 8,
    left: int = 2,
    kind: Kind = Kind.HOLD,
    load: Load | None = SIXTY,
    code: str = "done once",
) -> Decision:
    return Decision(
        kind=kind,
        load=load,
        sets=3,
        target=target,
        left=left,
        line=LoadLine(mass=None),
        reasons=(Reason(code=code),),
    )


BAND = Load.banded("light")
GIVEN = [
    (dose(), decided(), dose()),
    (dose(), decided(load=Load.of("62.5")), dose(load=Load.of("62.5"))),
    (dose(rpe=RPE), decided(), dose(rpe=RPE)),
    (dose(rpe=RPE), decided(left=4), dose(left=4)),
    (dose(left_high=3), decided(left=4), dose(left=4)),
    (dose(left_high=3), decided(), dose(left_high=3)),
    (dose(or_more=True), decided(), dose(or_more=True)),
    (dose(or_more=True), decided(9), dose(or_more=True, reps=NINE)),
    (dose(or_more=True, reps=NINE), decided(8), dose()),
    (dose(or_more=True, lighter=True), decided(), dose(lighter=True)),
    (dose(style=DOWN, lighter=True), decided(), dose(lighter=True)),
    (dose(or_more=True), decided(code="coach lighter"), dose()),
    (dose(style=DOWN), decided(), dose(style=DOWN)),
    (dose(style=CLUSTER), decided(), dose(style=CLUSTER)),
    (dose(style=CLUSTER), decided(9), dose(reps=NINE)),
    (dose(portion=4, each_side=True), decided(), dose(portion=4, each_side=True)),
    (dose(portion=4, each_side=True), decided(9), dose(reps=NINE, each_side=True)),
    (dose(reps=None, seconds=EIGHT), decided(9), dose(reps=None, seconds=NINE)),
    (dose(reps=None, metres=EIGHT), decided(9), dose(reps=None, metres=NINE)),
    (dose(reps=None, to_left=True), decided(1), dose(reps=None, to_left=True)),
    (dose(reps=None, to_left=True), decided(9, code=ReasonCode.PAIN_DROP), dose(reps=NINE)),
    (dose(load=BAND), decided(load=None), dose(load=BAND)),
    (dose(load=BAND), decided(load=None, kind=Kind.PAUSE), dose(load=None)),
]


@each_row(("written", "decision", "expected"), GIVEN)
def test_a_dose_is_given_as_decided_with_nothing_that_no_longer_holds(
    written: Dose, decision: Decision, expected: Dose
) -> None:
    assert given_dose(written, decision) == expected
