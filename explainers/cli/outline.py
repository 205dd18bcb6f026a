"""`explainers outline`: corners from a drawing."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import REFUSED, SOUND, at_the_door

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers outline blocks.svg                  every shape, on a grid of 0.5
  explainers outline blocks.svg --id flag        one shape
  explainers outline blocks.svg --unit 10 --grid 1  squares 10 units wide
  explainers outline blocks.svg --keep-positions    where they lie

What is printed can be pasted below base:, a piece or an option. The lower left
of each shape becomes (0, 0), with `--keep-positions` that of all together.
Shapes are polygons, rectangles and paths with straight sides; one with a curve
is refused. `--unit` says how long 1 is in the drawing: with squares of 10 mm in
a drawing in millimetres, 10. A whole question: explainers trace."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def outline(
    drawing: Annotated[Path, typer.Argument(metavar="FILE.svg", help="An SVG drawing.")],
    id: Annotated[str | None, typer.Option("--id", metavar="NAME", help="One shape, by its id or label.")] = None,
    grid: Annotated[float, typer.Option("--grid", help="Corners go to multiples of this (0.001 to 1000).")] = 0.5,
    unit: Annotated[float, typer.Option("--unit", help="How long 1 is in the drawing (0.000001 to 1000000).")] = 1.0,
    keep_positions: Annotated[
        bool, typer.Option("--keep-positions", help="Leave the shapes where they lie to one another.")
    ] = False,
) -> int:
    """Print the corners of shapes drawn in an SVG file."""
    from ..document.notation import shown
    from ..errors import OutputError
    from ..item.svg_outlines import outlines_in
    from .reports import tell_faults
    from .streams import complain, say

    for option, value, least, most in (("--grid", grid, 0.001, 1e3), ("--unit", unit, 1e-6, 1e6)):
        if not least <= value <= most:  # so that nan, which is neither below a bound nor above one, is told too
            message = f"{option} {value:g} is no number from {shown(least)} to {shown(most)}"
            raise OutputError(f"{message}. To mend it: write one, such as 0.5")
    outlines, faults = outlines_in(drawing, grid=grid, unit=unit, name=id, keep_positions=keep_positions)
    for index, found in enumerate(outlines):
        if index:
            say("")
        count = sum(map(len, (found.corners, *found.holes)))
        moved = f"moved by {found.moved:.3g} at most" if found.moved > 1e-9 else "none moved"
        say(f"# {found.name} ({found.kind}): {count} corners, {moved}")
        for line in found.lines:
            say(line)
        if found.moved > grid / 4:
            complain(
                f"{drawing}: warning: {found.name}: a corner was moved by {found.moved:.3g} onto the grid of "
                f"{grid:g}; look at it, or give another --grid or --unit"
            )
    tell_faults(faults)
    return REFUSED if faults else SOUND
