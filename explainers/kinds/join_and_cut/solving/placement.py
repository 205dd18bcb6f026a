"""One piece laid where its mark meets its partner's, as a plain value.

Everything stands in the base's coordinates unless a field says otherwise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ....geometry.locate import span_on
from ....geometry.outline import Outline
from ....geometry.rigid_motion import RigidMotion, Ring, Side
from ....geometry.tolerance import plain
from ....words.mark_names import the_mark
from ....words.messages import own_verbs
from ....words.names import a_turn_in_words, is_half_turn, point_in_words, sentence_case, the_piece
from ..model import BASE, Does, Piece

__all__ = ["Placement", "is_part_of_side"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """One piece laid where its mark meets its partner's."""

    piece: Piece
    motion: RigidMotion  # from the piece's own coordinates to the base's
    turn_deg: float  # from the piece as the sheet shows it to where it lies, in (-180, 180]
    ring: Ring  # the piece where it lies, anticlockwise, welded to its neighbours
    side: Side  # the marked side where it lies, walked with the piece on the left
    partner: Side  # the side that it meets, walked with the partner's material on the left
    before: Outline  # the outline before this piece, needless corners dropped
    after: Outline  # the outline after it, likewise

    def as_line(self) -> str:
        """How it is laid, as a sentence for a teacher who reads the solution as a plan."""
        piece = self.piece
        name = the_piece(piece.name)
        partner = "the base" if piece.of == BASE else the_piece(piece.of)
        turn = a_turn_in_words(self.turn_deg)
        if is_half_turn(self.turn_deg):
            turn += ", either way"
        own = own_verbs().get(piece.does)
        if piece.does is Does.CUT:
            mark = f"{the_mark(piece.mark)} on {partner}"
            does = f"cut away {name}" if own is None else f"{own.plain} {name}"
        else:
            mark = the_mark(piece.mark)
            does = f"join {name} to {partner}" if own is None else f"{own.plain} {name} where it meets {partner}"
        start, end = self.partner
        return (
            f"{sentence_case(does)}: {turn}, so that {mark} lies from {point_in_words(start)} to {point_in_words(end)}."
        )


def is_part_of_side(side: Side, ring: Ring, partner: Side, before: Outline, tolerance: float) -> bool:
    """Whether two sides that meet leave a plain length of either whole side over."""
    for rings, span in (((ring,), side), (before.rings, partner)):
        found = span_on(rings, span, tolerance)
        if found is not None and math.dist(*found.whole) - math.dist(*span) > plain(tolerance):
            return True
    return False
