from datetime import UTC, date, datetime

from setting_out import labels, plain_text

from bot.render import cues as words
from bot.render.pain import noted
from core.checkin.pain import PainReport
from core.programme.exercises import Side, Site

BUTTONS = words.Buttons(7, 1)
ALL = words.CueView(None, "Hip thrust", None, None, "Ribs <down>")
HERS = words.CueView("Ada", "Hip thrust", Site.KNEE, "L", "Push & hold")
PLACE = words.CueView(None, None, Site.LOW_BACK, None, "Shorter range")


def test_a_cue_for_all_is_read_back() -> None:
    message = words.kept(ALL, None, BUTTONS)

    assert message.html == (
        "<b>All clients, hip thrust</b>\n"
        "Ribs &lt;down&gt;\n"
        "It stands on the card from now on, where the block has no cue of its own.\n"
        "<code>/cues remove hip thrust</code> takes it back too."
    )
    assert labels(message) == ["Undo"]


def test_a_cue_for_one_at_a_site_is_read_back_with_what_it_replaces() -> None:
    assert words.kept(HERS, "Slow & low", BUTTONS).html == (
        "<b>Ada, hip thrust, pain at the left knee</b>\n"
        "Push &amp; hold\n"
        "I say it once when 1 to 3 of 10 is reported there, never from 4 on.\n"
        "In place of: Slow &amp; low\n"
        "<code>/cues remove Ada, hip thrust, left knee</code> takes it back too."
    )


def test_a_cue_for_one_stands_in_place_of_the_blocks() -> None:
    assert "It stands on the card from now on, in place of the block's own cue." in (
        words.kept(words.CueView("Ada", "Hip thrust", None, None, "x"), None, BUTTONS).html
    )


def test_what_is_taken_back_is_said() -> None:
    assert words.taken_back(PLACE, None).html == (
        "Taken back. <b>All clients, pain at the low back</b>\nShorter range"
    )
    assert words.taken_back(PLACE, "Slow").html.endswith("\nThe one before stands again: Slow")
    assert words.overtaken(PLACE).html == (
        "<b>All clients, pain at the low back</b>\nShorter range\n\n"
        "This was settled before. /cues shows what stands."
    )
    assert words.none_about(HERS).html == (
        "There is no cue for Ada, hip thrust, left knee. Nothing was changed. /cues lists those there are."
    )


def test_a_list_numbers_them_and_has_a_button_for_each() -> None:
    message = words.listed([(4, ALL), (9, HERS)], BUTTONS, "Taken back.")

    assert message.html == (
        "Taken back.\n\n"
        "<b>Your cues</b>\n"
        "1. <b>All clients, hip thrust</b>\nRibs &lt;down&gt;\n"
        "2. <b>Ada, hip thrust, pain at the left knee</b>\nPush &amp; hold\n\n"
        "Or type it: <code>/cues remove Ada, hip thrust, left knee</code>"
    )
    assert labels(message) == ["Take back 1", "Take back 2"]


def test_an_empty_list_shows_how() -> None:
    message = words.listed([], BUTTONS, None)

    assert plain_text(message).startswith("No cue of yours stands.\n/cue hip thrust: ")
    assert message.rows == ()


def test_a_long_list_stays_one_message_and_says_how_many_more() -> None:
    long = words.CueView(None, "Hip thrust", None, None, "&" * 200)

    message = words.listed([(number, long) for number in range(60)], BUTTONS, None)

    assert len(message.html) < 4096
    assert len(labels(message)) < 60
    assert f"… and {60 - len(labels(message))} more." in message.html


def test_what_cannot_be_told_is_said_with_examples() -> None:
    assert words.unclear(words.Unclear("hip thrst", ("Hip thrust",))).html == (
        "I do not know what “hip thrst” is about: a client of yours, an exercise, a place that can hurt, in this "
        "order, with commas between them. Did you mean Hip thrust? Nothing was kept.\n" + words.EXAMPLES
    )
    assert words.unclear(words.Unclear("<plank>", is_several=True)).html == (
        "“&lt;plank&gt;” may be two things. Write the client's whole name, or the exercise's. Nothing was kept."
    )
    assert words.too_long(201, 200).html == "201 characters; up to 200 fit on a card. Nothing was kept."
    assert words.how_to().html.startswith("What it is about, then a colon, then the cue:\n")


def test_a_cue_is_said_after_the_words_about_low_pain_and_never_with_others() -> None:
    for score, training, said in (
        (2, True, True),
        (3, False, True),
        (0, True, False),
        (4, True, False),
        (8, True, False),
    ):
        report = PainReport(
            row_id=1,
            site=Site.KNEE,
            side=Side.LEFT,
            score=score,
            on=date(2026, 4, 7),
            at=datetime(2026, 4, 7, 8, tzinfo=UTC),
        )
        without = noted(report, training=training).html

        shown = noted(report, training=training, cue="Push & hold").html

        assert shown == (f"{without}\nYour coach for this: Push &amp; hold" if said else without)
