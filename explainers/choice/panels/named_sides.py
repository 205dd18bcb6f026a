"""Sides and corners by the numbers that they have in the order of the file: side n runs from corner n to the next."""

from __future__ import annotations

import re

from ...document.notation import shown, shown_pair, shown_point
from ...geometry.locate import span_on
from ...geometry.rigid_motion import Point, Ring
from ...geometry.rings import sides
from ...words.mark_names import the_mark
from ...words.names import sentence_case
from ..question import Question

__all__ = ["broken_line", "closing_lines", "corner_line", "side_line", "side_named"]


_HOLE = re.compile(r"\.holes\[(\d+)\]")


def side_named(ring: Ring, pair: tuple[Point, Point], tolerance: float) -> str:
    """A marked side in a sentence: "side 2", "a part of side 3", or by its ends where no one side of the ring has it.

    ring : as listed in the file
    """
    span = span_on((ring,), pair, tolerance)
    if span is None:
        return f"the side from {shown_pair(pair)}"
    number = sides(ring).index(span.whole) + 1
    return f"a part of side {number}, {shown_pair(pair)}," if span.is_part else f"side {number}"


def corner_line(ring: Ring) -> str:
    """Every corner by its number."""
    return "Corners: " + ", ".join(f"{number} {shown_point(corner)}" for number, corner in enumerate(ring, start=1))


def broken_line(ring: Ring) -> str:
    """The corners of an outline up to where it breaks."""
    return f"{corner_line(ring)}; from there on it cannot be read, or does not lead back"


def side_line(ring: Ring, marked: tuple[Point, Point], mark: str, what: str, tolerance: float) -> str:
    """Where a mark stands on a ring, and what it is for."""
    where = side_named(ring, marked, tolerance).rstrip(",")
    return f"{sentence_case(the_mark(mark))}: {where}, {shown(_length(marked))} long; {what}."


def closing_lines(item: Question, path: str) -> list[str]:
    """Of each walk that is told below a field, the side that brings it back to its start."""
    lines = []
    for closing in item.closing:
        if closing.path.startswith(f"{path}."):
            hole = _HOLE.search(closing.path)
            whose = f"The walk of hole {int(hole[1]) + 1}" if hole else "The walk"
            how = "by the word close" if closing.asked else "by a side that no step gives"
            lines.append(f"{whose} is closed {how}: {shown_pair(closing.side)}, {closing.length:.4g} long.")
    return lines


def _length(pair: tuple[Point, Point]) -> float:
    (ax, ay), (bx, by) = pair
    return float(((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5)
