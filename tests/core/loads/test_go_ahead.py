from datetime import UTC, datetime, time

import pytest

from core.checkin.pain import Felt, PainReport
from core.loads.decision import Decision, next_decision, replay
from core.loads.go_ahead import GoAhead, ended, goes_on, steady_at
from core.programme.exercises import Side, Site
from tests.core.loads.lifts import TODAY, brief, day, done, dose, hurt, inputs

SQUAT = dose(3, "8", "100")
TWICE = (done(6, SQUAT, "8 8 8"), done(3, SQUAT, "8 8 8"))
STEADY = (
    hurt(6, Site.KNEE, 2, row=1),
    hurt(5, Site.KNEE, 1, row=2, felt=Felt.MORNING),
    hurt(3, Site.KNEE, 2, row=3),
    hurt(2, Site.KNEE, 2, row=4, felt=Felt.MORNING),
)


def allowed(score: int = 2, days_ago: int = 2, site: Site = Site.KNEE, side: Side | None = None) -> GoAhead:
    return GoAhead(
        row_id=1, site=site, side=side, score=score, at=datetime.combine(day(days_ago), time(20), UTC)
    )


def decided(*reports: PainReport, given: tuple[GoAhead, ...] = ()) -> Decision:
    found = inputs("back-squat", SQUAT, *TWICE, pain=reports).model_copy(update={"go_aheads": given})
    decision = next_decision(found)
    assert replay(found.model_dump_json()) == decision.model_dump_json()
    return decision


def test_without_a_word_of_the_coach_steady_pain_holds() -> None:
    assert brief(decided(*STEADY)) == "hold 100 kg 3x8 left 2: pain hold"


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        (allowed(2), "raise 102.5 kg 3x8 left 2: raise done twice"),
        (allowed(3), "raise 102.5 kg 3x8 left 2: raise done twice"),
        (allowed(1), "hold 100 kg 3x8 left 2: pain hold"),
        (allowed(2, site=Site.HIP), "hold 100 kg 3x8 left 2: pain hold"),
        (allowed(2, side=Side.LEFT), "hold 100 kg 3x8 left 2: pain hold"),
    ],
)
def test_raises_go_on_at_the_place_and_up_to_the_score_that_a_coach_allowed(
    given: GoAhead, expected: str
) -> None:
    assert brief(decided(*STEADY, given=(given,))) == expected


@pytest.mark.parametrize(
    ("later", "expected"),
    [
        (hurt(1, Site.KNEE, 2, row=9), "raise 102.5 kg 3x8 left 2: raise done twice"),
        (hurt(1, Site.KNEE, 3, row=9), "hold 100 kg 3x8 left 2: pain hold"),
        (hurt(1, Site.KNEE, 4, row=9), "hold 100 kg 3x8 left 2: pain no raise"),
        (hurt(1, Site.KNEE, None, row=9), "hold 100 kg 3x8 left 2: pain no raise"),
        (hurt(1, Site.KNEE, 2, row=9, painkiller=True), "hold 100 kg 3x8 left 2: pain no raise"),
        (hurt(1, Site.KNEE, 7, row=9), "pause - 3x8 left 2: pain locked"),
        (hurt(1, Site.HIP, 2, row=9), "hold 100 kg 3x8 left 2: pain hold"),
    ],
)
def test_the_first_report_above_ends_what_was_allowed(later: PainReport, expected: str) -> None:
    assert brief(decided(*STEADY, later, given=(allowed(2),))) == expected


def test_what_a_rise_ended_stays_ended_when_it_is_calm_again() -> None:
    reports = (*STEADY, hurt(1, Site.KNEE, 3, row=9), hurt(0, Site.KNEE, 1, row=10))
    assert ended(allowed(2), reports)
    assert not goes_on(reports[-1], [allowed(2)], reports)
    assert goes_on(reports[-1], [allowed(3)], reports)


def test_pain_of_the_other_side_ends_nothing_and_pain_of_no_side_does() -> None:
    left = allowed(2, side=Side.LEFT)
    assert not ended(left, [hurt(1, Site.KNEE, 5, side=Side.RIGHT)])
    assert ended(left, [hurt(1, Site.KNEE, 5)])
    assert ended(allowed(2), [hurt(1, Site.KNEE, 5, side=Side.RIGHT)])
    assert not ended(left, [hurt(4, Site.KNEE, 5, side=Side.LEFT)])


@pytest.mark.parametrize(
    ("reports", "score"),
    [
        (STEADY, 2),
        (STEADY[:2], None),
        (STEADY[:3], None),
        ((*STEADY[:3], hurt(2, Site.KNEE, 3, felt=Felt.MORNING)), None),
        ((*STEADY, hurt(20, Site.KNEE, 4)), None),
        ((*STEADY, hurt(28, Site.KNEE, 4)), 2),
        ((*STEADY, hurt(20, Site.KNEE, None)), None),
        ((*STEADY, hurt(20, Site.KNEE, 0, painkiller=True)), None),
        (STEADY[2:], None),
        ((hurt(7, Site.KNEE, 1), hurt(3, Site.KNEE, 2), STEADY[3]), None),
        ((hurt(7, Site.KNEE, 3), hurt(3, Site.KNEE, 2), STEADY[3]), 3),
        ((*STEADY, hurt(4, Site.HIP, 8)), 2),
    ],
)
def test_when_a_place_is_steady_and_settled_by_the_morning(
    reports: tuple[PainReport, ...], score: int | None
) -> None:
    trained = {one.on for one in reports if one.felt is not Felt.MORNING}
    assert steady_at(hurt(2, Site.KNEE, 2), reports, TODAY, trained) == score
    assert steady_at(hurt(2, Site.KNEE, 2), reports, TODAY, {day(3)}) is None
