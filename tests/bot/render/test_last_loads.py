"""Last loads in words: to the coach before and after they are kept, to her client, and as the reason of a load."""

from dataclasses import replace
from datetime import date

import pytest
from setting_out import labels, plain_text

from bot.render.client_file import Buttons as CardButtons
from bot.render.client_file import client_card
from bot.render.decision import decision_lines
from bot.render.last_loads import Buttons, Line, Part, date_words, kept, preview
from bot.render.reasons import why_line
from bot.render.session import session_card
from core.loads.decision import Exposure, SetDone, next_decision
from core.programme.catalogue import CATALOGUE
from core.programme.last_loads import LastLoad
from core.programme.prescription import Dose, Load, Span
from core.units import Mass
from tests.bot.render.test_client_file import VIEW
from tests.bot.render.test_session import item, view
from tests.core.loads.lifts import dose, inputs

TODAY = date(2026, 4, 7)
HIP = LastLoad(exercise="hip-thrust", load=Load.of("92.5"), reps=8, on=date(2026, 3, 27))
PULL = LastLoad(exercise="pull-up", load=Load.bodyweight(Mass.of(5)), reps=6, on=date(2025, 12, 30))


def line(value: LastLoad, before: LastLoad | None = None, *, counts: bool = True) -> Line:
    return Line(CATALOGUE[value.exercise], value, before, counts=counts)


def test_the_preview_says_who_gets_what_and_what_replaces_what() -> None:
    older = HIP.model_copy(update={"load": Load.of(90), "on": date(2026, 1, 9)})
    parts = [
        Part("Ada & Co", invited=False, lines=(line(HIP, older), line(PULL, PULL))),
        Part("Cleo", invited=True, lines=(line(HIP, counts=False),)),
    ]
    warnings = [{"code": "date_old", "facts": {"written": "2023-01-01"}, "severity": "warning"}]

    (message,) = preview("loads <1>.csv", parts, warnings, TODAY, Buttons(4, 0))

    assert plain_text(message) == (
        "loads <1>.csv: 3 last loads of 2 people. Nothing is kept yet.\n"
        "\n"
        "Ada & Co\n"
        "Hip thrust 92.5 kg × 8, Fri 27 March (in place of 90 kg × 8, Fri 9 January)\n"
        "Pull-up bw+5 kg × 6, Tue 30 December 2025 (kept already)\n"
        "\n"
        "Cleo, who has not joined yet: they wait with the invitation\n"
        "Hip thrust 92.5 kg × 8, Fri 27 March. Logged here by then, so the log counts\n"
        "\n"
        "Please look again:\n"
        "• 2023-01-01 is more than two years ago. Is the year right?"
    )
    assert labels(message) == ["Keep", "Leave it"]
    assert "&lt;1&gt;" in message.html
    assert "Ada &amp; Co" in message.html


@pytest.mark.parametrize(
    ("counts", "said"),
    [
        ((1, 1, 1), "Kept: 1 last load of 1 person. Exercises"),
        ((2, 5, 3), "Kept: 5 last loads of 3 people. 3 of them stood so already. Exercises"),
    ],
)
def test_what_was_kept_is_counted(counts: tuple[int, int, int], said: str) -> None:
    assert kept(*counts).html.startswith(said)


def test_a_date_of_another_year_has_its_year() -> None:
    assert date_words(date(2026, 1, 1), TODAY) == "Thu 1 January"
    assert date_words(date(2025, 1, 1), TODAY) == "Wed 1 January 2025"


def test_the_client_reads_it_as_her_coachs_number_until_she_has_logged_her_own() -> None:
    noted = replace(item("hip-thrust", dose(4, "8", "92.5")), noted=HIP)

    overview = plain_text(session_card(view(noted, screen="overview", state="sent")))
    opened = plain_text(session_card(view(noted)))

    assert "A  Hip thrust  4 × 8 at 92.5 kg\n     from your coach 92.5 kg × 8 (Fri 27 March)" in overview
    assert "From your coach 92.5 kg × 8 (Fri 27 March)" in opened
    assert "ast time" not in overview + opened


def test_the_coach_reads_on_a_clients_card_what_was_never_logged() -> None:
    text = plain_text(client_card(replace(VIEW, noted=(HIP, PULL), today=TODAY), CardButtons(1, 0)))

    assert (
        "Last loads from you, not logged here yet\n"
        "Hip thrust 92.5 kg × 8 (Fri 27 March)\n"
        "Pull-up bw+5 kg × 6 (Tue 30 December 2025)" in text
    )
    many = plain_text(client_card(replace(VIEW, noted=(HIP,) * 10, today=TODAY), CardButtons(1, 0)))
    assert "… and 2 more." in many


def seed(reps: int) -> Exposure:
    find = Dose(sets=1, reps=Span(low=reps, high=reps), load=Load.find())
    done = SetDone(row_id=-5, set_no=1, load=Load.of(90), reps=reps)
    return Exposure(
        session_id=-5,
        on=date(2026, 4, 10),
        week_no=0,
        dose=find,
        sets=(done,),
        by_tap=True,
        written=Load.find(),
    )


@pytest.mark.parametrize(
    ("reps", "said"),
    [
        (8, "The load that your coach noted."),
        (12, "Your coach noted 90 kg for 12 reps; 8 are asked, so it stays."),
    ],
)
def test_a_reason_that_rests_on_it_alone_says_so(reps: int, said: str) -> None:
    given = inputs("hip-thrust", dose(3, "8", "find"), seed(reps))
    decision = next_decision(given)

    assert decision.used == (-5,)
    assert why_line(decision) == said
    told = decision_lines(given, decision)
    assert told[-1] == "Rests on: last load 5 of the coach"
    assert f"  2026-04-10  asked find: 90 kg ×{reps}, done, noted by the coach" in told
