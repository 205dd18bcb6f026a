"""`explainers options`: wrong options made from slips, as a list that can be edited."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .door import SOUND, at_the_door

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..choice.model import Solution
    from ..choice.question import Question
    from ..intake.reader import Reading

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers options items/corner-block.yaml           print a list
  explainers options items/corner-block.yaml --seed 8  print another one
  explainers options items/corner-block.yaml --write   put it into the file

In a file, options: {make: 4, seed: 7} has them made anew whenever it is read."""

BOM = b"\xef\xbb\xbf"  # some editors begin a file with it

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def options(
    item: Annotated[Path, typer.Argument(metavar="ITEM", help="An item's file; its own options are not looked at.")],
    make: Annotated[
        int | None, typer.Option(min=2, max=5, help="How many wrong ones (default: as in the file, or 4).")
    ] = None,
    seed: Annotated[
        int | None, typer.Option(min=0, max=2**31 - 1, help="Another number, other options (default: 1).")
    ] = None,
    write: Annotated[bool, typer.Option("--write", help="Put them in place of the file's own.")] = False,
) -> int:
    """Make wrong options, each by a slip that learners make."""
    from ..intake.workspace import Workspace
    from ..intake.writing import options_yaml
    from .reports import tell_warnings
    from .streams import say

    workspace = Workspace()
    solution = _made(workspace.item(item), make, seed)
    lines = options_yaml(solution.item)
    if write:
        _put_into(item, solution.item, lines)
        say(str(item))
        workspace = Workspace()  # the file is another now, with other lines
    else:
        for line in lines:
            say(line)
    tell_warnings(item, [solution], workspace.item(item).source)
    return SOUND


def _made(reading: Reading, make: int | None, seed: int | None) -> Solution:
    """The item solved with options that are made, whatever options it has.

    Raises: ItemError with what is wrong elsewhere in the file, or with why there are not enough options
    """
    from dataclasses import replace

    from ..choice.question import MadeOptions
    from ..errors import ItemError
    from ..item.option_reader import DEFAULT_MADE
    from ..kinds.registry import solve

    elsewhere = [fault for fault in reading.faults if not fault.field.startswith("options")]
    if reading.item is None or elsewhere:
        raise ItemError(elsewhere or reading.faults)
    asked = reading.item.made or DEFAULT_MADE
    made = MadeOptions(make=asked.make if make is None else make, seed=asked.seed if seed is None else seed)
    try:
        return solve(replace(reading.item, options=(), made=made))
    except ItemError as error:
        raise ItemError(reading.source.placed(error.faults)) from error


def _put_into(path: Path, item: Question, lines: Sequence[str]) -> None:
    """Replace the file's options, every other line left as it is, once the new file has been read back.

    Raises: OutputError where they cannot be put there, the file left as it was
    """
    import shutil

    from ..document.source_map import compose_file
    from ..errors import OutputError
    from ..intake.reader import scan_item
    from ..item.options_in_text import with_options
    from ..safe_write import reported, whole_file

    target = path.resolve()  # a link stays a link
    root = compose_file(target).root
    with reported(path):
        raw = target.read_bytes()
    start = raw[: len(BOM)] if raw.startswith(BOM) else b""
    text = None if root is None else with_options(raw[len(start) :].decode("utf-8"), root, lines)
    with whole_file(target) as unfinished:
        if text is not None:
            unfinished.write_bytes(start + text.encode("utf-8"))
            shutil.copymode(target, unfinished)
            again = scan_item(unfinished)
            whole = not again.faults and again.item is not None and len(again.item.options) == len(item.options)
            if whole and again.item is not None and _rest(again.item) == _rest(item):
                return
        raise OutputError(
            f"{path}: the options cannot be put in place, since `options:` does not stand on lines of its own. "
            "To mend it: run this without --write, and paste the list"
        )


def _rest(item: Question) -> Question:
    from dataclasses import replace

    return replace(item, options=(), made=None)
