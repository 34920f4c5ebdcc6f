"""The digest in words: whom to write to first, three lines in a quiet week, no client cut in two."""

import html
import re
from datetime import UTC, date, datetime

import pytest

from bot.render.digest import digest_texts, picture_caption
from core.checkin.pain import PainReport
from core.loads.decision import Kind
from core.oversight.digest import Change, Coming, Digest, Ending, Kept, Other, Said, Well, Word
from core.oversight.facts import Beside
from core.oversight.misses import Tally
from core.oversight.words import Why, WhyCode
from core.programme.exercises import Side, Site
from core.programme.prescription import Load
from core.units import Mass

FIRST, LAST = date(2026, 4, 13), date(2026, 4, 19)


def week(**facts: object) -> Digest:
    empty = dict.fromkeys(("words", "well", "kept", "coming", "ending"), ())
    return Digest(**{"first": FIRST, "last": LAST, "more": 0} | empty | facts)


def kept(name: str, done: int = 3, due: int = 3, **facts: object) -> Kept:
    found = {"week": Tally(kept=done, due=due), "month": Tally(kept=done, due=due), "percent": None} | facts
    return Kept(name=name, **found)


def word(name: str, code: WhyCode = WhyCode.STOP_SIGN, **facts: object) -> Word:
    return Word(name=name, reasons=(Why(code=code, **facts),))


def change(kind: Kind, before: Load | None, now: Load | None, exercise: str = "hip-thrust") -> Change:
    return Change(exercise=exercise, before=before, now=now, kind=kind)


def plain(value: Digest) -> str:
    return html.unescape(re.sub(r"<[^>]+>", "", "\n".join(digest_texts(value))))


RAISE = change(Kind.RAISE, Load.of(90), Load.of("92.5"))
PAIN = PainReport(
    row_id=1,
    site=Site.KNEE,
    side=Side.LEFT,
    score=5,
    on=FIRST,
    at=datetime(2026, 4, 13, 12, tzinfo=UTC),
)


def test_a_quiet_week_is_three_lines() -> None:
    changes = (RAISE, RAISE, change(Kind.LOWER, Load.of(90), Load.of(80)), change(Kind.PAUSE, None, None))
    well = Well(name="Ada", rose=(RAISE,), week=Tally(kept=3, due=3))
    value = week(kept=(kept("Ada"), kept("Ben")), well=(well,), coming=(Coming(name="Ada", changes=changes),))

    assert plain(value).splitlines() == [
        "Nobody needs a word this week.",
        "Mon 13 April to Sun 19 April: kept all 6 sessions due; 1 load rose.",
        "Next seven days: of the loads 2 going up, 1 going down, 1 on hold.",
    ]


def test_a_week_without_sessions_is_three_lines_too() -> None:
    assert plain(week()).splitlines() == [
        "Nobody needs a word this week.",
        "Mon 13 April to Sun 19 April: no session was due.",
        "Next seven days: nothing changes.",
    ]


@pytest.mark.parametrize(
    ("names", "more", "first"),
    [
        (["Ada"], 0, "Write first to Ada."),
        (["Ada", "Ben"], 0, "Write first to Ada and Ben."),
        (["Ada", "Ben", "Cy"], 0, "Write first to Ada, Ben and Cy."),
        (list("ABCDE"), 4, "Write first to A, B, C, D, E and 4 more."),
        (list("ABCDEFG"), 2, "Write first to A, B, C, D, E and 4 more."),
        ([], 0, "Nobody needs a word this week."),
    ],
)
def test_the_first_line_says_whom_to_write_to(names: list[str], more: int, first: str) -> None:
    value = week(words=tuple(word(name) for name in names), more=more, kept=(kept("Ada", 2),))

    assert plain(value).splitlines()[0] == first
    assert ("And 4 more." in plain(value)) == (more == 4)


