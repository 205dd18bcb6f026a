"""`explainers deck`: the slides of a lesson."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import at_the_door
from .theme_option import ThemeOption, theme_given

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers deck items/first-blocks.yaml            a lesson
  explainers deck items/corner-block.yaml --to out/  an item alone
  explainers deck items/                             each in its folder"""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def deck(
    paths: Annotated[list[Path], typer.Argument(metavar="PATH", help="Items, lessons, or folders of them.")],
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FOLDER", help="Where to write; else render_out/NAME.")
    ] = None,
    theme: ThemeOption = None,
) -> int:
    """Write the deck: a slide a step, shapes that can be edited, notes."""
    from .writing import write_each

    return write_each("deck", paths, to, theme=theme_given(theme))
