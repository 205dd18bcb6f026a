"""The lesson below the drawing as a page: nobody shut out, less motion where that is wished, a build told."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from hands import Keys, opened_table
from outputs.html_pages import CHROMIUM
from playwright.sync_api import Browser, Page, expect
from test_lesson_beside import LESSON, TURN
from test_sitting import CORNER

pytestmark = [
    pytest.mark.full,
    pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed"),
]

SMALL = """
[...document.querySelectorAll(":is(#lesson, dialog[open]) :is(button, select, textarea, input)")]
  .map((each) => [each.outerHTML.slice(0, 90), each.getBoundingClientRect()])
  .filter(([, box]) => box.width && (box.width < 24 || box.height < 24)).map(([text]) => text)
"""
IN_SIGHT = """
(() => {
  const { top } = document.activeElement.getBoundingClientRect(), foot = document.querySelector("footer");
  return Boolean(document.querySelector("dialog[open]")) || top < foot.getBoundingClientRect().top;
})()
"""
SIZES = [(360, 640), (390, 844), (1280, 720), (1366, 768)]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "corner-block.yaml"
    made.write_text(CORNER, encoding="utf-8")
    return made


@pytest.fixture
def lesson(path: Path) -> Path:
    made = path.with_name("spring.yaml")
    made.write_text(LESSON.replace("  - show: border-block.yaml\n    as: your-turn\n", ""), encoding="utf-8")
    return made


def by_key(key: str) -> str:
    return f'[data-key="{key}"]'


def states(page: Page) -> Iterator[str]:
    """The lesson in one state after the other, by keys alone."""
    page.locator("#steps").scroll_into_view_if_needed()
    expect(page.locator(".step").first).to_be_visible()
    yield "as it opens"
    change, words = page.locator(by_key(f"words-{TURN}")), page.locator(by_key(f"said-{TURN}"))
    change.press("Enter")
    expect(words).to_be_focused()
    yield "words being changed"
    words.fill("Turn it by 90 degrees.")
    page.locator(by_key(f"save-{TURN}")).press("Enter")
    expect(page.locator(".step", has=change)).to_contain_text("Warning")
    yield "words against the picture"
    still = page.locator(by_key(f"still-{TURN}"))
    still.press("Enter")
    expect(page.locator("#player svg g").first).to_be_attached()
    yield "a step large"
    page.keyboard.press("Escape")
    expect(still).to_be_focused()
    page.locator(by_key("output-sheets")).press("Space")
    page.locator(by_key("build-go")).press("Enter")  # the page and slides: long enough to be seen at work
    expect(page.locator(by_key("build-stop"))).to_be_focused()
    yield "being built"
    expect(page.locator("#status")).to_contain_text("The files are in", timeout=60_000)
    yield "built"


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_in_each_state_axe_finds_nothing_and_all_has_room(
    scheme: str, size: tuple[int, int], browser: Browser, lesson: Path, path: Path
) -> None:
    viewport = {"width": size[0], "height": size[1]}
    with opened_table(browser, path, color_scheme=scheme, bypass_csp=True, viewport=viewport) as page:
        for name in states(page):
            found = Axe().run(page).response["violations"]
            told = [
                f"{each['id']}: {each['nodes'][0]['target']} {each['nodes'][0]['failureSummary']}" for each in found
            ]
            assert not told, (name, told)
            assert not (small := page.evaluate(SMALL)), (name, small)
            assert page.evaluate("document.documentElement.scrollWidth") <= size[0], name
            assert page.evaluate(IN_SIGHT), name
    assert (path.parent / "render_out" / "spring" / "spring.html").is_file()


def test_who_wants_less_motion_sees_start_and_end(browser: Browser, path: Path) -> None:
    with opened_table(browser, path, reduced_motion="reduce") as page:
        page.locator("#steps").scroll_into_view_if_needed()
        page.locator(by_key(f"still-{TURN}")).press("Enter")
        play = page.locator(by_key("player-play"))
        expect(play).to_be_visible()
        expect(play).to_have_text("Show the start")
        after = page.locator("#player svg").inner_html()
        expect(page.locator("#player input")).to_be_hidden()
        play.press("Enter")
        expect(play).to_have_text("Show the end")
        assert page.locator("#player svg").inner_html() != after
        play.press("Enter")
        expect(play).to_have_text("Show the start")
        assert page.locator("#player svg").inner_html() == after
        page.locator(by_key("player-on")).press("Enter")
        expect(page.locator("#player h2")).to_contain_text("The leaves meet")


def test_a_motion_is_held_and_moved_by_its_slider(browser: Browser, path: Path) -> None:
    with opened_table(browser, path) as page:
        page.locator("#steps").scroll_into_view_if_needed()
        page.locator(by_key(f"still-{TURN}")).press("Enter")
        far, play = page.locator("#player input"), page.locator(by_key("player-play"))
        expect(play).to_have_text("Pause")
        far.fill("500")
        expect(play).to_have_text("Play")
        expect(far).to_have_value("500")
        half = page.locator("#player svg").inner_html()
        page.wait_for_timeout(300)
        assert page.locator("#player svg").inner_html() == half  # it is held
        far.press("End")
        expect(play).to_have_text("Play again")
        assert page.locator("#player svg").inner_html() != half


def test_words_that_another_window_changed_are_asked_about(browser: Browser, lesson: Path, path: Path) -> None:
    with opened_table(browser, path) as page:
        page.locator("#steps").scroll_into_view_if_needed()
        page.locator(by_key(f"words-{TURN}")).press("Enter")
        words = page.locator(by_key(f"said-{TURN}"))
        words.fill("Mine, with a half turn?")
        lesson.write_text(lesson.read_text() + f"  {TURN}: Theirs\n", encoding="utf-8")
        words.press("Control+Enter")
        expect(page.locator(".step .ask")).to_contain_text("Theirs")
        expect(words).to_have_value("Mine, with a half turn?")
        page.locator(by_key(f"mine-{TURN}")).press("Enter")
        expect(page.locator(by_key(f"words-{TURN}"))).to_be_focused()
        assert f'{TURN}: "Mine, with a half turn?"' in lesson.read_text()


def test_the_steps_follow_a_change_of_the_drawing(browser: Browser, path: Path) -> None:
    with opened_table(browser, path) as page:
        keys = Keys(page)
        page.locator("#steps").scroll_into_view_if_needed()
        turn = page.locator(".step", has=page.locator(by_key(f"still-{TURN}")))
        expect(turn).to_contain_text("Turn it anticlockwise")
        with keys.change():
            keys.fill("turned-piece-flag", "45")
        page.locator("#steps").scroll_into_view_if_needed()
        expect(turn).to_contain_text("Turn it clockwise")
