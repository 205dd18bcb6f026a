"""Drawings and slides: every shape in its place, how it meets, and what is left open."""

from __future__ import annotations

import io
import math
import random
from itertools import pairwise
from pathlib import Path

import pytest
from placed_questions import PlacedQuestion, beside, placed_question
from pptx import Presentation
from pptx.enum.shapes import MSO_SHAPE
from pptx.util import Emu

from explainers.geometry.rigid_motion import Point, Ring, Side
from explainers.intake.reader import read_item
from explainers.tracing.from_slide import CENTIMETRE
from explainers.tracing.proposal import Does, Proposal
from explainers.tracing.sketch import Refused
from explainers.tracing.source import Source, proposal_in, shown_with
from explainers.tracing.written import item_text

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 300 300">'


def drawing(question: PlacedQuestion, number: int) -> tuple[bytes, float]:
    """The question as an SVG, some shapes in groups that are moved; how long 1 is in it."""
    chance = random.Random(number)
    unit = chance.choice((1.0, 10.0, 37.5))
    dx, dy = chance.uniform(-50, 50), chance.uniform(-50, 50)
    turn = chance.choice((0, 90, 180))  # of a group, undone by the points in it

    def put(point: Point) -> Point:
        return dx + point[0] * unit, dy - point[1] * unit

    def points(ring: Ring) -> str:
        cos, sin = round(math.cos(math.radians(turn))), round(math.sin(math.radians(turn)))
        return " ".join(f"{cos * x + sin * y:.6f},{-sin * x + cos * y:.6f}" for x, y in map(put, ring))

    shapes = [f'<polygon id="base" points="{points(question.base)}"/>']
    for piece in question.pieces:
        steps = " L".join(points(piece.ring).split(" "))
        shapes.append(f'<path d="M{steps} Z"><title>{piece.name.capitalize()}</title></path>')
    if number % 2:
        chance.shuffle(shapes)
    words = []
    for piece in question.pieces:
        x, y = put(beside(piece.side, 0.3 if piece.does is Does.CUT else -0.25))
        words.append(
            f'<text x="{x}" y="{y + 0.1 * unit}" text-anchor="middle" font-size="{0.3 * unit}">{piece.letter}</text>'
        )
    body = f'<g transform="rotate({turn})">{"".join(shapes)}</g>{"".join(words)}'
    return f"{HEAD}{body}</svg>".encode(), unit


def check(question: PlacedQuestion, proposal: Proposal) -> None:
    assert set(proposal.base.corners) == set(question.base)
    found = {piece.outline.name: piece for piece in proposal.pieces}
    assert set(found) == {piece.name for piece in question.pieces}
    for piece in question.pieces:
        own = found[piece.name]
        assert {tuple(map(float, point)) for point in own.outline.corners} == set(piece.ring)
        assert own.does is piece.does
        assert own.side is not None and own.meets is not None
        assert set(own.side) == set(own.meets) == set(piece.side)
        assert own.mark == piece.letter
    assert proposal.open == ()


def test_a_drawn_question_is_read_in_its_place(cases, tmp_path: Path) -> None:
    for number in range(cases(6, 20)):
        question = placed_question(number)
        data, unit = drawing(question, number)
        kind, proposal = proposal_in(data, unit=unit)
        assert kind is Source.DRAWING
        check(question, proposal)
        path = tmp_path / "my-block.yaml"
        path.write_text(item_text(proposal, name="my-block", source="a.svg"), encoding="utf-8")
        assert len(read_item(path).pieces) == len(question.pieces)


def slide(question: PlacedQuestion, number: int) -> bytes:
    """The question on a slide: freeforms, native shapes turned and flipped, letters in text boxes, some in a group."""
    deck = Presentation()
    shapes = deck.slides.add_slide(deck.slide_layouts[6]).shapes
    holder = shapes.add_group_shape().shapes if number % 2 else shapes

    def put(point: Point) -> tuple[int, int]:
        return round((3 + point[0]) * CENTIMETRE), round((12 - point[1]) * CENTIMETRE)

    def freeform(into, ring: Ring, name: str) -> None:
        first, *rest = map(put, ring)
        builder = into.build_freeform(*first, scale=1.0)
        builder.add_line_segments(rest, close=True)
        builder.convert_to_shape().name = name

    freeform(shapes, question.base, "Base")
    for piece in question.pieces:
        corners = piece.ring
        if len(corners) == 3 and piece.does is Does.JOIN:
            _right_triangle(holder, [put(point) for point in corners], piece.name.capitalize())
        else:
            freeform(holder, corners, piece.name.capitalize())
        x, y = put(beside(piece.side, 0.3 if piece.does is Does.CUT else -0.3))
        box = shapes.add_textbox(Emu(x - 200_000), Emu(y - 200_000), Emu(400_000), Emu(400_000))
        box.text_frame.text = piece.letter
    packed = io.BytesIO()
    deck.save(packed)
    return packed.getvalue()


