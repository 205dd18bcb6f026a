"""Words find a free place, and the nearest one."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from explainers.figure.labels import Obstacles, place_label, text_box
from explainers.figure.model import CAPTION_TOP, STAGE_HEIGHT, STAGE_WIDTH

SIZE = 0.36
places = st.tuples(st.floats(0.5, 15.5), st.floats(1.6, 8.5))


def test_the_first_preferred_place_that_is_free_is_taken() -> None:
    blocked = Obstacles(discs=(((4.0, 5.0), 0.5),))
    preferred = [(4.0, 5.0), (6.0, 5.0), (8.0, 5.0)]
    assert place_label("join", SIZE, preferred=preferred, obstacles=blocked) == (6.0, 5.0)


def test_a_place_near_the_preferred_one_is_found() -> None:
    wall = Obstacles(lines=(((4.0, 3.0), (4.0, 7.0)),))
    x, y = place_label("join", SIZE, preferred=[(4.0, 5.0)], obstacles=wall)
    assert math.dist((x, y), (4.0, 5.0)) < 0.8
    left, _, right, _ = text_box("join", (x, y), SIZE)
    assert right <= 3.94 + 1e-9 or left >= 4.06 - 1e-9


def test_a_full_stage_is_an_error() -> None:
    with pytest.raises(ValueError, match="no room for the label 'join'"):
        place_label("join", SIZE, preferred=[(8.0, 5.0)], obstacles=Obstacles(boxes=((0.0, 0.0, 16.0, 9.0),)))


def test_obstacles_add_up() -> None:
    ring = ((1.0, 2.0), (3.0, 2.0), (3.0, 4.0))
    both = Obstacles.rings([ring]) + Obstacles(discs=(((8.0, 5.0), 1.0),))
    assert both.lines == (((1.0, 2.0), (3.0, 2.0)), ((3.0, 2.0), (3.0, 4.0)), ((3.0, 4.0), (1.0, 2.0)))
    assert both.shape().area == pytest.approx(math.pi, rel=0.01)


def test_words_are_free_of_everything_and_off_the_captions(cases: Callable[[int, int], int]) -> None:
    @settings(max_examples=cases(40, 500), deadline=None)
    @given(
        preferred=places,
        lines=st.lists(st.tuples(places, places), max_size=6),
        discs=st.lists(st.tuples(places, st.floats(0.1, 1.2)), max_size=5),
        text=st.sampled_from(["cut", "join: flag", "135°", "not the same here"]),
    )
    def law(
        preferred: tuple[float, float],
        lines: list[tuple[tuple[float, float], tuple[float, float]]],
        discs: list[tuple[tuple[float, float], float]],
        text: str,
    ) -> None:
        at = place_label(
            text, SIZE, preferred=[preferred], obstacles=Obstacles(lines=tuple(lines), discs=tuple(discs)), gap=0.05
        )
        left, bottom, right, top = text_box(text, at, SIZE)
        box = shapely.box(left, bottom, right, top)
        assert all(box.distance(shapely.MultiPoint(line).convex_hull) >= 0.05 - 1e-9 for line in lines)
        assert all(box.distance(shapely.Point(centre)) >= radius - 1e-9 for centre, radius in discs)
        assert left >= 0.0
        assert right <= STAGE_WIDTH
        assert bottom >= CAPTION_TOP
        assert top <= STAGE_HEIGHT

    law()
