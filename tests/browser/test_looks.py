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
GROUND = "() => getComputedStyle(document.documentElement).backgroundColor"
UNSEEN = """() => {
    const at = document.activeElement, look = getComputedStyle(at);
    const outlined = look.outlineStyle !== "none" && parseFloat(look.outlineWidth) > 0;
    return at === document.body || outlined || look.boxShadow !== "none" ? "" : at.outerHTML.slice(0, 120);
}"""


def findings(desk: Desk, *rules: str) -> list[str]:
    """What axe-core finds on the page as it is, of the grave kinds, by all of its rules or by these."""
    which = {"runOnly": list(rules)} if rules else {}
    found = Axe().run(desk.page, options={"resultTypes": ["violations"], **which}).response["violations"]
    return [
        f"{each['id']} ({each['impact']}): {node['html'][:120]}"
        for each in found
        if each["impact"] in GRAVE
        for node in each["nodes"]
    ]


def by_day_and_night(desk: Desk) -> list[str]:
    """The same in the light, and in the dark, where nothing but colours is another."""
    light = findings(desk)
    by_day = desk.page.evaluate(GROUND)
    desk.page.emulate_media(color_scheme="dark")
    assert desk.page.evaluate(GROUND) != by_day
    dark = [f"in the dark: {each}" for each in findings(desk, "color-contrast")]
    desk.page.emulate_media(color_scheme="light")
    return [*light, *dark]


@pytest.mark.parametrize("size", [WIDE, PHONE], ids=["wide", "phone"])
def test_axe_core_finds_nothing_serious(size: tuple[int, int], opens: Opens) -> None:
    desk = opens(size)
    found = {"at first": by_day_and_night(desk)}
    marit = desk.panel("Marit Halvorsen")
    found["a page open"] = by_day_and_night(desk)
    marit.opens("Commands")
    found["commands"] = by_day_and_night(desk)
    desk.page.keyboard.press("Escape")
    marit.log.get_by_role("button", name="Open large").last.click()
    expect(desk.page.get_by_role("dialog")).to_be_visible()
    found["a picture, large"] = by_day_and_night(desk)
    desk.page.keyboard.press("Escape")
    desk.leaves(marit)
    desk.happened("Decisions").get_by_text("What lies behind it").first.click()
    found["what happened"] = by_day_and_night(desk)

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

    found = [each.partition(":")[0] for each in findings(desk)]
    beyond, unseen = desk.page.evaluate(BEYOND), desk.page.evaluate(UNSEEN)
    desk.page.evaluate("() => document.getElementById('bare').remove()")

    assert found == ["button-name (critical)"]
    assert any('<button id="bare" ' in each for each in beyond)
    assert '<button id="bare" ' in unseen


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
