"""How far a piece turns."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ....choice import fingerprint
from ....choice.fact import Fact, Stated
from ....geometry.angles import wrapped_deg
from ....geometry.rigid_motion import Point, RigidMotion, Ring, Similarity
from ....geometry.rings import signed_area
from ....geometry.tolerance import computed
from ....words.messages import say
from ....words.names import (
    a_turn_in_words,
    is_half_turn,
    is_no_turn,
    sentence_case,
    the_piece,
)
from ....words.turning import turn_piece
from ..model import Does
from ..solving.solution import JoinAndCutSolution

__all__ = ["TurnFact", "turn_fact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnFact(Fact):
    """How far a piece turns from the way the sheet shows it, the shorter way round."""

    name: str
    mark: str
    does: Does
    turn_deg: float  # in (-180, 180]
    shown_ring: Ring  # the piece as the sheet shows it, turned about the origin of its own coordinates; anticlockwise
    placed_ring: Ring  # the same corners in the same order where they lie

    def holds(self) -> bool:
        """Turning the one ring by ``turn_deg``, then shifting it, gives the other."""
        shown, placed = self.shown_ring, self.placed_ring
        if len(shown) != len(placed) or not -180.0 < self.turn_deg <= 180.0 or signed_area(shown) <= 0.0:
            return False
        turned = RigidMotion(turn_deg=self.turn_deg).apply(shown)
        shift = placed[0][0] - turned[0][0], placed[0][1] - turned[0][1]
        return all(
            math.dist((x + shift[0], y + shift[1]), goal) <= computed(self.tolerance)
            for (x, y), goal in zip(turned, placed, strict=True)
        )

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """How far, and the piece as it is shown."""
        shown = fingerprint.points(self.shown_ring, fingerprint.lower_left(self.shown_ring))
        return ("turn", self.name, self.mark, self.does.value, fingerprint.angle(self.turn_deg), shown)

    def stated(self) -> Stated:
        """The turn."""
        return Stated(
            turn_deg=self.turn_deg,
            pieces=(self.name,),
            is_moved=True,
            mark=self.mark,
            corner_count=len(self.shown_ring),
        )

    def narration(self) -> tuple[str, ...]:
        """How far the piece turns, and which way."""
        piece = the_piece(self.name)
        if is_no_turn(self.turn_deg):
            return (sentence_case(say("{piece} needs no turn.", piece=piece)),)
        return (turn_piece(piece, self.turn_deg),)

    def note(self) -> str:
        """To the teacher, while the piece is turned or stays as it is."""
        piece = the_piece(self.name)
        if is_no_turn(self.turn_deg):
            return say("Ask first: does {piece} have to turn at all?", piece=piece)
        if is_half_turn(self.turn_deg):
            return say("Let learners turn {piece} both ways, and see that it ends up the same.", piece=piece)
        return say(
            "Before you go on, ask: which way would you turn {piece}, and how far? Let them show it with a hand.",
            piece=piece,
        )

    def as_line(self) -> str:
        """As a plain line."""
        return f"{the_piece(self.name)}: {a_turn_in_words(self.turn_deg)}"


def turn_fact(solution: JoinAndCutSolution, index: int) -> TurnFact:
    """How far the piece of this number turns."""
    placement = solution.placements[index]
    piece = placement.piece
    corners = piece.corners if signed_area(piece.corners) > 0 else piece.corners[::-1]
    shown: Ring = Similarity(turn_deg=wrapped_deg(piece.turned)).apply(corners)
    return TurnFact(
        tolerance=solution.tolerance,
        name=piece.name,
        mark=piece.mark,
        does=piece.does,
        turn_deg=placement.turn_deg,
        shown_ring=shown,
        placed_ring=placement.motion.apply(corners),
    )
