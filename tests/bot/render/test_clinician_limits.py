"""A limit read back in full: what, how much in all, by whom, from when until when."""

from datetime import date
from typing import Any

import pytest

from bot.render.clinician_limits import limit_line, short_line, what_words
from core.loads.limits import Clinician, Limit, LimitKind
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Pattern, Site
from core.programme.restrictions import Restriction
from core.units import Mass

SINCE = date(2026, 4, 6)


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"restriction": Restriction.OVERHEAD}, "No arms overhead"),
        ({}, "No training at all"),
        ({"exercise": "back-squat"}, "No back squat"),
        ({"pattern": Pattern.SQUAT}, "No squat of any kind"),
        ({"site": Site.KNEE}, "Nothing that loads the knee, left or right"),
        ({"mass": Mass.of(20)}, "Everything: at most 20 kg in all, both hands and sides together"),
        ({"mass": Mass.of(60), "exercise": "back-squat"}, "Back squat: at most 60 kg in all"),
        ({"mass": Mass.of(16), "exercise": "curl"}, "Curl: at most 16 kg in all, 8 kg a hand"),
        (
            {"mass": Mass.of(40), "pattern": Pattern.HINGE},
            "Every hinge: at most 40 kg in all, both hands and sides together",
        ),
        (
            {"mass": Mass.of(40), "site": Site.KNEE},
            "All that loads the knee, left or right: at most 40 kg in all, both hands and sides together",
        ),
        (
            {"mass": Mass.of(40), "exercise": "gone"},
            "gone: at most 40 kg in all, both hands and sides together",
        ),
    ],
)
def test_what_is_limited(fields: dict[str, Any], words: str) -> None:
    kind = (
        LimitKind.RESTRICTION
        if "restriction" in fields
        else LimitKind.MOST_LOAD
        if "mass" in fields
        else LimitKind.FORBIDDEN
    )
    limit = Limit.model_validate({"row_id": 1, "kind": kind, "since": SINCE, **fields})
    assert what_words(limit, CATALOGUE) == words


def test_a_limit_in_full() -> None:
    limit = Limit(
        row_id=1,
        kind=LimitKind.FORBIDDEN,
        by=Clinician.PHYSIOTHERAPIST,
        pattern=Pattern.JUMP,
        since=SINCE,
        until=date(2026, 6, 1),
        review_on=date(2026, 5, 10),
    )
    assert limit_line(limit, CATALOGUE) == (
        "No jump of any kind. By a physiotherapist, from Mon 6 April 2026, until Mon 1 June 2026 (that day too), "
        "to be reviewed Sun 10 May 2026."
    )


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({}, "By a physiotherapist: no arms overhead."),
        ({"until": date(2026, 5, 1)}, "By a physiotherapist: no arms overhead, until Fri 1 May."),
        ({"since": date(2026, 4, 8)}, "By a physiotherapist: no arms overhead, from Wed 8 April."),
        ({"review_on": date(2026, 5, 10)}, "By a physiotherapist: no arms overhead, review Sun 10 May."),
        (
            {"review_on": date(2026, 4, 7)},
            "By a physiotherapist: no arms overhead, review is due since Tue 7 April.",
        ),
    ],
)
def test_a_limit_in_a_line_of_the_card(fields: dict[str, Any], words: str) -> None:
    limit = Limit(
        **{
            "row_id": 1,
            "kind": LimitKind.RESTRICTION,
            "restriction": Restriction.OVERHEAD,
            "by": Clinician.PHYSIOTHERAPIST,
            "since": SINCE,
            **fields,
        }
    )
    assert short_line(limit, CATALOGUE, date(2026, 4, 7)) == words