def test_a_whole_week_reads_in_order() -> None:
    value = week(
        words=(word("Nuno", on=date(2026, 4, 16)), word("Tom", WhyCode.PAIN, pain=PAIN, since=2)),
        kept=(
            kept("Ingrid", month=Tally(kept=7, due=8), percent=88),
            kept("Nuno", 1, 3, reasons=("time", "ill", "stopped"), month=Tally(kept=4, due=6, pending=1)),
            kept("Öyvind", 0, 0, paused_until=date(2026, 4, 23)),
            kept("Tom", 0, 0),
            kept("Una", 0, 0, month=Tally(kept=2, due=2)),
        ),
        well=(Well(name="Ingrid", rose=(RAISE,), week=Tally(kept=3, due=3)),),
        coming=(
            Coming(name="Ingrid", changes=(RAISE, change(Kind.PAUSE, Load.of(20), None, "bench-press"))),
            Coming(
                name="Tom",
                changes=(
                    change(Kind.LOWER, Load.of(20, "lb"), Load.of(15, "lb"), "romanian-deadlift-dumbbell"),
                    change(Kind.SWAP, Load.of(20), None),
                    change(Kind.RAISE, Load.bodyweight(), Load.bodyweight(Mass.of("2.5")), "step-down"),
                    change(Kind.RAISE, Load.of(45, "lb"), Load.of(25), "back-squat"),
                    change(Kind.RAISE, Load.of(45), Load.of(50), "of-her-own"),
                ),
            ),
        ),
        ending=(
            Ending(name="Ingrid", block="Harbour", ends=date(2026, 5, 3)),
            Ending(name="Nuno", block="Home", ends=date(2026, 4, 26)),
            Ending(name="Tom", block="Harbour", ends=date(2026, 5, 3)),
            Ending(name="Vera", block="Home", ends=date(2026, 4, 2)),
            Ending(name="Una", block=None, ends=None),
        ),
    )

    assert plain(value) == (
        "Write first to Nuno and Tom.\n"
        "Mon 13 April to Sun 19 April: kept 4 of 6 sessions due.\n\n"
        "Needs a word\n"
        "Nuno: plan on hold since Thu 16 April after a stop sign; only you can release it.\n"
        "Tom: left knee on Mon 13 April: 5 of 10, last 2 of 10.\n\n"
        "Doing well\n"
        "Ingrid: Hip thrust 90 → 92.5 kg; kept 3 of 3.\n\n"
        "Sessions kept of due\n"
        "Ingrid: 3 of 3, in four weeks 7 of 8 (88 %)\n"
        "Nuno: 1 of 3 (excused: ill), no time, 1 still open, in four weeks 4 of 6\n"
        "Öyvind: paused until Thu 23 April\n"
        "Tom: nothing due yet\n"
        "Una: none due, in four weeks 2 of 2\n\n"
        "Block runs out\n"
        "Home ended Thu 2 April: Vera.\n"
        "Home ends Sun 26 April: Nuno.\n"
        "Harbour ends Sun 3 May: Ingrid and Tom.\n"
        "No block: Una.\n\n"
        "Changes in the next seven days\n"
        "Ingrid: Bench press on hold; Hip thrust 90 → 92.5 kg.\n"
        "Tom: Hip thrust: something else; Dumbbell Romanian deadlift 20 → 15 lb a hand; "
        "Step-down bodyweight → bw+2.5 kg; Back squat 45 lb → 25 kg; 1 more."
    )


@pytest.mark.parametrize(
    ("why", "expected"),
    [
        (
            Why(code=WhyCode.HEALTH_QUESTION, on=FIRST),
            "on hold since Mon 13 April because of a health question; only you can release the first session",
        ),
        (
            Why(code=WhyCode.LOCKED, pain=PAIN.model_copy(update={"sudden": True, "spreading": True})),
            (
                "left knee on Mon 13 April: 5 of 10, sudden, spreading, numb or tingling; "
                "what loads it is locked until you look"
            ),
        ),
        (
            Why(
                code=WhyCode.PAIN,
                pain=PAIN.model_copy(update={"score": None, "painkiller": True, "side": None}),
            ),
            "knee on Mon 13 April: pain without a number, took something for it",
        ),
        (Why(code=WhyCode.SILENT), "no word, so no more cards go out"),
        (Why(code=WhyCode.UNREACHABLE), "has blocked the bot, so nothing reaches them here"),
        (
            Why(code=WhyCode.RUN, misses=2, recent=Tally(kept=3, due=6)),
            "missed 2 sessions in a row, kept 3 of 6 in 14 days",
        ),
        (Why(code=WhyCode.HALF, recent=Tally(kept=2, due=5)), "kept 2 of 5 in 14 days"),
        (
            Why(code=WhyCode.FIRST_WEEKS, recent=Tally(kept=2, due=3)),
            "missed the last session, in the first three weeks; kept 2 of 3 in 14 days",
        ),
        (Why(code=WhyCode.COACH_DECIDES, exercise="hip-thrust"), "Hip thrust waits for your decision"),
    ],
)
def test_each_reason_has_its_words(why: Why, expected: str) -> None:
    value = week(words=(Word(name="Ada", reasons=(why,)),))

    assert f"Ada: {expected}." in plain(value).splitlines()


