"""What a kind of question gives for the panels that a teacher is shown."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from typing import Protocol

from ...document.nodes import MapNode
from ...figure.theme import Theme
from ..model import Solution, Warning_
from .remarks import Remarks, Spot
from .view import Panel, PanelPicture

__all__ = ["PanelMaker"]


class PanelMaker(Protocol):
    """Panels of one kind; those of the options are the same for all."""

    def given(
        self, solution: Solution, remarks: Remarks, line_of: Callable[[str], int], theme: Theme
    ) -> Iterable[Panel]:
        """What the file gives, beside the options.

        line_of : field path -> line in the file, 0 where it is not known
        """

    def found(self, solution: Solution, remarks: Remarks, theme: Theme) -> Iterable[Panel]:
        """What comes of it, the finished outline last; nothing where the question shows its outline."""

    def sketched(self, root: MapNode, wrong: Collection[str], theme: Theme) -> tuple[Panel, ...]:
        """What can be drawn of a file that cannot be solved; nothing where no outline can be read.

        wrong : the fields with faults
        """

    def spots(self, warning: Warning_, solution: Solution) -> Iterable[Spot]:
        """Where a warning is shown that only this kind knows; none for any other."""

    def signs(self, theme: Theme) -> Iterable[PanelPicture]:
        """The signs in these pictures, each with what it stands for as its caption."""
