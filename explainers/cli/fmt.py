"""`explainers fmt`: files in the house's form, their remarks kept."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import SOUND, UNSOUND, at_the_door, worst

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers fmt items/corner-block.yaml  rewrite one file
  explainers fmt items/                   all that is in a folder
  explainers fmt items/ --check           name those that would change

Keys come in the order of the format, lists of corners in brackets on one line where they fit. What the file means,
its numbers as typed and every remark stay. A file with a fault is left as it is.

Exit codes: 0 done, 1 with --check some would change, 2 some refused."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def fmt(
    files: Annotated[list[Path], typer.Argument(metavar="FILE", help="Items, lessons, series, themes, or folders.")],
    check: Annotated[bool, typer.Option("--check", help="Change nothing; name the files that would change.")] = False,
) -> int:
    """Rewrite files in the house form: same meaning, remarks kept."""
    from shutil import copymode

    from ..intake.house_files import house_files
    from ..intake.writing import rewritten
    from ..safe_write import whole_file
    from .door import tell
    from .streams import say

    codes = [SOUND]
    for path in house_files(files):
        try:
            found = rewritten(path)
            if not found.changes:
                continue
            say(str(path))
            if check:
                codes.append(UNSOUND)
                continue
            target = path.resolve()  # a link stays a link
            with whole_file(target) as unfinished:
                unfinished.write_bytes(found.new)
                copymode(target, unfinished)
        except Exception as error:  # told like any other, so that the files after this one are still looked at
            codes.append(tell(error, path))
    return worst(codes)
