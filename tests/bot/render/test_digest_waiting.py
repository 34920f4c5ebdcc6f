"""What waits for the coach, a client a line, and no section without a line."""

import html
import re
from datetime import date
from decimal import Decimal

from bot.render.digest import digest_texts
from core.oversight.digest import Digest
from core.oversight.waiting import LiftCourse, RaiseWaiting, ReferralDue, Reminder, VideosWaiting, Waits
from core.programme.prescription import Load

FIRST, LAST = date(2026, 4, 13), date(2026, 4, 19)


def said(*waits: Waits, reminders: tuple[Reminder, ...] = ()) -> str:
    value = Digest(
        first=FIRST,
        last=LAST,
        words=(),
        more=0,
        well=(),
        kept=(),
        coming=(),
        ending=(),
        waits=waits,
        reminders=reminders,
    )
    return html.unescape(re.sub(r"<[^>]+>", "", "\n".join(digest_texts(value))))


def test_everything_that_waits_is_told_by_kind_and_client() -> None:
    ada = Waits(
        name="Ada <3",
        videos=VideosWaiting(count=2, days=3),
        raises=(
            RaiseWaiting(exercise="hip-thrust", before=Load.of(90), now=Load.of(100), since=FIRST),
            RaiseWaiting(exercise="gone", before=None, now=Load.of(20), since=LAST),
        ),
        referrals=(ReferralDue(what="knee, physio", review_on=LAST),),
        lifts=(
            LiftCourse(exercise="back-squat", since=FIRST, by=Decimal("0.0812"), times=3),
            LiftCourse(exercise="bench-press", since=date(2026, 3, 2), times=6),
        ),
    )
    ben = Waits(name="Ben", videos=VideosWaiting(count=1, days=1))
    reminders = (
        Reminder(text="book the hall", on=LAST),
        Reminder(text="ask about <sleep>", on=LAST, name="Ben"),
    )

    assert said(ada, ben, reminders=reminders) == (
        "Nobody needs a word this week.\n"
        "Mon 13 April to Sun 19 April: no session was due.\n"
        "\n"
        "Videos waiting\n"
        "Ada <3: 2 videos, the oldest 3 days old.\n"
        "Ben: 1 video, 1 day old.\n"
        "\n"
        "Raises waiting for your word: /raises\n"
        "Ada <3: Hip thrust 90 → 100 kg, since Mon 13 April; gone 20 kg, since Sun 19 April.\n"
        "\n"
        "Lifts to look at\n"
        "Ada <3: Back squat down 8 % over 3 sessions, since Mon 13 April; "
        "Bench press no gain in 6 sessions since Mon 2 March.\n"
        "\n"
        "Referrals to look at again\n"
        "Ada <3: knee, physio, Sun 19 April.\n"
        "\n"
        "Your reminders\n"
        "Sun 19 April: book the hall\n"
        "Sun 19 April, Ben: ask about <sleep>"
    )


def test_of_what_does_not_wait_nothing_stands() -> None:
    told = said(Waits(name="Ada", videos=VideosWaiting(count=1, days=2)))

    assert "Raises" not in told
    assert "Referrals" not in told
    assert "reminders" not in told


def test_a_client_is_not_cut_in_two() -> None:
    lifts = tuple(LiftCourse(exercise="back-squat", since=FIRST, times=6) for _ in range(12))
    texts = digest_texts(
        Digest(
            first=FIRST,
            last=LAST,
            words=(),
            more=0,
            well=(),
            kept=(),
            coming=(),
            ending=(),
            waits=tuple(Waits(name=f"Client {number}", lifts=lifts) for number in range(20)),
        )
    )

    assert len(texts) > 1
    assert all(text.count("Back squat") % 12 == 0 for text in texts)
