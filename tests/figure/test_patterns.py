"""Patterns turn with their piece, stay on its cloth, and leave room for labels."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from explainers.figure.patterns import dots, hatch
from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.angles import wrapped_deg
from explainers.geometry.rigid_motion import Point, RigidMotion, Ring

SPACING, RADIUS, INSET = DEFAULT_THEME.pattern_spacing, DEFAULT_THEME.dot_radius, DEFAULT_THEME.pattern_inset

TRIANGLE: Ring = ((0.0, 0.0), (2.6, 0.0), (0.0, 2.6))
ELL: Ring = ((0.0, 0.0), (3.0, 0.0), (3.0, 1.2), (1.2, 1.2), (1.2, 3.0), (0.0, 3.0))
FRAME: tuple[Ring, ...] = (
    ((0.0, 0.0), (3.0, 0.0), (3.0, 3.0), (0.0, 3.0)),
    ((1.0, 1.0), (1.0, 2.0), (2.0, 2.0), (2.0, 1.0)),
)
CLOTHS: tuple[tuple[Ring, ...], ...] = ((TRIANGLE,), (ELL,), FRAME)

motions = st.builds(
    lambda turn, x, y: RigidMotion(turn_deg=wrapped_deg(turn), shift=(x, y)),
    st.one_of(st.floats(-180, 180), st.sampled_from([0.0, 45.0, 90.0, 135.0, 180.0, -45.0, 30.0])),
    st.floats(-8, 8),
    st.floats(-8, 8),
)
cloths = st.sampled_from(CLOTHS)


def shape(rings: tuple[Ring, ...]) -> shapely.Polygon:
    return shapely.Polygon(rings[0], rings[1:])


def same_places(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    """Whether two sets of points agree; order is no part of a pattern."""
    return len(one) == len(other) and all(min(math.dist(p, q) for q in other) < 1e-5 for p in one)


def test_the_pattern_of_a_turned_piece_is_the_turned_pattern(cases: Callable[[int, int], int]) -> None:
    @settings(max_examples=cases(40, 600), deadline=None)
    @given(rings=cloths, motion=motions, disc=st.tuples(st.floats(0.2, 1.2), st.floats(0.2, 1.2)))
    def law(rings: tuple[Ring, ...], motion: RigidMotion, disc: Point) -> None:
        turned = tuple(motion.apply(ring) for ring in rings)
        clear, clear_there = [(disc, 0.3)], [(motion.apply_point(disc), 0.3)]
        centres = dots(rings, SPACING, RADIUS, clear=clear, inset=INSET)
        there = dots(turned, SPACING, RADIUS, frame_deg=motion.turn_deg, clear=clear_there, inset=INSET)
        assert same_places(motion.apply(centres), there)

        lines = hatch(rings, SPACING, clear=clear, inset=INSET)
        lines_there = hatch(turned, SPACING, frame_deg=motion.turn_deg, clear=clear_there, inset=INSET)
        ends = tuple(point for pair in lines for point in pair)
        assert same_places(motion.apply(ends), tuple(point for pair in lines_there for point in pair))

    law()


def test_dots_are_whole_and_off_the_outline(cases: Callable[[int, int], int]) -> None:
    @settings(max_examples=cases(25, 300), deadline=None)
    @given(rings=cloths, motion=motions)
    def law(rings: tuple[Ring, ...], motion: RigidMotion) -> None:
        turned = tuple(motion.apply(ring) for ring in rings)
        cloth = shape(turned)
        centres = dots(turned, SPACING, RADIUS, frame_deg=motion.turn_deg, inset=INSET)
        assert len(centres) > 20
        for centre in centres:
            disc = shapely.Point(centre)
            assert cloth.contains(disc)
            assert cloth.boundary.distance(disc) >= RADIUS + INSET - 1e-5

    law()


def test_dots_keep_their_distance() -> None:
    centres = dots((ELL,), SPACING, RADIUS, inset=INSET)
    nearest = min(math.dist(p, q) for p in centres for q in centres if p != q)
    assert nearest == pytest.approx(SPACING)


def test_lines_are_parallel_even_and_on_the_cloth() -> None:
    segments = hatch(FRAME, SPACING, 30.0, inset=INSET)
    cloth = shape(FRAME).buffer(-INSET + 1e-5, join_style="mitre")
    levels = set()
    for (ax, ay), (bx, by) in segments:
        assert math.degrees(math.atan2(by - ay, bx - ax)) == pytest.approx(30.0)
        assert cloth.contains(shapely.LineString(((ax, ay), (bx, by))))
        levels.add(round((-ax * math.sin(math.radians(30)) + ay * math.cos(math.radians(30))) / SPACING, 6))
    ordered = sorted(levels)
    assert all(b - a == pytest.approx(1.0, abs=1e-4) for a, b in pairwise(ordered))
    # The hole is left clear: some lines come in two parts.
    assert len(segments) > len(levels)


def test_the_lines_lean_with_the_frame() -> None:
    for frame_deg in (0.0, 90.0, -137.0):
        (start, end), *_ = hatch((ELL,), SPACING, 45.0, frame_deg=frame_deg)
        lean = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
        assert math.remainder(lean - 45.0 - frame_deg, 180.0) == pytest.approx(0.0, abs=1e-6)


def test_a_clear_disc_stays_clear() -> None:
    disc = ((0.6, 0.7), 0.4)
    for start, end in hatch((ELL,), SPACING, clear=[disc], inset=INSET):
        # shapely's disc is a polygon inside the circle: less than a fiftieth of the radius may be lost
        assert shapely.LineString((start, end)).distance(shapely.Point(disc[0])) >= 0.98 * disc[1]
    for centre in dots((ELL,), SPACING, RADIUS, clear=[disc], inset=INSET):
        assert math.dist(centre, disc[0]) >= disc[1] + RADIUS - 1e-9


def test_a_label_that_moves_does_not_shift_the_other_dots() -> None:
    everything = set(dots((ELL,), SPACING, RADIUS, inset=INSET))
    for x in (0.4, 0.5, 0.6):
        kept = set(dots((ELL,), SPACING, RADIUS, clear=[((x, 0.6), 0.3)], inset=INSET))
        assert kept < everything


def test_a_narrow_piece_is_not_left_bare() -> None:
    strip: Ring = ((0.0, 0.0), (2.0, 0.0), (2.0, 0.24), (0.0, 0.24))
    assert len(dots((strip,), SPACING, RADIUS, anchor=(0.0, 0.0), inset=INSET)) >= 6


def test_two_parts_and_nothing_at_all() -> None:
    far: Ring = tuple((x + 10.0, y) for x, y in TRIANGLE)
    both = dots((TRIANGLE, far), SPACING, RADIUS, anchor=(0.0, 0.0), inset=INSET)
    assert any(x < 5 for x, _ in both)
    assert any(x > 5 for x, _ in both)
    assert hatch((), SPACING) == dots((), SPACING, RADIUS) == ()
    tiny: Ring = ((0.0, 0.0), (0.05, 0.0), (0.0, 0.05))
    assert hatch((tiny,), SPACING, inset=INSET) == dots((tiny,), SPACING, RADIUS, inset=INSET) == ()
