"""The page of the drawing table beside the drawing itself: few clicks, nobody shut out, nothing lost, no markup."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from asking import drawn_on
from axe_playwright_python.sync_playwright import Axe
from demo_items import each_demo_item
from hands import Fingers, Keys, Mouse, opened_table
from outputs.html_pages import CHROMIUM, ITEMS
from playwright.sync_api import Browser, Page, expect
from test_sitting import CORNER

from explainers.intake.workspace import load_solution

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")


SMALL = """
[...document.querySelectorAll(
  "button, summary, input, select, .hit.corner, .hit.size, .dial-hit, .grip, .turn-grip .press"
)].filter((each) => {
  const box = each.getBoundingClientRect();
  return box.width && (box.width < 24 || box.height < 24);
}).map((each) => each.outerHTML.slice(0, 120))
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "corner-block.yaml"
    made.write_text(CORNER, encoding="utf-8")
    return made


def test_two_pieces_and_five_options_take_at_most_forty_clicks(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "few-clicks.yaml"
    with opened_table(browser, path) as page:
        mouse = Mouse(page)
        with mouse.change():
            for corner in [(0, 0), (6, 0), (6, 3), (0, 3), (0, 0)]:
                mouse.click(corner)
        mouse.press("tool-draw")
        with mouse.change():
            for corner in [(8, 0), (10, 0), (8, 3), (8, 0)]:
                mouse.click(corner)
        mouse.press("tool-marry")
        mouse.click((1, 0), "piece-flag")
        with mouse.change():
            mouse.drag((1, 3), (3, 3), "base")  # a part of the side
        mouse.press("tool-draw")
        with mouse.change():
            for corner in [(8, -5), (10, -5), (9, -4), (8, -5)]:
                mouse.click(corner)
        mouse.press("tool-marry")
        mouse.click((1, 0), "piece-tab")
        with mouse.change():
            mouse.click((3, 0), "base")  # as long as the piece's side
        with mouse.change():
            mouse.press("make-options")
        assert mouse.typed == 0 and mouse.count <= 40, mouse.count
        assert page.locator("#verdict").get_by_text("✓ Sound").is_visible(), page.locator("#verdict").text_content()
    solution = load_solution(path)
    assert solution.sound and len(solution.verdicts) == 5 and solution.features().figures()["part_side_marks"] == 2


def test_a_dragged_corner_is_tried_and_then_kept_and_remarks_stay(browser: Browser, path: Path) -> None:
    with opened_table(browser, path) as page:
        mouse = Mouse(page)
        before = page.locator(".frame-of.result .shape").get_attribute("d")
        mouse.press("piece-piece-flag")
        start, end = mouse.client((0, 2), "piece-flag"), mouse.client((0, 3), "piece-flag")
        page.mouse.move(*start)
        page.mouse.down()
        page.mouse.move(*end, steps=5)
        expect(page.locator(".frame-of.result .shape")).not_to_have_attribute("d", before or "")
        assert path.read_text() == CORNER  # nothing is done yet
        with mouse.change():
            page.mouse.up()
        assert path.read_text() == CORNER.replace("[0, 2]]\n    turned", "[0, 3]]\n    turned")
        mouse.says("Corner 3 at 0, 3")
        with mouse.change():
            mouse.press("undo")
        assert path.read_text() == CORNER


def test_a_side_of_another_length_is_mended(browser: Browser, path: Path) -> None:
    with opened_table(browser, path) as page:
        mouse = Mouse(page)
        mouse.press("tool-marry")
        mouse.click((0, 1), "piece-flag")
        mouse.drag((0, 0), (3, 0), "base")
        expect(page.locator(".ask")).to_contain_text("1 too short")
        with mouse.change():
            mouse.press("ask-mend")
        assert "[[0, -1], [2, 0], [0, 2]]" in path.read_text()
        mouse.says("The flag goes to its place")


def test_a_field_is_written_by_keys(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    path.write_text(CORNER, encoding="utf-8")
    with opened_table(browser, path) as page:
        keys = Keys(page)
        with keys.change():
            keys.fill("title", "Ours")
        keys.says("The title is changed")
        assert path.read_text() == CORNER.replace("The corner block", "Ours")


def test_two_windows_and_an_editor_are_told_and_asked(browser: Browser, path: Path) -> None:
    with drawn_on(path) as server:
        page = browser.new_page()
        page.goto(server.address)
        expect(page.locator("#title")).to_have_text("The corner block")
        path.write_text(CORNER.replace("The corner block", "Theirs"), encoding="utf-8")
        server.desk.look_at_file()
        expect(page.locator("#title")).to_have_text("Theirs")
        path.unlink()
        server.desk.look_at_file()
        expect(page.locator(".banner")).to_contain_text("is no longer there")
        page.locator('[data-key="keep-ours"]').click()
        expect(page.locator(".banner")).to_have_count(0)
        assert path.read_text() == CORNER.replace("The corner block", "Theirs")
        page.close()


def axe_finds(page: Page) -> list[str]:
    found = Axe().run(page).response["violations"]
    return [f"{each['id']}: {each['nodes'][0]['target']} {each['nodes'][0]['failureSummary']}" for each in found]


def states(page: Page) -> Iterator[str]:
    """The page in one state after the other."""
    mouse = Mouse(page)
    mouse.until_later()
    yield "as it opens"
    mouse.press("piece-piece-flag")
    yield "an outline chosen"
    mouse.click((1, 0), "piece-flag")
    yield "a side chosen"
    mouse.press("tool-marry")
    yield "marrying"
    mouse.press("stop-marrying")
    mouse.press("tool-marry")
    mouse.click((0, 1), "piece-flag")
    mouse.drag((0, 0), (3, 0), "base")
    yield "a question asked"
    mouse.press("ask-leave")
    mouse.press("tool-draw")
    yield "drawing"
    mouse.press("drop-draft")
    with mouse.change():
        mouse.press("copy-right")
    yield "an option on the paper"
    mouse.press("put-away")
    with mouse.change():
        mouse.press("undo")
    mouse.press("more-open-A")
    yield "an option to be changed"
    mouse.press("piece-piece-flag")
    with mouse.change():
        mouse.press("remove-piece")
    mouse.until_later()
    yield "with a fault"


@pytest.mark.parametrize("scheme", ["light", pytest.param("dark", marks=pytest.mark.full)])
def test_axe_finds_nothing(scheme: str, browser: Browser, path: Path) -> None:
    with opened_table(browser, path, color_scheme=scheme, bypass_csp=True) as page:
        for name in states(page):
            assert not (found := axe_finds(page)), (name, found)


def test_words_of_a_file_are_never_markup(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    evil = "<img src=x onerror=alert(1)><script>alert(2)</script>"
    path.write_text(
        CORNER.replace("The corner block", f"'{evil}'").replace("sign: leaf", "mark: '<b>'"), encoding="utf-8"
    )
    with opened_table(browser, path) as page:
        Mouse(page).until_later()
        expect(page.locator("#title")).to_have_text(evil)
        assert page.locator("img[src]:not([src^='still/']), #paper b, main script, svg script").count() == 0


def test_two_fingers_change_the_size_of_the_paper_alone(browser: Browser, path: Path) -> None:
    with opened_table(browser, path, viewport={"width": 390, "height": 844}, has_touch=True) as page:
        fingers = Fingers(page)
        before = float(fingers.paper.get_attribute("data-scale") or 0)
        box = fingers.paper.bounding_box()
        assert box is not None
        fingers.pinch((box["x"] + box["width"] / 2, box["y"] + box["height"] / 2), 60, 150)
        assert float(fingers.paper.get_attribute("data-scale") or 0) > 1.6 * before
        assert path.read_text() == CORNER and page.evaluate("scrollY") == 0
        assert page.evaluate("document.documentElement.scrollWidth") <= 390


def test_everything_pressed_is_large_enough(browser: Browser, path: Path) -> None:
    with opened_table(browser, path) as page:
        Mouse(page).press("piece-piece-flag")
        small = page.evaluate(SMALL)
        assert not small


@pytest.mark.parametrize("item", each_demo_item())
def test_a_demo_item_is_shown_whole_and_stays_as_it_is(item: Path, browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / item.name
    path.write_bytes(item.read_bytes())
    solution = load_solution(item)
    with opened_table(browser, path) as page:
        Mouse(page).until_later()
        expect(page.locator("#verdict")).to_contain_text(f"Sound · key {solution.key}")
        expect(page.locator("#options > section > ol > li")).to_have_count(len(solution.verdicts))
        paper = page.locator("#paper").bounding_box()
        assert paper is not None
        for shape in page.locator("#paper .shape").all():  # nothing is out of sight
            box = shape.bounding_box()
            assert box is not None and box["x"] >= paper["x"] and box["y"] >= paper["y"]
            assert box["x"] + box["width"] <= paper["x"] + paper["width"]
            assert box["y"] + box["height"] <= paper["y"] + paper["height"]
    assert path.read_bytes() == item.read_bytes()


@pytest.mark.full
@pytest.mark.parametrize("size", [(360, 640), (390, 844), (768, 1024), (1280, 720), (1920, 1080)], ids=str)
def test_no_name_runs_into_another(browser: Browser, tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "kite-block.yaml"
    path.write_bytes((ITEMS / "kite-block.yaml").read_bytes())
    with opened_table(browser, path, viewport={"width": size[0], "height": size[1]}) as page:
        Mouse(page).until_later()
        names = page.locator("#paper .frame-name")
        expect(names).to_have_count(5)
        boxes = [(each.text_content(), each.bounding_box()) for each in names.all()]
        for number, (name, box) in enumerate(boxes):
            for other, there in boxes[:number]:
                assert box is not None and there is not None
                assert (
                    box["x"] + box["width"] <= there["x"]
                    or there["x"] + there["width"] <= box["x"]
                    or abs(box["y"] - there["y"]) >= 15
                ), (name, other)
