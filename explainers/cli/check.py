"""`explainers check`: is each item sound, and why is each wrong option wrong?"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import at_the_door
from .exit_codes import worst

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers check items/corner-block.yaml  one item
  explainers check items/                   all of a folder, to the end
  explainers check items/ --json            for a program, a line an item

Exit codes: 0 all sound, 1 some unsound, 2 some refused (each fault on its own line)."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def check(
    items: Annotated[list[Path], typer.Argument(metavar="ITEM", help="Item files, or folders of them.")],
    json: Annotated[bool, typer.Option("--json", help="One JSON object an item, one a line.")] = False,
) -> int:
    """Prove that one option alone is right, with reasons for the others."""
    from json import dumps

    from .check_report import as_json, show
    from .outcomes import solved_each
    from .streams import say
    from .telling import tell_faults, tell_warnings

    outcomes = []
    for outcome in solved_each(items):
        outcomes.append(outcome)
        if json:
            say(dumps(as_json(outcome)))
    if not json:
        show(outcomes)
    for outcome in outcomes:
        tell_faults(outcome.faults)
        if not json and outcome.solution is not None:
            tell_warnings(outcome.path, [outcome.solution])
    return worst(outcome.code for outcome in outcomes)
