"""`explainers solve`: every turn, every meeting, the answer."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import at_the_door
from .exit_codes import worst
from .streams import complain, say

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
    """Print what is true of an item: turns, meetings, outline, answer."""
    from json import dumps

    from ..solution.report import solution_json
    from ..wording.report import plan_lines
    from .outcomes import solved_each
    from .telling import tell_faults, tell_warnings

    codes = []
    for outcome in solved_each(items, slips=not json):
        codes.append(outcome.code)
        if json:
            say(dumps(outcome.refusal() if outcome.solution is None else solution_json(outcome.solution)))
        if outcome.solution is None:
            tell_faults(outcome.faults)
            continue
        if not json:
            if len(codes) > 1:
                say("")
            for line in plan_lines(outcome.solution):
                say(line)
            tell_warnings(outcome.path, [outcome.solution])
        for reason in outcome.solution.unsound_because:
            complain(f"{outcome.path}: unsound: {reason}")
    return worst(codes)
