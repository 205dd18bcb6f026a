"""Where a piece's marked side lies against its partner."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ....choice import fingerprint
from ....choice.fact import Fact, Stated
from ....geometry import overlay
from ....geometry.locate import span_on
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring, Side
from ....geometry.rings import signed_area
from ....words.mark_names import the_marks
from ....words.messages import message, once, say
from ....words.names import sentence_case, the_piece
from ..model import BASE, Does
from ..solving.placement import is_part_of_side
from ..solving.solution import JoinAndCutSolution
from ..words.actions import ACTION_CLAIMS
from ..words.own_verbs import say_action

__all__ = ["MeetFact", "meet_fact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeetFact(Fact):
    """Where a piece's marked side lies against its partner."""

    name: str
    mark: str
    does: Does
    of: str
    side: Side  # walked with the piece on the left
    partner: Side  # walked with the partner's material on the left
    ring: Ring  # the piece where it lies
    before: Outline  # the outline that it meets

    def holds(self) -> bool:
        """Both sides are where they are said to be and cover each other.

        Joined, the interiors lie on opposite sides of them and the piece overlaps nothing; cut, the interiors lie on
        the same side and the piece is inside the outline.
        """
        own = span_on((self.ring,), self.side, self.tolerance)
        other = span_on(self.before.rings, self.partner, self.tolerance)
        if own is None or other is None or not own.forward or not other.forward or signed_area(self.ring) <= 0.0:
            return False
        goal = self.partner[::-1] if self.does is Does.JOIN else self.partner
        if max(math.dist(*pair) for pair in zip(self.side, goal, strict=True)) > self.tolerance:
            return False
        if self.does is Does.JOIN:
            return overlay.shared_thickness(self.before, Outline(self.ring)) <= self.tolerance
        return not overlay.regions(Outline(self.ring), self.before, self.tolerance)

    @property
    def is_part_of_side(self) -> bool:
        """Whether the sides that meet leave a plain length of either whole side over."""
        return is_part_of_side(self.side, self.ring, self.partner, self.before, self.tolerance)

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """What is done with it, and where it lies."""
        places = (fingerprint.points(self.partner, origin), fingerprint.points(self.ring, origin))
        return ("meet", self.name, self.mark, self.does.value, self.of, *places)

    def stated(self) -> Stated:
        """Both names and the mark."""
        return Stated(
            pieces=(self.name, self.of),
            is_moved=True,
            mark=self.mark,
            action=ACTION_CLAIMS[self.does],
            outlines=(self.before,),
            corner_count=len(self.ring),
        )

    def narration(self) -> tuple[str, ...]:
        """The marked sides are brought together."""
        slide = say("Slide {piece} until {marks} meet.", piece=the_piece(self.name), marks=the_marks(self.mark))
        if self.does is Does.CUT:
            return (slide, once(say_action(message("It lies on top, ready to be cut away."))))
        return (slide, once(say_action(message("They lie side by side, ready to be joined."))))

    def when_laid(self) -> tuple[str, ...]:
        """To a learner who has laid the piece by hand where it must lie."""
        meeting = sentence_case(say("{marks} meet.", marks=the_marks(self.mark)))
        if self.does is Does.CUT:
            return (meeting, say_action(message("It lies on top, ready to be cut away.")))
        return (meeting, say_action(message("They lie side by side, ready to be joined.")))

    def note(self) -> str:
        """To the teacher, while the marked sides are brought together."""
        piece = the_piece(self.name)
        if self.does is Does.CUT:
            return say("Ask: why does {piece} lie on top of the shape, not beside it?", piece=piece)
        return say("Ask: on which side of the mark does {piece} lie, and on which side its partner?", piece=piece)

    def as_line(self) -> str:
        """As a plain line."""
        partner = "the base" if self.of == BASE else the_piece(self.of)
        where = "on top of" if self.does is Does.CUT else "beside"
        return f"{the_piece(self.name)}: {where} {partner}, {the_marks(self.mark)} together"


def meet_fact(solution: JoinAndCutSolution, index: int) -> MeetFact:
    """Where the marked side of the piece of this number lies against its partner."""
    placement = solution.placements[index]
    piece = placement.piece
    return MeetFact(
        tolerance=solution.tolerance,
        name=piece.name,
        mark=piece.mark,
        does=piece.does,
        of=piece.of,
        side=placement.side,
        partner=placement.partner,
        ring=placement.ring,
        before=placement.before,
    )
