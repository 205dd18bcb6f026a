"""The sketch of a picture: a sheet put right by its squares, what a pen's lines enclose as rings of straight sides."""

from __future__ import annotations

import math

import numpy as np

from ..geometry.rings import signed_area
from .ink import Drawn, Region, drawn_on, loose_lines, regions_in
from .plane import Plane
from .sketch import MOST_SHAPES, DrawnShape, Passed, Refused, Sketch
from .squares import Squares, squares_of
from .straight import straight_sides
from .vision import Pixels, opencv, picture_of

__all__ = ["sketch_of_picture"]

_TENTHS = 10.0  # units that the largest outline is across, where no squares tell its size
_LEAST = 0.75  # square units: what is smaller is a letter's loop or a blot
_THIN = 0.2  # units: a region that is nowhere deeper lies between two strokes of one line
_LEAST_PIXELS = 60
_STRAYS = 0.09  # units, root mean square: a side that strays more is not straight
_STRAYS_MOST = 0.3
_LONG = 2.0  # squares: a line that is shorter belongs to a letter
_TURNED_DEG = 38.0


def sketch_of_picture(data: bytes, *, unit: float = 1.0) -> Sketch:
    """Every outline that a pen's lines enclose, in its place.

    unit   : how many squares of the paper one item unit is
    Raises : Refused where it is no picture that can be read, or nothing is drawn on it; OutputError where OpenCV is
             not installed
    """
    picture = picture_of(data)
    drawn = drawn_on(picture.pixels)
    squares = squares_of(drawn.paper_lines)
    least = _LEAST_PIXELS if squares is None else max(_LEAST_PIXELS, 0.05 * squares.one**2)
    regions = regions_in(drawn, least_area=least)
    if not regions:
        raise Refused(
            "no closed outline is seen on the picture", "draw each outline as one closed line with a dark pen"
        )
    to_units = _plain_plane(regions) if squares is None else np.diag([1 / unit, 1 / unit, 1.0]) @ squares.to_sheet
    shapes, passed = _shapes(regions, drawn, to_units, picture.scale, certain=squares is not None)
    least = _LONG * (squares.one if squares is not None else max(picture.pixels.shape) / 40)
    for x, y in loose_lines(drawn, regions, least=least)[:_MOST_SMALL]:
        message, fix = "it encloses nothing, perhaps an outline that is not closed", "close it where its ends meet"
        at = (x * picture.scale, y * picture.scale)
        passed.append(Passed(name="a line", message=message, fix=fix, on_source=at))
    remarks, doubts = _told(squares, unit)
    back = np.linalg.inv(to_units)
    first, second, third = (tuple(map(float, row)) for row in np.diag([picture.scale, picture.scale, 1.0]) @ back)
    plane = Plane(((first[0], first[1], first[2]), (second[0], second[1], second[2]), (third[0], third[1], third[2])))
    return Sketch(
        shapes=tuple(shapes),
        passed=tuple(passed),
        remarks=remarks,
        doubts=doubts,
        size=(float(picture.size[0]), float(picture.size[1])),
        plane=plane,
        exact=False,
    )


def _plain_plane(regions: list[Region]) -> Pixels:
    """Pixels to units where no squares were found: y turned up, the largest outline ten units across."""
    largest = regions[0].contour
    across = float(max(np.ptp(largest[:, 0]), np.ptp(largest[:, 1]), 1.0)) / _TENTHS
    return np.array([[1 / across, 0, 0], [0, -1 / across, 0], [0, 0, 1.0]])


def _shapes(
    regions: list[Region], drawn: Drawn, to_units: Pixels, scale: float, *, certain: bool
) -> tuple[list[DrawnShape], list[Passed]]:
    cv2 = opencv()
    shapes, passed = list[DrawnShape](), list[Passed]()
    small = 0
    for number, region in enumerate(regions, start=1):
        points = cv2.perspectiveTransform(region.contour.reshape(1, -1, 2), to_units)[0]
        middle = region.contour.mean(axis=0)
        at = (float(middle[0] * scale), float(middle[1] * scale))
        area = abs(signed_area(tuple(map(tuple, points)))) if len(points) > 2 else 0.0
        one = math.sqrt(region.area / area) if area > 0 else 1.0  # pixels to a unit, here
        if area < _LEAST:
            small += 1
            if small <= _MOST_SMALL:
                message = "it is smaller than a square, perhaps a loop of a letter"
                passed.append(Passed(name="a closed line", message=message, fix="draw it larger", on_source=at))
            continue
        if region.depth / one < _THIN:
            message, fix = "it is thin, perhaps two strokes of one line", "draw each side with one stroke"
            passed.append(Passed(name="a closed line", message=message, fix=fix, on_source=at))
            continue
        found = straight_sides(points, outwards=(drawn.stroke / 2 + 0.5) / one)
        if found is None:
            message, fix = "no straight sides fit it", "draw it with straight sides"
            passed.append(Passed(name="a closed line", message=message, fix=fix, on_source=at))
            continue
        if len(shapes) == MOST_SHAPES:
            raise Refused(
                f"more than {MOST_SHAPES} outlines are seen on the picture",
                "take it nearer, so that only the question is on it",
            )
        doubts = []
        if found.strayed > _STRAYS or found.farthest > _STRAYS_MOST:
            doubts.append("a side of it is not straight")
        sure = 1.0 - 2.0 * found.strayed - (0.3 if doubts else 0.0) - (0.0 if certain else 0.4)
        ring = found.ring
        shapes.append(DrawnShape(name=f"outline {number}", rings=(ring,), sure=max(sure, 0.0), doubts=tuple(doubts)))
    return shapes, passed


_MOST_SMALL = 20  # of which is told


def _told(squares: Squares | None, unit: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What is said of how the sheet was read, and what is to be looked at."""
    letters = "letters beside sides are not read from a picture"
    if squares is None:
        doubt = "no squares were found on the paper, so lengths are tenths of the largest outline, seen as it is"
        return (), (doubt, letters)
    upright, level = squares.lines
    per = f"; {unit:g} squares are 1" if unit != 1.0 else ""
    said = f"{upright} upright and {level} level lines of squared paper put the sheet right; a square is 1{per}"
    said = said.replace("; a square is 1;", ";") if per else said
    doubts = [letters]
    if abs(squares.turned_deg) > _TURNED_DEG:
        doubts.append("the sheet is turned by almost half a right angle, so which way is up is a guess")
    if squares.fit < 0.9:
        doubts.append("the squares were not clearly seen, so that lengths may be wrong")
    return (f"{said}.",), tuple(doubts)
