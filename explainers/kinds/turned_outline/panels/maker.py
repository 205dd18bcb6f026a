"""The panels of the turned outline, as ``choice.panels.maker`` asks for them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator

from ....choice.model import Solution, Warning_
from ....choice.panels.remarks import Remarks, Spot, closing_middle
from ....choice.panels.view import Panel, PanelPicture
from ....document.nodes import MapNode
from ....figure.theme import Theme
from ..solution import own_solution
from .given import outline_panel, sketched

__all__ = ["Panels"]


class Panels:
    """See ``PanelMaker``."""

    def given(
        self, solution: Solution, remarks: Remarks, line_of: Callable[[str], int], theme: Theme
    ) -> Iterator[Panel]:
        """The outline as the file lists it."""
        yield outline_panel(own_solution(solution), remarks, line_of, theme)

    def found(self, solution: Solution, remarks: Remarks, theme: Theme) -> Iterator[Panel]:
        """Nothing comes of it: its outline is given."""
        return iter(())

    def sketched(self, root: MapNode, wrong: Collection[str], theme: Theme) -> tuple[Panel, ...]:
        """The outline as far as it can be read."""
        return sketched(root, wrong, theme)

    def spots(self, warning: Warning_, solution: Solution) -> Iterator[Spot]:
        """The place of a warning about the walk round the outline; any other is one that any kind may have."""
        closing = closing_middle(warning, solution)
        if closing is not None and warning.field.startswith("outline."):
            yield Spot(panel="outline", at=closing)

    def signs(self, theme: Theme) -> Iterator[PanelPicture]:
        """None beside those of the options."""
        return iter(())