def test_a_long_digest_is_split_between_clients() -> None:
    names = [f"{'Wollongong' * 7} {number}" for number in range(60)]
    value = week(words=tuple(word(name) for name in names[:20]), kept=tuple(kept(name, 2) for name in names))
    texts = digest_texts(value)
    lines = [line for text in texts for line in text.splitlines()]

    assert len(texts) > 2
    assert max(map(len, texts)) < 4096
    assert [line for line in lines if line.endswith(": 2 of 3")] == [f"{name}: 2 of 3" for name in names]
    assert not any(text.startswith("\n") or text.splitlines()[-1].startswith("<b>Sess") for text in texts)
    assert texts[-1].startswith("<b>Sessions kept of due</b> (continued)\nWollongong")


def test_what_many_have_in_common_takes_several_lines() -> None:
    names = [f"{'Wollongong' * 7} {number:03}" for number in range(100)]
    ending = tuple(Ending(name=name, block=None, ends=None) for name in names)
    texts = digest_texts(week(unanswered=tuple(names), ending=ending))
    lines = [line for text in texts for line in text.splitlines()]

    assert max(map(len, texts)) < 4096
    for said in ("Not answered", "No block"):
        told = [line.removeprefix(f"{said}: ").removesuffix(".") for line in lines if line.startswith(said)]
        assert [name for line in told for name in line.replace(" and ", ", ").split(", ")] == names


def test_names_are_escaped() -> None:
    (text,) = digest_texts(week(words=(word("<i>"),), kept=(kept("a&b", 1),)))

    assert "<b>&lt;i&gt;</b>: plan" in text
    assert "a&amp;b: 1 of 3" in text


def test_the_first_line_says_nothing_of_health() -> None:
    value = week(words=(word("Ada"), word("Ben", WhyCode.PAIN, pain=PAIN)))

    assert plain(value).splitlines()[0] == "Write first to Ada and Ben."


def test_the_pictures_words_say_what_it_shows() -> None:
    assert picture_caption(week()) == "Sessions kept of due, by client, Mon 23 March to Sun 19 April."


def test_check_ins_and_other_training_stand_after_the_sessions() -> None:
    said = Said(name="Ada", said=(("Week?", "hard"), ("Worry?", "a < b")))
    other = Other(name="Ada", trained=(Beside(kind="run", on=FIRST, minutes=40, effort=4),))
    value = week(kept=(kept("Ada"),), said=(said,), unanswered=("Ben", "Cleo"), other=(other,))

    assert plain(value) == (
        "Nobody needs a word this week.\n"
        "Mon 13 April to Sun 19 April: kept 3 of 3 sessions due.\n\n"
        "Sessions kept of due\nAda: 3 of 3\n\n"
        "Check-ins\nAda: hard; a < b.\nNot answered: Ben and Cleo.\n\n"
        "Other training\nAda: a run, 40 min, hard, Mon 13 April."
    )
    assert "a &lt; b" in digest_texts(value)[0]


def test_answers_alone_name_nobody_as_silent() -> None:
    said = Said(name="Ada", said=(("Week?", "hard"),))

    assert "Not answered" not in plain(week(kept=(kept("Ada"),), said=(said,)))
