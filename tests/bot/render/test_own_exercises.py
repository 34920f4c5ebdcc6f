from setting_out import plain_text

from bot.render import own_exercises as words
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Basis, Exercise, Implement, Pattern, Region, Site
from core.programme.muscles import Muscle
from core.programme.own_exercises import OwnExercisesFile
from core.programme.problems import Code, Place, problem

SQUAT = Exercise(
    key="own-quay-squat",
    name="Quay & squat",
    pattern=Pattern.SQUAT,
    region=Region.LOWER,
    basis=Basis.PER_HAND,
    implement=Implement.DUMBBELL,
    each_side=True,
    loads_sites=frozenset({Site.KNEE, Site.ABDOMEN}),
    needs_safeties=True,
    direct=frozenset({Muscle.QUADS}),
)
PLANK = Exercise(
    key="own-wharf-plank",
    name="Wharf plank",
    pattern=Pattern.TRUNK,
    region=Region.TRUNK,
    basis=Basis.BODYWEIGHT,
    implement=Implement.BODYWEIGHT,
    timed=True,
    loads_sites=frozenset({Site.LOW_BACK}),
)


def test_what_she_has_added_is_listed() -> None:
    (page,) = words.added([SQUAT, PLANK])

    assert page.silent
    assert page.html == (
        "<b>Your own exercises</b>\n\n"
        "<b>Quay &amp; squat</b>: squat, dumbbell, per hand, a side at a time\n"
        "<b>Wharf plank</b>: trunk, bodyweight, by time\n\n"
        "To add or change some, fill in the form and send it back to me.\n"
        "<code>/exercises remove Quay &amp; squat</code> takes one out."
    )


def test_nothing_added_yet_says_how() -> None:
    (page,) = words.added([])

    assert page.html == (
        "You have added no exercises yet. To add or change some, fill in the form and send it back to me."
    )


def test_many_go_on_as_many_messages_as_it_takes() -> None:
    pages = words.added([PLANK.model_copy(update={"name": f"Wharf plank {number}"}) for number in range(200)])

    assert len(pages) > 1
    assert all(len(page.html) < 4096 for page in pages)
    assert sum(page.html.count("Wharf plank") for page in pages) == 201


def test_what_was_kept_is_read_back_with_what_was_filled_in() -> None:
    hidden = problem(Code.ROWS_HIDDEN, Place(sheet="My exercises"), rows="4")
    found = OwnExercisesFile(exercises=(SQUAT, PLANK), changed=(PLANK.key,), warnings=(hidden,))

    (page,) = words.kept(found)

    assert page.html == (
        "Kept: 2 exercises of yours.\n\n"
        "<b>New</b>\n"
        "<b>Quay &amp; squat</b>: squat, dumbbell, per hand, a side at a time\n"
        "Pain at any of these bears on it: belly, knee. Alone it needs safety arms.\n\n"
        "<b>Changed from now on</b>\n"
        "<b>Wharf plank</b>: trunk, bodyweight, by time\n"
        "Pain at any of these bears on it: low back.\n\n"
        "No muscles named, so its sets count for none: Wharf plank.\n"
        "• My exercises: Hidden rows were read like the others: 4.\n"
        "Use the names in a block. /exercises shows them all."
    )


def test_one_alone_is_one() -> None:
    (page,) = words.kept(OwnExercisesFile(exercises=(SQUAT,)))

    assert page.html.startswith("Kept: 1 exercise of yours.\n\n<b>New</b>")


def test_a_name_that_is_not_hers_is_told() -> None:
    assert plain_text(words.unknown("  ", [])) == (
        "Which one? Write its name with it: /exercises remove Wedge squat"
    )
    assert words.unknown("<quay>", [SQUAT, PLANK]).html == (
        "You have no exercise “&lt;quay&gt;”. Did you mean Quay &amp; squat or Wharf plank? Nothing was changed."
    )
    assert (
        words.is_ours(CATALOGUE["back-squat"]).html
        == "Back squat is one of mine and stays. Nothing was changed."
    )


def test_who_trains_with_it_is_told() -> None:
    assert words.in_use(SQUAT, [("Ada", "Quay <1>"), ("Ben", "")]).html == (
        "Quay &amp; squat stays, since it is in use: Ada (Quay &lt;1&gt;), Ben (today's session). "
        "Take it out of the block first. Nothing was changed."
    )


def test_what_is_out_is_told() -> None:
    assert words.removed(SQUAT).html == (
        "Quay &amp; squat is out: no block can name it any more. What was trained stays in the log. "
        "Send it in again to have it back."
    )


def test_the_form_has_a_word_with_it() -> None:
    assert words.form() == (
        "One row for each exercise. What you leave empty I take from the pattern, on the careful side. "
        "A sheet in it says how."
    )
