"""A slip replayed: what comes out when it happens, in the place where the outline lies.

The pieces are laid as the slip lays them, and the one it happens to is outlined in the colour of attention.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from ....choice.drawing.replay import Replay
from ....figure.layout import extent_of, fitting_scale, view_into
from ....figure.model import Area, Entry, Figure, Role
from ....figure.signs import broken
from ....figure.subject import THE_OUTLINE
from ....geometry.rigid_motion import Ring, Similarity
from ..slips.slip_fact import PieceSlipFact
from ..solving.solution import JoinAndCutSolution
from .assembly_drawing import AssemblyDrawing

__all__ = ["PieceReplay"]

_PAD = 0.6


@dataclass(frozen=True)
class PieceReplay(Replay):
    """What comes of a slip, with the pieces as the slip lays them."""

    fact: PieceSlipFact

    def slipped(self, alt: str, *, settled: tuple[str, ...]) -> Figure:
        """The pieces where they lie when it happens."""
        tray = self.choices.figure(alt, settled=settled)
        assembly, count = self._assembly, len(self.fact.placements)
        entries: list[Entry] = [entry for entry in tray.entries if entry.subject != THE_OUTLINE]
        entries += assembly.base(self._view, done=count)
        entries += assembly.joined(self._view, done=count)
        theme = self.choices.theme
        for number, ring in enumerate(self._slipped):
            entries.append(
                Area(
                    id=f"pointed-{number + 1}",
                    group="pointed",
                    role=Role.POINTER,
                    rings=(self._view.apply(ring),),
                    stroke=theme.attention,
                    width=theme.outline_width,
                    dash=broken(theme.outline_width),
                )
            )
        return replace(tray, entries=tuple(entries))

    @property
    def _solution(self) -> JoinAndCutSolution:
        solution = self.choices.solution
        if not isinstance(solution, JoinAndCutSolution):
            raise TypeError(f"{solution.item.name} has no pieces that could lie otherwise")
        return solution

    @property
    def _slipped(self) -> tuple[Ring, ...]:
        """Where the pieces lie that the slip happens to; for one that is left out, where it should have been."""
        lie = {placement.piece.name: placement.ring for placement in self._solution.placements}
        lie |= {placement.piece.name: placement.ring for placement in self.fact.placements}
        return tuple(lie[case.subject] for case in self.fact.cases if case.subject in lie)

    @cached_property
    def _view(self) -> Similarity:
        """As large as the outline is drawn, or as there is room."""
        points = list(self.fact.replayed.exterior)
        for placement in (*self.fact.placements, *self._solution.placements):
            points += placement.ring
        shape, room = extent_of(points), self.choices.room.inset(_PAD)
        return view_into(shape, room, min(self.choices.view.scale, fitting_scale(shape, room)))

    @property
    def _assembly(self) -> AssemblyDrawing:
        slipped = replace(self._solution, placements=self.fact.placements, outline=self.fact.replayed)
        return AssemblyDrawing(solution=slipped, theme=self.choices.theme, scale=self._view.scale, tag="-replay")
