"""The window on an item's coordinates: its scale, its lines, the numbers along them."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainers.choice.panels.grid import Window, grid_entries, scale_to_fit, shown_number
from explainers.figure.model import Label, Lines
from explainers.figure.theme import DEFAULT_THEME
from explainers.typeface.faces import label_box

SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))


@given(size=st.floats(1e-4, 1e5), x=st.floats(-1e4, 1e4), y=st.floats(-1e4, 1e4), tall=st.floats(0.05, 20.0))
def test_every_window_shows_its_rings_with_a_readable_number_of_lines(
    size: float, x: float, y: float, tall: float
) -> None:
    ring = tuple((x + size * px, y + size * tall * py) for px, py in SQUARE)
    window = Window.round_about([ring], scale_to_fit([ring], 5.6, 4.4), margin=0.6, numbered=True)
    for px, py in window.view.apply(ring):
        assert 0.0 <= px <= window.field.right and 0.0 <= py <= window.field.top
    step = window.step
    assert 0.24 <= step * window.scale <= 2.6
    mantissa = step / 10.0 ** math.floor(math.log10(step) + 1e-9)
    assert min(abs(mantissa - nice) for nice in (1.0, 2.0, 5.0, 10.0)) < 1e-6
    told = window.numbered(window.lines(window.seen.left, window.seen.right), across=True)
    apart = [b - a for a, b in pairwise(told)]
    widest = max((len(shown_number(value)) for value in told), default=1)
    assert all(gap * window.scale >= 0.12 * widest for gap in apart)


def test_up_is_up_and_units_have_one_length() -> None:
    window = Window.round_about([SQUARE], 2.0, margin=0.5, numbered=False)
    assert window.view.apply_point((0.0, 0.0)) == pytest.approx((0.5, 0.5))
    assert window.view.apply_point((1.0, 1.0)) == pytest.approx((2.5, 2.5))
    assert (window.box.width, window.box.height) == pytest.approx((3.0, 3.0))


@pytest.mark.parametrize(
    ("value", "shown"), [(0.0, "0"), (-0.0, "0"), (-2.5, "−2.5"), (12.0, "12"), (0.1 + 0.2, "0.3")]
)
def test_numbers_along_an_axis(value: float, shown: str) -> None:
    assert shown_number(value) == shown


@given(size=st.floats(1e-3, 1e4), x=st.floats(-50.0, 50.0), y=st.floats(-50.0, 50.0))
def test_each_number_stands_at_its_line_and_inside_the_picture(size: float, x: float, y: float) -> None:
    ring = tuple((x + size * px, y + size * py) for px, py in SQUARE)
    window = Window.round_about([ring], scale_to_fit([ring], 5.6, 4.4), margin=0.6, numbered=True)
    entries = grid_entries(window, DEFAULT_THEME)
    lines = [segment for entry in entries if isinstance(entry, Lines) for segment in entry.segments]
    back = window.view.inverse()
    for number in (entry for entry in entries if isinstance(entry, Label)):
        left, bottom, right, top = label_box(number)
        assert left >= window.box.left and right <= window.box.right
        assert bottom >= window.box.bottom and top <= window.box.top
        below = number.at[1] < 0.0
        places = [start[0 if below else 1] for start, end in lines if (start[0] == end[0]) is below]
        at = number.at[0 if below else 1]
        assert any(math.isclose(at, place, abs_tol=1e-9) for place in places)
        value = back.apply_point(number.at)[0 if below else 1]
        assert float(number.text.replace("\N{MINUS SIGN}", "-")) == pytest.approx(value, abs=1e-6 * size)