def _right_triangle(into, corners: list[tuple[int, int]], name: str) -> None:
    """A native right triangle, flipped until its right angle lies where it must; half a turn in place of two flips."""
    (left, right), (top, bottom) = ((min(values), max(values)) for values in zip(*corners, strict=True))
    shape = into.add_shape(MSO_SHAPE.RIGHT_TRIANGLE, Emu(left), Emu(top), Emu(right - left), Emu(bottom - top))
    (angle,) = (one for one in corners if all(one[0] == two[0] or one[1] == two[1] for two in corners))
    across, down = angle[0] == right, angle[1] == top
    if across and down:
        shape.rotation = 180
    elif across or down:
        shape._element.spPr.xfrm.set("flipH" if across else "flipV", "1")
    shape.name = name


def test_a_question_on_a_slide_is_read_in_its_place(cases) -> None:
    for number in range(cases(4, 10)):
        question = placed_question(number)
        kind, proposal = proposal_in(slide(question, number))
        assert kind is Source.SLIDE
        check(question, proposal)


NATIVE = {
    MSO_SHAPE.RECTANGLE: 4,
    MSO_SHAPE.ISOSCELES_TRIANGLE: 3,
    MSO_SHAPE.DIAMOND: 4,
    MSO_SHAPE.PARALLELOGRAM: 4,
    MSO_SHAPE.TRAPEZOID: 4,
    MSO_SHAPE.HEXAGON: 6,
    MSO_SHAPE.OCTAGON: 8,
    MSO_SHAPE.REGULAR_PENTAGON: 5,
    MSO_SHAPE.PENTAGON: 5,
    MSO_SHAPE.CHEVRON: 6,
    MSO_SHAPE.CROSS: 12,
    MSO_SHAPE.CORNER: 6,
    MSO_SHAPE.SNIP_1_RECTANGLE: 5,
}


@pytest.mark.parametrize("turned", [0, 45])
def test_native_shapes_have_their_corners_and_fill_their_box(turned: int) -> None:
    for kind, corners in NATIVE.items():
        deck = Presentation()
        shape = deck.slides.add_slide(deck.slide_layouts[6]).shapes.add_shape(
            kind, Emu(0), Emu(0), Emu(4 * CENTIMETRE), Emu(6 * CENTIMETRE)
        )
        shape.rotation = turned
        packed = io.BytesIO()
        deck.save(packed)
        _, proposal = proposal_in(packed.getvalue())
        ring = proposal.base.corners
        assert len(ring) == corners, kind
        if not turned:
            assert max(x for x, _ in ring) == pytest.approx(4, abs=0.11)
            assert max(y for _, y in ring) == pytest.approx(6, abs=0.11)


def drawn(*shapes: str, **settings: object) -> Proposal:
    return proposal_in(f"{HEAD}{''.join(shapes)}</svg>".encode(), **settings)[1]  # type: ignore[arg-type]


BASE = '<polygon id="base" points="0,0 4,0 4,-4 0,-4"/>'


def word(letter: str, x: float, y: float) -> str:
    return f'<text x="{x}" y="{y + 0.1}" text-anchor="middle" font-size="0.3">{letter}</text>'


def test_letters_tell_where_a_piece_goes_that_lies_apart() -> None:
    flag = '<polygon id="flag" points="6,0 8,0 6,-2"/>'
    base = '<polygon id="base" points="0,0 4,0 4,-2 2,-2 2,-4 0,-4"/>'
    proposal = drawn(base, flag, word("K", 4.3, -1), word("K", 7, 0.3))
    (piece,) = proposal.pieces
    assert piece.side is not None and set(piece.side) == {(6, 0), (8, 0)}
    assert piece.meets is not None and set(piece.meets) == {(4, 0), (4, 2)}
    assert piece.mark == "K"
    # Laid inside, it would be a cut; laid outside, a join: nothing on the drawing says which.
    assert piece.does is None
    assert ["both fit" in each.message for each in proposal.open] == [True]


def test_letters_at_sides_of_two_lengths_are_left_open() -> None:
    proposal = drawn(BASE, '<polygon id="flag" points="6,0 8,0 6,-2"/>', word("K", 4.3, -2), word("K", 7, 0.3))
    (piece,) = proposal.pieces
    assert piece.meets is None and piece.does is None
    assert "2 long" in proposal.open[0].message


