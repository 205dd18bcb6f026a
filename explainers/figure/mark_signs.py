"""The small signs that mark sides: a leaf, a button, a bell and others from a sewing room, drawn by us.

Each is drawn once, as strokes of one weight round the origin, y up, within a circle of radius 1; some have one part
that is filled. What is handed out is the ink itself: closed rings, filled by the even-odd rule, so that every renderer
draws a sign as it draws any area and all of them draw the same. Signs always stand upright. They are made to be told
apart by their silhouettes at any turn, since a sheet of paper is turned in the hand.

What they are called is said elsewhere (``words/mark_names``). Every name has more letters than a mark that is typed may
have characters, so that a mark says by itself which of both it is.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from math import cos, pi, sin

import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from ..geometry.rigid_motion import Point, Ring
from ..typeface.faces import SIGN_ACROSS
from .model import Area, Label

__all__ = ["SIGNS", "is_sign", "sign_area", "sign_rings"]

_WEIGHT = 0.18  # of every stroke, where the sign's radius is 1
_SMOOTH = 6  # straight parts of a quarter of a round end
_CURVE_PARTS = 12  # and of a curve
_SAME = 0.004  # nobody sees how far the rings may be off

_Path = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class _Drawing:
    """A sign as it is drawn: strokes along lines, closed where they end where they begin, and parts that are filled."""

    strokes: tuple[_Path, ...]
    filled: tuple[_Path, ...] = ()


def _curve(start: Point, *bends: tuple[Point, Point, Point]) -> _Path:
    """A line of cubic curves, each given by its two handles and its end."""
    points = [start]
    for one, other, end in bends:
        ax, ay = points[-1]
        for step in range(1, _CURVE_PARTS + 1):
            t = step / _CURVE_PARTS
            s = 1.0 - t
            weights = (s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t)
            corners = ((ax, ay), one, other, end)
            points.append((sum(w * x for w, (x, _) in zip(weights, corners, strict=True)),
                           sum(w * y for w, (_, y) in zip(weights, corners, strict=True))))  # fmt: skip
    return tuple(points)


def _round(centre: Point, radius: float, start_deg: float = 0.0, end_deg: float = 360.0) -> _Path:
    """A circle, or the arc between two directions, anticlockwise."""
    steps = max(8, round(40 * (end_deg - start_deg) / 360.0))
    angles = ((start_deg + (end_deg - start_deg) * step / steps) * pi / 180.0 for step in range(steps + 1))
    return tuple((centre[0] + radius * cos(angle), centre[1] + radius * sin(angle)) for angle in angles)


def _mirrored(path: Sequence[Point]) -> _Path:
    return tuple((-x, y) for x, y in path)


def _both(path: Sequence[Point]) -> tuple[_Path, _Path]:
    """A path, and the same on the other side of the middle."""
    return tuple(path), _mirrored(path)


def _there_and_back(half: Sequence[Point]) -> _Path:
    """A closed line from its right half, given from the top of the middle to its bottom."""
    return (*half, *_mirrored(half)[::-1])


def _leaf() -> _Drawing:
    """A pointed leaf that hangs to the right of its stalk, with its vein."""
    low, tip = (-0.42, -0.42), (0.60, 0.60)
    upper = _curve(low, ((-0.72, 0.22), (-0.16, 0.68), tip))
    lower = _curve(tip, ((0.68, -0.16), (0.22, -0.72), low))
    return _Drawing(((*upper, *lower[1:]), ((-0.63, -0.63), (0.20, 0.20))))


def _button() -> _Drawing:
    """A round button with two holes."""
    return _Drawing((_round((0.0, 0.0), 0.78),), (_round((-0.27, 0.0), 0.15), _round((0.27, 0.0), 0.15)))


def _bell() -> _Drawing:
    """A bell with its loop and its clapper."""
    half = _curve(
        (0.0, 0.56), ((0.36, 0.56), (0.44, 0.30), (0.46, -0.02)), ((0.48, -0.26), (0.58, -0.36), (0.72, -0.46))
    )
    return _Drawing((_there_and_back(half), ((0.0, 0.56), (0.0, 0.80))), (_round((0.0, -0.62), 0.21),))


def _spool() -> _Drawing:
    """A spool between its two discs, wound with thread."""
    discs = (((-0.58, 0.70), (0.58, 0.70)), ((-0.58, -0.70), (0.58, -0.70)))
    thread = (((-0.34, 0.18), (0.34, 0.36)), ((-0.34, -0.18), (0.34, 0.0)), ((-0.34, -0.54), (0.34, -0.36)))
    return _Drawing((*discs, *_both(((0.34, 0.70), (0.34, -0.70))), *thread))


def _heart() -> _Drawing:
    half = _curve((0.0, 0.38), ((0.16, 0.76), (0.76, 0.80), (0.76, 0.26)), ((0.76, -0.16), (0.26, -0.44), (0.0, -0.76)))
    return _Drawing((_there_and_back(half),))


def _boat() -> _Drawing:
    """A sailing boat: hull, mast, one filled sail."""
    hull = ((-0.80, -0.26), (0.80, -0.26), (0.46, -0.66), (-0.46, -0.66), (-0.80, -0.26))
    return _Drawing((hull, ((0.0, -0.26), (0.0, 0.80))), (((0.16, 0.70), (0.16, 0.0), (0.66, 0.0)),))


def _ribbon() -> _Drawing:
    """A ribbon tied in a bow."""
    loop = _curve((0.0, 0.14), ((0.30, 0.56), (0.80, 0.64), (0.80, 0.38)), ((0.80, 0.06), (0.40, -0.06), (0.0, 0.14)))
    tail = _curve((0.0, 0.14), ((0.16, -0.10), (0.34, -0.36), (0.38, -0.74)))
    return _Drawing((*_both(loop), *_both(tail)), (_round((0.0, 0.14), 0.2),))


def _tulip() -> _Drawing:
    """A tulip on its stalk, with two leaves."""
    half = ((0.0, 0.40), (0.34, 0.76))
    cup = (*half, *_curve((0.34, 0.76), ((0.46, 0.30), (0.36, -0.06), (0.0, -0.06)))[1:])
    blade = _curve((0.0, -0.82), ((0.34, -0.70), (0.58, -0.44), (0.60, -0.20)))
    return _Drawing((_there_and_back(cup), ((0.0, -0.06), (0.0, -0.82)), *_both(blade)))


def _teacup() -> _Drawing:
    """A cup with its handle on the right, on a saucer."""
    left = ((-0.62, -0.20), (-0.40, -0.40), (-0.10, -0.40))
    bowl = _curve((-0.66, 0.44), left, ((0.20, -0.40), (0.42, -0.20), (0.46, 0.44)))
    handle = _curve((0.45, 0.28), ((0.84, 0.40), (0.90, -0.06), (0.34, -0.10)))
    return _Drawing(((*bowl, (-0.66, 0.44)), handle, ((-0.62, -0.64), (0.42, -0.64))))


# In the order in which they are given to the pieces of an item: those before that are told apart most easily.
_DRAWINGS = {
    "leaf": _leaf(),
    "button": _button(),
    "bell": _bell(),
    "spool": _spool(),
    "heart": _heart(),
    "boat": _boat(),
    "ribbon": _ribbon(),
    "tulip": _tulip(),
    "teacup": _teacup(),
}
SIGNS: tuple[str, ...] = tuple(_DRAWINGS)


def is_sign(mark: str) -> bool:
    """Whether a mark is the name of a sign, rather than letters."""
    return mark in _DRAWINGS


def sign_rings(name: str, at: Point, size: float) -> tuple[Ring, ...]:
    """The ink of a sign, as rings to be filled by the even-odd rule.

    at     : its middle
    size   : of the type that it stands among: the em, in stage units
    Raises : KeyError where no sign has that name
    """
    radius = SIGN_ACROSS * size / 2
    return tuple(tuple((at[0] + radius * x, at[1] + radius * y) for x, y in ring) for ring in _ink(name))


def sign_area(label: Label) -> Area:
    """What a label that carries a sign is drawn as: an area of the label's colour that stands for it."""
    return Area(
        id=label.id,
        group=label.group,
        role=label.role,
        alt=label.alt or label.text,
        opacity=label.opacity,
        subject=label.subject,
        rings=sign_rings(label.sign, label.at, label.size),
        fill=label.colour,
    )


@cache
def _ink(name: str) -> tuple[Ring, ...]:
    """The rings of a sign within the circle of radius 1; exteriors and holes in an order that is always the same."""
    drawing = _DRAWINGS[name]
    strokes = (LineString(stroke).buffer(_WEIGHT / 2, quad_segs=_SMOOTH) for stroke in drawing.strokes)
    whole = shapely.union_all([*strokes, *(Polygon(part) for part in drawing.filled)])
    return tuple(_rings(shapely.simplify(whole, _SAME)))


def _rings(shape: BaseGeometry) -> Iterable[Ring]:
    for part in shapely.get_parts(shapely.normalize(shape)):
        for ring in (part.exterior, *part.interiors):
            yield tuple((float(x), float(y)) for x, y in ring.coords[:-1])
