"""`explainers cues`: the cue sheet and the recording script of a lesson."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import at_the_door
from .manner_options import PaceOption, pace_given

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers cues items/first-blocks.yaml            a lesson
  explainers cues items/corner-block.yaml --to out/  an item alone
  explainers cues items/                             each in its folder"""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def cues(
    paths: Annotated[list[Path], typer.Argument(metavar="PATH", help="Items, lessons, or folders of them.")],
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FOLDER", help="Where to write; else render_out/NAME.")
    ] = None,
    pace: PaceOption = None,
) -> int:
    """Write the cue sheet and a script, as build --only cues --only script."""
    from .writing import write_each

    return write_each(("cues", "script"), paths, to, pace=pace_given(pace))
