"""A coach's orders in words."""

from datetime import date

import pytest
from reading import grade
from rows import each_row

from bot.render import orders_said as say
from bot.render.ordering import order_line
from bot.render.setting_up import Buttons
from core.checkin.order_words import Ordered, OrderSaid
from core.loads.order import CoachOrder, OrderKind
from core.programme.catalogue import CATALOGUE
from core.programme.restrictions import Restriction
from core.units import Mass

FIRST, LAST = date(2026, 4, 13), date(2026, 4, 19)
HIP = {"exercise": "hip-thrust"}


@each_row(
    ("said", "expected"),
    [
        (
            OrderSaid(what=Ordered.LOAD, **HIP, mass=Mass.of(90), first=FIRST),
            "hip thrust 90 kg from Mon 13 April, until you change it",
        ),
        (
            OrderSaid(what=Ordered.LOAD, **HIP, mass=Mass.of(90), last=LAST),
            "hip thrust 90 kg until Sun 19 April",
        ),
        (
            OrderSaid(what=Ordered.LOAD, **HIP, mass=Mass.of(90), once=True),
            "hip thrust 90 kg, next session only",
        ),
        (
            OrderSaid(what=Ordered.LOAD, exercise="push-up", mass=Mass.of(5)),
            "push-up bw+5 kg, until you change it",
        ),
        (OrderSaid(what=Ordered.PAUSE, **HIP), "hip thrust paused, until you let it go on"),
        (OrderSaid(what=Ordered.PAUSE, **HIP, last=LAST), "hip thrust paused until Sun 19 April"),
        (OrderSaid(what=Ordered.TAKE_UP, **HIP), "hip thrust goes on from the next card"),
        (OrderSaid(what=Ordered.HOLD), "no raises, until you take it back"),
        (OrderSaid(what=Ordered.HOLD, **HIP, last=LAST), "no raises of hip thrust until Sun 19 April"),
        (
            OrderSaid(what=Ordered.LIGHTER, first=FIRST, last=LAST),
            "lighter from Mon 13 April until Sun 19 April. Loads at 95 %, about half the sets, 2 more left in each",
        ),
        (
            OrderSaid(what=Ordered.RESTRICT, restrictions=(Restriction.OVERHEAD,)),
            "no arms overhead, until you take it back",
        ),
        (
            OrderSaid(what=Ordered.SWAP, **HIP, instead="glute-bridge"),
            "glute bridge in place of hip thrust, from the next card on, in this block",
        ),
        (
            OrderSaid(what=Ordered.REST, first=FIRST),
            "no session on Mon 13 April; it does not count as missed",
        ),
        (
            OrderSaid(what=Ordered.REST, first=FIRST, last=LAST),
            "no session from Mon 13 April until Sun 19 April; it does not count as missed",
        ),
        (OrderSaid(what=Ordered.REST), "no session; it does not count as missed"),
    ],
)
def test_an_order_is_one_sentence(said: OrderSaid, expected: str) -> None:
    assert say.sentence(said, CATALOGUE) == expected


@pytest.mark.parametrize(
    ("order", "expected"),
    [
        (CoachOrder(row_id=1, kind=OrderKind.LOAD, **HIP, mass=Mass.of(90)), "Your load: Hip thrust 90 kg."),
        (
            CoachOrder(row_id=1, kind=OrderKind.LOAD, **HIP, mass=Mass.of(90), from_on=FIRST, until=LAST),
            "Your load from Mon 13 April until Sun 19 April: Hip thrust 90 kg.",
        ),
        (CoachOrder(row_id=1, kind=OrderKind.HOLD), "No raises: everything."),
        (
            CoachOrder(row_id=1, kind=OrderKind.AGREED, **HIP, mass=Mass.of(95)),
            "Raise agreed up to 95 kg: Hip thrust.",
        ),
        (
            CoachOrder(row_id=1, kind=OrderKind.PAUSE, **HIP, until=LAST),
            "Paused until Sun 19 April: Hip thrust.",
        ),
        (
            CoachOrder(row_id=1, kind=OrderKind.EASE, percent=10, from_on=FIRST, until=LAST),
            "Eased from Mon 13 April until Sun 19 April: 10 % less and one set fewer, for everything.",
        ),
        (
            CoachOrder(row_id=1, kind=OrderKind.EASE, deload=True, from_on=FIRST, until=LAST),
            "Lighter from Mon 13 April until Sun 19 April. Loads at 95 %, about half the sets, 2 more left in each.",
        ),
        (
            CoachOrder(row_id=1, kind=OrderKind.FULL, from_on=FIRST, until=LAST),
            "No lighter week from Mon 13 April until Sun 19 April. All sets, with the load of now and no more.",
        ),
    ],
)
def test_an_order_stands_in_a_line_on_the_card_of_a_client(order: CoachOrder, expected: str) -> None:
    assert order_line(order) == expected


def test_names_that_people_typed_are_escaped() -> None:
    assert "&lt;Ada&gt;" in say.cannot("<Ada>", say.NO_DAY).html
    assert "&lt;Ada&gt;" in say.unread("<Ada>").html


def test_an_order_that_pain_holds_is_told_with_what_it_takes() -> None:
    told = say.held_by_pain("Ada", "Your load: Hip thrust 95 kg", "90 kg", "Held: knee.")

    assert told.html == (
        "<b>Ada</b>: your order (Your load: Hip thrust 95 kg) is held at 90 kg.\n"
        "Held: knee.\n"
        "A raise over pain of 1 to 3 needs a new order now, after the report; at 4 and over there is none."
    )


def test_an_order_past_a_report_says_so_and_one_under_it_too() -> None:
    assert say.over_pain("left knee", 2, FIRST) == (
        "Pain: left knee 2 on Mon 13 April. You order it after that, so it goes past it; a new report stops it."
    )
    assert say.under_pain("left knee", None, FIRST) == (
        "Pain: left knee no number on Mon 13 April. "
        "No order raises over that: it stays lower until it has calmed."
    )


@pytest.mark.parametrize("what", [Ordered.LIGHTER, Ordered.FULL])
def test_the_read_back_of_a_lighter_or_a_full_week_is_easy_to_read(what: Ordered) -> None:
    told = say.sentence(OrderSaid(what=what, first=FIRST, last=LAST), CATALOGUE)
    buttons = Buttons(1, 0)

    read_back = say.read_back("Ada", told, [say.lighter_already(5)], buttons, reply=False)
    said = (read_back, say.holds("Ada", told, buttons), say.undone("Ada", told))
    assert max(grade(each.html) for each in said) < 8
