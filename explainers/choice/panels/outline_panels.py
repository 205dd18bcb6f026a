"""The finished outline as a teacher is shown it: on a grid with its figures, and small."""

from __future__ import annotations

from collections.abc import Sequence

from ...document.notation import shown
from ...figure.model import Role
from ...figure.theme import Theme
from ...geometry.overlay import pole_of_inaccessibility
from ...geometry.rigid_motion import Ring
from ...words.names import area_in_words, list_in_words, number_of
from ..model import Solution
from .grid import SMALL_ROOM, scale_to_fit
from .plot import Plot
from .remarks import Remarks
from .view import Panel, PanelPicture

__all__ = ["outline_alone", "result_panel"]


def result_panel(solution: Solution, seen: Sequence[Ring], remarks: Remarks, theme: Theme) -> Panel:
    """The finished outline with its area, and its corners as a file would list them.

    seen : what else the picture's window is laid round
    """
    outline = solution.outline
    plot = Plot(seen, scale_to_fit(seen, *SMALL_ROOM), theme)
    plot.material(outline, Role.OUTLINE, theme.outline, width=theme.outline_width)
    area = f"area {shown(round(outline.area, 4))}"
    plot.name(area, pole_of_inaccessibility(outline), size=0.28, colour=theme.ink, on=theme.outline, bold=True)
    remarks.draw(plot, "result")
    counts = [number_of(outline.corner_count, "corner")]
    if outline.holes:
        counts.append(number_of(len(outline.holes), "hole"))
    positions = solution.symmetry_order
    alike = "one turned position only" if positions == 1 else f"{positions} turned positions"
    typed = [f"corners: {_typed(outline.exterior)}"]
    if outline.holes:
        typed.append(f"holes: [{', '.join(map(_typed, outline.holes))}]")
    return Panel(
        name="result",
        heading="The finished outline",
        pictures=(plot.picture("The finished outline on the grid of the base"),),
        lines=(
            f"It has {list_in_words(counts)} and is {area_in_words(outline.area)} in size.",
            f"It looks the same in {alike}.",
        ),
        typed=tuple(typed),
        remarks=remarks.of("result"),
    )


def outline_alone(solution: Solution, theme: Theme) -> PanelPicture:
    """The finished outline, small."""
    rings = solution.outline.rings
    plot = Plot(rings, scale_to_fit(rings, 1.68, 1.2), theme, grid=False, margin=0.08)
    plot.material(solution.outline, Role.OUTLINE, theme.outline)
    return plot.picture(f"The finished outline of {solution.item.title}")


def _typed(ring: Ring) -> str:
    return "[" + ", ".join(f"[{shown(round(x, 6))}, {shown(round(y, 6))}]" for x, y in ring) + "]"
