"""Sheet and work table of a telling that is not seen: nothing is laid out or drawn."""

from __future__ import annotations

from functools import cached_property

from ....choice.stages.unseen import blank
from ....figure.model import Figure
from ....figure.motion import Glide
from ....geometry.rigid_motion import Similarity
from ..drawing.assembly_drawing import AssemblyDrawing, group_of
from ..drawing.sheet import Sheet
from ..drawing.work_table import TablePhase, WorkTable
from ..facts.merge import Corners

__all__ = ["UnseenSheet", "UnseenWorkTable"]


class UnseenSheet(Sheet):
    """A question sheet without a layout."""

    @property
    def options_are_smaller(self) -> bool:
        """As on every sheet that is laid out: its options share one row under the base."""
        return True

    @property
    def base_view(self) -> Similarity:
        """Any view."""
        return Similarity()

    def piece_glide(self, index: int) -> Glide:
        """No way at all."""
        return Glide(group=group_of(index), about=(0.0, 0.0))

    def figure(self, alt: str) -> Figure:
        """No picture."""
        return blank("sheet")


class UnseenWorkTable(WorkTable):
    """A work table at any scale."""

    @cached_property
    def assembly(self) -> AssemblyDrawing:
        """Cloth as large as it was typed."""
        return AssemblyDrawing(solution=self.solution, theme=self.theme, scale=1.0)

    @cached_property
    def view(self) -> Similarity:
        """Any view."""
        return Similarity()

    def figure(self, done: int, phase: TablePhase, alt: str, *, pointing: bool = True) -> Figure:
        """No picture."""
        return blank("table", done, phase)

    def counted(self, corners: Corners, total: str, alt: str, *, settled: bool) -> Figure:
        """No picture."""
        return blank("counted", settled)

    def alone(self, alt: str) -> Figure:
        """No picture."""
        return blank("alone")
