"""Photographs of squared paper: corners where they were drawn, and whatever is not sure is said."""

from __future__ import annotations

import math

import cv2
import numpy as np
import pytest
from drawn_sheets import DrawnSheet, drawn_sheet, sheet_of

from explainers.geometry.rigid_motion import Ring
from explainers.tracing.choosing import NO_CHOICE, Choice
from explainers.tracing.from_picture import sketch_of_picture
from explainers.tracing.proposal import Does, Proposal
from explainers.tracing.reading import SURE
from explainers.tracing.sketch import Refused
from explainers.tracing.source import Source, proposal_chosen, proposal_in, shown_with, sketch_in
from explainers.tracing.vision import picture_of

NEAR = 0.25  # squares


def missed(want: Ring, found: Ring) -> float:
    """How far a corner of either is from the nearest of the other, at most."""
    both = [(one, found) for one in want] + [(one, want) for one in found]
    return max(min(math.dist(one, other) for other in others) for one, others in both)


def misses(sheet: DrawnSheet, proposal: Proposal) -> list[float]:
    """For each outline of a sheet how far the one that is most like it misses it."""
    left, low = (min(values) for values in zip(*sheet.outlines[0], strict=True))
    drawn = [tuple((x - left, y - low) for x, y in ring) for ring in sheet.outlines]
    found = [ring for outline in proposal.outlines for ring in (outline.corners, *outline.holes)]
    return [min(missed(ring, other) for other in found) for ring in drawn]


def test_corners_lie_where_they_were_drawn(cases) -> None:
    found, surely_wrong = list[float](), 0
    for number in range(cases(4, 20)):
        sheet = drawn_sheet(number)
        _, proposal = proposal_in(sheet.jpeg)
        found += misses(sheet, proposal)
        for outline in proposal.outlines:
            left, low = (min(values) for values in zip(*sheet.outlines[0], strict=True))
            right = any(
                missed(tuple((x - left, y - low) for x, y in ring), outline.corners) <= NEAR for ring in sheet.outlines
            )
            surely_wrong += not right and outline.sure >= SURE and not outline.doubts
            assert outline.on_source[0], "each is shown where it lies"
    assert sum(miss <= NEAR for miss in found) >= 0.95 * len(found), found
    assert surely_wrong == 0


def test_what_is_taken_lies_on_the_pens_lines() -> None:
    """The places on the picture that a person is shown are those that were drawn on."""
    sheet = drawn_sheet(1)
    _, proposal = proposal_in(sheet.jpeg)
    picture = picture_of(sheet.jpeg)
    grey = cv2.blur(cv2.cvtColor(picture.pixels, cv2.COLOR_BGR2GRAY), (3, 3))
    for outline in proposal.outlines:
        ring = outline.on_source[0]
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
            x, y = (round((one + other) / 2 / picture.scale) for one, other in ((ax, bx), (ay, by)))
            near = grey[y - 6 : y + 7, x - 6 : x + 7]
            assert near.min() < 0.7 * np.median(grey[y - 40 : y + 41, x - 40 : x + 41])


def test_two_outlines_with_one_line_between_are_asked_about() -> None:
    _, proposal = proposal_in(drawn_sheet(5).jpeg)
    (piece,) = proposal.pieces
    assert piece.does is Does.JOIN
    assert piece.side is not None and math.dist(*piece.side) == pytest.approx(4)
    assert any("taken as joined" in each.message for each in proposal.open if each.about == piece.outline.name)


WINDOW = (
    ((3, 3), (14, 3), (14, 13), (3, 13)),
    ((5, 5), (9, 5), (9, 9), (5, 9)),
    ((17, 3), (23, 3), (23, 9), (17, 9)),
    ((18.5, 4.5), (21.5, 4.5), (20, 7.5)),
)


