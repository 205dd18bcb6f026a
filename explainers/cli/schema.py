"""`explainers schema`: a file format for editors."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer

from .door import SOUND, at_the_door

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers schema item    the keys of an item, their values and ranges
  explainers schema lesson  those of a lesson
  explainers schema series  those of a series

Send it to a file with `> item.schema.json`. An editor with a YAML language
server then completes keys and marks mistakes in a file that begins with


  # yaml-language-server: $schema=item.schema.json

It sees keys, kinds of values and ranges; geometry is for the command check."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


class _Kind(StrEnum):
    ITEM = "item"
    LESSON = "lesson"
    SERIES = "series"


@app.command(epilog=EPILOG)
@at_the_door
def schema(
    kind: Annotated[_Kind, typer.Argument(metavar="item|lesson|series", help="Which format.")],
) -> int:
    """Print a JSON Schema, for completion in an editor."""
    from json import dumps

    from ..intake.schema import schema_of
    from .streams import say

    say(dumps(schema_of(kind.value), indent=2, ensure_ascii=False))
    return SOUND
