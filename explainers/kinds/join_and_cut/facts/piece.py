"""What the task asks of a piece."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

from ....choice import fingerprint
from ....choice.fact import Fact, Stated
from ....geometry.angles import wrapped_deg
from ....geometry.locate import span_on
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Similarity
from ....geometry.tolerance import within
from ....words.mark_names import the_mark, the_marks
from ....words.messages import once, own_verbs, say
from ....words.names import the_piece
from ..model import BASE, Does, Piece
from ..solving.solution import JoinAndCutSolution
from ..words.actions import ACTION_CLAIMS

__all__ = ["PieceFact", "piece_fact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceFact(Fact):
    """What the task asks of a piece: its marked side shall meet another of the same length."""

    is_asked: ClassVar[bool] = True

    piece: Piece  # in its own coordinates, as typed
    ticks: int  # how many tick marks both sides wear

    def holds(self) -> bool:
        """The marked side lies on the piece, and is as long as the side that it shall meet."""
        ring = Outline.of(self.piece.corners).simplified(self.tolerance).exterior
        lengths = math.dist(*self.piece.side), math.dist(*self.piece.meets)
        is_on_it = span_on((ring,), self.piece.side, self.tolerance) is not None
        return is_on_it and within(abs(lengths[0] - lengths[1]), self.tolerance)

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """What is done with it, and where both marks are."""
        piece = self.piece
        turned = Similarity(turn_deg=wrapped_deg(piece.turned))
        corners = turned.apply(piece.corners)
        marked = fingerprint.points(turned.apply(piece.side), fingerprint.lower_left(corners))
        # What it meets is written in the partner's own coordinates, whose origin says nothing but for the base.
        start = origin if piece.of == BASE else fingerprint.lower_left(piece.meets)
        meets = fingerprint.points(piece.meets, start)
        return ("piece", piece.name, piece.does.value, piece.of, piece.mark, marked, meets)

    def stated(self) -> Stated:
        """Its names and its mark."""
        piece = self.piece
        return Stated(
            pieces=(piece.name, piece.of),
            mark=piece.mark,
            action=ACTION_CLAIMS[piece.does],
            corner_count=len(piece.corners),
        )

    def narration(self) -> tuple[str, ...]:
        """The piece's mark and its partner's are pointed at."""
        piece = self.piece
        marks, name = the_marks(piece.mark), the_piece(piece.name)
        if piece.of == BASE:
            told = say("Find {marks} on {piece} and on the base.", marks=marks, piece=name)
            found: str = once(told, "both marks", later=say("Find {marks}.", marks=marks))
        else:
            found = say(
                "Find {marks} on {piece} and on {partner}.",
                marks=marks, piece=name, partner=the_piece(piece.of),
            )  # fmt: skip
        return (found, once(say("These sides are equally long.")))

    def note(self) -> str:
        """To the teacher, while the marks are pointed at."""
        return say(
            "Point at {marks}. Ask: which side of {piece} has the mark?",
            marks=the_marks(self.piece.mark),
            piece=the_piece(self.piece.name),
        )

    def as_line(self) -> str:
        """As a plain line."""
        piece = self.piece
        partner = "the base" if piece.of == BASE else the_piece(piece.of)
        own = own_verbs().get(piece.does)
        to_do = f"to {own.plain}" if own else "to cut away" if piece.does is Does.CUT else "to join"
        return f"{the_piece(piece.name)}: {to_do} where {the_mark(piece.mark)} meets {partner}"


def piece_fact(solution: JoinAndCutSolution, index: int) -> PieceFact:
    """What the task asks of the piece of this number, counted from 0."""
    return PieceFact(tolerance=solution.tolerance, piece=solution.placements[index].piece, ticks=index + 1)