def test_a_line_clear_inside_an_outline_is_its_hole_until_somebody_says_otherwise(cases) -> None:
    for number in range(cases(1, 10)):
        sheet = sheet_of(WINDOW, number=number)
        _, sketch = sketch_in(sheet.jpeg)
        proposal = proposal_chosen(sketch, NO_CHOICE)
        assert max(misses(sheet, proposal)) <= NEAR
        assert [len(outline.holes) for outline in proposal.outlines] == [1, 1]
        asked = [each.about for each in proposal.open if "taken as its hole" in each.message]
        assert asked == [outline.name for outline in proposal.outlines]
        assert [len(outline.on_source) for outline in proposal.outlines] == [2, 2]
        inner = proposal.base.hole_numbers
        said = proposal_chosen(sketch, Choice(pieces=frozenset(inner)))
        assert [len(outline.holes) for outline in said.outlines] == [0, 1, 0]
        left = proposal_chosen(sketch, Choice(without=frozenset(inner), base=proposal.pieces[0].outline.number))
        assert missed(left.base.corners, proposal.pieces[0].outline.corners) < 15
        assert [len(outline.holes) for outline in left.outlines] == [1, 0]
        agreed = proposal_chosen(sketch, Choice(holes=frozenset(inner)))
        assert not any("taken as its hole" in each.message for each in agreed.open if each.about == "base")


def test_an_outline_that_is_not_closed_is_told() -> None:
    square, open_ = ((3, 3), (9, 3), (9, 9), (3, 9)), ((13, 4), (18, 4), (18, 9), (13, 9))
    _, proposal = proposal_in(sheet_of((square, open_), number=3, gap=1).jpeg)
    assert len(proposal.outlines) == 1
    (passed,) = proposal.passed
    assert "not closed" in passed.message
    assert passed.on_source is not None


def test_without_squares_nothing_is_sure() -> None:
    sheet = drawn_sheet(2, squared=False)
    _, proposal = proposal_in(sheet.jpeg)
    assert len(proposal.outlines) == len(sheet.outlines)
    assert all(outline.sure < SURE for outline in proposal.outlines)
    assert any("no squares were found" in each.message for each in proposal.open)


def test_a_cameras_turn_is_undone() -> None:
    """A picture stored on its side, with the note that says so, is read as a person sees it."""
    sheet = drawn_sheet(0)
    pixels = cv2.imdecode(np.frombuffer(sheet.jpeg, np.uint8), cv2.IMREAD_COLOR)
    _, packed = cv2.imencode(".jpg", cv2.rotate(pixels, cv2.ROTATE_90_COUNTERCLOCKWISE))
    turned = bytes(packed.tobytes())
    exif = b"Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0"
    marked = turned[:2] + b"\xff\xe1" + (len(exif) + 2).to_bytes(2, "big") + exif + turned[2:]
    _, proposal = proposal_in(marked)
    assert max(misses(sheet, proposal)) <= NEAR
    assert proposal.size == (1600, 1300)


def test_a_large_photo_is_told_in_its_own_pixels() -> None:
    sheet = drawn_sheet(3)
    pixels = cv2.imdecode(np.frombuffer(sheet.jpeg, np.uint8), cv2.IMREAD_COLOR)
    small = proposal_in(sheet.jpeg)[1]
    _, packed = cv2.imencode(".jpg", cv2.resize(pixels, None, fx=3, fy=3, interpolation=cv2.INTER_CUBIC))
    large = proposal_in(bytes(packed.tobytes()))[1]
    assert large.size == (4800, 3900)
    assert max(misses(sheet, large)) <= NEAR
    for one, other in zip(small.base.on_source[0], large.base.on_source[0], strict=True):
        assert math.dist((one[0] * 3, one[1] * 3), other) < 30


def test_a_side_that_is_bent_is_not_sure() -> None:
    bent = [(4 + 5 * math.cos(turn / 12 * math.pi), 4 + 5 * math.sin(turn / 12 * math.pi)) for turn in range(13)]
    sheet = sheet_of(((tuple((x + 6, y + 2) for x, y in bent)),), number=3)
    _, proposal = proposal_in(sheet.jpeg)
    assert proposal.base.sure < SURE or proposal.base.doubts


def test_what_was_read_is_shown_over_the_picture() -> None:
    data = drawn_sheet(0).jpeg
    kind, proposal = proposal_in(data)
    shown = shown_with(data, kind, proposal)
    assert (kind, shown.suffix) == (Source.PICTURE, ".png")
    over = cv2.imdecode(np.frombuffer(shown.data, np.uint8), cv2.IMREAD_COLOR)
    changed = (over != picture_of(data).pixels).any(axis=2)
    x, y = (round(value) for value in proposal.base.on_source[0][0])
    assert changed[y - 12 : y + 13, x - 12 : x + 13].any()


def test_a_blank_sheet_is_refused() -> None:
    sheet = sheet_of((), number=2)
    with pytest.raises(Refused, match=r"no closed outline|nothing is drawn"):
        sketch_of_picture(sheet.jpeg)
