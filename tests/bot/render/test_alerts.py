"""What a coach reads of a lift, of what waits and of a block that ends; no word of blame, and no cause."""

from datetime import UTC, date, datetime

import pytest
from setting_out import plain_text

from bot.messages import Button
from bot.render import alerts as say
from core.oversight.alerts import LeftUnder, OverLine, Unanswered
from core.programme.catalogue import exercise
from core.units import Mass

ON = date(2026, 4, 7)
SQUAT = exercise("back-squat")


def test_a_set_over_the_line_stands_beside_the_line() -> None:
    found = OverLine(load=Mass.of("112.5"), line=Mass.of(100), grown=1)

    assert plain_text(say.over_line("Ada", SQUAT, found, ON)) == (
        "Ada: Back squat at 112.5 kg, the load line was 100 kg (Tue 7 April).\n"
        "I kept it as logged. The next load is worked out anew, with every ceiling. "
        "A slip of the finger can be corrected under /client Ada."
    )


def test_none_left_stands_beside_what_was_asked() -> None:
    found = LeftUnder(asked=2, first=ON, times=2)

    assert plain_text(say.left_under("Ada", SQUAT, found)) == (
        "Ada: Back squat, 0 reps left where 2 were asked, 2 times running since Tue 7 April.\n"
        "I kept it as logged. The next load follows your rules."
    )


@pytest.mark.parametrize(
    ("count", "many"),
    [(1, "a video has had no answer"), (3, "3 videos have had no answer, the oldest")],
)
def test_videos_that_wait_are_counted(count: int, many: str) -> None:
    assert plain_text(say.video_waits("Ada", count, 5)) == (
        f"Ada: {many} for 5 days.\nI told them that it went to you, and nothing since."
    )


def test_check_ins_without_an_answer_say_how_to_turn_them_off() -> None:
    assert plain_text(say.check_ins_unanswered("Ada", Unanswered(first=ON, times=2))) == (
        "Ada: no answer to the last 2 check-ins, since Tue 7 April.\n"
        "I go on asking on your day. /checkin turns it off for one client."
    )


def test_a_block_that_ends_says_what_comes_then() -> None:
    assert plain_text(say.block_ends("Ada", "Harbour", ON)) == (
        "Ada: Harbour ends Tue 7 April, and no block follows it.\n"
        "No card goes out after that. /assign puts them on the next one."
    )


def test_blocks_that_end_are_told_in_one_message_that_never_grows_too_long() -> None:
    told = say.blocks_end([("Ada", "Harbour", ON), ("Bo", "Harbour", ON), ("Cleo", "Quay & co", ON)])
    many = say.blocks_end([(f"Client {each:03}", f"Block {each:03}", ON) for each in range(200)])

    assert plain_text(told) == (
        "3 clients have no block after the one that ends.\n"
        "Harbour ends Tue 7 April: Ada and Bo.\n"
        "Quay & co ends Tue 7 April: Cleo.\n"
        "No card goes out after that. /assign puts one of them on the next one; /blocks lists who runs out."
    )
    assert say.blocks_end([("Ada", "Harbour", ON)]) == say.block_ends("Ada", "Harbour", ON)
    shown = plain_text(many).count("Client")
    assert f"\nAnd {200 - shown} more.\n" in many.html
    assert 40 < shown < 200
    assert len(many.html) < 3500


def test_a_matter_told_again_says_so_once_and_keeps_its_text() -> None:
    told_at = datetime(2026, 4, 7, 15, 5, tzinfo=UTC)
    rows = ((Button("Release", "x"),),)

    again = say.not_seen("<b>Ada</b>: a matter.\nMore.", told_at, "Europe/Lisbon", rows)

    assert plain_text(again) == "Not seen yet. First told Tue 7 April, 16:05.\nAda: a matter.\nMore."
    assert again.rows == rows
    assert say.as_told(again.html) == say.as_told(say.as_told(again.html)) == "<b>Ada</b>: a matter.\nMore."


@pytest.mark.parametrize(
    ("key", "matter"),
    [
        ("stop:7", "a stop sign. The plan is on hold, and the text for it was sent"),
        ("pain:7:knee:L", "pain that cannot wait. What loads it is locked"),
        ("doubt:7", "a safety message that may not have arrived"),
        ("health:7", "something that cannot wait"),
    ],
)
def test_the_second_person_reads_whom_and_what_kind_of_matter_alone(key: str, matter: str) -> None:
    message = say.for_second("Marit <x>", "Ada", key, say.seen_button("data"))

    assert plain_text(message) == (
        f"Marit <x> has not seen this for over an hour. Ada: {matter}.\n"
        "Please reach Marit <x>. In an emergency call your local emergency number."
    )
    assert [[each.label for each in row] for row in message.rows] == [["Seen"]]
    assert "knee" not in message.html


def test_the_coach_reads_who_has_seen_it_by_her_own_clock() -> None:
    at = datetime(2026, 4, 7, 15, 5, tzinfo=UTC)

    assert plain_text(say.seen_by_second("Lena", "Ada", at, "Europe/Lisbon")) == (
        "Lena has seen the alert about Ada at 16:05. It is still yours to do."
    )


def test_a_lift_for_the_digest_is_only_named() -> None:
    assert plain_text(say.lift_matter("Ada", SQUAT)) == (
        "Ada: Back squat, a lift to look at. It is in the digest."
    )
