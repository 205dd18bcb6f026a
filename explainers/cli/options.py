"""`explainers options`: wrong options made from slips, as a list that can be edited."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .door import SOUND, at_the_door

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from ..choice.making import Survey
    from ..choice.model import Solution
    from ..choice.question import Question
    from ..choice.slip import Slips
    from ..intake.reader import Reading
    from ..intake.workspace import Workspace

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers options items/corner-block.yaml              print a list
  explainers options items/corner-block.yaml --seed 8     print another one
  explainers options items/corner-block.yaml --write      put it into the file
  explainers options items/corner-block.yaml --show       draw all there are
  explainers options items/corner-block.yaml --keep A,C   others for the rest
  explainers options items/corner-block.yaml --exchange B --seed 9 --write

Without --keep and --exchange, the options of the file are not looked at.
In a file, options: {make: 4, seed: 7} has them made anew whenever it is read.
The page of --show tells the answer: it is for you, not for learners."""

BOM = b"\xef\xbb\xbf"  # some editors begin a file with it

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def options(
    item: Annotated[Path, typer.Argument(metavar="ITEM", help="An item's file.")],
    make: Annotated[
        int | None, typer.Option(min=2, max=5, help="How many wrong ones (default: as in the file, or 4).")
    ] = None,
    seed: Annotated[
        int | None, typer.Option(min=0, max=2**31 - 1, help="Another number, other options (default: 1).")
    ] = None,
    keep: Annotated[
        str | None, typer.Option("--keep", metavar="LETTERS", help="Keep these of the file, exchange the others.")
    ] = None,
    exchange: Annotated[
        str | None, typer.Option("--exchange", metavar="LETTERS", help="Exchange these of the file, keep the others.")
    ] = None,
    show: Annotated[
        bool, typer.Option("--show", help="Draw them, and what could stand in: render_out/NAME/options.html.")
    ] = False,
    write: Annotated[bool, typer.Option("--write", help="Put them in place of the file's own.")] = False,
) -> int:
    """Make wrong options, each by a slip that learners make."""
    from ..choice.making import surveyed
    from ..intake.workspace import Workspace
    from ..intake.writing import options_yaml
    from ..kinds.registry import kind_of
    from .reports import tell_options, tell_warnings
    from .streams import say

    workspace = Workspace()
    if keep is None and exchange is None:
        solution = _made(workspace.item(item), make, seed)
    else:
        solution = _exchanged(item, workspace, make, seed, keep, exchange)
    lines = options_yaml(solution.item)
    if write:
        _put_into(item, solution.item, lines)
        say(str(item))
        workspace = Workspace()  # the file is another now, with other lines
    else:
        for line in lines:
            say(line)
    slips = kind_of(solution.item).slips_of(solution)
    survey = surveyed(solution, slips)
    tell_options(solution, survey)
    if show:
        # What is not in the file has no line there.
        _show(item, solution, survey, slips, workspace.item(item).source.line_of if write else lambda field: 0)
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


def _exchanged(
    path: Path, workspace: Workspace, make: int | None, seed: int | None, keep: str | None, exchange: str | None
) -> Solution:
    """The item solved with other options in the place of some.

    Raises: ItemError with what is wrong in the file, or with why there are not enough others; UnsoundItemError for an
            item without exactly one right option; OutputError for letters that are none of its wrong options
    """
    from ..choice.making import with_others
    from ..errors import ItemError, OutputError, UnsoundItemError
    from ..kinds.registry import kind_of, solve

    if keep is not None and exchange is not None:
        raise OutputError("--keep and --exchange at once. To mend it: give one of the two.")
    if make is not None:
        raise OutputError("--make changes how many there are, and those that stay do not. To mend it: leave it out.")
    solution = workspace.solution(path)
    if not solution.sound:
        raise UnsoundItemError(f"{path}: unsound: {' '.join(solution.unsound_because)}")
    wrong = [verdict.label for verdict in solution.verdicts if not verdict.same]
    option, written = ("--keep", keep) if exchange is None else ("--exchange", exchange)
    given = list((written or "").upper().replace(",", "").replace(" ", ""))
    known = [verdict.label for verdict in solution.verdicts]
    for label in given:
        if label not in known:
            raise OutputError(f"{option}: there is no option {label}. To mend it: write letters of {', '.join(known)}.")
    if exchange is not None and solution.key in given:
        raise OutputError(
            f"--exchange: option {solution.key} is the right one, which stays. "
            f"To mend it: write letters of {', '.join(wrong)}."
        )
    labels = [label for label in wrong if (label in given) is (exchange is not None)]
    if not labels:
        raise OutputError(f"{option}: no option is left to exchange. To mend it: let one of {', '.join(wrong)} go.")
    reading = workspace.item(path)
    slips = kind_of(solution.item).slips_of(solution)
    asked = seed if seed is not None else solution.item.made.seed if solution.item.made else 1
    try:
        return solve(with_others(solution, slips, labels, asked), pairs=True)
    except ItemError as error:
        raise ItemError(reading.source.placed(error.faults)) from error


def _show(path: Path, solution: Solution, survey: Survey, slips: Slips, line_of: Callable[[str], int]) -> None:
    """Write the page, and say where."""
    from ..made_folder import MadeFolder, key_of
    from ..preview.options_view import options_view
    from ..preview.page import standalone_page, view_part
    from ..safe_write import write_text
    from .reports import tell_aside
    from .streams import complain
    from .writing import DEFAULT_FOLDER

    view = options_view(solution, survey, slips, line_of)
    page = DEFAULT_FOLDER / view.name / "options.html"
    made = MadeFolder(page.parent, (path,))
    with made.writing(key_of(view.name, "options")):
        write_text(page, standalone_page(view.title, view_part(view), view.theme))
    tell_aside(made.aside)
    complain(f"Drawn in {page}")


def _put_into(path: Path, item: Question, lines: Sequence[str]) -> None:
    """Replace the file's options, every other line left as it is, once the new file has been read back.

    Raises: OutputError where they cannot be put there, the file left as it was
    """
    import shutil

    from ..document.composing import compose_file
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
