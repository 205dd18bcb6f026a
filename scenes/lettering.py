"""Outlines of a line of text as cubic curves, from the font files of the package.

manim's own Text asks Pango, writes an SVG file and reads it with a general parser: a seventh of a second a line, and
letters stand on whole pixels of Pango's page. The outlines of `typeface` are those of the same font file, set where the
boxes of labels expect them; Text is the oracle of the tests. What is handed out is the outline of all letters together
for an em of 1, starting at the left end of the baseline.
"""

from __future__ import annotations

from functools import cache
from typing import Any

import numpy as np

from explainers.typeface.faces import PathCommand, face

__all__ = ["letters"]

Points = np.ndarray[Any, np.dtype[np.float64]]

_ALONG = np.array([0.0, 1.0, 2.0, 3.0])[:, None] / 3.0


@cache
def letters(text: str, *, bold: bool = False) -> Points:
    """Cubic curves of a line of text, shape (4 n, 3), em 1, from the left end of the baseline, y up.

    Raises : FontError for a character that the typeface lacks
    """
    curves = [curve for command in _closed(face(bold).glyph_paths(text, 1.0)) for curve in command]
    outline = np.zeros((4 * len(curves), 3))
    if curves:
        outline[:, :2] = np.concatenate(curves)
    outline.flags.writeable = False  # shared by every label with these words
    return outline


def _closed(commands: tuple[PathCommand, ...]) -> list[list[Points]]:
    """The curves of each contour; every contour ends where it starts, to the last bit."""
    contours: list[list[Points]] = []
    start = here = np.zeros(2)
    for verb, points in commands:
        if verb == "M":
            contours.append([])
            start = here = np.array(points[0])
            continue
        ends = [np.array(point) for point in points]
        if verb == "Z":
            if np.abs(here - start).max() > 1e-9:
                contours[-1].append(_side(here, start))
            elif contours[-1]:
                contours[-1][-1][3] = start
            continue
        contours[-1].append(_curve(verb, here, ends))
        here = ends[-1]
    return contours


def _curve(verb: str, start: Points, points: list[Points]) -> Points:
    if verb == "L":
        return _side(start, points[0])
    if verb == "Q":  # a quadratic curve, its degree raised
        control, end = points
        return np.stack([start, start + (control - start) * (2 / 3), end + (control - end) * (2 / 3), end])
    return np.stack([start, *points])


def _side(start: Points, end: Points) -> Points:
    curve: Points = start + _ALONG * (end - start)
    curve[3] = end
    return curve
