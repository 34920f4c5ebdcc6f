"""How the page looks and reads: in the dark, on a phone, at twice the size, to a screen reader, by keyboard alone."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from browser.desk import NARROW, PHONE, WIDE, Desk, Opens
from playwright.sync_api import Locator, expect

GRAVE = ("serious", "critical")
TABS = 150
"""Most presses of Tab from one thing to the next that one wants."""
TWICE = (WIDE[0] // 2, WIDE[1] // 2)
"""What is left of a screen at 200 %."""
BEYOND = """() => {
    const room = document.documentElement, wide = room.clientWidth;
    const found = room.scrollWidth > wide ? [`the page: ${room.scrollWidth} of ${wide}`] : [];
    for (const each of document.querySelectorAll("a, button, input, select, textarea, article, img, td, p")) {
        const {width, right} = each.getBoundingClientRect();
        if (width > 1 && right > wide + 1) found.push(`${Math.round(right)}: ${each.outerHTML.slice(0, 80)}`);
    }
    return found;
}"""
UNSEEN = """() => {
    const at = document.activeElement, look = getComputedStyle(at);
    const outlined = look.outlineStyle !== "none" && parseFloat(look.outlineWidth) > 0;
    return at === document.body || outlined || look.boxShadow !== "none" ? "" : at.outerHTML.slice(0, 120);
}"""


def findings(desk: Desk) -> list[str]:
    """What axe-core finds on the page as it is, of the grave kinds."""
    found = Axe().run(desk.page).response["violations"]
    return [
        f"{each['id']} ({each['impact']}): {node['html'][:120]}"
        for each in found
        if each["impact"] in GRAVE
        for node in each["nodes"]
    ]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [WIDE, PHONE], ids=["wide", "phone"])
def test_axe_core_finds_nothing_serious(scheme: str, size: tuple[int, int], opens: Opens) -> None:
    desk = opens(size, scheme=scheme)
    found = {"at first": findings(desk)}
    marit = desk.panel("Marit Halvorsen")
    found["a page open"] = findings(desk)
    for label in ("Attach", "Commands"):
        marit.opens(label)
        found[label] = findings(desk)
        desk.page.keyboard.press("Escape")
    marit.log.get_by_role("button", name="Open large").last.click()
    expect(desk.page.get_by_role("dialog")).to_be_visible()
    found["a picture, large"] = findings(desk)
    desk.page.keyboard.press("Escape")
    desk.leaves(marit)
    for subject in ("Queue", "Due", "Decisions"):
        desk.happened(subject)
        found[subject] = findings(desk)

    assert {where: what for where, what in found.items() if what} == {}


@pytest.mark.parametrize(
    ("size", "scale"), [(NARROW, 1), (TWICE, 2)], ids=["a small phone", "twice the size"]
)
def test_nothing_lies_beyond_the_edge(size: tuple[int, int], scale: int, opens: Opens) -> None:
    desk = opens(size, scale=scale)
    found = {"at first": desk.page.evaluate(BEYOND)}
    for name in ("Maya", "Marit Halvorsen"):
        panel = desk.panel(name)
        found[name] = desk.page.evaluate(BEYOND)
        panel.opens("Commands")
        found[f"{name}: commands"] = desk.page.evaluate(BEYOND)
        desk.page.keyboard.press("Escape")
        desk.leaves(panel)
    for subject in ("Queue", "Due", "Decisions"):
        desk.happened(subject)
        found[subject] = desk.page.evaluate(BEYOND)

    assert {where: what for where, what in found.items() if what} == {}


def test_what_is_wrong_would_be_found(desk: Desk) -> None:
    desk.page.evaluate(
        """() => {
            const bare = Object.assign(document.createElement("button"), {id: "bare"});
            bare.style.cssText = "position: absolute; left: 90vw; width: 50vw; height: 9px; outline: none";
            document.body.prepend(bare);
            bare.focus();
        }"""
    )

    assert [each.partition(":")[0] for each in findings(desk)] == ["button-name (critical)"]
    assert [each.partition(": ")[2][:18] for each in desk.page.evaluate(BEYOND)][-1] == '<button id="bare" '
    assert desk.page.evaluate(UNSEEN).startswith('<button id="bare" ')


def test_a_session_is_logged_by_keyboard_alone(desk: Desk) -> None:
    """Tab and Enter; where one is can always be seen."""
    unseen: list[str] = []
    press(desk, desk.toggle("Maya"), unseen)
    panel = desk.panel("Maya")
    for label in ("All done as written", "Nothing hurts", "2"):
        press(desk, panel.log.get_by_role("button", name=label, exact=True).last, unseen)
    panel.shows("· Mon 20 April", "All done. Logged.")
    reach(desk, panel.box, unseen)
    desk.page.keyboard.type("/progress")
    desk.page.keyboard.press("Enter")

    panel.shows("Back squat")
    assert sorted(set(unseen)) == []


def press(desk: Desk, wanted: Locator, unseen: list[str]) -> None:
    reach(desk, wanted, unseen)
    desk.page.keyboard.press("Enter")


def reach(desk: Desk, wanted: Locator, unseen: list[str]) -> None:
    """Press Tab until it has the focus."""
    wanted.wait_for()
    for _ in range(TABS):
        if wanted.evaluate("each => each === document.activeElement"):
            return
        desk.page.keyboard.press("Tab")
        unseen.extend(filter(None, [desk.page.evaluate(UNSEEN)]))
    raise AssertionError(f"{wanted} is not reached by {TABS} presses of Tab")
