"""`explainers stills`: each step of a lesson as a picture."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import at_the_door
from .manner_options import ThemeOption, theme_given

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers stills items/first-blocks.yaml            a lesson
  explainers stills items/corner-block.yaml --to out/  an item alone
  explainers stills items/                             each in its folder"""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def stills(
    paths: Annotated[list[Path], typer.Argument(metavar="PATH", help="Items, lessons, or folders of them.")],
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FOLDER", help="Where to write; else render_out/NAME.")
    ] = None,
    theme: ThemeOption = None,
) -> int:
    """Write a still for each step, as build --only stills."""
    from .writing import write_each

    return write_each("stills", paths, to, theme=theme_given(theme))
