"""A demo item read as a list of gestures: what whoever draws it anew does, by mouse, by touch or by keys.

The driver knows the item only as the page's program tells it (outlines, marks, turns, options as they come out) and
gives gestures from that; whoever does them (``ByPointer``, ``ByKeys``) knows nothing of the item.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import cos, dist, radians, sin, sqrt
from pathlib import Path
from typing import Any, Protocol

from asking import Page as Asked
from asking import drawn_on

from explainers.choice.model import Solution
from explainers.geometry.congruence import motions_onto
from explainers.geometry.outline import Outline

__all__ = [
    "Point",
    "Ring",
    "ShownTwice",
    "draw_question",
    "on_side",
    "outline_in",
    "same_as_shown",
    "told_of",
    "turned",
]

Point = tuple[float, float]
Ring = Sequence[Point]
Ends = tuple[Point, Point]
Told = dict[str, Any]
NEAR = 2e-3  # of the larger extent: what was typed rounded, and is drawn exactly


@dataclass(frozen=True, slots=True)
class Drawn:
    """Where the points of a demo outline came to lie in the file that is drawn."""

    turn_deg: float
    shift: Point
    id: str

    def __call__(self, point: Point) -> Point:
        """The same point of the drawing."""
        x, y = turned(point, self.turn_deg)
        return x + self.shift[0], y + self.shift[1]


class Drawing(Protocol):
    """Somebody who draws; each method does the gestures for one thing and waits for what comes of them."""

    def state(self) -> Told:
        """As the program tells it now."""

    def kind(self, name: str) -> None:
        """Choose the kind of question on an empty page."""

    def base(self, outline: Told) -> Drawn:
        """Draw the first outline, where it lies."""

    def hole(self, of: Drawn, ring: Ring) -> None:
        """Draw a hole in an outline that is chosen."""

    def piece(self, outline: Told, number: int) -> Drawn:
        """Draw a piece, whether it is cut, and how the sheet shows it."""

    def marry(
        self, piece: Drawn, side: tuple[Point, Point], whole: bool, of: Drawn, meets: tuple[Point, Point]
    ) -> None:
        """Marry a side of a piece, or a part of it, to where it meets; all in the demo's coordinates."""

    def press_option(self, key: str) -> None:
        """Add an option by its button."""

    def own_option(self, option: Told) -> float:
        """Draw an option by hand, with its holes; by how much it was drawn turned."""

    def show_option(self, label: str, turned_deg: float, scale: float) -> None:
        """Turn an option on the sheet, and give it its size."""

    def make_options(self, seed: int) -> None:
        """Have them made, others until it is those of the seed."""


def turned(point: Point, deg: float) -> Point:
    """About the origin, anticlockwise."""
    c, s = cos(radians(deg)), sin(radians(deg))
    return c * point[0] - s * point[1], s * point[0] + c * point[1]


def told_of(item: Path, folder: Path) -> Told:
    """The state of a demo item, with what its options come out as."""
    given = folder / item.name
    given.write_bytes(item.read_bytes())
    with drawn_on(given) as server:
        return Asked(server).state


def outline_in(told: Told) -> Outline:
    """An outline of a state."""
    return Outline.of(map(tuple, told["corners"]), [list(map(tuple, hole)) for hole in told["holes"]])


def on_side(point: Point, ends: Ends) -> bool:
    """Whether a point lies on a side."""
    return abs(dist(ends[0], point) + dist(point, ends[1]) - dist(*ends)) < NEAR * max(1.0, dist(*ends))


