"""Entries become mobjects in the right place, of as few parts as can be."""

from __future__ import annotations

import numpy as np
import pytest
from manim import VMobject

from explainers.errors import FontError
from explainers.figure.model import Align, Area, Arrow, Circle, Dots, Label, Lines, Role
from explainers.geometry.rigid_motion import Ring
from explainers.typeface.faces import face, label_box
from scenes.lettering import letters
from scenes.mobjects import mobject_of, to_frame

INK = "#1F2A37"
SQUARE: Ring = ((1.0, 1.0), (5.0, 1.0), (5.0, 5.0), (1.0, 5.0))
HOLE: Ring = ((2.0, 2.0), (4.0, 2.0), (4.0, 4.0), (2.0, 4.0))
ISLAND: Ring = ((2.5, 2.5), (3.5, 2.5), (3.5, 3.5), (2.5, 3.5))
IN_FRAME = 8.0 / 9.0  # manim's units in a unit of the stage


def subpaths(mobject: VMobject) -> list[np.ndarray]:
    return [np.asarray(path) for path in mobject.get_subpaths()]


def signed_area(points: np.ndarray) -> float:
    x, y = points[::4, 0], points[::4, 1]
    return 0.5 * float(x @ np.roll(y, -1) - y @ np.roll(x, -1))


def area(*rings: Ring, **more: object) -> Area:
    return Area(id="a", group="a", role="base", rings=rings, **more)  # type: ignore[arg-type]


def test_the_stage_fills_manims_frame() -> None:
    corners = to_frame([(0.0, 0.0), (16.0, 9.0), (8.0, 4.5)])
    assert corners == pytest.approx(np.array([[-64 / 9, -4, 0], [64 / 9, 4, 0], [0, 0, 0]]))


@pytest.mark.parametrize("given", [SQUARE, SQUARE[::-1]])
@pytest.mark.parametrize("hole", [HOLE, HOLE[::-1]])
@pytest.mark.parametrize("island", [ISLAND, ISLAND[::-1]])
def test_holes_run_against_their_ring_whatever_way_they_are_given(given: Ring, hole: Ring, island: Ring) -> None:
    for rings in ((given, hole, island), (island, hole, given)):
        paths = subpaths(mobject_of(area(*rings, fill="#C9DDE8")))
        by_size = sorted((signed_area(path) for path in paths), key=abs)
        assert [value > 0 for value in by_size] == [True, False, True]
        assert sum(by_size) == pytest.approx((16 - 4 + 1) * IN_FRAME**2)


def test_a_stroke_has_its_width_on_the_stage() -> None:
    mobject = mobject_of(area(SQUARE, fill="#C9DDE8", stroke=INK, width=0.05))
    # manim draws a stroke of width w as w / 100 of its units.
    assert mobject.get_stroke_width() / 100 == pytest.approx(0.05 * IN_FRAME)
    assert mobject.get_fill_color().to_hex().upper() == "#C9DDE8"
    assert mobject_of(area(SQUARE, fill="#C9DDE8")).get_stroke_width() == 0.0


def test_a_dashed_outline_is_made_of_real_dashes_over_a_plain_filling() -> None:
    mobject = mobject_of(area(SQUARE, fill="#F3DDD3", stroke="#8A3B2E", width=0.05, dash=(0.3, 0.2)))
    filling, dashes = mobject.family_members_with_points()
    assert filling.get_stroke_width() == 0.0
    assert len(subpaths(dashes)) == pytest.approx(16 / 0.5, abs=4)
    assert dashes.get_fill_opacity() == 0.0
    outline_only = mobject_of(area(SQUARE, stroke="#8A3B2E", width=0.05, dash=(0.3, 0.2)))
    assert len(outline_only.family_members_with_points()) == 1


