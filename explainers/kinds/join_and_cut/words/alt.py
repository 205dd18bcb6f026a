"""Pictures in words, for readers who cannot see them: enough to answer the question, without answering it.

An outline is told corner by corner, the inside on the left all the way, so that a shape and its mirror image are told
differently while a turned shape is told alike but for where the telling starts. Nothing here says which option fits.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ....choice.words.alt import Mark, how_told, options_told, outline_alt, stretch_alt, turn_alt
from ....geometry.angles import wrapped_deg
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Similarity
from ....geometry.rings import larger_extent, without_needless_corners
from ....geometry.tolerance import authoring_tolerance
from ....words.mark_names import the_mark, the_marks
from ....words.messages import message, say, say_count
from ....words.names import is_no_turn, sentence_case, the_piece
from ..model import BASE, Does, Piece
from ..solving.placement import Placement
from ..solving.solution import JoinAndCutSolution
from .own_verbs import say_action

if TYPE_CHECKING:
    from ..facts.tally import TallyFact

__all__ = [
    "alone_alt",
    "asked_alt",
    "base_alt",
    "counted_alt",
    "done_alt",
    "met_alt",
    "piece_alt",
    "sheet_alt",
    "table_alt",
]


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
        what = say_action(message("{piece}, a piece to cut away."), piece=name)
    else:
        what = say_action(message("{piece}, a piece to join."), piece=name)
    if piece.of == BASE:
        meets = say("It must meet {mark} on the base.", mark=the_mark(piece.mark))
    else:
        meets = say("It must meet {mark} on {partner}.", mark=the_mark(piece.mark), partner=the_piece(piece.of))
    shape = outline_alt(outline, marks=[(piece.mark, (start, end))], way_told=way_told)
    return " ".join((sentence_case(what), shape, meets))


def base_alt(base: Outline, marks: Sequence[Mark], *, way_told: bool = False) -> str:
    """The base, with the marks that its pieces must meet."""
    return " ".join((say("The base."), outline_alt(base, marks=marks, way_told=way_told)))


def sheet_alt(solution: JoinAndCutSolution) -> str:
    """The whole question: base, pieces, options, as the sheet shows them."""
    return " ".join([asked_alt(solution), *options_told(solution)])


def asked_alt(solution: JoinAndCutSolution) -> str:
    """The question without its options, which stand on a page of their own."""
    item = solution.item
    near = authoring_tolerance(item.extent)
    told = [say("A question sheet."), how_told()]
    told.append(base_alt(item.base.simplified(near), _marks_on(BASE, item.pieces), way_told=True))
    for placement in solution.placements:
        told.append(_piece_with_partners(placement, item.pieces, near))
    return " ".join(told)


def _piece_with_partners(placement: Placement, pieces: Sequence[Piece], tolerance: float) -> str:
    piece = placement.piece
    told = [piece_alt(piece, tolerance=tolerance, way_told=True)]
    shown = Similarity(turn_deg=wrapped_deg(piece.turned))
    outer = Outline.of(without_needless_corners(shown.apply(piece.corners), tolerance)).exterior
    for letter, (start, end) in _marks_on(piece.name, pieces):
        there = shown.apply((start, end))
        told.append(stretch_alt(letter, outer, (there[0], there[1]), tolerance))
    return " ".join(told)


def _marks_on(name: str, pieces: Sequence[Piece]) -> list[Mark]:
    return [(piece.mark, piece.meets) for piece in pieces if piece.of == name]


def table_alt(
    solution: JoinAndCutSolution, done: int, *, turned: bool, pointed: bool = False, arc: bool = False
) -> str:
    """A piece on the tray beside the work so far.

    done   : how many pieces are finished; the next one is on the tray
    turned : whether it is turned already
    """
    placement = solution.placements[done]
    piece = the_piece(placement.piece.name)
    told = [
        say("On the work table lies the shape so far."),
        outline_alt(placement.before),
        say("On the tray lies {piece}, turned.", piece=piece)
        if turned
        else say("On the tray lies {piece}, not turned yet.", piece=piece),
    ]
    if pointed:
        told.append(sentence_case(say("{marks} stand out.", marks=the_marks(placement.piece.mark))))
    if arc:
        told.append(turn_alt(placement.turn_deg))
        if turned and not is_no_turn(placement.turn_deg):
            told.append(say("A broken outline shows how {piece} lay before.", piece=piece))
    return " ".join(told)


def met_alt(solution: JoinAndCutSolution, index: int) -> str:
    """A piece laid where the marks meet."""
    placement = solution.placements[index]
    met = say(
        "{piece} lies against the shape so far, and {marks} meet.",
        piece=the_piece(placement.piece.name),
        marks=the_marks(placement.piece.mark),
    )
    return sentence_case(met)


def done_alt(solution: JoinAndCutSolution, index: int) -> str:
    """A piece joined or cut away."""
    placement = solution.placements[index]
    piece = the_piece(placement.piece.name)
    if placement.piece.does is Does.CUT:
        done = say_action(message("{piece} is cut away."), piece=piece)
    else:
        done = say_action(message("{piece} is joined."), piece=piece)
    return " ".join((sentence_case(done), outline_alt(placement.after)))


def counted_alt(solution: JoinAndCutSolution, fact: TallyFact, *, settled: bool) -> str:
    """All pieces done, with dots, crosses and rings at the corners.

    settled : whether it is shown what becomes of them
    """
    corners = fact.corners
    told = [done_alt(solution, len(solution.placements) - 1)]
    if not settled:
        told.append(say("Each of the {count} corners of base and pieces has a dot.", count=corners.came))
        return " ".join(told)
    told.append(say_count("{count} corner has a dot.", "{count} corners have dots.", corners.left))
    if corners.vanish:
        told.append(
            say_count(
                "{count} place where no corner is left has a cross.",
                "{count} places where no corner is left have crosses.",
                len(corners.vanish),
            )
        )
    if corners.met:
        told.append(
            say_count(
                "{count} place where corners make one has a ring.",
                "{count} places where corners make one have rings.",
                len(corners.met),
            )
        )
    return " ".join(told)


def alone_alt(solution: JoinAndCutSolution) -> str:
    """The finished outline alone."""
    return " ".join((say("The finished outline, alone."), outline_alt(solution.outline)))
