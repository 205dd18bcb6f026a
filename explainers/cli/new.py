"""`explainers new`: a file to begin from."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from .door import SOUND, at_the_door

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers new item my-block                     a question to change
  explainers new item my-block --like kite-block   begun from a demo item
  explainers new item turn-me --kind turned-outline
  explainers new lesson my-lesson                  of the items beside it
  explainers new series my-series --to blocks/     of the lessons there

Each file builds as it is, and tells in remarks what every key means. A file that is there is never written over. A
lesson made where no item lies comes with a first item."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


class _Kind(StrEnum):
    ITEM = "item"
    LESSON = "lesson"
    SERIES = "series"


def _kinds() -> list[str]:
    """For completion in a shell."""
    from ..kinds.registry import kind_names

    return list(kind_names())


@app.command(epilog=EPILOG)
@at_the_door
def new(
    kind: Annotated[_Kind, typer.Argument(metavar="item|lesson|series", help="What to make.")],
    name: Annotated[str, typer.Argument(metavar="NAME", help="Its name: lower-case letters, digits, hyphens.")],
    like: Annotated[
        str | None,
        typer.Option("--like", metavar="DEMO", help="The demo item to begin from (default: one of the kind)."),
    ] = None,
    of_kind: Annotated[
        str | None,
        typer.Option(
            "--kind",
            metavar="KIND",
            help="The kind of question (default: that of DEMO); a wrong name lists them all.",
            autocompletion=_kinds,
        ),
    ] = None,
    to: Annotated[Path, typer.Option("--to", metavar="FOLDER", help="Where to write.")] = Path("."),
) -> int:
    """Write an item, lesson or series to begin from."""
    from ..authoring.new_files import checked_name, new_item, new_lesson, new_series
    from ..errors import OutputError
    from ..safe_write import reported, write_files
    from .streams import say

    def check_free(files: Iterable[str]) -> None:
        for path in (to / file for file in files):
            if path.exists() or path.is_symlink():
                fix = "take another name, or another folder by --to"
                raise OutputError(f"{path}: is there already. To mend it: {fix}.")

    name = checked_name(name)
    with reported(to):
        check_free([f"{name}.yaml"])
        if kind is _Kind.ITEM:
            files = new_item(name, like, of_kind)
        elif kind is _Kind.LESSON:
            files = new_lesson(name, to, like, of_kind)
        elif like is not None or of_kind is not None:
            option = "--like" if like is not None else "--kind"
            raise OutputError(f"a series is not begun from an item. To mend it: leave {option} out.")
        else:
            files = new_series(name, to)
        check_free(files)
    for path in write_files(to, {**files}):
        say(str(path))
    return SOUND
