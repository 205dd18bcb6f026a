"""Gestures on the page, one by one: what each does to the file, and what is said of it beside the hand."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from math import dist
from pathlib import Path

import pytest
from demo_drawing import turned
from hands import MIDDLE_AND_GRIP, Fingers, Hands, Keys, Mouse, opened_table
from outputs.html_pages import CHROMIUM, ITEMS
from playwright.sync_api import Browser, Page, expect

from explainers.document.text_places import composed_once

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")
full = pytest.mark.full


@contextmanager
def open_copy(browser: Browser, folder: Path, name: str, **options: object) -> Iterator[tuple[Page, Path]]:
    """A demo item on the page, in a copy that may be changed."""
    path = folder / f"{name}.yaml"
    path.write_bytes((ITEMS / f"{name}.yaml").read_bytes())
    with opened_table(browser, path, **options) as page:
        Mouse(page).until_later()
        yield page, path


def names_in(path: Path) -> list[str]:
    """The pieces in the order of the file."""
    return [line.split()[-1] for line in path.read_text().splitlines() if line.strip().startswith("- piece:")]


def order_of_options(path: Path) -> list[str]:
    return [line.strip() for line in path.read_text().splitlines() if "outline: result" in line or "- {corners" in line]


def test_a_piece_is_turned_on_the_sheet_itself(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "corner-block") as (page, path):
        mouse, keys, text = Mouse(page), Keys(page), path.read_text()
        with mouse.change():
            mouse.turn_on_sheet("turn-piece-flag", 60)
        assert path.read_text() == text.replace("turned: 135", "turned: 60")
        mouse.says("The sheet shows the flag turned by 60 degrees")
        keys.go_to(lambda here: here == "turn-piece-flag")
        keys.keys("ArrowLeft", "ArrowLeft", "Shift+ArrowRight")  # two times 15 one way, 1 degree the other
        keys._until(lambda: path.read_text() == text.replace("turned: 135", "turned: 89"), "it is turned otherwise")
        expect(mouse.by_key("turn-piece-flag")).to_have_attribute("aria-valuenow", "89")
        expect(mouse.by_key("turned-piece-flag")).to_have_value("89")


@full
def test_an_option_is_turned_on_the_sheet_by_a_finger(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "corner-block", has_touch=True) as (page, path):
        fingers, text = Fingers(page), path.read_text()
        with fingers.change():
            fingers.turn_on_sheet("turn-option-A", 100)
        assert path.read_text() == text.replace("slip: flipped, turned: 45", "slip: flipped, turned: 100")
        with fingers.change():
            fingers.turn_on_sheet("turn-piece-flag", 0)
        assert "turned: 135" not in path.read_text()


@full
def test_the_sheet_stays_under_the_hand_while_it_is_judged(browser: Browser, tmp_path: Path) -> None:
    """A warning that comes meanwhile is told over the sheet, and used to push it away from the hand."""
    path = tmp_path / "flag-block.yaml"
    text = (ITEMS / "flag-block.yaml").read_text().partition("accepted:")[0]
    path.write_text(text.replace("    does: join\n", "    does: join\n    turned: 345\n"))
    with opened_table(browser, path, viewport={"width": 1366, "height": 900}) as page:
        mouse = Mouse(page)
        mouse.until_later()
        sheet, said, grip = page.locator(".sheet-room"), page.locator("#verdict"), mouse.by_key("turn-piece-pennant")
        grip.locator(".press").scroll_into_view_if_needed()
        (mx, my), (x, y) = page.evaluate(MIDDLE_AND_GRIP, "turn-piece-pennant")
        before = sheet.bounding_box()
        assert before is not None and "no turn to find" not in (said.text_content() or "")
        far = dist((mx, my), (x, y))
        page.mouse.move(x, y)
        page.mouse.down()
        page.mouse.move(mx, my - far, steps=3)  # as it lies: no turn is left to find
        expect(grip).to_have_attribute("aria-valuenow", "0")
        now = sheet.bounding_box()
        assert now is not None and abs(now["y"] - before["y"]) < 1
        with mouse.change():
            page.mouse.up()
        expect(said).to_contain_text("no turn to find")  # which, told at once, would have pushed it away
        now = sheet.bounding_box()
        assert now is not None and now["y"] > before["y"] + 20


@full
def test_a_sheet_that_is_no_more_goes_when_it_is_let_go(browser: Browser, tmp_path: Path) -> None:
    """On the way round there may be a turn with which an option no longer comes out: the hand goes on."""
    with open_copy(browser, tmp_path, "corner-block", viewport={"width": 1366, "height": 900}) as (page, path):
        mouse, grip = Mouse(page), Mouse(page).by_key("turn-piece-flag")
        grip.locator(".press").scroll_into_view_if_needed()
        (mx, my), (x, y) = page.evaluate(MIDDLE_AND_GRIP, "turn-piece-flag")
        far = dist((mx, my), (x, y))
        page.mouse.move(x, y)
        page.mouse.down()
        with page.expect_response(lambda answer: '"value":270' in (answer.request.post_data or "")):
            page.mouse.move(mx + far, my, steps=3)
        mouse.still()
        expect(grip).to_be_visible()
        page.mouse.move(mx, my - far, steps=3)
        expect(grip).to_have_attribute("aria-valuenow", "0")
        page.mouse.move(mx + far, my, steps=3)
        with mouse.change():
            page.mouse.up()
        assert "turned: 270" in path.read_text()
        expect(page.locator("#sheet")).to_contain_text("It is shown as soon as the question can be solved.")


@pytest.mark.full
def test_a_ready_outline_keeps_its_sizes_until_a_corner_is_dragged(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "twin-block") as (page, path):
        mouse, text = Mouse(page), path.read_text()
        mouse.click((1, 1), "base")
        grip = mouse.by_key("size|base||0").bounding_box()
        assert grip is not None
        x, y, scale = grip["x"] + 14, grip["y"] + 14, float(mouse.paper.get_attribute("data-scale") or 0)
        with mouse.change():
            mouse.drag_on_screen((x, y), (x + scale, y))
        assert path.read_text().startswith(text.replace("wide: 6,", "wide: 7,").partition("    meets: [[6")[0]), (
            path.read_text()
        )
        assert "meets: [[7, 0], [7, 3]]" in path.read_text()  # the mark goes along
        mouse.says("It stays a ready outline")
        assert page.locator(".note-here").count() == 0
        with mouse.change():
            mouse.drag((0, 6), (0, 7), "base")
        assert "corners: [[0, 0], [7, 0], [7, 3], [3, 3], [3, 6], [0, 7]]" in mouse.told()["text"]
        expect(page.locator(".note-here")).to_have_text("The ready outline has become corners")


@full
def test_it_is_said_beside_the_outline_while_a_corner_is_still_held(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "basket-block") as (page, path):
        mouse, text = Mouse(page), path.read_text()
        mouse.click((5, 1), "base")
        start, end = mouse.client((10, 3), "base"), mouse.client((11, 3), "base")
        page.mouse.move(*start)
        page.mouse.down()
        page.mouse.move(*end, steps=4)
        expect(page.locator(".note-here")).to_have_text("The walk becomes corners")
        assert path.read_text() == text
        page.keyboard.press("Escape")
        page.mouse.up()


@full
def test_a_length_of_a_walk_by_keys_stays_a_walk(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "basket-block") as (page, path):
        keys, text = Keys(page), path.read_text()
        keys.press("piece-piece-nick")
        keys.go_to(lambda here: here.startswith("outline|piece-nick"))
        keys.keys("g")
        with keys.change():
            keys.keys("ArrowRight")
        changed = text.replace("walk: right 4, up-left 2, close", "walk: right 4.5, up-left 2, close")
        assert keys.told()["text"] == changed.replace("side: [[0, 0], [4, 0]]", "side: [[0, 0], [4.5, 0]]")
        with keys.change():
            keys.fill("size--2", "1.5")
        assert "walk: right 4.5, up-left 1.5, close" in keys.told()["text"]


@full
def test_pieces_and_options_change_places_by_dragging_and_by_keys(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "kite-block") as (page, path):
        mouse, keys = Mouse(page), Keys(page)

        def drag(kind: str, start: int, end: int) -> None:
            places = []
            for number in (start, end):
                entry = page.locator(f'[data-move="{kind}"] > li').nth(number)
                entry.scroll_into_view_if_needed()
                grip = entry.locator(".grip").bounding_box()
                assert grip is not None
                places.append((grip["x"] + grip["width"] / 2, grip["y"] + grip["height"] / 2))
            with mouse.change():
                mouse.drag_on_screen(*places)

        assert names_in(path) == ["wing", "sail", "notch"]
        drag("pieces", 2, 0)
        assert names_in(path) == ["notch", "wing", "sail"]
        with keys.change():
            keys.press("down-piece-notch")
        assert names_in(path) == ["wing", "notch", "sail"]
        before = order_of_options(path)
        mouse.until_later()
        drag("options", 0, 1)
        assert order_of_options(path) == [before[1], before[0], *before[2:]]
        keys.press("more-open-C")
        with keys.change():
            keys.press("option-up-C")
        assert order_of_options(path) == [before[1], before[2], before[0], *before[3:]]


@full
def test_a_copy_and_a_flip_of_a_drawing(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "border-block") as (page, _):
        mouse = Mouse(page)
        mouse.press("piece-piece-tip")
        with mouse.change():
            mouse.press("copy")
        copied = mouse.told()["outlines"][-1]
        assert copied["corners"] == [[0, 0], [2, 0], [2, 1], [0, 2]] and copied["does"] == "join"
        mouse.press("piece-piece-tip")
        with mouse.change():
            mouse.press("flip")
        assert mouse.told()["outlines"][-1]["corners"] == [[2, 2], [0, 1], [0, 0], [2, 0]]
        mouse.says("flipped over")
        with mouse.change():
            mouse.press("remove-piece")
        assert len(mouse.told()["outlines"]) == 4


@full
def test_a_drawing_turned_by_fifteen_degrees_stays_married(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "border-block") as (page, _):
        mouse = Mouse(page)
        before = mouse.told()
        mouse.press("piece-piece-tip")
        with mouse.change():
            mouse.press("turn-left")
        now = mouse.told()
        (x0, y0), (x1, y1) = now["outlines"][1]["corners"][:2]
        assert (x1 - x0, y1 - y0) == pytest.approx(turned((2, 0), 15), abs=1e-3)
        assert now["verdict"] == before["verdict"]
        for one, other in zip(now["result"]["corners"], before["result"]["corners"], strict=True):
            assert one == pytest.approx(other, abs=1e-2)
        with mouse.change():
            mouse.press("turn-right")
        assert mouse.told()["outlines"][1]["corners"][1] == pytest.approx([2, 0], abs=1e-3)


@full
def test_triangular_paper_and_half_squares(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "slanted.yaml"
    with opened_table(browser, path) as page:
        mouse, high = Mouse(page), 3**0.5 / 2
        mouse.press("paper-open")
        mouse.press("paper-triangles")
        mouse.press("paper-open")
        with mouse.change():
            for point in [(0.1, 0.05), (4, 0.1), (2.1, 4 * high - 0.1), (0, 0)]:  # near the points of the paper
                mouse.click(point)
        assert mouse.told()["outlines"][0]["corners"] == [[0, 0], [4, 0], [2, pytest.approx(4 * high, abs=1e-3)]]
        mouse.press("paper-open")
        mouse.press("paper-squares")
        mouse.press("paper-open")
        mouse.press("tool-draw")
        with mouse.change():
            for point in [(6, 0), (7.5, 0), (8, 3), (6, 1.5), (6, 0)]:  # half squares too
                mouse.click(point)
        corners = mouse.told()["outlines"][1]["corners"]
        assert corners[1] == [1.5, 0] and corners[3] == [0, 1.5]


@full
def test_a_side_snaps_to_the_length_of_another(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "lengths.yaml"
    with opened_table(browser, path) as page:
        mouse = Mouse(page)
        with mouse.change():
            for point in [(0, 0), (3, 0), (3, 2), (2, 3), (0, 3), (0, 0)]:  # one side is the root of 2 long
                mouse.click(point)
        mouse.press("tool-draw")
        mouse.click((5, 0))
        x, y = mouse.client((5 + 1.45, 0.05))
        page.mouse.move(x, y)
        expect(page.locator(".cursor.length")).to_have_count(1)
        with mouse.change():
            for point in [(5 + 1.45, 0.05), (5, 2), (5, 0)]:
                mouse.click(point)
        assert mouse.told()["outlines"][1]["corners"][1] == [pytest.approx(2**0.5, abs=1e-3), 0]


@full
def test_holes_and_corners_are_put_in_and_taken_out(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "corner-block") as (page, _):
        mouse = Mouse(page)
        mouse.press("fit")
        mouse.click((3, 1), "base")
        mouse.press("draw-hole")
        with mouse.change():
            for point in [(1, 1), (2, 1), (1, 2), (1, 1)]:
                mouse.click(point)
        assert "- [[1, 1], [2, 1], [1, 2]]" in mouse.told()["text"]
        mouse.click((1.5, 1), "base")
        with mouse.change():
            mouse.press("remove-hole")
        assert "holes" not in mouse.told()["text"]
        x, y = mouse.client((2, 0), "base")
        with mouse.change():
            page.mouse.dblclick(x, y)
        assert "corners: [[0, 0], [2, 0], [4, 0]" in mouse.told()["text"]
        with mouse.change():
            page.keyboard.press("Delete")
        assert "corners: [[0, 0], [4, 0]" in mouse.told()["text"]


@full
def test_the_paper_is_moved_while_something_on_it_is_chosen(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "corner-block") as (page, path):
        mouse = Mouse(page)
        mouse.press("fit")

        def seen() -> list[float]:
            return [float(mouse.paper.get_attribute(f"data-{name}") or 0) for name in ("left", "top", "scale")]

        mouse.click((1, 1), "base")
        before, x, box = seen(), mouse.client((0, 0))[0], mouse.paper.bounding_box()
        assert box is not None
        mouse.drag_on_screen((box["x"] + 30, box["y"] + 30), (box["x"] + 380, box["y"] + 30))
        assert mouse.client((0, 0))[0] == pytest.approx(x + 350, abs=2)
        mouse.zoom(1.4)
        assert seen()[2] == pytest.approx(before[2] * 1.4, rel=0.01)
        mouse.press("fit")
        assert seen() == pytest.approx(before)
        mouse.press("zoom-out")
        assert seen()[2] == pytest.approx(before[2] / 1.25)
        assert path.read_bytes() == (ITEMS / "corner-block.yaml").read_bytes()


@full
def test_many_changes_are_undone_and_done_again_by_keys(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "corner-block") as (page, path):
        keys, text = Keys(page), path.read_text()
        keys.go_to(lambda here: here.startswith(("outline|", "side|", "corner|")))
        keys.keys("o", "c")
        for number in range(12):
            with keys.change():
                keys.keys("Shift+ArrowLeft" if number % 2 else "Shift+ArrowDown")
        changed = path.read_text()
        assert changed != text
        for way, wanted in (("Control+z", text), ("Control+Shift+z", changed), ("Control+z", text)):
            keys.keys(*[way] * 12)
            keys._until(lambda wanted=wanted: path.read_text() == wanted, "not all of it is undone")  # type: ignore[misc]


@full
def test_the_kind_is_chosen_on_an_empty_page_and_an_outline_dropped_in(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "new.yaml"
    with opened_table(browser, path) as page:
        mouse = Mouse(page)
        with mouse.change():
            mouse.press("kind-turned-outline")
        mouse.press("ready-new-open")
        with mouse.change():
            mouse.press("ready-new-put")
        assert composed_once(mouse.told()["text"]).root is not None
        assert "kind: turned-outline" in mouse.told()["text"] and "ready: {rectangle" in mouse.told()["text"]
        assert mouse.by_key("kind-turned-outline").count() == 0  # something is drawn: it stays of that kind
        with mouse.change():
            mouse.press("undo")
        expect(mouse.by_key("kind-join-and-cut")).to_be_visible()


@full
def test_a_piece_that_is_renamed_stays_chosen_and_in_its_place(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "corner-block") as (page, _):
        mouse = Mouse(page)
        mouse.press("piece-piece-flag")
        before = mouse.shift("piece-flag")
        with mouse.change():
            mouse.by_key("piece-name").fill("kite")
            page.keyboard.press("Enter")
        assert mouse.shift("piece-kite") == before
        expect(mouse.by_key("piece-piece-kite")).to_have_attribute("aria-pressed", "true")


def in_sight(hands: Hands) -> bool:
    """Whether no shape is cut off by the edge of the paper."""
    paper = hands.paper.bounding_box()
    boxes = [shape.bounding_box() for shape in hands.page.locator("#paper .shape").all()]
    return all(paper and box and box["x"] >= paper["x"] and box["y"] >= paper["y"] for box in boxes)


@full
def test_an_option_drawn_by_hand_is_changed_on_the_paper(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "kite-block") as (page, path):
        mouse = Mouse(page)
        mouse.press("more-open-D")
        mouse.press("option-open-D")
        expect(page.locator('[data-outline="own-3"]')).to_have_count(1)
        assert in_sight(mouse)
        with mouse.change():
            mouse.drag((6, 7), (6, 8), "own-3")
        assert "- {corners: [[0, 0], [6, 0], [6, 8], [4, 4]" in path.read_text()
        mouse.press("option-open-D")
        expect(page.locator('[data-outline="own-3"]')).to_have_count(0)


@full
def test_a_mark_goes_along_with_a_corner_however_slowly_it_is_dragged(browser: Browser, tmp_path: Path) -> None:
    with open_copy(browser, tmp_path, "corner-block") as (page, _):
        mouse = Mouse(page)
        mouse.click((1, 1), "base")
        start, end = mouse.client((4, 2), "base"), mouse.client((4, 3), "base")
        page.mouse.move(*start)
        page.mouse.down()
        for part in (0.5, 1.0):
            page.mouse.move(start[0] + part * (end[0] - start[0]), start[1] + part * (end[1] - start[1]))
            page.wait_for_timeout(600)  # long enough for what comes of it to be shown
        with mouse.change():
            page.mouse.up()
        assert mouse.told()["outlines"][1]["meets"] == [[4, 0], [4, 3]]
