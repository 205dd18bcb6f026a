"""A question drawn by the keyboard alone: corners by arrows, or by their numbers where they are off the paper."""

from __future__ import annotations

import re
from math import dist
from typing import Any

from demo_drawing import Drawn, Ends, Point, Ring, on_side
from hands import Keys

__all__ = ["ByKeys"]


class ByKeys:
    """See ``Drawing``."""

    def __init__(self, hands: Keys) -> None:
        self.hands, self.page = hands, hands.page

    def state(self) -> dict[str, Any]:
        self.hands.until_later()
        return self.hands.told()

    def kind(self, name: str) -> None:
        if name != "join-and-cut":
            self.hands.choose(f"kind-{name}")

    def base(self, outline: dict[str, Any]) -> Drawn:
        keys = self.hands
        if outline["given"] == "ready":
            return self._ready(outline)
        keys.go_to(lambda here: here.startswith("cursor"))
        self._outline(outline["corners"])
        return Drawn(0.0, (0.0, 0.0), keys.told()["outlines"][0]["id"])

    def _ready(self, outline: dict[str, Any]) -> Drawn:
        keys = self.hands
        keys.press("ready-new-open")
        keys.choose("ready-new-kind", outline["ready"])
        for size in (each for each in outline["sizes"] if each["hole"] is None):
            keys.fill(f"ready-new-{outline['ready']}-{size['name']}", _number(size["value"]), send=False)
        with keys.change():
            keys.keys("Enter")
        return Drawn(0.0, (0.0, 0.0), keys.told()["outlines"][0]["id"])

    def hole(self, of: Drawn, ring: Ring) -> None:
        self.hands.press("draw-hole")
        self.hands.go_to(lambda here: here.startswith("cursor"))
        self._outline([of(p) for p in ring])

    def piece(self, outline: dict[str, Any], number: int) -> Drawn:
        keys = self.hands
        keys.press("tool-draw")
        keys.go_to(lambda here: here.startswith("cursor"))
        x, y = self._cursor()
        first = outline["corners"][0]
        self._outline([(px - first[0] + x, py - first[1] + y) for px, py in outline["corners"]])
        mine = keys.told()["outlines"][number + 1]
        if mine["name"] != outline["name"]:
            with keys.change():
                keys.fill("piece-name", outline["name"])
            mine = keys.told()["outlines"][number + 1]
        if outline["does"] == "cut":
            with keys.change():
                keys.choose("does-cut")
        if outline["turned"]:
            with keys.change():
                keys.fill(f"turned-{mine['id']}", _number(outline["turned"]))
        at = mine["corners"][0]
        return Drawn(0.0, (at[0] - first[0], at[1] - first[1]), mine["id"])

    def marry(
        self, piece: Drawn, side: tuple[Point, Point], whole: bool, of: Drawn, meets: tuple[Point, Point]
    ) -> None:
        keys = self.hands
        mine, met = self._side(piece, side), self._side(of, meets)
        self._choose_outline(piece.id)
        keys.keys("s")
        keys.page_down_to(mine[0])
        keys.keys("m")
        keys.page_down_to(met[0])
        before = keys.revision()
        keys.keys("Enter")
        if not whole:  # it is longer than what it meets, so that it is asked
            keys.press("ask-mark")
        keys._until(lambda: keys.revision() > before, "it is not married")
        keys.still()
        if not whole:
            self._along("own-from", min(dist(mine[1], piece(p)) for p in side))
        self._along("met-from", min(dist(met[1], of(p)) for p in meets))

    def _along(self, key: str, start: float) -> None:
        if abs(float(self.hands.by_key(key).input_value()) - start) > 1e-3:
            with self.hands.change():
                self.hands.fill(key, _number(start))

    def _choose_outline(self, id_: str) -> None:
        self.hands.press(f"piece-{id_}")
        self.hands.go_to(lambda here: here.startswith(f"outline|{id_}"))

    def _side(self, outline: Drawn, ends: Ends) -> tuple[str, Point]:
        """The key of the side on which a mark lies, and where that side begins."""
        told = next(each for each in self.hands.told()["outlines"] if each["id"] == outline.id)
        for hole, ring in enumerate([told["corners"], *told["holes"]], start=-1):
            for n, start in enumerate(ring):
                if all(on_side(outline(p), (start, ring[(n + 1) % len(ring)])) for p in ends):
                    return f"side|{outline.id}|{'' if hole < 0 else hole}|{n}", start
        raise AssertionError("the mark lies on no side")

    def press_option(self, key: str) -> None:
        self.hands.until_later()
        with self.hands.change():
            self.hands.press(key)

    def own_option(self, option: dict[str, Any]) -> float:
        keys = self.hands
        keys.press("draw-option")
        keys.go_to(lambda here: here.startswith("cursor"))
        x, y = self._cursor()
        first = option["corners"][0]
        self._outline([(px - first[0] + x, py - first[1] + y) for px, py in option["corners"]])
        drawn = Drawn(0.0, (x - first[0], y - first[1]), "")
        for hole in option["holes"]:
            self.hole(drawn, hole)
        keys.press("put-away")
        return 0.0

    def show_option(self, label: str, turned_deg: float, scale: float) -> None:
        keys = self.hands
        if turned_deg % 15 == 0 and turned_deg % 360:  # by arrows on the sheet itself
            keys.go_to(lambda here: here == f"turn-option-{label}")
            steps = round(((turned_deg + 180) % 360 - 180) / 15)
            with keys.change():
                keys.keys(*["ArrowLeft" if steps > 0 else "ArrowRight"] * abs(steps))
            keys._until(
                lambda: abs((self._option(label)["turned"] - turned_deg) % 360) < 1e-6, "it is turned otherwise"
            )
        elif turned_deg % 360 or scale != 1.0:
            keys.press(f"more-open-{label}")
            if turned_deg:
                with keys.change():
                    keys.fill(f"option-turned-{label}", _number(turned_deg))
            if scale != 1.0:
                with keys.change():
                    keys.fill(f"option-scale-{label}", _number(scale))

    def _option(self, label: str) -> dict[str, Any]:
        return next(option for option in self.hands.told()["options"] if option["label"] == label)

    def make_options(self, seed: int) -> None:
        with self.hands.change():
            self.hands.press("make-options")
        for _ in range(seed - 1):
            with self.hands.change():
                self.hands.press("make-others")

    def _cursor(self) -> Point:
        words = self.page.evaluate("document.activeElement.getAttribute('aria-label')").replace("\u2212", "-")
        found = re.search(r"at (-?[\d.]+), (-?[\d.]+)\.", words)
        assert found is not None, words
        return float(found[1]), float(found[2])

    def _outline(self, ring: Ring) -> None:
        """Corners from where the cursor stands, then closed."""
        keys = self.hands
        with keys.change():
            for point in ring:
                x, y = self._cursor()
                steps = _arrows(point[0] - x, "ArrowRight", "ArrowLeft"), _arrows(point[1] - y, "ArrowUp", "ArrowDown")
                if None in steps:
                    keys.fill("draft-x", _number(point[0]), send=False)
                    keys.fill("draft-y", _number(point[1]))
                    keys.go_to(lambda here: here.startswith("cursor"))
                else:
                    keys.keys(*(steps[0] or ()), *(steps[1] or ()), " ")
            keys.keys("Enter")


def _arrows(by: float, more: str, less: str) -> list[str] | None:
    """Presses that go so far: steps of the paper, then tenths; None where that does not come to it."""
    tenths = round(by * 10)
    if abs(by * 10 - tenths) > 1e-6:
        return None
    whole, rest = divmod(abs(tenths), 10)
    key = more if by > 0 else less
    return [key] * whole + [f"Shift+{key}"] * rest


def _number(value: float) -> str:
    return f"{value:.6f}".rstrip("0").rstrip(".")
