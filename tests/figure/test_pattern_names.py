"""Patterns by name: each looks other than the others and stays on its cloth."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely

from explainers.figure.fill_pattern import pattern_entries
from explainers.figure.model import Dots, Entry, Lines
from explainers.figure.signs import broken, broken_lines
from explainers.figure.theme import DEFAULT_THEME
from explainers.figure.theme_checks import faults_of_theme
from explainers.geometry.rigid_motion import Ring
from explainers.style import PATTERNS

CLOTH: Ring = ((0.0, 0.0), (3.0, 0.0), (3.0, 2.0), (0.0, 2.0))


def worn(pattern: str, *, deg: float = 0.0) -> tuple[Entry, ...]:
    return pattern_entries(
        pattern, (CLOTH,), theme=DEFAULT_THEME, colour="#000000", name="p", group="g", role="join", frame_deg=deg
    )


def directions(entry: Entry) -> set[int]:
    """Of its strokes, in whole degrees."""
    assert isinstance(entry, Lines)
    return {round(math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))) % 180 for a, b in entry.segments}


def test_plain_is_nothing_and_every_other_pattern_is_one_entry() -> None:
    for pattern in PATTERNS:
        assert len(worn(pattern)) == (0 if pattern == "plain" else 1)


def test_lines_run_one_way_checks_two_crosses_are_small() -> None:
    (lines,), (checks,), (crosses,) = worn("lines"), worn("checks"), worn("crosses")
    assert directions(lines) == {45}
    assert directions(checks) == directions(crosses) == {45, 135}
    assert isinstance(crosses, Lines) and isinstance(lines, Lines)
    reach = 2 * DEFAULT_THEME.cross_reach
    lengths = [shapely.LineString(segment).length for segment in crosses.segments]
    assert lengths == pytest.approx([reach] * len(lengths))
    assert isinstance(worn("dots")[0], Dots)


@pytest.mark.parametrize("deg", [0.0, 20.0, -75.0])
def test_a_pattern_stays_on_its_cloth_and_turns_with_it(deg: float) -> None:
    room = shapely.Polygon(CLOTH).buffer(-DEFAULT_THEME.pattern_inset + 1e-6)
    for pattern in ("lines", "checks", "crosses"):
        (entry,) = worn(pattern, deg=deg)
        assert isinstance(entry, Lines)
        assert room.contains(shapely.MultiLineString(entry.segments))
        assert directions(entry) <= {round(45 + deg) % 180, round(135 + deg) % 180}


def test_a_broken_side_begins_and_ends_where_the_side_does_and_shows_its_gaps() -> None:
    width = 0.1
    dash, gap = broken(width)
    assert gap > 2 * width, "round ends take one width of it"
    for length in (0.05, 0.3, 1.0, 4.0):
        strokes = broken_lines([((1.0, 1.0), (1.0, 1.0 + length))], width)
        ys = [y for stroke in strokes for _, y in stroke]
        assert ys == sorted(ys)
        assert (ys[0], ys[-1]) == pytest.approx((1.0, 1.0 + length))
        for (_, end), (start, _) in pairwise(strokes):
            assert start[1] - end[1] > 1.5 * width
        assert all(b[1] - a[1] == pytest.approx(dash if len(strokes) > 1 else length) for a, b in strokes)


def test_a_theme_decides_what_cloth_wears() -> None:
    assert {fabric.pattern_name for fabric in DEFAULT_THEME.fabrics.values()} == {"dots", "lines"}
    assert not faults_of_theme(DEFAULT_THEME.having({"join.pattern_name": "crosses", "cut.pattern_name": "checks"}))
