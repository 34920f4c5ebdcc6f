from bot.render.decision import decision_lines
from core.checkin.pain import Felt
from core.loads.decision import Cause, Lifter, next_decision
from core.loads.order import CoachOrder, OrderKind
from core.programme.exercises import Site
from tests.core.loads.lifts import HOME, done, dose, hurt, inputs


def test_a_decision_is_shown_with_all_that_it_rests_on() -> None:
    asked = dose(3, "5", "100")
    given = inputs(
        "back-squat",
        asked,
        done(14, asked, "5 5 5", tap=True),
        done(7, asked, "5 5", left=1, cause=Cause.TIME, effort=4),
        lifter=Lifter(new=True, age_band="40-59"),
        pain=(hurt(3, Site.KNEE, 5, row=8), hurt(2, Site.LOW_BACK, None, row=9, felt=Felt.AFTER)),
    )

    assert decision_lines(given, next_decision(given)) == [
        "Back squat, week 2, 2026-04-14",
        "Written: 3 × 5 at 100 kg",
        "Decided: hold, 100 kg, 3 sets of 5, 2 left",
        "",
        "Why, by authority:",
        "  Not heavier because of low back (no number given, Sun 12 April). (pain no raise)",
        "  2 of 3 sets done: the same again. (not all done)",
        "",
        "Load line: 100 kg",
        "  at most 100 kg: pain no raise",
        "  at most 105 kg: cap",
        "  at most 110 kg: cap week",
        "  at most 120 kg: cap four weeks",
        "  at most 100 kg: not all done",
        "",
        "What was known:",
        "  Age band 40-59, in the first three months; place: gym",
        "  2026-03-31  asked 100 kg: 100 kg ×5, 100 kg ×5, 100 kg ×5, done, taps alone",
        "  2026-04-07  asked 100 kg: 100 kg ×5, 100 kg ×5 (1 left), done (time), effort 4 of 5",
        "  2026-04-11  pain knee: 5 of 10",
        "  2026-04-12  pain low back: no number",
        "",
        "Rests on: set 930, set 931, report 9",
    ]


def test_a_decision_that_gives_no_load_says_so() -> None:
    given = inputs("back-squat", dose(3, "5", "100"), kit=HOME, lifter=Lifter(frozen=True))

    assert decision_lines(given, next_decision(given)) == [
        "Back squat, week 2, 2026-04-14",
        "Written: 3 × 5 at 100 kg",
        "Decided: pause, nothing, 3 sets of 5, 2 left",
        "",
        "Why, by authority:",
        "  Your plan is on hold until your coach takes it up again. (frozen)",
        "",
        "Load line: none",
        "  nothing: frozen",
        "",
        "What was known:",
        "  Age band 18-39, plan on hold; place: home",
        "  No history of this exercise.",
    ]


def test_what_was_ordered_and_how_a_past_session_counts_is_shown() -> None:
    asked = dose(2, "10-12", None)
    past = done(7, asked, "12 11 12 11", sides="LRLR").model_copy(update={"merged": True, "eased": True})
    given = inputs("side-plank", dose(2, "30", timed=True), past).model_copy(
        update={"orders": (CoachOrder(row_id=1, kind=OrderKind.EASE, percent=10),)}
    )

    assert decision_lines(given, next_decision(given)) == [
        "Side plank, week 2, 2026-04-14",
        "Written: 2 × 30 s a side",
        "Decided: hold, bw, 1 set of 30",
        "",
        "Why, by authority:",
        "  Your coach eased it: one set fewer. (coach eased)",
        "  The block counts differently now; the load stays at bw. (work changed)",
        "",
        "Load line: none",
        "  at most 0 kg: coach eased",
        "  at most 0 kg: work changed",
        "",
        "What was known:",
        "  Age band 18-39; place: gym",
        "  2026-04-07  asked none: L ×12, R ×11, L ×12, R ×11, done, eased, two sessions in one",
        "  Order of the coach: ease",
        "",
        "Rests on: set 930, set 931, set 932, set 933",
    ]
