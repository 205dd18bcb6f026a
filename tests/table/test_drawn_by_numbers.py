"""Demo items drawn anew on the page, each corner by its numbers: the file that comes of it has the same solution."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from asking import Page as Asked
from asking import drawn_on
from demo_items import each_demo_item
from hands import Mouse, opened_table
from outputs.html_pages import CHROMIUM
from playwright.sync_api import Browser, expect

from explainers.intake.workspace import load_solution

pytestmark = [pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed"), pytest.mark.full]

Ring = list[list[float]]


def number(value: float) -> str:
    return f"{value:.6f}".rstrip("0").rstrip(".")


class Numbers(Mouse):
    """Buttons clicked and numbers filled in."""

    def outline(self, ring: Ring) -> None:
        for x, y in ring:
            for name, value in (("x", x), ("y", y)):
                self.page.locator(f'[data-key="draft-{name}"]').fill(number(value))
            self.press("put")
        with self.change():
            self.press("close-draft")

    def side(self, outline: dict[str, Any], ends: Ring) -> list[float]:
        """Choose the side of an outline on which a mark lies, by its key; gives where the side begins."""
        for hole, ring in enumerate([outline["corners"], *outline["holes"]], start=-1):
            for n, start in enumerate(ring):
                end = ring[(n + 1) % len(ring)]
                if all(on(point, start, end) for point in ends):
                    key = f"side|{outline['id']}|{'' if hole < 0 else hole}|{n}"
                    self.by_key(key).focus()
                    self.page.keyboard.press("Enter")
                    self.still()
                    return start
        raise AssertionError("the mark lies on no side")


def on(p: list[float], a: list[float], b: list[float]) -> bool:
    return abs(far(a, p) + far(p, b) - far(a, b)) < 1e-3 * far(a, b)


def far(p: list[float], q: list[float]) -> float:
    return float(((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2) ** 0.5)


def ends_of(side: Any, outline: dict[str, Any]) -> Ring:
    ring = outline["corners"]
    return side if isinstance(side, list) else [ring[side - 1], ring[side % len(ring)]]


@pytest.mark.parametrize("item", each_demo_item("join-and-cut"))
def test_a_demo_item_drawn_by_its_numbers(item: Path, browser: Browser, tmp_path: Path) -> None:
    given = tmp_path / item.name
    given.write_bytes(item.read_bytes())
    with drawn_on(given) as server:
        state = Asked(server).state
    base, *pieces = state["outlines"]
    path = tmp_path / "drawn.yaml"
    with opened_table(browser, path) as page:
        hands = Numbers(page)
        hands.outline(base["corners"])
        for hole in base["holes"]:
            hands.press("draw-hole")
            hands.outline(hole)
        for piece in pieces:
            hands.press("tool-draw")
            hands.outline(piece["corners"])
            if hands.by_key("piece-name").input_value() != piece["name"]:
                with hands.change():
                    hands.by_key("piece-name").fill(piece["name"])
                    page.keyboard.press("Enter")
            hands.by_key(f"piece-piece-{piece['name']}").click()
            hands.still()
            if piece["does"] == "cut":
                with hands.change():
                    hands.press("does-cut")
            # The coordinates of the piece begin at its lower left, so its mark is told by the outline as it is drawn.
            partner = base if piece["of"] == "base" else next(each for each in pieces if each["name"] == piece["of"])
            hands.press("tool-marry")
            hands.side(piece, ends_of(piece["side"], piece))
            before = hands.revision()
            meets = ends_of(piece["meets"], partner)
            begins = hands.side(partner, meets)
            if page.locator('[data-key="ask-mark"]').count():
                hands.press("ask-mark")
            hands._until(lambda before=before: hands.revision() > before, "it is not married")  # type: ignore[misc]
            hands.still()
            start = number(min(far(begins, end) for end in meets))
            if float(hands.by_key("met-from").input_value()) != pytest.approx(float(start), abs=1e-3):
                with hands.change():
                    hands.by_key("met-from").fill(start)
                    page.keyboard.press("Enter")
            if piece["turned"]:
                with hands.change():
                    hands.by_key(f"turned-piece-{piece['name']}").fill(number(piece["turned"]))
                    page.keyboard.press("Enter")
        expect(page.locator("#verdict .fault")).to_contain_text(["options"])  # and nothing else
        with hands.change():
            hands.press("make-options")
    drawn, demo = load_solution(path), load_solution(item)
    assert drawn.sound
    assert drawn.outline.area == pytest.approx(demo.outline.area, rel=1e-3)
    assert list(drawn.turns_deg) == pytest.approx(list(demo.turns_deg), abs=0.1)
