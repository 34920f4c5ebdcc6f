"""Words about pain: whole texts, the questions after the number, and what the coach reads of how it goes on."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

import pytest

from bot.messages import Message
from bot.render import morning, pain, pain_alert, way_out
from core.checkin.pain import Felt, PainReport
from core.checkin.pain_course import Course
from core.loads.limits import Clinician
from core.programme.exercises import Side, Site
from tests.core.loads.lifts import hurt


@dataclass(frozen=True)
class Asked:
    """A prompt, as far as its buttons need it."""

    id: int = 7
    revision: int = 1


def rows(message: Message) -> list[list[str]]:
    return [[button.label for button in row] for row in message.rows]


def test_the_morning_is_asked_with_numbers_and_gone() -> None:
    asked = morning.ask(Asked(), "left knee", date(2026, 4, 14))

    assert asked.html == (
        "A question for this morning.\n"
        "Left knee, since Tue 14 April: how is it this morning, from 0 to 10?\n"
        "Tap, or reply to this message with a number."
    )
    assert rows(asked) == [["0", "1", "2", "3", "4", "5"], ["6", "7", "8", "9", "10"], ["Gone"]]
    assert not asked.silent


def test_what_it_feels_like_is_asked_the_gravest_first_and_fever_of_back_and_neck_alone() -> None:
    spine = pain.ask_feel(Asked(), "low back", spine=True)

    assert spine.html == "Low back: is it one of these? Tap the first that fits."
    assert rows(spine) == [
        ["New or growing weakness, one leg or arm"],
        ["With a fever"],
        ["Down the leg or arm, numb, tingling"],
        ["Sharp and sudden, or with a pop"],
        ["None of these"],
    ]
    assert ["With a fever"] not in rows(pain.ask_feel(Asked(), "left knee", spine=False))


def test_the_time_is_asked_in_four_words() -> None:
    asked = pain.ask_when(Asked(), "left knee")

    assert (asked.html, rows(asked)) == (
        "Left knee: when did you feel it?",
        [["Before", "During"], ["After", "Next morning"]],
    )


@pytest.mark.parametrize(
    ("felt", "said"),
    [
        (Felt.BEFORE, "Noted: knee, 0 of 10, before the session."),
        (Felt.DURING, "Noted: knee, 0 of 10, during the session."),
        (Felt.AFTER, "Noted: knee, 0 of 10."),
        (Felt.MORNING, "Noted: knee, 0 of 10, in the morning."),
    ],
)
def test_when_it_was_felt_is_said_back(felt: Felt, said: str) -> None:
    assert pain.noted(hurt(0, Site.KNEE, 0, felt=felt), training=False).html == said


def test_what_rose_is_said_to_be_taken_into_account_and_seen_today() -> None:
    said = pain.noted(hurt(0, Site.KNEE, 3, rose=True), training=True).html

    assert said == (
        "Noted: knee, 3 of 10, during the session.\n"
        "Your next loads take it into account: lighter where it hurt, and no raise near it.\n"
        "If it gets worse or does not settle, see a doctor or physiotherapist.\n"
        "Your coach will see it today."
    )


def test_where_the_coach_lets_raises_go_on_no_hold_is_promised() -> None:
    said = pain.noted(hurt(0, Site.KNEE, 2), training=True, goes_on=True).html

    assert "The load will not go up" not in said
    assert "fine" not in said


def test_signs_after_a_birth_name_no_score() -> None:
    report = hurt(0, Site.ABDOMEN, None, after_birth=True)

    assert "of 10" not in pain.noted(report, training=True).html
    assert pain.stop_here(spreading=False, ends=False, after_birth=True).html.startswith(
        "<b>Stop this exercise.</b>"
    )
    signs = pain.ask_site(Asked(), tuple(Site), (), (), after_birth=True)
    assert rows(signs)[0] == ["Heaviness, leaking, doming, bleeding"]


NEXT = "Next time 20 % less where it hurt, and no raise near it."


@pytest.mark.parametrize(
    ("report", "course", "lines"),
    [
        (hurt(0, Site.KNEE, 5, side=Side.LEFT), Course(flares=1), ["Tom: left knee, 5 of 10", NEXT]),
        (
            hurt(0, Site.KNEE, 5, felt=Felt.MORNING, rose=True),
            Course(rose=True, morning=True, flares=1),
            ["Tom: knee, 5 of 10, the morning after", "Two or more over before the session.", NEXT],
        ),
        (
            hurt(0, Site.KNEE, 3, rose=True),
            Course(rose=True, flares=1),
            [
                "Tom: knee, 3 of 10",
                "Two or more over its usual.",
                "No raise near it until two sessions at 2 or less.",
            ],
        ),
        (
            hurt(0, Site.KNEE, 5),
            Course(flares=2),
            ["Tom: knee, 5 of 10", "Flared 2 times in four weeks.", "Suggest a physiotherapist.", NEXT],
        ),
        (
            hurt(0, Site.KNEE, 2),
            Course(no_better=True),
            [
                "Tom: knee, 2 of 10",
                "No better in two weeks.",
                "Suggest a physiotherapist.",
                "No raise while it is there.",
            ],
        ),
        (
            hurt(0, Site.KNEE, 2, painkiller=True),
            Course(flares=1),
            ["Tom: knee, 2 of 10", "Took something for it, so it is read one band higher.", NEXT],
        ),
        (
            hurt(0, Site.LOW_BACK, 2, weak=True, fever=True),
            Course(flares=1),
            [
                "Tom: low back, 2 of 10",
                "New or growing weakness of one leg or arm.",
                "With a fever.",
                (
                    "I sent the text that says to see a doctor today. The plan is on hold, and all that loads it stays "
                    "locked. Only you can release both."
                ),
            ],
        ),
        (
            hurt(0, Site.ABDOMEN, None, after_birth=True),
            Course(flares=1),
            [
                "Tom: heaviness, leaking, doming or bleeding",
                (
                    "I said: stop this exercise, and see a doctor or midwife before it is done again. "
                    "It stays locked until you release it."
                ),
            ],
        ),
    ],
)
def test_the_coach_reads_what_it_is_how_it_goes_on_and_what_was_done(
    report: PainReport, course: Course, lines: list[str]
) -> None:
    said = pain_alert.alert("Tom", report, "", training=False, course=course).html

    head, *rest = lines
    who, _, what = head.partition(": ")
    assert said == "\n".join([f"<b>{who}</b>: {what} (Tue 14 April).", *rest])


@pytest.mark.parametrize(
    ("seen_on", "told", "line"),
    [
        (None, True, "Thu 2 April: not seen yet. /referrals has it."),
        (None, False, "Thu 2 April: not seen yet, and they were not told of it. /referrals has it."),
        (
            date(2026, 4, 9),
            True,
            "Thu 2 April: seen Thu 9 April. What came of it? /referrals has it.",
        ),
    ],
)
def test_where_a_referral_stands_no_other_is_suggested(seen_on: date | None, told: bool, line: str) -> None:
    referred = pain_alert.Referred(Clinician.DOCTOR, date(2026, 4, 2), seen_on, told)
    report = hurt(0, Site.KNEE, 5)
    said = pain_alert.alert(
        "Tom", report, "", training=False, course=Course(flares=2), referred=referred
    ).html

    assert f"Flared 2 times in four weeks.\nA referral to a doctor stands since {line}\n{NEXT}" in said
    assert "Suggest" not in said
    calm = pain_alert.alert("Tom", report, "", training=False, course=Course(), referred=referred).html
    assert "referral" not in calm


def test_the_coach_reads_how_much_less_her_own_rule_makes_of_it() -> None:
    report = hurt(0, Site.KNEE, 5, side=Side.LEFT)

    said = pain_alert.alert("Tom", report, "", training=False, drop=Decimal("0.125")).html

    assert said.endswith("Next time 12.5 % less where it hurt, and no raise near it.")


def test_the_coach_is_asked_whether_raises_go_on_and_told_what_ends_it() -> None:
    asked = way_out.ask(Asked(), "Tom & Co", "left knee", 2)

    assert asked.html == (
        "<b>Tom &amp; Co</b>: left knee, steady at 2 of 10 or less, and no worse in the morning.\n"
        "Loads at this place are held. Shall raises go on there?\n"
        "I ask once. Without an answer they stay held. The first report above 2 ends it, "
        "and nothing rises at 4 and over."
    )
    assert rows(asked) == [["Raises go on", "Keep holding"]]
    yes = way_out.answered(Asked(), "Tom", "left knee", 2, allowed=True)
    no = way_out.answered(Asked(), "Tom", "left knee", 2, allowed=False)
    assert (rows(yes), rows(no)) == ([["Keep holding"]], [["Raises go on"]])
    assert yes.html == (
        "<b>Tom</b>, left knee: raises go on, from the next card, until a report above 2. "
        "You take the responsibility, not I."
    )
    assert no.html == "<b>Tom</b>, left knee: loads stay held while it hurts."


def test_no_word_about_pain_calls_it_fine_names_a_condition_or_guesses_a_cause() -> None:
    reports = [hurt(0, Site.KNEE, score, felt=felt) for score in (0, 2, 5, 8) for felt in Felt]
    said = [pain.noted(each, training=True).html.lower() for each in reports]
    said += [pain.noted(each, training=False, goes_on=True).html.lower() for each in reports]
    barred = ("fine", "harmless", "nothing to worry", "strain", "sprain", "disc", "because you", "caused by")

    assert [word for word in barred for each in said if word in each] == []
