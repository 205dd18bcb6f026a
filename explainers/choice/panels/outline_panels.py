"""The outline that options are held against as a teacher is shown it: on a grid with its figures, and small."""

from __future__ import annotations

from collections.abc import Sequence

from ...document.notation import shown
from ...figure.model import Role
from ...figure.theme import Theme
from ...geometry.outline import Outline
from ...geometry.overlay import pole_of_inaccessibility
from ...geometry.rigid_motion import Ring
from ...words.names import area_in_words, list_in_words, number_of
from ..model import Solution
from .grid import SMALL_ROOM, scale_to_fit
from .plot import Plot
from .remarks import Remarks
from .view import Panel, PanelPicture

__all__ = ["outline_alone", "outline_in_figures", "outline_typed", "result_panel"]


def result_panel(solution: Solution, seen: Sequence[Ring], remarks: Remarks, theme: Theme, *, alt: str) -> Panel:
    """The finished outline with its area, and its corners as a file would list them.

    seen : what else the picture's window is laid round
    alt  : the picture in words
    """
    outline = solution.outline
    plot = Plot(seen, scale_to_fit(seen, *SMALL_ROOM), theme)
    plot.material(outline, Role.OUTLINE, theme.outline, width=theme.outline_width)
    area = f"area {shown(round(outline.area, 4))}"
    plot.name(area, pole_of_inaccessibility(outline), size=0.28, colour=theme.ink, on=theme.outline, bold=True)
    remarks.draw(plot, "result")
    return Panel(
        name="result",
        heading="The finished outline",
        pictures=(plot.picture(alt),),
        lines=outline_in_figures(solution),
        typed=outline_typed(outline),
        remarks=remarks.of("result"),
    )


def outline_in_figures(solution: Solution) -> tuple[str, str]:
    """How many corners and holes it has, and how large it is; in how many turned positions it looks the same."""
    outline, positions = solution.outline, solution.symmetry_order
    counts = [number_of(outline.corner_count, "corner")]
    if outline.holes:
        counts.append(number_of(len(outline.holes), "hole"))
    alike = "one turned position only" if positions == 1 else f"{positions} turned positions"
    return (
        f"It has {list_in_words(counts)} and is {area_in_words(outline.area)} in size.",
        f"It looks the same in {alike}.",
    )


def outline_typed(outline: Outline) -> tuple[str, ...]:
    """Its corners as a file would list them, and its holes where it has any."""
    corners = f"corners: {_typed(outline.exterior)}"
    return (corners, f"holes: [{', '.join(map(_typed, outline.holes))}]") if outline.holes else (corners,)


def outline_alone(solution: Solution, theme: Theme) -> PanelPicture:
    """The outline that options are held against, small."""
    rings = solution.outline.rings
    plot = Plot(rings, scale_to_fit(rings, 1.68, 1.2), theme, grid=False, margin=0.08)
    plot.material(solution.outline, Role.OUTLINE, theme.outline)
    what = "The outline" if solution.item.outline_given else "The finished outline"
    return plot.picture(f"{what} of {solution.item.title}")


def _typed(ring: Ring) -> str:
    return "[" + ", ".join(f"[{shown(round(x, 6))}, {shown(round(y, 6))}]" for x, y in ring) + "]"
