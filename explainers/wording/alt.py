"""Pictures in words, for readers who cannot see them: enough to answer the question, without answering it.

An outline is told corner by corner, the inside on the left all the way, so that a shape and its mirror image are told
differently while a turned shape is told alike but for where the telling starts. Nothing here says which option fits.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..geometry.angles import wrapped_deg
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring, Similarity
from ..geometry.rings import extent, interior_angles_deg, larger_extent, sides, without_needless_corners
from ..geometry.tolerance import authoring_tolerance
from ..item.model import BASE, Does, Piece
from ..solution.model import Placement, Solution
from .names import (
    a_turn_in_words,
    degrees_in_words,
    length_in_words,
    list_in_words,
    number_of,
    sentence_case,
    the_option,
    the_piece,
)

__all__ = ["base_alt", "check_alt", "option_alt", "outline_alt", "piece_alt", "sheet_alt", "turn_alt"]

Mark = tuple[str, tuple[Point, Point]]  # the letter, the marked stretch

_WAY = "anticlockwise from the lowest corner, each side with the angle inside at its end"
_SHORT_WAY = "anticlockwise"
_FROM = "counted from the lower left of the drawing"


def outline_alt(outline: Outline, *, marks: Sequence[Mark] = (), way: str = _WAY) -> str:
    """An outline told corner by corner, going anticlockwise from its lowest corner.

    outline : as it is drawn, in any coordinates, needless corners dropped
    marks   : marked stretches, in the same coordinates; one off its outside is told by its place
    way     : how the walk is announced
    """
    outer = _from_lowest(outline.exterior)
    tolerance = authoring_tolerance(larger_extent(outer))
    told = [
        f"An outline with {number_of(len(outer), 'corner')}.",
        f"Going {way}: {_walk(outer)}.",
    ]
    for index, hole in enumerate(outline.holes, start=1):
        inner = _from_lowest(hole[::-1])
        which = "It has a hole with" if len(outline.holes) == 1 else f"Hole {index} of {len(outline.holes)} has"
        told.append(
            f"{which} {number_of(len(inner), 'corner')}; its lowest corner lies {_place(outer, inner[0])}, {_FROM}."
        )
        told.append(f"Going anticlockwise round the hole: {_walk(inner)}.")
    told += [f"Mark {letter} is on {_stretch(outer, stretch, tolerance)}." for letter, stretch in marks]
    return " ".join(told)


def piece_alt(piece: Piece, *, tolerance: float | None = None, way: str = _WAY) -> str:
    """A piece as the sheet shows it: what becomes of it, its outline, where its mark is, what it must meet.

    tolerance : in item units, for needless corners; by default from the piece's own size
    """
    shown = Similarity(turn_deg=wrapped_deg(piece.turned))
    near = authoring_tolerance(larger_extent(piece.corners)) if tolerance is None else tolerance
    outline = Outline.of(without_needless_corners(shown.apply(piece.corners), near))
    start, end = shown.apply(piece.side)
    partner = "the base" if piece.of == BASE else the_piece(piece.of)
    to_do = "to cut away" if piece.does is Does.CUT else "to join"
    return (
        f"{sentence_case(the_piece(piece.name))}, a piece {to_do}. "
        f"{outline_alt(outline, marks=[(piece.mark, (start, end))], way=way)} "
        f"It must meet mark {piece.mark} on {partner}."
    )


def base_alt(base: Outline, marks: Sequence[Mark], *, way: str = _WAY) -> str:
    """The base, with the marks that its pieces must meet."""
    return f"The base. {outline_alt(base, marks=marks, way=way)}"


def option_alt(label: str, outline: Outline, *, way: str = _WAY) -> str:
    """An option as it is drawn."""
    return f"{sentence_case(the_option(label))}. {outline_alt(outline, way=way)}"


def turn_alt(turn_deg: float) -> str:
    """The arrow that shows a turn."""
    return f"An arrow that shows {a_turn_in_words(turn_deg)}."


def sheet_alt(solution: Solution) -> str:
    """The whole question: base, pieces, options, as the sheet shows them."""
    item = solution.item
    near = authoring_tolerance(item.extent)
    told = [f"A question sheet. Every outline is told {_WAY}."]  # once for all, since the sheet has many
    told.append(base_alt(item.base.simplified(near), _marks_on(BASE, item.pieces), way=_SHORT_WAY))
    for placement in solution.placements:
        told.append(_piece_with_partners(placement, item.pieces, near))
    return " ".join([*told, *_options(solution, near)])


def check_alt(solution: Solution) -> str:
    """The finished outline beside the options, of which none has been tried."""
    told = [f"A finished outline with options beside it. Every outline is told {_WAY}."]
    told.append(f"The finished outline. {outline_alt(solution.outline, way=_SHORT_WAY)}")
    return " ".join([*told, *_options(solution, authoring_tolerance(solution.item.extent))])


def _options(solution: Solution, near: float) -> list[str]:
    told = [f"The options are {list_in_words([verdict.label for verdict in solution.verdicts])}."]
    for verdict in solution.verdicts:
        told.append(option_alt(verdict.label, verdict.outline.simplified(near).moved(verdict.drawn), way=_SHORT_WAY))
    return told


def _piece_with_partners(placement: Placement, pieces: Sequence[Piece], tolerance: float) -> str:
    piece = placement.piece
    told = [piece_alt(piece, tolerance=tolerance, way=_SHORT_WAY)]
    shown = Similarity(turn_deg=wrapped_deg(piece.turned))
    outer = _from_lowest(Outline.of(without_needless_corners(shown.apply(piece.corners), tolerance)).exterior)
    for letter, (start, end) in _marks_on(piece.name, pieces):
        there = shown.apply((start, end))
        told.append(f"Mark {letter} is on {_stretch(outer, (there[0], there[1]), tolerance)}.")
    return " ".join(told)


def _marks_on(name: str, pieces: Sequence[Piece]) -> list[Mark]:
    return [(piece.mark, piece.meets) for piece in pieces if piece.of == name]


def _from_lowest(ring: Ring) -> Ring:
    """The same ring from its lowest corner, the leftmost of those where several are equally low."""
    near = larger_extent(ring) * 1e-6
    lowest = min(y for _, y in ring)
    start = min((x, index) for index, (x, y) in enumerate(ring) if y <= lowest + near)[1]
    return ring[start:] + ring[:start]


def _walk(ring: Ring) -> str:
    angles = interior_angles_deg(ring)
    told = []
    for index, (start, end) in enumerate(sides(ring)):
        corner = angles[(index + 1) % len(ring)]
        told.append(
            f"side {index + 1} of length {_length(math.dist(start, end))}, {degrees_in_words(corner, decimals=1)}"
        )
    return "; ".join(told)


def _stretch(ring: Ring, stretch: tuple[Point, Point], tolerance: float) -> str:
    """Where a marked stretch lies: a whole side, a part of one, or a place of its own off this ring."""
    for index, (start, end) in enumerate(sides(ring)):
        length = math.dist(start, end)
        along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
        offsets = [(x - start[0], y - start[1]) for x, y in stretch]
        if any(abs(along[0] * y - along[1] * x) > tolerance for x, y in offsets):
            continue
        first, last = sorted(along[0] * x + along[1] * y for x, y in offsets)
        if first < -tolerance or last > length + tolerance:
            continue
        if first <= tolerance and last >= length - tolerance:
            return f"side {index + 1}"
        return f"side {index + 1}, from {_length(max(0.0, first))} to {_length(last)} along it"
    return f"a line from {_place(ring, stretch[0])} to {_place(ring, stretch[1])}, {_FROM}"


def _place(ring: Ring, point: Point) -> str:
    left, bottom, _, _ = extent(ring)
    return f"{_signed(point[0] - left, 'across', 'back')} and {_signed(point[1] - bottom, 'up', 'down')}"


def _signed(distance: float, forward: str, backward: str) -> str:
    words = _length(abs(distance))
    return f"{words} {backward if distance < 0 and words != '0' else forward}"


def _length(length: float) -> str:
    """Two decimals, where speech makes do with one: a reader may want to draw from these words."""
    return length_in_words(length, decimals=2)
