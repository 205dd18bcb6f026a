"""Pictures in words, for readers who cannot see them: enough to answer the question, without answering it.

An outline is told corner by corner, the inside on the left all the way, so that a shape and its mirror image are told
differently while a turned shape is told alike but for where the telling starts. Nothing here says which option fits.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ....geometry.angles import wrapped_deg
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring, Side, Similarity
from ....geometry.rings import extent, interior_angles_deg, larger_extent, sides, without_needless_corners
from ....geometry.side import unit_vector
from ....geometry.tolerance import authoring_tolerance
from ....words.messages import say, say_count
from ....words.names import (
    degrees_in_words,
    is_half_turn,
    is_no_turn,
    is_quarter_turn,
    length_in_words,
    list_in_words,
    sentence_case,
    the_piece,
)
from ..model import BASE, Does, Piece
from ..solving.placement import Placement
from ..solving.solution import JoinAndCutSolution

__all__ = ["base_alt", "check_alt", "option_alt", "outline_alt", "piece_alt", "sheet_alt", "turn_alt"]

Mark = tuple[str, Side]  # the letter, the marked stretch


def outline_alt(outline: Outline, *, marks: Sequence[Mark] = (), way_told: bool = False) -> str:
    """An outline told corner by corner, going anticlockwise from its lowest corner.

    outline  : as it is drawn, in any coordinates, needless corners dropped
    marks    : marked stretches, in the same coordinates; one off its outside is told by its place
    way_told : whether it has been told already where an outline starts, and what is told of each side
    """
    outer = _from_lowest(outline.exterior)
    tolerance = authoring_tolerance(larger_extent(outer))
    told = [
        say_count("An outline with {count} corner.", "An outline with {count} corners.", len(outer)),
        say("Going anticlockwise: {walk}.", walk=_walk(outer))
        if way_told
        else say(
            "Going anticlockwise from the lowest corner, each side with the angle inside at its end: {walk}.",
            walk=_walk(outer),
        ),
    ]
    for index, hole in enumerate(outline.holes, start=1):
        inner = _from_lowest(hole[::-1])
        told.append(_hole(index, len(outline.holes), len(inner), _place(outer, inner[0])))
        told.append(say("Going anticlockwise round the hole: {walk}.", walk=_walk(inner)))
    told += [_mark(letter, outer, stretch, tolerance) for letter, stretch in marks]
    return " ".join(told)


def piece_alt(piece: Piece, *, tolerance: float | None = None, way_told: bool = False) -> str:
    """A piece as the sheet shows it: what becomes of it, its outline, where its mark is, what it must meet.

    tolerance : in item units, for needless corners; by default from the piece's own size
    """
    shown = Similarity(turn_deg=wrapped_deg(piece.turned))
    near = authoring_tolerance(larger_extent(piece.corners)) if tolerance is None else tolerance
    outline = Outline.of(without_needless_corners(shown.apply(piece.corners), near))
    start, end = shown.apply(piece.side)
    name = the_piece(piece.name)
    if piece.does is Does.CUT:
        what = say("{piece}, a piece to cut away.", piece=name)
    else:
        what = say("{piece}, a piece to join.", piece=name)
    if piece.of == BASE:
        meets = say("It must meet mark {mark} on the base.", mark=piece.mark)
    else:
        meets = say("It must meet mark {mark} on {partner}.", mark=piece.mark, partner=the_piece(piece.of))
    shape = outline_alt(outline, marks=[(piece.mark, (start, end))], way_told=way_told)
    return " ".join((sentence_case(what), shape, meets))


def base_alt(base: Outline, marks: Sequence[Mark], *, way_told: bool = False) -> str:
    """The base, with the marks that its pieces must meet."""
    return " ".join((say("The base."), outline_alt(base, marks=marks, way_told=way_told)))


def option_alt(label: str, outline: Outline, *, way_told: bool = False) -> str:
    """An option as it is drawn."""
    return " ".join((say("Option {label}.", label=label), outline_alt(outline, way_told=way_told)))


def turn_alt(turn_deg: float) -> str:
    """The arrow that shows a turn."""
    if is_no_turn(turn_deg):
        return say("An arrow that shows no turn.")
    if is_half_turn(turn_deg):
        return say("An arrow that shows half a turn.")
    if is_quarter_turn(turn_deg):
        if turn_deg > 0:
            return say("An arrow that shows a quarter turn anticlockwise.")
        return say("An arrow that shows a quarter turn clockwise.")
    degrees = degrees_in_words(turn_deg)
    if turn_deg > 0:
        return say("An arrow that shows a turn of {degrees} anticlockwise.", degrees=degrees)
    return say("An arrow that shows a turn of {degrees} clockwise.", degrees=degrees)


def sheet_alt(solution: JoinAndCutSolution) -> str:
    """The whole question: base, pieces, options, as the sheet shows them."""
    return " ".join([asked_alt(solution), *_options(solution, authoring_tolerance(solution.item.extent))])


def asked_alt(solution: JoinAndCutSolution) -> str:
    """The question without its options, which stand on a page of their own."""
    item = solution.item
    near = authoring_tolerance(item.extent)
    told = [say("A question sheet."), _way()]
    told.append(base_alt(item.base.simplified(near), _marks_on(BASE, item.pieces), way_told=True))
    for placement in solution.placements:
        told.append(_piece_with_partners(placement, item.pieces, near))
    return " ".join(told)


def options_alt(solution: JoinAndCutSolution) -> str:
    """The options of a question on that page."""
    told = [say("A page of options."), _way(), *_options(solution, authoring_tolerance(solution.item.extent))]
    return " ".join(told)


def check_alt(solution: JoinAndCutSolution) -> str:
    """The finished outline beside the options, of which none has been tried."""
    told = [say("A finished outline with options beside it."), _way()]
    told.append(" ".join((say("The finished outline."), outline_alt(solution.outline, way_told=True))))
    return " ".join([*told, *_options(solution, authoring_tolerance(solution.item.extent))])


def _way() -> str:
    """Said once for all, since a sheet has many outlines."""
    return say(
        "Every outline is told anticlockwise from the lowest corner, each side with the angle inside at its end."
    )


def _options(solution: JoinAndCutSolution, near: float) -> list[str]:
    told = [say("The options are {labels}.", labels=list_in_words([verdict.label for verdict in solution.verdicts]))]
    for verdict in solution.verdicts:
        told.append(option_alt(verdict.label, verdict.outline.simplified(near).moved(verdict.drawn), way_told=True))
    return told


def _hole(index: int, holes: int, corners: int, place: str) -> str:
    if holes == 1:
        return say_count(
            "It has a hole with {count} corner; its lowest corner lies {place}, counted from the lower left of the "
            "drawing.",
            "It has a hole with {count} corners; its lowest corner lies {place}, counted from the lower left of the "
            "drawing.",
            corners,
            place=place,
        )
    return say_count(
        "Hole {number} of {holes} has {count} corner; its lowest corner lies {place}, counted from the lower left of "
        "the drawing.",
        "Hole {number} of {holes} has {count} corners; its lowest corner lies {place}, counted from the lower left of "
        "the drawing.",
        corners,
        number=index,
        holes=holes,
        place=place,
    )


def _piece_with_partners(placement: Placement, pieces: Sequence[Piece], tolerance: float) -> str:
    piece = placement.piece
    told = [piece_alt(piece, tolerance=tolerance, way_told=True)]
    shown = Similarity(turn_deg=wrapped_deg(piece.turned))
    outer = _from_lowest(Outline.of(without_needless_corners(shown.apply(piece.corners), tolerance)).exterior)
    for letter, (start, end) in _marks_on(piece.name, pieces):
        there = shown.apply((start, end))
        told.append(_mark(letter, outer, (there[0], there[1]), tolerance))
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
    return "; ".join(
        say(
            "side {number} of length {length}, {degrees}",
            number=index + 1,
            length=_length(math.dist(start, end)),
            degrees=degrees_in_words(angles[(index + 1) % len(ring)], decimals=1),
        )
        for index, (start, end) in enumerate(sides(ring))
    )


def _mark(letter: str, ring: Ring, stretch: Side, tolerance: float) -> str:
    """Where a marked stretch lies: a whole side, a part of one, or a place of its own off this ring."""
    for index, (start, end) in enumerate(sides(ring)):
        length = math.dist(start, end)
        along = unit_vector((start, end))
        offsets = [(x - start[0], y - start[1]) for x, y in stretch]
        if any(abs(along[0] * y - along[1] * x) > tolerance for x, y in offsets):
            continue
        first, last = sorted(along[0] * x + along[1] * y for x, y in offsets)
        if first < -tolerance or last > length + tolerance:
            continue
        if first <= tolerance and last >= length - tolerance:
            return say("Mark {mark} is on side {number}.", mark=letter, number=index + 1)
        return say(
            "Mark {mark} is on side {number}, from {start} to {end} along it.",
            mark=letter,
            number=index + 1,
            start=_length(max(0.0, first)),
            end=_length(last),
        )
    return say(
        "Mark {mark} is on a line from {start} to {end}, counted from the lower left of the drawing.",
        mark=letter,
        start=_place(ring, stretch[0]),
        end=_place(ring, stretch[1]),
    )


def _place(ring: Ring, point: Point) -> str:
    left, bottom, _, _ = extent(ring)
    aside, above = point[0] - left, point[1] - bottom
    across, up = _length(abs(aside)), _length(abs(above))
    is_back, is_down = aside < 0 and across != "0", above < 0 and up != "0"
    if is_back and is_down:
        return say("{across} back and {up} down", across=across, up=up)
    if is_back:
        return say("{across} back and {up} up", across=across, up=up)
    if is_down:
        return say("{across} across and {up} down", across=across, up=up)
    return say("{across} across and {up} up", across=across, up=up)


def _length(length: float) -> str:
    """Two decimals, where speech makes do with one: a reader may want to draw from these words."""
    return length_in_words(length, decimals=2)
