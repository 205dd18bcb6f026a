"""The panels of joining and cutting, as ``choice.panels.maker`` asks for them, with the places of warnings."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator

from ....choice.model import Solution, Warning_
from ....choice.panels.plot import Plot
from ....choice.panels.remarks import Remarks, Spot, closing_middle, shortest_middle
from ....choice.panels.view import Panel, PanelPicture
from ....choice.question import WarningKind
from ....document.nodes import MapNode
from ....figure.layout import Box
from ....figure.model import Figure
from ....figure.side_marks import side_mark_entries
from ....figure.theme import Theme
from ..drawing.assembly_drawing import THE_BASE
from ..model import BASE, Does, Item, PieceWarning
from ..solving.solution import JoinAndCutSolution, own_solution
from ..words.actions import verb_on_page
from .given import base_panel, piece_panels
from .sketch import sketched
from .steps import step_panels

__all__ = ["Panels"]

_PIECE = re.compile(r"pieces\[(\d+)\]")
_SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
_SIDE = 0.4  # of a sign


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
        return _spots(warning, own_solution(solution))

    def signs(self, theme: Theme) -> Iterator[PanelPicture]:
        """A marked side and the two sorts of pieces."""
        return _signs(theme)


def _spots(warning: Warning_, solution: JoinAndCutSolution) -> Iterator[Spot]:
    """The place of a warning about the base or a piece; none for any other."""
    item = solution.item
    if warning.kind == WarningKind.FINE_SIDES and warning.field == "base":
        yield Spot(panel="base", at=shortest_middle(item.base.rings))
    closing = closing_middle(warning, solution)
    if closing is not None and warning.field.startswith("base."):
        yield Spot(panel="base", at=closing)
    found = _PIECE.match(warning.field)
    if found is None:
        return
    index = int(found[1])
    piece, own = item.pieces[index], f"piece-{index + 1}"
    if closing is not None:
        yield Spot(panel=own, at=closing)
    elif warning.kind == PieceWarning.NO_TURN:
        yield Spot(panel=f"step-{index + 1}", picture="turn", at=piece.mark)
    elif warning.kind == WarningKind.FINE_SIDES:
        yield Spot(panel=own, at=shortest_middle((piece.corners,)))
    else:
        partner = warning.field.endswith(".meets")
        yield Spot(panel=_panel_of(piece.of, item) if partner else own, at=piece.mark)


def _panel_of(owner: str, item: Item) -> str:
    names = [piece.name for piece in item.pieces]
    return "base" if owner == BASE or owner not in names else f"piece-{names.index(owner) + 1}"


def _signs(theme: Theme) -> Iterator[PanelPicture]:
    """A marked side, a piece to join, a piece to cut away."""
    ends = (0.05, _SIDE / 2), (_SIDE - 0.05, _SIDE / 2)
    mark = side_mark_entries("mark", THE_BASE, *ends, ticks=1, mark="", letter_at=None, theme=theme)
    figure = Figure(background=theme.table, entries=mark)
    yield PanelPicture(figure=figure, box=Box(0.0, 0.0, _SIDE, _SIDE), caption="a marked side")
    for does in Does:
        plot = Plot((_SQUARE,), 0.6, theme, grid=False, margin=0.03)
        plot.patterned(_SQUARE, does)
        yield plot.picture("", f"to {verb_on_page(does, theme)}")
