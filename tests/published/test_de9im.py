"""Which joins and cuts are legal, against the intersection patterns of DE-9IM.

Source: OGC 06-103r4 for the relations; "joined along a line" is FF*F1****, derived from touches. The pairs of squares
and their matrices were computed for our references (section 1.5).
"""

from __future__ import annotations

import pytest

from explainers.geometry import overlay
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Ring

SQUARE = Outline.of([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)])
TOLERANCE = 1e-3


def box(left: float, bottom: float, right: float, top: float) -> Ring:
    return ((left, bottom), (right, bottom), (right, top), (left, top))


@pytest.mark.parametrize(
    ("ring", "along_a_line"),
    [
        (box(1, 0, 2, 1), True),  # a whole side in common
        (box(1, 0.5, 2, 1.5), True),  # a part of one: the same matrix
        (box(1, 1, 2, 2), False),  # a corner only
        (box(0.5, 0.5, 1.5, 1.5), False),  # an overlap
        (box(3, 0, 4, 1), False),  # apart
    ],
)
def test_a_join_needs_a_line_in_common(ring: Ring, along_a_line: bool) -> None:
    assert overlay.has_common_side(SQUARE, Outline.of(ring)) is along_a_line
    result = overlay.joined(SQUARE, ring, TOLERANCE)
    legal = len(result.parts) == 1 and not result.too_much
    assert legal is along_a_line


@pytest.mark.parametrize(
    ("ring", "inside", "parts", "holes"),
    [
        (box(0.25, 0, 0.75, 0.5), True, 1, 0),  # a notch
        (box(0.25, 0.25, 0.75, 0.75), True, 1, 1),  # a hole
        (box(0, 0, 1, 1), True, 0, 0),  # nothing left
        (box(0.5, 0.5, 1.5, 1.5), False, 1, 0),  # reaches outside
        (box(0.25, 0, 0.75, 1), True, 2, 0),  # cut in two
    ],
)
def test_a_cut_lies_inside(ring: Ring, inside: bool, parts: int, holes: int) -> None:
    result = overlay.cut_out(SQUARE, ring, TOLERANCE)
    assert (result.too_much == 0.0) is inside
    assert len(result.parts) == parts
    assert sum(len(part.holes) for part in result.parts) == holes


def test_a_ring_of_seven_squares_touches_itself_and_one_of_eight_does_not() -> None:
    """The heptomino whose hole meets its outside at a corner: area 7, boundary 16 (A000104 against A342537)."""
    cells = [(0, 0), (1, 0), (2, 0), (2, 1), (0, 1), (0, 2), (1, 2)]
    outline = Outline.of(box(0, 0, 1, 1))
    for x, y in cells[1:]:
        outline = overlay.joined(outline, box(x, y, x + 1, y + 1), TOLERANCE).parts[0]
    assert outline.area == pytest.approx(7.0)
    assert overlay.touches_itself_at(outline, TOLERANCE) == pytest.approx((2.0, 2.0))
    whole = overlay.joined(outline, box(2, 2, 3, 3), TOLERANCE).parts[0]
    assert (whole.area, len(whole.holes)) == (pytest.approx(8.0), 1)
    assert overlay.touches_itself_at(whole, TOLERANCE) is None
