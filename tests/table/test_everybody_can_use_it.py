"""The page for everybody: no rule of axe broken in any state, the focus never covered, nothing by dragging alone."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from asking import drawn_on
from hands import Keys, Mouse, opened_table
from outputs.html_pages import CHROMIUM
from playwright.sync_api import Browser, Page, expect
from test_mends import WITHOUT_OPTIONS, planted
from test_sitting import CORNER
from test_table_page import SMALL, axe_finds

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")

SIZES = [(360, 640), (390, 844), (1024, 768), (1280, 720), (1366, 768), (1920, 1080)]
UNLIKE = planted(WITHOUT_OPTIONS, "meets: [[4, 0], [4, 2]]", "meets: [[0, 0], [4, 0]]")
ONE_PIECE = UNLIKE.split("    side:")[0]

COVERED = """
() => {
  const focus = document.activeElement;
  if (!focus || focus === document.body) return null;
  const box = (focus.querySelector(".press") ?? focus).getBoundingClientRect(); // of a grip what is seen and pressed
  const seen = { left: Math.max(0, box.left), right: Math.min(innerWidth, box.right),
    top: Math.max(0, box.top), bottom: Math.min(innerHeight, box.bottom) };
  if (seen.right <= seen.left || seen.bottom <= seen.top) return `out of sight: ${focus.dataset.key ?? focus.outerHTML.slice(0, 80)}`;
  const places = [[.5, .5], [.1, .5], [.9, .5], [.5, .1], [.5, .9]].map(([x, y]) =>
    [seen.left + (seen.right - seen.left) * x, seen.top + (seen.bottom - seen.top) * y]);
  const isMine = (hit) => hit && (focus.contains(hit) || hit.contains(focus) || hit.closest("label")?.contains(focus)
    || (focus.closest("#paper") && hit.closest("#paper")));
  return places.some(([x, y]) => isMine(document.elementFromPoint(x, y))) ? "" : `covered: ${focus.dataset.key ?? focus.outerHTML.slice(0, 80)}`;
}
"""  # noqa: E501 - a script


def state_empty(page: Page, path: Path) -> None:
    expect(page.locator(".todo li")).to_have_count(3)


def state_drawing(page: Page, path: Path) -> None:
    mouse = Mouse(page)
    for corner in [(0, 0), (3, 0), (3, 2)]:
        mouse.click(corner)


def state_one_piece(page: Page, path: Path) -> None:
    expect(page.locator("#hand .next")).to_be_visible()


def state_sound(page: Page, path: Path) -> None:
    Mouse(page).until_later()


def state_fault(page: Page, path: Path) -> None:
    Mouse(page).until_later()
    page.locator("#marks .mark-button").first.click()
    expect(page.locator("#marks .said .mend").first).to_be_visible()


STATES: dict[str, tuple[str | None, Callable[[Page, Path], None]]] = {
    "empty": (None, state_empty),
    "drawing": (None, state_drawing),
    "one piece": (ONE_PIECE, state_one_piece),
    "sound": (CORNER, state_sound),
    "fault": (UNLIKE, state_fault),
    "warning": (planted(CORNER, "sign: leaf", "mark: A"), state_fault),
}


def begun(name: str, tmp_path: Path) -> tuple[Path, Callable[[Page, Path], None]]:
    text, go = STATES[name]
    path = tmp_path / "corner-block.yaml"
    if text is not None:
        path.write_text(text, encoding="utf-8")
    return path, go


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [(390, 844), (1280, 720)])
@pytest.mark.parametrize("name", STATES)
@pytest.mark.full
def test_axe_finds_nothing_in_any_state(
    name: str, size: tuple[int, int], scheme: str, browser: Browser, tmp_path: Path
) -> None:
    path, go = begun(name, tmp_path)
    viewport = {"width": size[0], "height": size[1]}
    with opened_table(browser, path, color_scheme=scheme, bypass_csp=True, viewport=viewport) as page:
        go(page, path)
        assert not axe_finds(page)
        assert not page.evaluate(SMALL)


@pytest.mark.parametrize("why", ["clash", "gone", "unreadable"])
@pytest.mark.parametrize("size", [(390, 844), (1280, 720)])
@pytest.mark.full
def test_axe_finds_nothing_where_the_file_is_asked_about(
    size: tuple[int, int], why: str, browser: Browser, tmp_path: Path
) -> None:
    path, _ = begun("sound", tmp_path)
    with drawn_on(path) as server:
        page = browser.new_page(viewport={"width": size[0], "height": size[1]}, bypass_csp=True)
        page.goto(server.address)
        page.wait_for_selector("#paper[data-revision]")
        if why == "clash":
            server.desk.edit({"revision": 1, "text": CORNER.replace("turned: 135", "turned: 30 degrees")})
            path.write_text(CORNER.replace("turned: 135", "turned: 45"), encoding="utf-8")
        elif why == "gone":
            path.unlink()
        else:
            path.write_text("item: [broken", encoding="utf-8")
        server.desk.look_at_file()
        expect(page.locator(".banner")).to_be_visible()
        assert not axe_finds(page)
        assert not page.evaluate(SMALL)
        assert not tabbed_through(Keys(page))
        page.close()


def tabbed_through(keys: Keys, most: int = 160) -> list[str]:
    """What the focus was not seen on, on the way through the whole page and back to its beginning."""
    found, begun_at = [], ""
    for _ in range(most):
        keys.keys("Tab")
        told = keys.page.evaluate(COVERED)
        if told is None:  # past the end
            if begun_at:
                return found
            continue
        begun_at = begun_at or "somewhere"
        if told:
            found.append(told)
    return found


@pytest.mark.parametrize(
    "name", ["sound", *(pytest.param(each, marks=pytest.mark.full) for each in STATES if each != "sound")]
)
@pytest.mark.parametrize("size", [pytest.param((1280, 720), marks=pytest.mark.full), (390, 844)])
def test_the_focus_is_never_covered(name: str, size: tuple[int, int], browser: Browser, tmp_path: Path) -> None:
    path, go = begun(name, tmp_path)
    with opened_table(browser, path, viewport={"width": size[0], "height": size[1]}) as page:
        go(page, path)
        assert not tabbed_through(Keys(page))


@pytest.mark.full
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", STATES)
def test_nothing_is_beside_the_screen(name: str, size: tuple[int, int], browser: Browser, tmp_path: Path) -> None:
    path, go = begun(name, tmp_path)
    with opened_table(browser, path, viewport={"width": size[0], "height": size[1]}) as page:
        go(page, path)
        assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
        header = page.locator("header").bounding_box()
        assert header is not None and header["height"] <= 120, "the tools take more than two rows"
        paper = page.locator("#paper-room").bounding_box()
        assert paper is not None and paper["height"] >= 240
        if size[0] >= 1024:  # the paper and the verdict are seen together
            expect(page.locator("#verdict .state")).to_be_in_viewport(ratio=1)
            assert paper["y"] + paper["height"] <= size[1]


@pytest.mark.full
@pytest.mark.parametrize("size", [(390, 844), (1280, 720)])
def test_text_twice_as_large_is_all_there(size: tuple[int, int], browser: Browser, tmp_path: Path) -> None:
    path, go = begun("warning", tmp_path)
    with opened_table(browser, path, viewport={"width": size[0], "height": size[1]}) as page:
        page.evaluate("document.documentElement.style.fontSize = '32px'")
        go(page, path)
        assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
        cut = page.evaluate("""[...document.querySelectorAll("button, summary, h1, h2, p, li")].filter((each) =>
            each.scrollWidth > each.clientWidth + 1 && getComputedStyle(each).overflowX === "hidden").length""")
        assert not cut
        assert not tabbed_through(Keys(page))


@pytest.mark.full
def test_with_forced_colours_what_is_chosen_and_marked_is_seen(browser: Browser, tmp_path: Path) -> None:
    path, go = begun("warning", tmp_path)
    with opened_table(browser, path, forced_colors="active") as page:
        go(page, path)
        chosen = page.locator('[data-key="tool-select"]')
        other = page.locator('[data-key="tool-draw"]')
        look = "(each) => getComputedStyle(each).borderTopWidth + getComputedStyle(each).borderTopStyle"
        assert chosen.evaluate(look) != other.evaluate(look)  # by more than a colour that is forced away
        mark = page.locator("#marks .mark-button").first
        assert mark.evaluate("(each) => getComputedStyle(each).borderTopStyle") != "none"


@pytest.mark.full
def test_nothing_moves_where_that_is_asked_for(browser: Browser, tmp_path: Path) -> None:
    path, _ = begun("sound", tmp_path)
    with opened_table(browser, path, reduced_motion="reduce") as page:
        mouse = Mouse(page)
        mouse.press("piece-piece-flag")
        mouse.press("show-going")
        expect(page.locator(".going").first).to_be_attached()
        assert page.locator(".going").first.evaluate("(each) => getComputedStyle(each).transitionDuration") in (
            "0s",
            "",
        )


DRAGS = {
    "a corner": ["corner-x", "corner-y", "corner-length"],
    "a part of a side that is met": ["met-from", "met-long"],
    "the order of pieces": ["up-piece-flag", "down-piece-flag"],
    "the turn of a piece on the sheet": ["turned-piece-flag", "sheet-left-piece-flag", "sheet-right-piece-flag"],
    "the order of options": ["option-up-", "option-down-"],
    "the paper": ["pan-left", "pan-right", "pan-up", "pan-down", "zoom-in", "zoom-out", "fit"],
}
"""What can be dragged on the page, with what does the same by a press or a number."""


@pytest.mark.full
@pytest.mark.parametrize("drag", DRAGS)
def test_whatever_is_dragged_can_be_done_without(drag: str, browser: Browser, tmp_path: Path) -> None:
    path, go = begun("sound", tmp_path)
    with opened_table(browser, path) as page:
        go(page, path)
        mouse = Mouse(page)
        mouse.press("piece-piece-flag")
        if drag == "a corner":
            mouse.click((0, 2), "piece-flag")
        page.locator("details").evaluate_all("(all) => all.forEach((each) => { each.open = true; })")
        for key in DRAGS[drag]:
            there = page.locator(f'[data-key^="{key}"]').first
            expect(there).to_be_attached()
            assert there.evaluate("(each) => each.tabIndex >= 0 && ['BUTTON', 'INPUT'].includes(each.tagName)"), key
        revision = mouse.revision()
        if drag == "the paper":
            before = mouse.paper.get_attribute("data-left")
            page.locator('[data-key="pan-left"]').click()
            expect(mouse.paper).not_to_have_attribute("data-left", before or "")
        elif drag == "a corner":
            page.locator('[data-key="corner-y"]').fill("3")
            page.keyboard.press("Enter")
            mouse._until(lambda: mouse.revision() > revision, "the corner has not moved")
        elif drag == "a part of a side that is met":
            page.locator('[data-key="met-long"]').fill("1")
            page.keyboard.press("Enter")
            mouse._until(lambda: mouse.revision() > revision, "another part is not met")
        elif drag == "the turn of a piece on the sheet":
            page.locator('[data-key="sheet-left-piece-flag"]').click()
            mouse._until(lambda: "turned: 150" in path.read_text(), "the piece is not turned")
        elif drag == "the order of options":
            page.locator('[data-key^="option-down-"]').first.click()
            mouse._until(lambda: mouse.revision() > revision, "the order is as before")
