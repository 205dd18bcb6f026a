"""Labels that may stand anywhere near their place stand clear of each other, of lines, and inside the picture."""

from __future__ import annotations

import math

import pytest

from explainers.figure.label_places import LabelPlaces, around
from explainers.figure.layout import Box


def test_labels_give_way_to_each_other_and_to_lines() -> None:
    labels = LabelPlaces(Box(0.0, 0.0, 4.0, 4.0))
    places = around((2.0, 2.0), (1.0, 0.0), (0.4,), (0.0, 60.0, -60.0, 180.0))
    first = labels.place(places, 0.32, 0.32)
    assert first == pytest.approx((2.4, 2.0))
    second = labels.place(places, 0.32, 0.32)
    assert math.dist(first, second) >= 0.32
    crossed = LabelPlaces(Box(0.0, 0.0, 4.0, 4.0))
    crossed.cross([((2.3, 0.0), (2.3, 4.0))])
    assert crossed.place(places, 0.32, 0.32) == pytest.approx((1.6, 2.0))


def test_a_label_stays_inside_the_picture() -> None:
    labels = LabelPlaces(Box(0.0, 0.0, 2.0, 2.0))
    x, _ = labels.place(around((1.9, 1.0), (1.0, 0.0), (0.24,), (0.0, 180.0)), 0.32, 0.32)
    assert x + 0.16 <= 2.0
