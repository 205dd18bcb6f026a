"""A question drawn from an empty page: by mouse alone, by touch, by keys alone; and what it comes to."""

from __future__ import annotations

from pathlib import Path

import pytest
from hands import Fingers, Keys, Mouse, opened_table
from outputs.html_pages import CHROMIUM, ITEMS
from playwright.sync_api import Browser

from explainers.choice.model import Solution
from explainers.intake.workspace import load_solution

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")

CORNER = ITEMS / "corner-block.yaml"
BASE = [(0, 0), (4, 0), (4, 2), (2, 2), (2, 4), (0, 4)]
FLAG = [(0, 0), (2, 0), (0, 2)]
WRONG_BEFORE = ("slip-flipped-null", "slip-turned-back-flag")
WRONG_AFTER = ("slip-next-side-flag", "slip-too-large-flag")


def same_question(drawn: Solution, demo: Solution) -> None:
    """All that a solution says but names is the same."""
    assert drawn.sound and drawn.key == demo.key
    assert drawn.outline.area == pytest.approx(demo.outline.area)
    for one, other in zip(sorted(drawn.outline.exterior), sorted(demo.outline.exterior), strict=True):
        assert one == pytest.approx(other)
    told = [[(each.same, each.mirrored) for each in one.verdicts] for one in (drawn, demo)]
    assert told[0] == told[1]


def turns_of(solution: Solution) -> list[float]:
    return list(solution.turns_deg)  # type: ignore[attr-defined]


def by_clicks(hands: Mouse | Fingers) -> None:
    """The corner block, from nothing."""
    for corner in (*BASE, BASE[0]):
        hands.click(corner)
    hands.page.wait_for_selector('[data-outline="base"]')
    hands.press("tool-draw")
    with hands.change():
        for x, y in (*FLAG, FLAG[0]):
            hands.click((x + 6, y))
    hands.press("tool-marry")
    hands.click((1, 0), "piece-flag")
    with hands.change():
        hands.click((4, 1), "base")
    with hands.change():
        hands.turn_on_dial("piece-flag", 135)
    for key in (*WRONG_BEFORE, "add-right", *WRONG_AFTER):
        hands.until_later()
        with hands.change():
            hands.press(key)


@pytest.mark.full  # few clicks are counted ordinarily
def test_the_corner_block_by_mouse_alone(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    with opened_table(browser, path) as page:
        mouse = Mouse(page)
        by_clicks(mouse)
        assert mouse.typed == 0
    demo = load_solution(CORNER)
    same_question(load_solution(path), demo)
    assert turns_of(load_solution(path)) == pytest.approx(turns_of(demo))


@pytest.mark.full
def test_the_corner_block_by_touch(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    with opened_table(browser, path, viewport={"width": 1024, "height": 768}, has_touch=True) as page:
        by_clicks(Fingers(page))
    demo = load_solution(CORNER)
    same_question(load_solution(path), demo)
    assert turns_of(load_solution(path)) == pytest.approx(turns_of(demo))


def walk(keys: Keys, corners: list[tuple[int, int]]) -> None:
    """Corners put by arrows and Space, the last one closed by Enter; the cursor is at the first."""
    for n, (x, y) in enumerate(corners):
        dx, dy = (x - corners[n - 1][0], y - corners[n - 1][1]) if n else (0, 0)
        keys.keys(
            *["ArrowRight" if dx > 0 else "ArrowLeft"] * abs(dx), *["ArrowUp" if dy > 0 else "ArrowDown"] * abs(dy), " "
        )
    keys.keys("Enter")


@pytest.mark.full
def test_the_corner_block_by_keys_alone(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    with opened_table(browser, path) as page:
        keys = Keys(page)
        keys.go_to(lambda here: here.startswith("cursor"))
        with keys.change():
            walk(keys, BASE)
        keys.press("tool-draw")
        with keys.change():
            walk(keys, FLAG)
        keys.go_to(lambda here: here.startswith("outline|piece-flag"))
        keys.keys("s")  # its first side
        keys.keys("m")
        keys.page_down_to("side|base||1")
        with keys.change():
            keys.keys("Enter")
        with keys.change():
            keys.fill("turned-piece-flag", "135")
        for key in (*WRONG_BEFORE, "add-right", *WRONG_AFTER):
            keys.until_later()
            with keys.change():
                keys.press(key)
        assert keys.count == 0
    demo = load_solution(CORNER)
    same_question(load_solution(path), demo)
    assert turns_of(load_solution(path)) == pytest.approx(turns_of(demo))
