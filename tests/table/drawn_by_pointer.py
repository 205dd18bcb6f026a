"""A question drawn by a mouse or by fingers alone: whatever is off the squares is reached by other paper."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, dist, floor, log
from typing import Any

from demo_drawing import NEAR, Drawn, Point, Ring, lattice, turned
from hands import Fingers, Mouse
from playwright.sync_api import expect

__all__ = ["ByPointer"]

_PAPERS = [("squares", 1.0, 0.0), ("triangles", 1.0, 0.0), ("squares", 1.0, 45.0), ("squares", 1.0, -45.0),
           ("squares", 0.2, 0.0)]  # fmt: skip
_FOOT = 64  # pixels of the paper under its buttons
EMPTY = """
([dx, dy]) => {
  const box = document.querySelector("#paper").getBoundingClientRect(), found = [];
  for (let y = box.top + 20; y < Math.min(innerHeight, box.bottom) - 70; y += 14) {
    for (let x = box.left + 20; x < box.right - 20; x += 14) {
      const at = document.elementFromPoint(x, y);
      if (at?.closest("#paper") && !at.closest(".hit")) found.push([x, y]);
    }
  }
  const room = ([x, y]) => -x * Math.sign(dx) - y * Math.sign(dy);
  return found.sort((a, b) => room(b) - room(a))[0] ?? null;
}
"""  # a place of the paper with nothing on it, from which there is room to drag that way


class ByPointer:
    """See ``Drawing``."""

    def __init__(self, hands: Mouse | Fingers) -> None:
        self.hands, self.page = hands, hands.page
        self.paper = ("squares", 1.0)
        self.beside: set[str] = set()  # gestures that were needed besides clicks on the squares

    def state(self) -> dict[str, Any]:
        self.hands.until_later()
        return self.hands.told()

    def kind(self, name: str) -> None:
        if name != "join-and-cut":
            with self.hands.change():
                self.hands.press(f"kind-{name}")

    def base(self, outline: dict[str, Any]) -> Drawn:
        ring = outline["corners"]
        if _paper_for(ring) is None:
            return self._ready(outline)
        turn, points = self._on_paper(ring)
        assert not turn, "the base lies where it lies"
        self._outline(points)
        return Drawn(0.0, (0.0, 0.0), self.hands.told()["outlines"][0]["id"])

    def _ready(self, outline: dict[str, Any]) -> Drawn:
        """A ready outline: its counts by buttons, its sizes by their grips."""
        self.beside.add("ready outline")
        hands = self.hands
        hands.press("drop-draft")
        hands.press("ready-new-open")
        hands.by_key("ready-new-kind").select_option(outline["ready"])  # a list opened and one of it pressed
        hands.count += 2
        with hands.change():
            hands.press("ready-new-put")
        mine = hands.told()["outlines"][0]["id"]
        for size in outline["sizes"]:
            if size["counts"]:
                while (now := _size(hands.told(), size["name"])["value"]) != size["value"]:
                    with hands.change():
                        hands.press(f"size--{size['name']}-{'more' if now < size['value'] else 'less'}")
        self.on(("squares", 0.2))
        for n, size in enumerate(outline["sizes"]):
            if not size["counts"]:
                hands.press("fit")
                now = _size(hands.told(), size["name"])
                m = max(now["moves"], key=lambda move: dist(move, (0, 0)))
                hands.by_key(f"size|{mine}||{n}").scroll_into_view_if_needed()
                grip = hands.by_key(f"size|{mine}||{n}").bounding_box()
                assert grip is not None
                scale, by = float(hands.paper.get_attribute("data-scale") or 0), size["value"] - now["value"]
                x, y = grip["x"] + grip["width"] / 2, grip["y"] + grip["height"] / 2
                with hands.change():
                    hands.drag_on_screen((x, y), (x + m[0] * by * scale, y - m[1] * by * scale))
        return Drawn(0.0, (0.0, 0.0), mine)

    def hole(self, of: Drawn, ring: Ring) -> None:
        turn, points = self._on_paper([of(p) for p in ring])
        assert not turn
        shift = self.hands.shift(of.id)
        moved = [(x + shift[0], y + shift[1]) for x, y in points]
        self.hands.press_until("draw-hole", '#paper[data-tool="draw"]')
        self._outline(moved)
        if of.id.startswith("own-"):
            return
        self.see([moved])

    def piece(self, outline: dict[str, Any], number: int) -> Drawn:
        hands = self.hands
        turn, points = self._on_paper(outline["corners"])
        aside = self._beside(points)
        hands.press_until("tool-draw", '#paper[data-tool="draw"]')
        self._outline([(x + aside[0], y + aside[1]) for x, y in points])
        mine = hands.told()["outlines"][number + 1]
        if outline["does"] == "cut":
            with hands.change():
                hands.press("does-cut")
        if (deg := (outline["turned"] - turn) % 360) > 1e-6:
            with hands.change():
                hands.turn_on_dial(mine["id"], deg)
        first, (x, y) = mine["corners"][0], turned(outline["corners"][0], turn)
        return Drawn(turn, (first[0] - x, first[1] - y), mine["id"])

    def marry(
        self, piece: Drawn, side: tuple[Point, Point], whole: bool, of: Drawn, meets: tuple[Point, Point]
    ) -> None:
        hands = self.hands
        mine, met = [piece(p) for p in side], [of(p) for p in meets]
        boxes = [_moved(ring, hands.shift(id_)) for ring, id_ in ((mine, piece.id), (met, of.id))]
        self.see(boxes)
        hands.press_until("tool-marry", '#paper[data-tool="marry"]')
        if whole:
            hands.click(_middle(mine), piece.id)
        else:
            self.beside.add("part of its own side")
            hands.drag(mine[0], mine[1], piece.id)
        expect(self.page.locator("#hand")).to_contain_text("is chosen")
        with hands.change():
            hands.click(_middle(met), of.id)

    def press_option(self, key: str) -> None:
        self.hands.until_later()
        with self.hands.change():
            self.hands.press(key)

    def own_option(self, option: dict[str, Any]) -> float:
        hands = self.hands
        if _paper_for(option["corners"]) is None:
            return self._from_the_right_one(option)
        turn, points = self._on_paper(option["corners"])
        aside = self._beside(points)
        hands.press_until("draw-option", '#paper[data-tool="draw"]')
        self._outline([(x + aside[0], y + aside[1]) for x, y in points])
        told = hands.told()["options"]
        mine = told[-1]["corners"][0]
        x, y = turned(option["corners"][0], turn)
        drawn = Drawn(turn, (mine[0] - x, mine[1] - y), f"own-{len(told) - 1}")
        for hole in option["holes"]:
            self.hole(drawn, hole)
        hands.press("put-away")
        return turn

    def _from_the_right_one(self, option: dict[str, Any]) -> float:
        """A copy of the right outline, whose hole is made another: what is off every paper need not be drawn."""
        self.beside.add("copy of the right one")
        hands = self.hands
        with hands.change():
            hands.press("copy-right")
        mine = f"own-{len(hands.told()['options']) - 1}"
        for number in range(len(hands.told()["options"][-1]["holes"])):
            side = hands.told()["options"][-1]["holes"][number]
            self.see([_moved(side, hands.shift(mine))])
            hands.click(_middle(side[:2]), mine)
            with hands.change():
                hands.press("remove-hole")
        for hole in option["holes"]:
            self.hole(Drawn(0.0, (0.0, 0.0), mine), hole)
        hands.press("put-away")
        return 0.0

    def show_option(self, label: str, turned_deg: float, scale: float) -> None:
        hands = self.hands
        if turned_deg % 360 > 1e-6:
            with hands.change():
                hands.turn_on_sheet(f"turn-option-{label}", turned_deg)
        if scale != 1.0:
            hands.press(f"more-open-{label}")
            while abs((now := _option(hands.told(), label)["scale"]) - scale) > 1e-6:
                with hands.change():
                    hands.press(f"option-{'smaller' if now > scale else 'larger'}-{label}")

    def make_options(self, seed: int) -> None:
        with self.hands.change():
            self.hands.press("make-options")
        for _ in range(seed - 1):
            with self.hands.change():
                self.hands.press("make-others")

    # the paper

    def on(self, paper: tuple[str, float]) -> None:
        """Take other paper."""
        if paper == self.paper:
            return
        hands = self.hands
        hands.press("paper-open")
        if paper[0] != self.paper[0]:
            self.beside.add(paper[0])
            hands.press(f"paper-{paper[0]}")
        if paper[1] != self.paper[1]:
            self.beside.add("spacing")
            hands.press("spacing-fifths" if paper[1] < self.paper[1] else "spacing-fives")
        hands.press("paper-open")
        self.paper = paper

    def see(self, rings: Iterable[Ring]) -> None:
        """Have some rings of the paper in sight, large enough to be told apart: by wheel or two fingers."""
        hands, points = self.hands, [p for ring in rings for p in ring]
        hands.paper.scroll_into_view_if_needed()
        box = hands.paper.bounding_box()
        assert box is not None
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        wide, high = max(xs) - min(xs) + 2 * self.paper[1], max(ys) - min(ys) + 2 * self.paper[1]
        room = (box["width"] - 60, box["height"] - _FOOT - 60)
        wanted = min(room[0] / wide, room[1] / high, 90.0 / self.paper[1], 390.0)
        for _ in range(30):
            factor = wanted / float(hands.paper.get_attribute("data-scale") or 1)
            if abs(log(factor)) < 0.05:
                break
            hands.zoom(min(1.5, max(1 / 1.5, factor)))
        for _ in range(12):
            x, y = hands.client(((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2))
            dx = box["x"] + box["width"] / 2 - x
            dy = box["y"] + (box["height"] - _FOOT) / 2 - y
            if abs(dx) < 20 and abs(dy) < 20:
                return
            empty = self.page.evaluate(EMPTY, [dx, dy])
            assert empty is not None
            hands.pan(empty, dx, dy)
        raise AssertionError("the paper does not come where it is wanted")

    def _on_paper(self, ring: Ring) -> tuple[float, Ring]:
        """The paper on which a ring can be drawn by snapping, taken up: (how far it is turned for that, its points)."""
        found = _paper_for(ring)
        assert found is not None, "no paper has these corners"
        kind, spacing, turn = found
        if turn:
            self.beside.add("drawn turned")
        self.on((kind, spacing))
        nearest = lattice(kind, spacing)
        return turn, [nearest(turned(p, turn)) for p in ring]

    def _beside(self, ring: Ring) -> Point:
        """A place to the right of all there is, as a shift that keeps the points of the paper."""
        right = max((x for points in self.hands.frames() for x, _ in points), default=-2.0)
        return float(ceil(right) + 2 - floor(min(x for x, _ in ring))), 0.0

    def _outline(self, points: Ring) -> None:
        self.see([points])
        with self.hands.change():
            for point in (*points, points[0]):
                self.hands.click(point)


def _paper_for(ring: Ring) -> tuple[str, float, float] | None:
    near = NEAR / 2 * max(max(p) - min(p) for p in zip(*ring, strict=True))
    for kind, spacing, turn in _PAPERS:
        nearest = lattice(kind, spacing)
        if all(dist(nearest(p), p) < near for p in (turned(p, turn) for p in ring)):
            return kind, spacing, turn
    return None


def _moved(ring: Iterable[Point], by: Point) -> Ring:
    return [(x + by[0], y + by[1]) for x, y in ring]


def _middle(ends: Ring) -> Point:
    return (ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2


def _size(state: dict[str, Any], name: str) -> dict[str, Any]:
    return next(size for size in state["outlines"][0]["sizes"] if size["name"] == name)


def _option(state: dict[str, Any], label: str) -> dict[str, Any]:
    return next(option for option in state["options"] if option["label"] == label)
