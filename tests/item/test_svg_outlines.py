"""Outlines drawn elsewhere: straight shapes on the grid with y up, anything else refused by name."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from explainers.errors import Fault, ItemError
from explainers.item.svg_outlines import DrawnOutline, outlines_in

HEAD = (
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:i="http://www.inkscape.org/namespaces/inkscape" viewBox="0 0 9 9">'
)


def drawn(
    folder: Path, body: str, *, grid: float = 0.5, unit: float = 1.0, name: str | None = None, head: str = HEAD
) -> tuple[tuple[DrawnOutline, ...], tuple[Fault, ...]]:
    path = folder / "drawing.svg"
    path.write_text(f"{head}{body}</svg>", encoding="utf-8")
    return outlines_in(path, grid=grid, unit=unit, name=name)


FLAG = ((0.0, 0.0), (2.0, 0.0), (0.0, 2.0))


@pytest.mark.parametrize(
    "body",
    [
        '<polygon points="5,5 7,5 5,3"/>',
        '<polygon points="5 5 7 5 5 3"/>',
        '<polygon points="5,5,7,5,5,3"/>',
        '<polygon points="5.1,5 7,4.9 5,3.05"/>',
        '<polyline points="5,5 7,5 5,3 5,5"/>',
        '<path d="M5 5 L7 5 L5 3 Z"/>',
        '<path d="M5 5 7 5 5 3z"/>',
        '<path d="m5 5h2l-2-2v2"/>',
        '<path d="M5 5H7L5 3V5"/>',
        '<g transform="translate(10 10)"><polygon points="-5,-5 -3,-5 -5,-7"/></g>',
        '<g transform="translate(1,1) scale(2)"><polygon transform="translate(2 2)" points="0,0 1,0 0,-1"/></g>',
        '<polygon transform="rotate(90)" points="5,-5 5,-7 3,-5"/>',
        '<polygon transform="matrix(1 0 0 -1 0 0)" points="5,5 7,5 5,7"/>',
        '<a><switch><polygon points="5,5 7,5 5,3"/></switch></a>',
        '<defs><circle r="3"/></defs><polygon points="5,5 7,5 5,3"/><text>Flag</text>',
        '<circle r="3" display="none"/><g style="fill:red;display:none"><path d="M0 0"/></g><path d="M5 5h2l-2-2z"/>',
    ],
)
def test_a_triangle_is_the_same_however_it_is_drawn(tmp_path: Path, body: str) -> None:
    outlines, faults = drawn(tmp_path, body)
    assert faults == ()
    assert [outline.corners for outline in outlines] == [FLAG]


def test_inner_transforms_come_first(tmp_path: Path) -> None:
    """A turn inside a stretch gives another shape than a stretch inside a turn."""
    inside = '<g transform="scale(3 1)"><rect width="2" height="1" transform="rotate(90)"/></g>'
    outside = '<g transform="rotate(90)"><rect width="2" height="1" transform="scale(3 1)"/></g>'
    sizes = [max(drawn(tmp_path, body)[0][0].corners) for body in (inside, outside)]
    assert sizes == [(3.0, 2.0), (1.0, 6.0)]


def test_a_second_ring_is_a_hole(tmp_path: Path) -> None:
    (window,), faults = drawn(tmp_path, '<path d="M0 0h40v40h-40zm10 10v20h20v-20z"/>', unit=10)
    assert faults == ()
    assert window.corners == ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    assert window.holes == (((1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0)),)
    assert window.lines == [
        "corners: [[0, 0], [4, 0], [4, 4], [0, 4]]",
        "holes:",
        "  - [[1, 1], [3, 1], [3, 3], [1, 3]]",
    ]


def test_how_far_the_grid_moves_a_corner_is_told(tmp_path: Path) -> None:
    (flag,), _ = drawn(tmp_path, '<polygon points="0,0 2.1,0 0,-2"/>')
    assert flag.moved == pytest.approx(0.1)


TWO = (
    '<polygon id="flag" points="0,0 2,0 0,-2"/><rect i:label="the strip" width="3" height="1"/><circle id="dot" r="1"/>'
)


def test_several_shapes_are_listed_and_one_is_chosen(tmp_path: Path) -> None:
    outlines, faults = drawn(tmp_path, TWO)
    assert [outline.name for outline in outlines] == ["flag", "the strip"]
    assert [fault.field for fault in faults] == ["dot"]
    for name in ("the strip", "rect number 1"):
        outlines, faults = drawn(tmp_path, TWO, name=name)
        assert [outline.kind for outline in outlines] == ["rect"] and faults == ()
    with pytest.raises(ItemError, match=r"no shape called sash.*choose one of flag, the strip, dot"):
        drawn(tmp_path, TWO, name="sash")


@pytest.mark.parametrize(
    ("shape", "message"),
    [
        ('<circle id="x" r="3"/>', "it is a circle"),
        ('<ellipse id="x" rx="3" ry="2"/>', "it is an ellipse"),
        ('<line id="x" x2="3"/>', "a single line"),
        ('<use id="x" href="#x"/>', "a copy that points to another element"),
        ('<rect id="x" width="3" height="2" rx="1"/>', "round corners"),
        ('<rect id="x" width="3"/>', "without width or height"),
        ('<rect id="x" width="50%" height="2"/>', "not a plain number"),
        ('<rect id="x" width="3cm" height="2"/>', "not a plain number"),
        ('<path id="x" d="M0 0C1 1 2 2 3 0z"/>', "a side that is a curve"),
        ('<path id="x" d="M0 0Q1 1 3 0z"/>', "a side that is a curve"),
        ('<path id="x" d="M0 0A1 1 0 0 0 3 0z"/>', "a side that is an arc"),
        ('<path id="x" d="M0 0 L 1"/>', "cannot be read"),
        ('<path id="x" d="L 1 1 2 2"/>', "cannot be read"),
        ('<path id="x" d="nonsense"/>', "cannot be read"),
        ('<path id="x" d=""/>', "encloses nothing"),
        ('<path id="x" d="M0 0h3v3"/>', "not closed"),
        ('<polyline id="x" points="0,0 3,0 3,3"/>', "not closed"),
        ('<polygon id="x" points="0,0 3,0 3"/>', "no second number"),
        ('<polygon id="x" points="0,0 3,a 3,3"/>', "not plain numbers"),
        ('<polygon id="x" points="0,0 0.1,0 0,0.1"/>', "fewer than 3 corners"),
        ('<polygon id="x" points="0,0 4,4 4,0 0,4"/>', "crosses itself"),
        ('<polygon id="x" points="0,0 2,0 4,0"/>', "encloses nothing"),
        ('<polygon id="x" points="0,0 1e308,0 0,1e308" transform="scale(10)"/>', "too large"),
        ('<polygon id="x" points="0,0 1e999,0 0,1"/>', "too large"),
        ('<polygon id="x" points="0,0 2,0 0,2" transform="rotate(x)"/>', "transform cannot be read"),
        ('<polygon id="x" points="0,0 2,0 0,2" transform="matrix(1 2)"/>', "transform cannot be read"),
        ('<path id="x" d="M0 0h4v4h-4zM6 6h1v1h-1z"/>', "the hole lies outside the shape"),
        ('<svg id="x"><polygon points="0,0 2,0 0,2"/></svg>', "a drawing within the drawing"),
    ],
)
def test_what_cannot_be_an_outline_is_refused_by_its_name(tmp_path: Path, shape: str, message: str) -> None:
    outlines, faults = drawn(tmp_path, shape)
    assert outlines == ()
    assert [fault.field for fault in faults] == ["x"]
    assert message in faults[0].message and faults[0].fix


BOMB = '<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>'


@pytest.mark.parametrize(
    ("raw", "message"),
    [
        (f"{BOMB}{HEAD}<text>&b;</text></svg>".encode(), "declares entities"),
        (f'<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]>{HEAD}&x;</svg>'.encode(), "declares entities"),
        (f"{HEAD}</svg>".encode("utf-16"), "not UTF-8"),
        (b"<svg", "not XML"),
        (b"", "not XML"),
        (b"<html></html>", "not an SVG drawing"),
        (f"{HEAD}</svg>".encode(), "no shape is drawn"),
        (f"{HEAD}{'<g/>' * 30_000}</svg>".encode(), "more than 20,000 elements"),
        (f"{HEAD}{' ' * 2_000_000}</svg>".encode(), "more than 2,000,000 bytes"),
        (None, "cannot be opened"),
    ],
)
def test_a_file_that_is_no_such_drawing_is_refused(tmp_path: Path, raw: bytes | None, message: str) -> None:
    path = tmp_path / "drawing.svg"
    if raw is not None:
        path.write_bytes(raw)
    with pytest.raises(ItemError, match=message):
        outlines_in(path, grid=0.5, unit=1.0)


def test_deeply_grouped_shapes_are_found(tmp_path: Path) -> None:
    body = "<g>" * 5_000 + '<polygon points="5,5 7,5 5,3"/>' + "</g>" * 5_000
    assert drawn(tmp_path, body)[0][0].corners == FLAG


def test_a_document_type_of_a_drawing_program_is_no_fault(tmp_path: Path) -> None:
    head = f'<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "svg11.dtd">{HEAD}'
    assert drawn(tmp_path, '<polygon points="5,5 7,5 5,3"/>', head=head)[0][0].corners == FLAG


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    stairs=st.lists(st.tuples(st.integers(1, 6), st.integers(1, 6)), min_size=1, max_size=6),
    shift=st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
    noise=st.integers(0, 2**16),
)
def test_a_shape_drawn_by_hand_comes_out_on_the_grid(
    tmp_path: Path, stairs: list[tuple[int, int]], shift: tuple[float, float], noise: int
) -> None:
    """Corners off by less than an eighth of the grid, anywhere in the drawing, are those that were meant."""
    import random

    rng = random.Random(noise)
    corners = [(0, 0)]
    for along, up in stairs:
        x, y = corners[-1]
        corners += [(x + along, y), (x + along, y + up)]
    corners.append((0, corners[-1][1]))

    def rough() -> float:
        return rng.uniform(-0.1, 0.1)

    points = " ".join(f"{10 * (x + shift[0] + rough())},{10 * (-y + shift[1] + rough())}" for x, y in corners)
    (outline,), faults = drawn(tmp_path, f'<polygon points="{points}"/>', grid=1, unit=10)
    assert faults == ()
    assert set(outline.corners) == {(float(x), float(y)) for x, y in corners}
    assert outline.moved <= math.hypot(0.2, 0.2)