def draw_question(hands: Drawing, demo: Told) -> None:
    """All of a demo item, from an empty page."""
    hands.kind(demo["kind"])
    base, *pieces = demo["outlines"]
    drawn = {"base": hands.base(base)}
    for hole in base["holes"]:
        hands.hole(drawn["base"], hole)
    for number, piece in enumerate(pieces):
        mine = drawn[piece["name"]] = hands.piece(piece, number)
        partner = next(each for each in demo["outlines"] if each["id"] in (piece["of"], f"piece-{piece['of']}"))
        side, meets = _ends(piece["side"], piece), _ends(piece["meets"], partner)
        whole = any({*side} == {*each} for each in _sides(piece["corners"]))
        hands.marry(mine, side, whole, drawn[piece["of"]], meets)
    if demo["made"]:
        hands.make_options(demo["made"]["seed"])
        return
    shown = []
    for option in demo["options"]:
        by_hand = bool(option["corners"]) and not option["same"]
        slip = None if by_hand or option["same"] else _slip_for(hands, option)
        turn_deg = 0.0
        if option["same"]:
            hands.press_option("add-right")
        elif slip is not None:
            hands.press_option(slip)
        else:
            turn_deg = hands.own_option(option if by_hand else {**option, **option["outline"]})
        shown.append((option["label"], option["turned"] - turn_deg, option["scale"]))
    for label, deg, scale in shown:
        hands.show_option(label, deg, scale)


def _slip_for(hands: Drawing, option: Told) -> str | None:
    """The button of the slip that makes an outline, as one finds it by its picture; None where none does."""
    wanted = outline_in(option["outline"])
    for slip in hands.state()["later"]["slips"]:
        if _same_size(outline_in(slip["outline"]), wanted):
            return f"slip-{slip['slip']}-{slip['piece'] or 'null'}"
    return None


def _same_size(one: Outline, other: Outline) -> bool:
    return any(abs(motion.scale - 1.0) < NEAR for motion in motions_onto(one, other, NEAR * other.larger_extent))


def _ends(side: Any, outline: Told) -> Ends:
    ring = [tuple(corner) for corner in outline["corners"]]
    a, b = side if isinstance(side, list) else (ring[side - 1], ring[side % len(ring)])
    return tuple(a), tuple(b)


def _sides(ring: Sequence[Any]) -> list[Ends]:
    return [(tuple(p), tuple(ring[(n + 1) % len(ring)])) for n, p in enumerate(ring)]


class ShownTwice:
    """What a drawn question and its demo item have in common."""

    def __init__(self, drawn: Solution, demo: Solution) -> None:
        self.drawn, self.demo = drawn, demo

    def check(self) -> None:
        """Outline, key, turns, verdicts, and each option as the sheet shows it."""
        drawn, demo = self.drawn, self.demo
        near = NEAR * demo.outline.larger_extent
        assert drawn.sound and drawn.key == demo.key
        assert any(
            abs(motion.scale - 1) < NEAR and dist(motion.shift, (0, 0)) < 3 * near and abs(motion.turn_deg) < 0.1
            for motion in motions_onto(drawn.outline, demo.outline, near)
        )
        told = [[(each.label, each.same, each.mirrored) for each in one.verdicts] for one in (drawn, demo)]
        assert told[0] == told[1]
        turns = [getattr(one, "turns_deg", ()) for one in (drawn, demo)]
        assert len(turns[0]) == len(turns[1])
        for one, other in zip(*turns, strict=True):
            assert abs((one - other + 180) % 360 - 180) < 0.1, turns
        for one, other in zip(drawn.verdicts, demo.verdicts, strict=True):
            assert same_as_shown(one.outline.moved(one.drawn), other.outline.moved(other.drawn)), one.label


def same_as_shown(one: Outline, other: Outline) -> bool:
    """Whether two outlines are seen alike: of one size, turned alike, wherever they lie."""
    found = motions_onto(one, other, NEAR * other.larger_extent)
    return any(abs(motion.scale - 1) < NEAR and abs(motion.turn_deg) < 0.15 for motion in found)


def lattice(kind: str, spacing: float) -> Callable[[Point], Point]:
    """The nearest point on which a corner snaps: of squares and half squares, or of triangles."""
    if kind == "squares":
        return lambda p: (round(p[0] * 2 / spacing) * spacing / 2, round(p[1] * 2 / spacing) * spacing / 2)
    high = spacing * sqrt(3) / 2

    def nearest(p: Point) -> Point:
        row = round(p[1] / high)
        return (round(p[0] / spacing - row / 2) + row / 2) * spacing, row * high

    return nearest
