"""The panels of joining and cutting, as ``choice.panels.maker`` asks for them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator

from ....choice.model import Solution, Warning_
from ....choice.panels.remarks import Remarks, Spot
from ....choice.panels.view import Panel, PanelPicture
from ....document.nodes import MapNode
from ....figure.theme import Theme
from ..solving.solution import own_solution
from .given import base_panel, piece_panels
from .legend import signs
from .sketch import sketched
from .spots import spots
from .steps import step_panels

__all__ = ["Panels"]


class Panels:
    """See ``PanelMaker``."""

    def given(
        self, solution: Solution, remarks: Remarks, line_of: Callable[[str], int], theme: Theme
    ) -> Iterator[Panel]:
        """The base and the pieces."""
        item = own_solution(solution).item
        yield base_panel(item, remarks, line_of, theme)
        yield from piece_panels(item, remarks, line_of, theme)

    def found(self, solution: Solution, remarks: Remarks, theme: Theme) -> Iterator[Panel]:
        """Each piece laid, then the finished outline."""
        return step_panels(own_solution(solution), remarks, theme)

    def sketched(self, root: MapNode, wrong: Collection[str], theme: Theme) -> tuple[Panel, ...]:
        """Base and pieces as far as they can be read."""
        return sketched(root, wrong, theme)

    def spots(self, warning: Warning_, solution: Solution) -> Iterator[Spot]:
        """The places of warnings about base and pieces."""
        return spots(warning, own_solution(solution))

    def signs(self, theme: Theme) -> Iterator[PanelPicture]:
        """A marked side and the two sorts of pieces."""
        return signs(theme)
