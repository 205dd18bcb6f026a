"""What joining or cutting a piece makes of the outline."""

from __future__ import annotations

from dataclasses import dataclass

from ....choice import fingerprint
from ....choice.fact import Fact, Stated
from ....geometry import overlay
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring
from ....geometry.rings import perimeter, signed_area
from ....geometry.tolerance import computed
from ....words.messages import message, own_verbs, say
from ....words.names import length_in_words, the_piece
from ..model import Does
from ..solving.solution import JoinAndCutSolution
from ..words.actions import ACTION_CLAIMS
from ..words.own_verbs import say_action

__all__ = ["ChangeFact", "change_fact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeFact(Fact):
    """What joining or cutting a piece makes of the outline."""

    name: str
    does: Does
    ring: Ring
    before: Outline
    after: Outline
    piece_area: float
    area_before: float
    area_after: float

    def holds(self) -> bool:
        """The outline after is the outline before with the piece added or taken away, and the areas are right."""
        piece, tolerance = Outline.of(self.ring), self.tolerance
        slack = tolerance * (perimeter(self.before.exterior) + perimeter(self.ring))
        stated = ((self.piece_area, piece), (self.area_before, self.before), (self.area_after, self.after))
        if any(abs(area - shape.area) > computed(slack) for area, shape in stated):
            return False
        sign = 1.0 if self.does is Does.JOIN else -1.0
        if abs(self.before.area + sign * piece.area - self.after.area) > slack:
            return False
        # Parts that neither overlap nor leave anything over: with the areas right, nothing else is left to be wrong.
        smaller, whole = (self.before, self.after) if self.does is Does.JOIN else (self.after, self.before)
        parts = (smaller, piece)
        return overlay.shared_thickness(*parts) <= tolerance and not any(
            overlay.regions(part, whole, tolerance) for part in parts
        )

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """What is done with it, the areas, and the outline after."""
        areas = tuple(fingerprint.length(area) for area in (self.piece_area, self.area_before, self.area_after))
        return ("change", self.name, self.does.value, areas, fingerprint.shape(self.after, origin))

    def stated(self) -> Stated:
        """Both outlines."""
        return Stated(
            pieces=(self.name,),
            is_moved=True,
            action=ACTION_CLAIMS[self.does],
            outlines=(self.before, self.after),
            corner_count=len(self.ring),
        )

    def narration(self) -> tuple[str, ...]:
        """The piece becomes part of the shape, or is gone from it."""
        piece = the_piece(self.name)
        if self.does is Does.CUT:
            return (say_action(message("Cut {piece} away."), piece=piece),)
        return (say_action(message("Join {piece}."), piece=piece),)

    def note(self) -> str:
        """To the teacher, when the piece has become part of the shape, or is gone from it."""
        if self.does is Does.CUT:
            return say("Ask: which sides of the outline are new now?")
        return say("Ask: which sides of the outline have gone, and which are new?")

    def as_line(self) -> str:
        """As a plain line."""
        own = own_verbs().get(self.does)
        done = own.done if own else "cut away" if self.does is Does.CUT else "joined"
        areas = f"{length_in_words(self.area_before)} square units become {length_in_words(self.area_after)}"
        return f"{the_piece(self.name)}: {done}, {areas}"


def change_fact(solution: JoinAndCutSolution, index: int) -> ChangeFact:
    """What the piece of this number makes of the outline."""
    placement = solution.placements[index]
    return ChangeFact(
        tolerance=solution.tolerance,
        name=placement.piece.name,
        does=placement.piece.does,
        ring=placement.ring,
        before=placement.before,
        after=placement.after,
        piece_area=signed_area(placement.ring),
        area_before=placement.before.area,
        area_after=placement.after.area,
    )
