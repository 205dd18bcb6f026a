"""A drawing dropped on the page: shown with what was read, put right by hand, taken by one change or not at all."""

from __future__ import annotations

import base64
import io
from collections.abc import Iterator
from pathlib import Path

import cv2
import numpy as np
import pytest
from asking import drawn_on
from axe_playwright_python.sync_playwright import Axe
from hands import Fingers, Hands, Keys, Mouse, opened_table
from outputs.html_pages import CHROMIUM
from playwright.sync_api import Browser, FileChooser, Page, expect
from test_dropped_drawings import DRAWING
from test_sitting import CORNER
from tracing.drawn_sheets import sheet_of

from explainers.intake.workspace import load_solution

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")

SHEET = (
    ((3, 3), (14, 3), (14, 13), (3, 13)),
    ((5, 5), (9, 5), (9, 9), (5, 9)),
    ((14, 5), (18, 5), (18, 8), (14, 8)),
)
SIZES = ((360, 640), (390, 844), (768, 1024), (1366, 768), (1920, 1080))
SMALL = """
[...document.querySelectorAll("#trace button, #trace input, #trace select, [data-key^=underlay]")].filter((each) => {
  const box = each.getBoundingClientRect();
  return box.width && (box.width < 24 || box.height < 24);
}).map((each) => each.outerHTML.slice(0, 120))
"""
DROP = """([data, name]) => {
  const given = new DataTransfer();
  given.items.add(new File([Uint8Array.from(atob(data), (letter) => letter.charCodeAt(0))], name));
  for (const kind of ["dragenter", "dragover", "drop"]) {
    const event = new DragEvent(kind, { dataTransfer: given, bubbles: true, cancelable: true });
    document.getElementById("paper").dispatchEvent(event);
  }
}"""


def png_sheet(number: int = 7) -> bytes:
    """A photographed sheet as a PNG: a base with a window, and a piece that lies at its side."""
    photo = cv2.imdecode(np.frombuffer(sheet_of(SHEET, number=number).jpeg, np.uint8), cv2.IMREAD_COLOR)
    return bytes(
        cv2.imencode(".png", cv2.resize(photo, None, fx=0.7, fy=0.7, interpolation=cv2.INTER_AREA))[1].tobytes()
    )


def drop(page: Page, data: bytes, name: str) -> None:
    page.evaluate(DROP, [base64.b64encode(data).decode(), name])


def is_read(page: Page) -> None:
    """Until all that was asked for is shown."""
    expect(page.locator("#trace[aria-busy=false] .trace-said")).to_contain_text("by your eye", timeout=30_000)


def choose(page: Page, data: bytes, name: str) -> None:
    page.locator("input[type=file]").set_input_files({"name": name, "mimeType": "", "buffer": data})


@pytest.fixture
def drawn(tmp_path: Path) -> Path:
    made = tmp_path / "corner-block.yaml"
    made.write_text(CORNER, encoding="utf-8")
    return made


