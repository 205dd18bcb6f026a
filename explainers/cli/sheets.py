"""`explainers sheets`: what is handed out on paper, and what the teacher marks it with."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .door import at_the_door
from .manner_options import ThemeOption, theme_given
from .printing import DEFAULT_SEED

if TYPE_CHECKING:
    from ..sentences.sheets import SheetKind

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers sheets items/first-blocks.yaml            a lesson
  explainers sheets items/ --only question,marking     all items there
  explainers sheets items/corner-block.yaml --large-print
  explainers sheets items/first-blocks.yaml --versions 3 --seed 7

Makes NAME.questions.pdf, NAME.answers.pdf, NAME.marking.pdf and NAME.cutout.pdf; large print, another paper and other
versions have names of their own beside them, such as NAME.large-print.questions.pdf. Items named together, or in one
folder, make one set; each lesson makes its own. Black and white unless --theme says otherwise."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def sheets(
    paths: Annotated[list[Path], typer.Argument(metavar="PATH", help="Items, lessons, series, or folders of items.")],
    only: Annotated[
        str | None, typer.Option(metavar="KINDS", help="Some of question,answer,marking,cutout (default: all).")
    ] = None,
    large_print: Annotated[bool, typer.Option("--large-print", help="No type under 18 pt.")] = False,
    paper: Annotated[str, typer.Option(metavar="PAPER", help="a4 or letter.")] = "a4",
    versions: Annotated[
        int, typer.Option(min=1, max=6, help="So many versions, the options of each in another order.")
    ] = 1,
    seed: Annotated[int, typer.Option(min=0, max=2**31 - 1, help="Another number, other orders.")] = DEFAULT_SEED,
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FOLDER", help="Where to write; else render_out/NAME.")
    ] = None,
    theme: ThemeOption = None,
) -> int:
    """Write sheets to print: questions, answers, marking, cut-outs."""
    from .printing import paper_called, write_sets

    look = theme_given(theme)
    kinds = _kinds(only)
    return write_sets(paths, to, look, kinds, paper_called(paper, large_print), versions, seed)


def _kinds(only: str | None) -> tuple[SheetKind, ...]:
    """The kinds named, in our order.

    Raises : OutputError for one that there is not
    """
    from ..errors import OutputError
    from ..sentences.sheets import SheetKind

    if only is None:
        return tuple(SheetKind)
    named = [name.strip().lower() for name in only.split(",") if name.strip()]
    for name in named:
        if name not in list(SheetKind):
            raise OutputError(f"--only {name}: there is no such sheet. To mend it: name some of {', '.join(SheetKind)}")
    if not named:
        raise OutputError(f"--only names no sheet. To mend it: name some of {', '.join(SheetKind)}")
    return tuple(kind for kind in SheetKind if kind in named)
