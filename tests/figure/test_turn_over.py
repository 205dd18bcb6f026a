"""Turning over, only ever to show a slip: narrows to a line, ends as the mirror image, never as a turn."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainers.figure.model import Area, Figure, Role
from explainers.figure.motion import Motion, TurnOver
from explainers.geometry.congruence import Match, congruence
from explainers.geometry.outline import Outline

F_SHAPE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (2.0, 1.0), (2.0, 2.0), (0.0, 3.0))  # no mirror line of its own


def area(ring=F_SHAPE) -> Area:
    return Area(id="outline", group="outline", role=Role.OUTLINE, rings=(ring,), fill="#FFFFFF")


def test_it_ends_as_the_mirror_image_about_the_line():
    over = TurnOver(group="outline", axis_x=1.0)
    end = over.at(1.0, area())
    assert sorted(end.rings[0]) == sorted((2.0 - x, y) for x, y in F_SHAPE)
    relation = congruence(Outline.of(end.rings[0]), Outline.of(F_SHAPE), 1e-6)
    assert relation.kind is Match.MIRROR_ONLY


@given(fraction=st.floats(min_value=0.01, max_value=0.99))
def test_on_the_way_heights_stay_and_widths_shrink(fraction: float):
    (ring,) = TurnOver(group="outline", axis_x=1.0).at(fraction, area()).rings
    assert sorted(y for _, y in ring) == sorted(y for _, y in F_SHAPE)
    width = max(x for x, _ in ring) - min(x for x, _ in ring)
    assert width <= 2.0 + 1e-9


def test_a_motion_with_it_runs_into_its_end():
    over = TurnOver(group="outline", axis_x=1.0)
    start = Figure(background="#FFFFFF", entries=(area(),))
    end = Figure(background="#FFFFFF", entries=(over.at(1.0, area()),))
    motion = Motion(start=start, end=end, moves=(over,))
    (nearly,) = motion.figure_at(1.0 - 1e-7).entries
    assert nearly.rings[0][0] == pytest.approx(end.entries[0].rings[0][0], abs=1e-5)
    assert motion.figure_at(1.0) is end
