"""Arrows and dashes taken apart."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from explainers.figure.model import Arrow, Role
from explainers.figure.strokes import arc, arrow_parts, circle_ring, dashes

SQUARE = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))


def arrow(*path: tuple[float, float], head: float = 0.3) -> Arrow:
    return Arrow(id="a", group="a", role=Role.POINTER, path=path, stroke="#000000", width=0.05, head=head)


def test_the_tip_is_the_last_point_and_the_head_points_on() -> None:
    line, head = arrow_parts(arrow((0.0, 0.0), (1.0, 0.0)))
    assert head[0] == (1.0, 0.0)
    assert [x for x, _ in head[1:]] == pytest.approx([0.7, 0.7])
    assert head[1][1] == -head[2][1] != 0.0
    assert line[0] == (0.0, 0.0)
    assert 0.7 < line[-1][0] < 1.0  # hidden in the head


@given(turn=st.floats(15, 180), sign=st.sampled_from([1, -1]), radius=st.floats(0.4, 2.0))
@settings(max_examples=40, deadline=None)
def test_the_line_of_an_arc_ends_inside_its_head(turn: float, sign: int, radius: float) -> None:
    path = arc((1.0, 2.0), radius, 20.0, sign * turn)
    assert all(math.dist(point, (1.0, 2.0)) == pytest.approx(radius) for point in path)
    line, head = arrow_parts(arrow(*path, head=0.24))
    if radius * math.radians(turn) > 0.3:
        assert shapely.Polygon(head).distance(shapely.Point(line[-1])) < 1e-9
        assert shapely.LineString(line).length < radius * math.radians(turn)


def test_an_arrow_shorter_than_its_head_still_has_one() -> None:
    line, head = arrow_parts(arrow((0.0, 0.0), (0.1, 0.0)))
    assert line[0] == (0.0, 0.0)
    assert shapely.Polygon(head).area > 0


def test_dashes_bend_round_every_corner() -> None:
    pieces = dashes(SQUARE, (0.2, 0.1))
    bent = {piece[1] for piece in pieces if len(piece) == 3}
    assert bent == set(SQUARE)
    total = sum(shapely.LineString(piece).length for piece in pieces)
    assert total == pytest.approx(8.0 * 2 / 3)  # dash to gap as asked


def test_dashes_lie_apart_on_the_path() -> None:
    pieces = [shapely.LineString(piece) for piece in dashes(SQUARE, (0.2, 0.1))]
    ring = shapely.LinearRing(SQUARE)
    assert all(ring.buffer(1e-9).contains(piece) for piece in pieces)
    gaps = [a.distance(b) for i, a in enumerate(pieces) for b in pieces[i + 1 :]]
    assert min(gaps) > 0.05


def test_a_circle_is_dashed_evenly() -> None:
    pieces = dashes(circle_ring((0.0, 0.0), 1.0), (0.2, 0.1))
    lengths = [shapely.LineString(piece).length for piece in pieces]
    assert len(pieces) == 21
    assert max(lengths) - min(lengths) < 0.01


def test_an_open_path_ends_in_dashes() -> None:
    pieces = dashes(((0.0, 0.0), (3.0, 0.0)), (0.2, 0.1), closed=False)
    assert min(x for piece in pieces for x, _ in piece) == 0.0
    assert max(x for piece in pieces for x, _ in piece) == pytest.approx(3.0)
    assert sum(shapely.LineString(piece).length for piece in pieces) == pytest.approx(2.0)


def test_a_side_shorter_than_a_dash_is_dashed_too() -> None:
    sliver = ((0.0, 0.0), (2.0, 0.0), (2.0, 0.05), (0.0, 0.05))
    assert all(len(piece) >= 2 for piece in dashes(sliver, (0.2, 0.1)))
