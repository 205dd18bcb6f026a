"""The window on an item's coordinates, and labels that stand clear of each other."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainers.preview.grid import Window, fitting_scale, shown_number
from explainers.preview.labels import Labels, around

SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))


@given(size=st.floats(1e-4, 1e5), x=st.floats(-1e4, 1e4), y=st.floats(-1e4, 1e4), tall=st.floats(0.05, 20.0))
def test_every_window_shows_its_rings_with_a_readable_number_of_lines(
    size: float, x: float, y: float, tall: float
) -> None:
    ring = tuple((x + size * px, y + size * tall * py) for px, py in SQUARE)
    window = Window.round_about([ring], fitting_scale([ring], 280.0, 220.0), margin=30.0, numbered=True)
    for point in ring:
        px, py = window.place(point)
        assert window.gutter_left <= px <= window.width and 0.0 <= py <= window.height - window.gutter_below
    step = window.step
    assert 12.0 <= step * window.scale <= 130.0
    mantissa = step / 10.0 ** math.floor(math.log10(step) + 1e-9)
    assert min(abs(mantissa - nice) for nice in (1.0, 2.0, 5.0, 10.0)) < 1e-6
    told = window.numbered(window.lines(window.left, window.right), across=True)
    apart = [b - a for a, b in pairwise(told)]
    widest = max((len(shown_number(value)) for value in told), default=1)
    assert all(gap * window.scale >= 6.0 * widest for gap in apart)


def test_up_is_up_and_units_have_one_length() -> None:
    window = Window.round_about([SQUARE], 50.0, margin=10.0, numbered=False)
    assert window.place((0.0, 0.0)) == pytest.approx((10.0, 60.0))
    assert window.place((1.0, 1.0)) == pytest.approx((60.0, 10.0))


@pytest.mark.parametrize(
    ("value", "shown"), [(0.0, "0"), (-0.0, "0"), (-2.5, "−2.5"), (12.0, "12"), (0.1 + 0.2, "0.3")]
)
def test_numbers_along_an_axis(value: float, shown: str) -> None:
    assert shown_number(value) == shown


def test_labels_give_way_to_each_other_and_to_lines() -> None:
    labels = Labels((0.0, 0.0, 200.0, 200.0))
    places = around((100.0, 100.0), (1.0, 0.0), (20.0,), (0.0, 60.0, -60.0, 180.0))
    first = labels.place(places, 16.0, 16.0)
    assert first == pytest.approx((120.0, 100.0))
    second = labels.place(places, 16.0, 16.0)
    assert math.dist(first, second) >= 16.0
    crossed = Labels((0.0, 0.0, 200.0, 200.0))
    crossed.cross([((115.0, 0.0), (115.0, 200.0))])
    assert crossed.place(places, 16.0, 16.0) == pytest.approx((80.0, 100.0))


def test_a_label_stays_inside_the_picture() -> None:
    labels = Labels((0.0, 0.0, 100.0, 100.0))
    x, _ = labels.place(around((95.0, 50.0), (1.0, 0.0), (12.0,), (0.0, 180.0)), 16.0, 16.0)
    assert x + 8.0 <= 100.0
