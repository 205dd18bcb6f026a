"""What the file gives: the outline in its own coordinates with its corners numbered, or what is there of it."""

from __future__ import annotations

from collections.abc import Callable, Collection

from ....choice.panels.grid import ROOM, scale_to_fit
from ....choice.panels.named_sides import broken_line, closing_lines, corner_line
from ....choice.panels.outline_panels import outline_in_figures, outline_typed
from ....choice.panels.plot import Plot
from ....choice.panels.remarks import Remarks
from ....choice.panels.view import Panel
from ....document.fields import Faults, Table
from ....document.nodes import ListNode, MapEntry, MapNode
from ....document.notation import shown_point
from ....figure.model import Role
from ....figure.theme import Theme
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Ring
from ....item.ring_reader import ring_begun, ring_in
from ..solution import TurnedOutlineSolution

__all__ = ["outline_panel", "sketched"]

_KEY = "outline"
_HEADING = "The outline"


def outline_panel(
    solution: TurnedOutlineSolution, remarks: Remarks, line_of: Callable[[str], int], theme: Theme
) -> Panel:
    """The outline as the file gives it, its figures, and its corners as a file would list them."""
    item = solution.item
    plot = Plot(item.outline.rings, scale_to_fit(item.outline.rings, *ROOM), theme)
    plot.material(item.outline, Role.OUTLINE, theme.outline)
    lines = [corner_line(item.corners)]
    for number, hole in enumerate(item.outline.holes, start=1):
        lines.append(f"Hole {number}: " + ", ".join(map(shown_point, hole)))
    lines += closing_lines(item, _KEY)
    remarks.keep_free(plot, _KEY)
    plot.numbered(item.corners, item.outline.holes)
    remarks.draw(plot, _KEY)
    return Panel(
        name=_KEY,
        heading=_HEADING,
        line=line_of(_KEY),
        pictures=(plot.picture(_alt(item.corners)),),
        lines=(*lines, *outline_in_figures(solution)),
        typed=outline_typed(solution.outline),
        remarks=remarks.of(_KEY),
    )


def sketched(root: MapNode, wrong: Collection[str], theme: Theme) -> tuple[Panel, ...]:
    """The outline of a file that cannot be solved, right or wrong; nothing where none can be read.

    wrong : the fields with faults
    """
    entry = root.entries.get(_KEY)
    if entry is None or not isinstance(entry.value, MapNode):
        return ()
    table = Table(entry.value, _KEY, Faults())
    ring = _ring(table)
    if ring is None:
        begun = ring_begun(table)
        return (_broken(begun, entry.line, theme),) if len(set(begun)) > 1 else ()
    holes = table.get("holes")
    listed = holes.items if isinstance(holes, ListNode) else ()
    inner = [_ring(Table(MapNode({"corners": MapEntry(hole, hole.line)}, entry.line), "", Faults())) for hole in listed]
    outline = Outline.of(ring, [hole for hole in inner if hole])
    plot = Plot(outline.rings, scale_to_fit(outline.rings, *ROOM), theme)
    at_fault = any(field == _KEY or field.startswith(f"{_KEY}.") for field in wrong)
    stroke, dash = (theme.wrong, theme.dash) if at_fault else (theme.ink, None)
    plot.material(outline, Role.OUTLINE, theme.outline, stroke=stroke, dash=dash)
    plot.numbered(ring)
    return (
        Panel(
            name=_KEY,
            heading=_HEADING,
            line=entry.line,
            pictures=(plot.picture(_alt(ring)),),
            lines=(corner_line(ring),),
        ),
    )


def _broken(begun: Ring, line: int, theme: Theme) -> Panel:
    plot = Plot((begun,), scale_to_fit((begun,), *ROOM), theme)
    plot.broken(begun)
    picture = plot.picture("The outline on a grid, up to where it breaks")
    return Panel(name=_KEY, heading=_HEADING, line=line, pictures=(picture,), lines=(broken_line(begun),))


def _alt(ring: Ring) -> str:
    return f"The outline on a grid, with {len(ring)} numbered corners"


def _ring(table: Table) -> Ring | None:
    typed = ring_in(table)
    return typed.corners if typed is not None and len(set(typed.corners)) > 1 else None