def test_lines_dots_and_letters_are_one_mobject_each() -> None:
    lines = mobject_of(
        Lines(id="l", group="l", role="cut", segments=(((0, 0), (1, 1)), ((2, 0), (3, 1)), ((4, 4), (4, 4))),
              stroke=INK, width=0.03)
    )  # fmt: skip
    assert len(lines.family_members_with_points()) == 1
    assert len(subpaths(lines)) == 2  # a stroke of no length is not drawn
    dots = mobject_of(Dots(id="d", group="d", role="join", centres=((1, 1), (2, 2), (3, 3)), radius=0.1, fill=INK))
    assert len(dots.family_members_with_points()) == 1
    assert sum(signed_area(path) for path in subpaths(dots)) == pytest.approx(
        3 * 8 * 0.5 * np.sin(np.pi / 4) * (0.1 * IN_FRAME) ** 2
    )
    word = mobject_of(
        Label(id="w", group="w", role=Role.WORD, text="four words stand here", at=(3, 3), size=0.3, colour=INK)
    )
    assert len(word.family_members_with_points()) == 1


def test_nothing_to_draw_is_drawn_as_nothing() -> None:
    empty = mobject_of(Lines(id="l", group="l", role="cut", segments=(), stroke=INK, width=0.03))
    assert len(empty.points) == 0
    assert len(mobject_of(Dots(id="d", group="d", role="join", centres=(), radius=0.1, fill=INK)).points) == 0


def test_a_circle_is_round() -> None:
    circle = mobject_of(Circle(id="c", group="c", role=Role.WRONG, centre=(8, 4.5), radius=2.0, stroke=INK, width=0.1))
    along = np.array([circle.point_from_proportion(part) for part in np.linspace(0, 1, 50)])
    assert np.linalg.norm(along, axis=1) == pytest.approx(2.0 * IN_FRAME, rel=1e-4)


def test_an_arrow_ends_in_its_tip() -> None:
    arrow = Arrow(id="t", group="t", role=Role.TURN, path=((1, 1), (5, 1)), stroke=INK, width=0.06, head=0.3)
    shaft, head = mobject_of(arrow).family_members_with_points()
    tip = to_frame([(5, 1)])[0]
    assert np.linalg.norm(head.points - tip, axis=1).min() == pytest.approx(0.0, abs=1e-9)
    assert shaft.points[:, 0].max() < tip[0] - 0.1 * IN_FRAME


def test_a_rounded_panel_stays_within_its_rectangle() -> None:
    panel = mobject_of(area(SQUARE, fill="#FFFFFF", rounded=0.5))
    low, high = panel.points.min(axis=0), panel.points.max(axis=0)
    assert np.stack([low, high]) == pytest.approx(to_frame([(1, 1), (5, 5)]))
    lost = (4 - np.pi) * 0.5**2
    assert signed_area(panel.points) == pytest.approx((16 - lost) * IN_FRAME**2, rel=1e-3)


def test_opacity_reaches_filling_and_stroke() -> None:
    mobject = mobject_of(area(SQUARE, fill="#FFFFFF", stroke=INK, width=0.1, opacity=0.25))
    assert (mobject.get_fill_opacity(), mobject.get_stroke_opacity()) == (0.25, 0.25)


@pytest.mark.parametrize("align", list(Align))
@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("text", ["K", "Turn the flag 135° anticlockwise.", "AVATAR To fi", "gypsy ½"])
def test_a_label_stands_where_the_typeface_says(text: str, bold: bool, align: Align) -> None:
    label = Label(id="x", group="x", role=Role.WORD, text=text, at=(8, 4), size=0.4, colour=INK, bold=bold, align=align)
    points = mobject_of(label).points
    left, _, right, _ = label_box(label)
    typeface = face(bold)
    ink = typeface.ink(text, 0.4)
    baseline = 4 - typeface.cap_height(0.4) / 2
    expected = to_frame([(left + ink[0], baseline + ink[1]), (left + ink[2], baseline + ink[3])])
    # Control points of curves may reach a little beyond the ink.
    assert np.stack([points.min(axis=0), points.max(axis=0)]) == pytest.approx(expected, abs=0.01)
    assert right - left == pytest.approx(typeface.width(text, 0.4))


def test_a_character_that_the_typeface_lacks_is_an_error() -> None:
    with pytest.raises(FontError, match="no glyph for '漢'"):
        letters("漢字")
