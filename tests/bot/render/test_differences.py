from bot.render.differences import difference_lines, some_lines, weeks_words
from core.programme.differences import CellChange, Difference, Kind, RowChange


def cell(column: str, before: str, after: str) -> CellChange:
    return CellChange(column=column, before=before, after=after)


def row(kind: Kind, *cells: CellChange, weeks: frozenset[int] = frozenset({2})) -> RowChange:
    return RowChange(day="Push & pull", weeks=weeks, kind=kind, order="B1", exercise="curl", cells=cells)


def test_every_kind_of_difference_is_one_short_line() -> None:
    asked = (
        cell("Order", "", "B1"),
        cell("Exercise", "", "Curl"),
        cell("Sets", "", "3"),
        cell("Reps", "", "8-10"),
    )
    found = Difference(
        plan=(cell("Weeks", "4", "6"), cell("Phases", "", "Base: 1-2"), cell("Deload weeks", "4", "")),
        added=("Core",),
        gone=("<Pull>",),
        renamed=(("Lower", "Legs & hips"),),
        order=("Core", "Push"),
        rows=(
            row(Kind.CHANGED, cell("Load", "10 kg", "12 kg"), cell("Cue", "Slow <down>", "")),
            row(Kind.CHANGED, cell("Order", "B1", "C"), cell("Exercise", "Curl", "Hammer curl")),
            row(Kind.ADDED, *asked, cell("Load", "", "12 kg"), weeks=frozenset({1, 2, 3, 5})),
            row(Kind.ADDED, *asked[:2], cell("Sets", "", "1 + 2 descending"), cell("Reps", "", "8")),
            row(Kind.ADDED, *asked[:2], cell("Sets", "", "4 cluster: 2+2")),
            row(Kind.REMOVED, cell("Sets", "3", "")),
        ),
    )

    assert difference_lines(found) == [
        "Weeks: 6 (was 4)",
        "Phases: Base: 1-2 (was none)",
        "Deload weeks: none (was 4)",
        "New day: Core",
        "Day gone: &lt;Pull&gt;",
        "Another name: Lower is now Legs &amp; hips",
        "Order of the days: Core, Push",
        "Push &amp; pull, week 2: B1 Curl: load 12 kg (was 10 kg); cue none (was Slow &lt;down&gt;)",
        "Push &amp; pull, week 2: B1 Curl: now C; now Hammer curl",
        "Push &amp; pull, weeks 1–3, 5: new B1 Curl, 3 × 8-10, 12 kg",
        "Push &amp; pull, week 2: new B1 Curl, 1 + 2 descending, 8",
        "Push &amp; pull, week 2: new B1 Curl, 4 cluster: 2+2",
        "Push &amp; pull, week 2: B1 Curl is gone",
    ]


def test_lines_are_cut_with_how_many_are_left() -> None:
    assert some_lines(["a", "b", "c"], 2) == ["a", "b", "… and 1 more."]
    assert some_lines(["a", "b"], 2) == ["a", "b"]
    assert weeks_words([5, 3]) == "weeks 3, 5"
