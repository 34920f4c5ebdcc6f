from core.checkin.limits_said import LIMIT_SITES, LONGEST_LINE, line_added


def test_lines_are_kept_one_after_the_other() -> None:
    assert line_added(None, "  tore my   ACL in 2019 ") == "tore my ACL in 2019"
    assert line_added("tore my ACL", "no running") == "tore my ACL; no running"


def test_what_is_longer_than_is_kept_is_not_cut_but_refused() -> None:
    assert line_added(None, "x" * LONGEST_LINE) is not None
    assert line_added(None, "x" * (LONGEST_LINE + 1)) is None
    assert line_added("x" * LONGEST_LINE, "y") is None


def test_every_place_and_the_longest_line_fit_the_column() -> None:
    assert len(", ".join(LIMIT_SITES)) + len(". ") + LONGEST_LINE <= 400