def test_a_dropped_sheet_is_taken_to_the_table(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "new-block.yaml"
    with opened_table(browser, path) as page:
        mouse = Mouse(page)
        drop(page, png_sheet(), "../sheet.png")
        is_read(page)
        expect(page.locator("#trace .read")).to_have_count(2)
        expect(page.locator("#trace")).to_contain_text("A closed line inside it is taken as its hole")
        with mouse.change():
            mouse.press("trace-take")
        expect(page.locator("#trace")).not_to_be_visible()
        mouse.says("Nothing has been checked against the original but by your eye")
        expect(page.locator("#paper.over-picture .shape")).to_have_count(2)
        solution = load_solution(path)
        assert solution.sound and solution.outline.area == pytest.approx(11 * 10 - 16 + 12)
        # The corner that was read lies on the picture's own: both are put to the screen, each in its way.
        with mouse.change():
            mouse.drag((15, 5), (15, 6), "piece-piece-1")  # a corner is dragged where it lies over the picture
        assert "[15, 6]" in path.read_text()
        mouse.press("underlay")
        expect(page.locator("#under")).not_to_be_visible()
        with mouse.change():
            mouse.press("undo")
        with mouse.change():
            mouse.press("undo")
        expect(page.locator("#paper .shape")).to_have_count(0)


def corners_on_screen(page: Page) -> list[tuple[float, float]]:
    """Where the picture under the paper has the four corners of its own frame, by the transform that lays it there."""
    found: list[tuple[float, float]] = page.evaluate(
        """() => {
        const image = document.querySelector("#under img"), way = new DOMMatrix(getComputedStyle(image).transform);
        const [wide, high] = [parseFloat(image.style.width), parseFloat(image.style.height)];
        return [[0, 0], [wide, 0], [wide, high], [0, high]].map(([x, y]) => {
          const to = way.transformPoint(new DOMPoint(x, y));
          return [to.x / to.w, to.y / to.w];
        });
        }"""
    )
    return found


def test_the_original_lies_where_its_outlines_lie(browser: Browser, tmp_path: Path) -> None:
    """An SVG of 200 by 140, 20 to a unit, its base's lower left at (20, 100)."""
    with opened_table(browser, tmp_path / "new-block.yaml") as page:
        mouse = Mouse(page)
        drop(page, DRAWING, "a.svg")
        is_read(page)
        expect(page.locator('[data-key="trace-unit"]')).to_have_value("20")  # guessed, so that sides are whole
        with mouse.change():
            mouse.press("trace-take")
        for _ in range(2):
            box = page.locator("#paper").bounding_box()
            assert box is not None
            for found, want in zip(corners_on_screen(page), ((-1, 5), (9, 5), (9, -2), (-1, -2)), strict=True):
                at = mouse.client(want)
                assert (box["x"] + found[0], box["y"] + found[1]) == pytest.approx(at, abs=1.5)
            mouse.press("zoom-out")  # it goes with the paper


@pytest.mark.full
def test_what_is_read_is_put_right_by_hand(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "new-block.yaml"
    with opened_table(browser, path) as page:
        mouse = Mouse(page)
        choose(page, DRAWING, "a.svg")
        is_read(page)
        page.locator('#trace .read[data-number="2"]').click()  # the wing becomes the base
        is_read(page)
        expect(page.locator('[data-key="role-2"]')).to_have_value("base")
        expect(page.locator('[data-key="role-1"]')).to_have_value("piece")
        page.locator('[data-key="role-1"]').select_option("base")
        is_read(page)
        page.locator('[data-key="role-3"]').select_option("out")
        is_read(page)
        expect(page.locator("#trace .read.out")).to_have_count(1)
        unit = page.locator('[data-key="trace-unit"]')
        unit.fill("10")
        unit.press("Enter")
        is_read(page)
        expect(page.locator("#trace")).to_contain_text("8 × 8")
        with mouse.change():
            mouse.press("trace-take")
        assert "[[0, 0], [8, 0], [8, 8], [0, 8]]" in path.read_text() and "notch" not in path.read_text()


@pytest.mark.full
def test_a_drawn_question_is_replaced_only_after_asking(browser: Browser, drawn: Path) -> None:
    with opened_table(browser, drawn) as page:
        mouse = Mouse(page)
        drop(page, DRAWING, "a.svg")
        is_read(page)
        mouse.press("trace-take")
        expect(page.locator("#trace .ask")).to_contain_text("a question on the table already")
        mouse.press("trace-keep")
        mouse.press("trace-leave")
        mouse.says("Not taken: everything is as it was")
        assert mouse.revision() == 1 and drawn.read_text() == CORNER
        assert page.locator("#under").is_hidden()
        drop(page, DRAWING, "a.svg")
        is_read(page)
        mouse.press("trace-take")
        with mouse.change():
            mouse.press("trace-replace")
        assert "wing" in drawn.read_text() and "title: The corner block" in drawn.read_text()
        expect(page.locator("#under")).to_be_visible()
        with mouse.change():
            mouse.press("undo")
        assert drawn.read_text() == CORNER
        expect(page.locator("#under")).not_to_be_visible()  # it is none of the question that came back
        with mouse.change():
            mouse.press("redo")
        expect(page.locator("#under")).to_be_visible()
        with mouse.change():
            mouse.press("undo")
        with mouse.change():
            page.locator('[data-key="title"]').fill("Another")
            page.locator('[data-key="title"]').press("Enter")
        expect(page.locator('[data-key="underlay"]')).to_have_count(0)


@pytest.mark.full
def test_it_is_done_by_keys_alone(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "new-block.yaml"
    with opened_table(browser, path) as page:
        keys = Keys(page)
        asked = list[FileChooser]()
        page.on("filechooser", lambda one: asked.append(one))
        keys.go_to(lambda here: here == "trace")
        page.keyboard.press("Enter")
        keys._until(lambda: bool(asked), "no file is asked for")
        asked[0].set_files({"name": "a.svg", "mimeType": "image/svg+xml", "buffer": DRAWING})
        is_read(page)
        seen = set[str]()
        for _ in range(30):  # the focus stays in the dialog
            page.keyboard.press("Tab")
            assert page.evaluate(
                "document.activeElement === document.body || !!document.activeElement.closest('#trace')"
            )
            seen.add(page.evaluate("document.activeElement?.dataset?.key ?? ''"))
        assert {
            "trace-unit",
            "trace-grid",
            "role-1",
            "role-2",
            "role-3",
            "trace-take",
            "trace-other",
            "trace-leave",
        } <= seen
        keys.go_to(lambda here: here == "role-3")
        page.keyboard.press("End")  # left out
        is_read(page)
        expect(page.locator("#trace .read.out")).to_have_count(1)
        assert page.evaluate("document.activeElement.dataset.key") == "role-3"
        page.keyboard.press("Escape")
        expect(page.locator("#trace")).not_to_be_visible()
        assert page.evaluate("document.activeElement.dataset.key") == "trace", "the focus is given back"
        assert keys.revision() == 1
        choose(page, DRAWING, "a.svg")
        is_read(page)
        with keys.change():
            keys.press("trace-take")
        assert load_solution(path).sound
        keys.go_to(lambda here: here == "underlay-strength")
        before = page.evaluate("document.querySelector('#under img').style.opacity")
        keys.keys("ArrowLeft", "ArrowLeft")
        assert float(page.evaluate("document.querySelector('#under img').style.opacity")) < float(before)


@pytest.mark.full
def test_what_cannot_be_read_is_told_with_its_fix(browser: Browser, tmp_path: Path) -> None:
    with opened_table(browser, tmp_path / "new-block.yaml") as page:
        hands = Hands(page)
        blank = bytes(cv2.imencode(".png", np.full((300, 400, 3), 255, np.uint8))[1].tobytes())
        for data, name, words in ((b"GIF89a", "a.gif", "PNG"), (b"", "a.svg", "empty"), (blank, "a.png", "To mend it")):
            choose(page, data, name)
            expect(page.locator("#trace .trace-said.refused")).to_contain_text(words)
            assert hands.by_key("trace-take").is_disabled()
            expect(page.locator(".trace-said")).to_contain_text("It cannot be read")
        choose(page, DRAWING, "a.svg")
        is_read(page)
        assert hands.by_key("trace-take").is_enabled()
        hands.by_key("trace-grid").fill("900")
        hands.by_key("trace-grid").press("Enter")
        expect(page.locator("#trace .trace-said.refused")).to_contain_text("finer")
        hands.by_key("trace-as-read").click()
        is_read(page)


FOREIGN = """
[...document.querySelectorAll("script, img, image, iframe, object, embed, [onclick], [onerror]")].filter((each) =>
  each.hasAttribute("onclick") || each.hasAttribute("onerror") || (each.getAttribute("src") ?? "").startsWith("x") ||
  (each.localName === "script" && !each.src) ||
  /^(https?:)?\\/\\//.test(each.getAttribute("href") ?? each.getAttribute("src") ?? "")).map((each) => each.outerHTML)
"""  # what a drawing may have brought along


@pytest.mark.full
def test_nothing_of_a_drawing_runs_or_reaches_out(browser: Browser, tmp_path: Path) -> None:
    evil = DRAWING.replace(
        b"</svg>",
        b"<script>parent.document.title='taken';alert(1)</script>"
        b"<image href='https://example.org/a.png' width='9' height='9' onerror='alert(2)'/><style>@import url('https://example.org/a.css');</style></svg>",
    ).replace(b'id="wing"', b'id="&lt;img src=x onerror=alert(3)&gt;" onclick="alert(4)"')
    with opened_table(
        browser, tmp_path / "new-block.yaml"
    ) as page:  # it fails where a request leaves or a dialog opens
        mouse = Mouse(page)
        drop(page, evil, "<img src=x onerror=alert(5)>.svg")
        is_read(page)
        expect(page.locator("#trace .read")).to_have_count(3)
        assert page.locator("#trace script, #trace iframe, #trace foreignObject").count() == 0
        assert not page.evaluate(FOREIGN)
        with mouse.change():
            mouse.press("trace-take")
        mouse.until_later()
        assert "taken" not in page.title() and not page.evaluate(FOREIGN)


@pytest.mark.full
def test_a_slide_is_chosen_by_its_number(browser: Browser, tmp_path: Path) -> None:
    from pptx import Presentation
    from pptx.enum.shapes import MSO_SHAPE
    from pptx.util import Cm

    deck, packed = Presentation(), io.BytesIO()
    for wide in (4, 6):
        shapes = deck.slides.add_slide(deck.slide_layouts[6]).shapes
        shapes.add_shape(MSO_SHAPE.RECTANGLE, Cm(2), Cm(2), Cm(wide), Cm(4))
    deck.save(packed)
    with opened_table(browser, tmp_path / "new-block.yaml") as page:
        choose(page, packed.getvalue(), "lesson.pptx")
        is_read(page)
        expect(page.locator("#trace")).to_contain_text("4 corners, 4 × 4")
        expect(page.locator("#trace")).to_contain_text("cannot be shown here")
        slide = page.locator('[data-key="trace-slide"]')
        for number, words in (("2", "4 corners, 6 × 4"), ("9", "there is no slide 9"), ("1", "4 corners, 4 × 4")):
            slide.fill(number)
            slide.press("Enter")
            expect(page.locator("#trace")).to_contain_text(words)


@pytest.mark.full
def test_a_turned_outline_takes_the_base_alone(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "turned.yaml"
    with drawn_on(path, kind="turned-outline") as served:
        page = browser.new_page()
        page.goto(served.address)
        page.wait_for_selector("#paper[data-revision]")
        mouse = Mouse(page)
        choose(page, png_sheet(), "sheet.png")
        is_read(page)
        with mouse.change():
            mouse.press("trace-take")
        text = served.desk.sitting.text
        page.close()
    assert "kind: turned-outline" in text and "- [11, 10]" in text
    assert "holes:\n    - [[2, 2], [6, 2], [6, 6], [2, 6]]" in text


def states(page: Page) -> Iterator[str]:
    """The page while something is traced, one state after the other."""
    hands = Hands(page)
    choose(page, b"GIF89a", "a.gif")
    expect(page.locator("#trace .trace-said.refused")).to_be_visible()
    yield "refused"
    choose(page, png_sheet(), "sheet.png")
    is_read(page)
    yield "read"
    hands.by_key("role-3").select_option("out")
    is_read(page)
    yield "one left out"
    hands.by_key("trace-take").click()
    expect(page.locator("#trace .ask")).to_be_visible()
    yield "asked"
    with hands.change():
        hands.by_key("trace-replace").click()
    hands.until_later()
    yield "over the original"


@pytest.mark.full
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", SIZES)
def test_each_state_shuts_nobody_out(size: tuple[int, int], scheme: str, browser: Browser, drawn: Path) -> None:
    shape = {"width": size[0], "height": size[1]}
    with opened_table(browser, drawn, viewport=shape, color_scheme=scheme, bypass_csp=True) as page:
        for name in states(page):
            found = Axe().run(page).response["violations"]
            assert not found, (
                name,
                [(each["id"], each["nodes"][0]["target"], each["nodes"][0]["failureSummary"]) for each in found],
            )
            assert not (small := page.evaluate(SMALL)), (name, small)
            assert page.evaluate("document.documentElement.scrollWidth") <= size[0], name
            if page.locator("#trace").is_visible():
                inside = page.locator("#trace").evaluate("(one) => one.scrollWidth - one.clientWidth")
                assert inside <= 1, (name, inside)


@pytest.mark.full
def test_it_is_done_by_touch(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "new-block.yaml"
    with opened_table(browser, path, viewport={"width": 390, "height": 844}, has_touch=True) as page:
        fingers = Fingers(page)
        asked = list[FileChooser]()
        page.on("filechooser", lambda one: asked.append(one))
        fingers.press("trace")
        fingers._until(lambda: bool(asked), "no file is asked for")
        asked[0].set_files({"name": "sheet.png", "mimeType": "image/png", "buffer": png_sheet()})
        is_read(page)
        with fingers.change():
            fingers.press("trace-take")
        assert load_solution(path).sound
        fingers.press("underlay-away")
        expect(page.locator("#under")).not_to_be_visible()
