"""What was read, shown over what it was read from: each outline with its name, what was passed by with a cross."""

from __future__ import annotations

from xml.etree import ElementTree

import numpy as np

from ..geometry.overlay import pole_of_inaccessibility, regions
from ..geometry.rigid_motion import Point, Ring
from ..geometry.tolerance import authoring_tolerance
from .proposal import Proposal, TracedOutline
from .reading import SURE
from .vision import opencv, picture_of, png_of

__all__ = ["clear_place", "drawing_of", "picture_over"]

_BASE = (30, 30, 200)  # blue, green, red
_PIECE = (190, 80, 0)
_PASSED = (120, 0, 160)
_HALO = (255, 255, 255)
_SVG = "http://www.w3.org/2000/svg"


def picture_over(data: bytes, proposal: Proposal) -> bytes:
    """A PNG of a picture with the outlines that were read from it.

    Raises : as for reading it
    """
    cv2 = opencv()
    picture = picture_of(data)
    pixels = picture.pixels.copy()
    wide = max(1, round(max(pixels.shape) / 700))

    def put(points: Ring) -> list[tuple[int, int]]:
        most = 10 * max(pixels.shape)
        return [
            tuple(int(min(max(value / picture.scale, -most), most)) for value in point)  # type: ignore[misc]
            for point in points
        ]

    for index, outline in enumerate(proposal.outlines):
        colour = _PIECE if index else _BASE
        for ring in outline.on_source:
            places = np.array(put(ring), np.int32)
            cv2.polylines(pixels, [places], True, colour, max(1, wide // 2), cv2.LINE_AA)  # the pen's line seen beneath
            for place in places:
                cv2.circle(pixels, tuple(map(int, place)), 5 * wide, colour, wide, cv2.LINE_AA)
    for passed in proposal.passed:
        if passed.on_source is not None:
            (at,) = put((passed.on_source,))
            cv2.drawMarker(pixels, at, _PASSED, cv2.MARKER_TILTED_CROSS, 12 * wide, wide, cv2.LINE_AA)
    for index, outline in enumerate(proposal.outlines):
        (at,) = put((proposal.plane.on_source(clear_place(outline, proposal)),))
        _words(pixels, _label(outline), at, _PIECE if index else _BASE, wide)
    return png_of(pixels)


def _words(pixels: object, text: str, at: tuple[int, int], colour: tuple[int, int, int], wide: int) -> None:
    cv2 = opencv()
    face, size = cv2.FONT_HERSHEY_SIMPLEX, 0.35 * wide + 0.2
    (across, high), _ = cv2.getTextSize(text, face, size, wide)
    start = (at[0] - across // 2, at[1] + high // 2)
    cv2.putText(pixels, text, start, face, size, _HALO, 4 * wide, cv2.LINE_AA)
    cv2.putText(pixels, text, start, face, size, colour, wide, cv2.LINE_AA)


def drawing_of(proposal: Proposal) -> str:
    """An SVG of the outlines in their places, for a source that is a drawing itself."""
    points = [point for outline in proposal.outlines for point in (*outline.corners, *sum(outline.holes, ()))]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, high = min(y for _, y in points), max(y for _, y in points)
    most = max(right - left, high - low) or 1.0
    edge = 0.08 * most
    # A thousand units across whatever the item's are, so that widths and words are the same in every file.
    by = 1000 / (most + 2 * edge)

    def put(point: Point) -> str:
        return f"{(point[0] - left + edge) * by:.2f},{(high - point[1] + edge) * by:.2f}"

    wide, tall = ((right - left + 2 * edge) * by, (high - low + 2 * edge) * by)
    svg = ElementTree.Element("svg", {"xmlns": _SVG, "viewBox": f"0 0 {wide:.0f} {tall:.0f}"})
    ElementTree.SubElement(svg, "rect", {"width": "100%", "height": "100%", "fill": "white"})
    for index, outline in enumerate(proposal.outlines):
        rings = [" ".join(map(put, ring)) for ring in (outline.corners, *outline.holes)]
        style = {"fill": "#9bb7d4" if index else "#d9d2c5", "fill-opacity": "0.5", "fill-rule": "evenodd"}
        style |= {"stroke": "black", "stroke-width": "4", **({"stroke-dasharray": "14 8"} if index else {})}
        ElementTree.SubElement(svg, "path", {"d": " ".join(f"M{ring}Z" for ring in rings), **style})
    for outline in proposal.outlines:
        at = put(clear_place(outline, proposal)).split(",")
        words = {"x": at[0], "y": at[1], "text-anchor": "middle", "dominant-baseline": "middle"}
        text = ElementTree.SubElement(svg, "text", {**words, "font-family": "sans-serif", "font-size": "30"})
        text.text = _label(outline)
    return ElementTree.tostring(svg, encoding="unicode") + "\n"


def _label(outline: TracedOutline) -> str:
    return outline.name if outline.sure >= SURE else f"{outline.name}?"


def clear_place(outline: TracedOutline, proposal: Proposal) -> Point:
    """A point deep inside an outline, clear of the others that lie in it."""
    left = outline.outline
    tolerance = authoring_tolerance(left.larger_extent)
    for other in proposal.outlines:
        if other is not outline and other.outline.area < outline.outline.area:
            parts = regions(left, other.outline, tolerance)
            left = parts[0] if parts else left
    return pole_of_inaccessibility(left)
