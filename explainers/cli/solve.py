"""`explainers solve`: every turn, every meeting, the answer."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .door import at_the_door, worst
from .streams import complain, say

if TYPE_CHECKING:
    from ..checking.items import Outcome
    from ..choice.model import Solution
    from ..document.source_map import SourceMap

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers solve items/corner-block.yaml         the plan in words
  explainers solve items/corner-block.yaml --json  one object
  explainers solve items/ --json                   one object a line"""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def solve(
    items: Annotated[list[Path], typer.Argument(metavar="ITEM", help="Item files, or folders of them.")],
    json: Annotated[bool, typer.Option("--json", help="One JSON object an item, one a line.")] = False,
) -> int:
    """Work it out: every turn, every meeting, outline, options, answer."""
    from ..checking.items import answered_each, solved_each
    from ..intake.workspace import Workspace
    from .check_report import CODES
    from .reports import tell_faults

    codes, workspace = [], Workspace()
    for outcome in (answered_each if json else solved_each)(items, workspace):
        codes.append(CODES[outcome.state])
        if json:
            _print_object(outcome)
        if outcome.answer is None:
            tell_faults(outcome.faults)
            continue
        if outcome.solution is not None:
            written = workspace.item(outcome.path).source
            _print_plan(outcome.path, outcome.solution, written, is_first=len(codes) == 1)
        for reason in outcome.answer.unsound_because:
            complain(f"{outcome.path}: unsound: {reason}")
    return worst(codes)


def _print_object(outcome: Outcome) -> None:
    from json import dumps

    from ..checking.report import refusal_json
    from ..choice.report import solution_json

    say(dumps(refusal_json(outcome) if outcome.answer is None else solution_json(outcome.answer)))


def _print_plan(path: Path, solution: Solution, written: SourceMap, *, is_first: bool) -> None:
    from ..choice.words.report import plan_lines
    from .reports import tell_warnings

    if not is_first:
        say("")
    for line in plan_lines(solution):
        say(line)
    tell_warnings(path, [solution], written, making=True)