OPEN = {
    "partly on": ('<polygon id="flag" points="3,0 6,0 3,-2"/>', (), "partly on the other outline"),
    "clear": ('<polygon id="flag" points="6,0 8,0 6,-2"/>', (), "no letter says where"),
    "inside": ('<polygon id="flag" points="1,-1 2,-1 1,-2"/>', (), "along no side"),
    "nearly": ('<polygon id="flag" points="4.14,0 6,0 4.14,-2"/>', (), "nearly touches"),
    "one letter": ('<polygon id="flag" points="6,0 8,0 6,-2"/>', (("K", 7, 0.3),), "at no side of the base"),
    "between": ('<polygon id="flag" points="5,0 7,0 5,-2"/>', (("K", 4.5, -1),), "as near to one side as to another"),
}


@pytest.mark.parametrize("case", OPEN)
def test_what_cannot_be_decided_is_said_and_not_guessed(case: str, tmp_path: Path) -> None:
    shape, words, said = OPEN[case]
    proposal = drawn(BASE, shape, *(word(*each) for each in words))
    (piece,) = proposal.pieces
    assert piece.side is None or piece.meets is None
    assert any(said in each.message for each in proposal.open), proposal.open
    text = item_text(proposal, name="my-block", source="a.svg")
    assert "to be decided" in text
    assert "    meets: " not in text


def test_the_largest_is_the_base_unless_one_is_named() -> None:
    small, large = '<rect id="quilt" width="2" height="2"/>', '<rect id="strip" x="2" width="4" height="2"/>'
    assert drawn(small, large).base.source == "strip"
    assert drawn(small, large, base="quilt").base.source == "quilt"
    assert drawn(small.replace("quilt", "base"), large).base.source == "base"


def test_what_is_not_taken_is_told() -> None:
    proposal = drawn(BASE, '<circle id="dot" r="1"/>', BASE.replace('"base"', '"twin"'))
    assert [(each.name, each.message) for each in proposal.passed] == [
        ("dot", "it is a circle"),
        ("twin", "it lies exactly on base"),
    ]
    assert proposal.pieces == ()


def test_a_corner_is_set_on_the_grid_only_where_it_is_near() -> None:
    proposal = drawn('<polygon id="base" points="0,0 4.05,0 4,-3.75 0,-4"/>')
    assert proposal.base.corners == ((0, 0), (4, 0), (4, 3.75), (0, 4))
    assert proposal.base.off_grid == ((4, 3.75),)
    assert proposal.base.moved == pytest.approx(0.05)


def test_places_on_the_source_are_those_of_the_drawing() -> None:
    proposal = drawn('<polygon id="base" points="30,50 70,50 30,10"/>', unit=10)
    assert proposal.base.corners == ((0, 0), (4, 0), (0, 4))
    assert proposal.base.on_source[0] == ((30, 50), (70, 50), (30, 10))


def test_text_of_a_drawing_stays_text() -> None:
    """Line ends, tags and colons of a name can neither begin a key nor an element."""
    name = "a&#10;item: other&#10;&lt;script&gt;"
    data = f'{HEAD}{BASE}<polygon id="{name}" points="4,0 6,0 4,-2"/>{word(chr(34) + ": ", 4.3, -1)}</svg>'.encode()
    kind, proposal = proposal_in(data)
    text = item_text(proposal, name="my-block", source="x\nitem: y.svg")
    assert text.count("\nitem:") == 1
    assert "<script" not in shown_with(data, kind, proposal).data.decode()


def test_slides_are_chosen_by_number() -> None:
    deck = Presentation()
    for wide in (2, 3):
        page = deck.slides.add_slide(deck.slide_layouts[6])
        page.shapes.add_shape(MSO_SHAPE.RECTANGLE, Emu(0), Emu(0), Emu(wide * CENTIMETRE), Emu(CENTIMETRE))
    packed = io.BytesIO()
    deck.save(packed)
    assert proposal_in(packed.getvalue(), slide=2)[1].base.corners[2] == (3, 1)
    with pytest.raises(Refused, match="no slide 3"):
        proposal_in(packed.getvalue(), slide=3)


def sides_of(ring: Ring) -> set[frozenset[Point]]:
    return {frozenset(pair) for pair in pairwise((*ring, ring[0]))}


def test_a_piece_on_a_piece_meets_that_piece() -> None:
    strip, cap = '<polygon id="strip" points="4,0 6,0 6,-4 4,-4"/>', '<polygon id="cap" points="6,0 8,0 6,-4"/>'
    proposal = drawn(BASE, cap, strip)
    found = {piece.outline.name: piece for piece in proposal.pieces}
    assert [piece.outline.name for piece in proposal.pieces] == ["strip", "cap"]
    assert found["cap"].of == "strip" and found["strip"].of is None
    side: Side | None = found["cap"].side
    assert side is not None and frozenset(side) in sides_of(found["strip"].outline.corners)
