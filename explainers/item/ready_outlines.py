"""Ready outlines with sizes: ``ready: {L: {wide: 4, high: 4, stem: 2, arm: 2}}``.

Each runs anticlockwise from its corner 1, which lies at (0, 0) unless the item says ``from``. A new one is a row of
``READY``: its sizes, its corners, and which sizes do not go together.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from ..document.notation import shown
from ..geometry.rigid_motion import Point, Ring

__all__ = ["READY", "MisfitSize", "ReadyOutline", "Size"]

Sizes = Mapping[str, float]
MisfitSize = tuple[str, str, str]  # the size, what is wrong, how to mend it
MOST_SIDES = 60
MOST_STEPS = 50


@dataclass(frozen=True, slots=True)
class Size:
    """One size of a ready outline, more than 0 in item units unless it is a count."""

    name: str
    what: str
    counts: tuple[int, int] | None = None  # least and most, for a whole number
    optional: bool = False


@dataclass(frozen=True, slots=True)
class ReadyOutline:
    """One kind of ready outline."""

    what: str
    sizes: tuple[Size, ...]
    corners: Callable[[Sizes], Ring]
    example: str  # of its sizes, as typed
    misfits: Callable[[Sizes], Iterator[MisfitSize]] = lambda sizes: iter(())


def _rectangle(sizes: Sizes) -> Ring:
    w, h = sizes["wide"], sizes["high"]
    return (0.0, 0.0), (w, 0.0), (w, h), (0.0, h)


def _right_triangle(sizes: Sizes) -> Ring:
    return (0.0, 0.0), (sizes["wide"], 0.0), (0.0, sizes["high"])


def _regular_polygon(sizes: Sizes) -> Ring:
    count, side = int(sizes["sides"]), sizes["long"]
    ring: list[Point] = [(0.0, 0.0)]
    for index in range(count - 1):
        turn = math.tau * index / count
        x, y = ring[-1]
        ring.append((x + side * math.cos(turn), y + side * math.sin(turn)))
    return tuple(ring)


def _l_shape(sizes: Sizes) -> Ring:
    w, h, stem, arm = (sizes[name] for name in ("wide", "high", "stem", "arm"))
    return (0.0, 0.0), (w, 0.0), (w, arm), (stem, arm), (stem, h), (0.0, h)


def _t_shape(sizes: Sizes) -> Ring:
    w, h, stem, arm = (sizes[name] for name in ("wide", "high", "stem", "arm"))
    left = -sizes.get("left", (w - stem) / 2)
    right, below = left + w, h - arm
    return (0.0, 0.0), (stem, 0.0), (stem, below), (right, below), (right, h), (left, h), (left, below), (0.0, below)


def _u_shape(sizes: Sizes) -> Ring:
    w, h, stem, arm = (sizes[name] for name in ("wide", "high", "stem", "arm"))
    inner = w - stem
    return (0.0, 0.0), (w, 0.0), (w, h), (inner, h), (inner, arm), (stem, arm), (stem, h), (0.0, h)


def _steps(sizes: Sizes) -> Ring:
    count, w, h = int(sizes["count"]), sizes["wide"], sizes["high"]
    ring: list[Point] = [(0.0, 0.0)]
    for index in range(count):
        x = (count - index) * w
        ring += [(x, index * h), (x, (index + 1) * h)]
    return (*ring, (0.0, count * h))


def _narrower(sizes: Sizes, small: str, large: str, times: int = 1) -> Iterator[MisfitSize]:
    """A size that must leave room in another one."""
    if times * sizes[small] >= sizes[large]:
        of = f"twice {small}" if times == 2 else small
        yield (
            small,
            f"{of} is {shown(times * sizes[small])}, which leaves nothing of {large} {shown(sizes[large])}",
            f"write a {small} below {shown(sizes[large] / times)}",
        )


def _l_misfits(sizes: Sizes) -> Iterator[MisfitSize]:
    yield from _narrower(sizes, "stem", "wide")
    yield from _narrower(sizes, "arm", "high")


def _t_misfits(sizes: Sizes) -> Iterator[MisfitSize]:
    yield from _l_misfits(sizes)
    room = sizes["wide"] - sizes["stem"]
    if 0 < room <= sizes.get("left", 0.0):
        yield (
            "left",
            f"left is {shown(sizes['left'])}, which leaves nothing of the bar on the right of the stem",
            f"write a left below {shown(room)}, leave it out for a stem in the middle, or take an L",
        )


def _u_misfits(sizes: Sizes) -> Iterator[MisfitSize]:
    yield from _narrower(sizes, "stem", "wide", times=2)
    yield from _narrower(sizes, "arm", "high")


_WIDE = Size("wide", "how wide it is in all")
_HIGH = Size("high", "how high it is in all")

READY: dict[str, ReadyOutline] = {
    "rectangle": ReadyOutline(
        "corner 1 is at the bottom left, side 1 is the bottom", (_WIDE, _HIGH), _rectangle, "{wide: 4, high: 2}"
    ),
    "right-triangle": ReadyOutline(
        "the right angle is corner 1, at the bottom left; side 2 is the slanted one",
        (_WIDE, _HIGH),
        _right_triangle,
        "{wide: 2, high: 2}",
    ),
    "regular-polygon": ReadyOutline(
        "all sides and angles equal; side 1 is the bottom, corner 1 its left end",
        (Size("sides", "how many sides", counts=(3, MOST_SIDES)), Size("long", "how long each side is")),
        _regular_polygon,
        "{sides: 6, long: 2}",
    ),
    "L": ReadyOutline(
        "a stem on the left, an arm along the bottom; corner 1 is at the bottom left",
        (_WIDE, _HIGH, Size("stem", "how wide the stem is"), Size("arm", "how high the arm is")),
        _l_shape,
        "{wide: 4, high: 4, stem: 2, arm: 2}",
        _l_misfits,
    ),
    "T": ReadyOutline(
        "a stem below a bar; corner 1 is the bottom left of the stem",
        (
            _WIDE,
            _HIGH,
            Size("stem", "how wide the stem is"),
            Size("arm", "how high the bar is"),
            Size("left", "how far the bar reaches past the stem on the left; else on both sides alike", optional=True),
        ),
        _t_shape,
        "{wide: 3, high: 3, stem: 1, arm: 1}",
        _t_misfits,
    ),
    "U": ReadyOutline(
        "two stems on an arm along the bottom; corner 1 is at the bottom left",
        (_WIDE, _HIGH, Size("stem", "how wide each stem is"), Size("arm", "how high the arm is")),
        _u_shape,
        "{wide: 5, high: 4, stem: 1, arm: 2}",
        _u_misfits,
    ),
    "steps": ReadyOutline(
        "stairs that go down to the right; corner 1 is at the bottom left",
        (
            Size("count", "how many steps", counts=(2, MOST_STEPS)),
            Size("wide", "how wide each step is"),
            Size("high", "how high each step is"),
        ),
        _steps,
        "{count: 3, wide: 1, high: 1}",
    ),
}
