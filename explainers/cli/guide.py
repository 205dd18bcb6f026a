"""`explainers guide`: the pages for teachers, a page a task, as they are packed with the program."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from .door import SOUND, at_the_door

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers guide                      the pages there are, a line each
  explainers guide writing-an-item      one of them
  explainers guide sheets > sheets.md   as Markdown

In a terminal a page is set for its width; piped, it is the Markdown itself."""

INDEX = "index"
WIDEST = 100  # columns of a page in a terminal: longer lines are hard to follow

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def guide(
    topic: Annotated[str | None, typer.Argument(metavar="TOPIC", help="A page's name; without it, all names.")] = None,
) -> int:
    """Print a page of the guide, or list the pages."""
    from .streams import say

    text = _page(INDEX if topic is None else topic.strip().lower().removesuffix(".md"))
    say(_set_for_terminal(text) if sys.stdout.isatty() else text.rstrip("\n"))
    return SOUND


def _page(name: str) -> str:
    """The Markdown of a page.

    Raises : OutputError where there is no such page
    """
    from difflib import get_close_matches
    from importlib.resources import files

    from ..errors import OutputError

    pages = {page.name.removesuffix(".md"): page for page in files("explainers").joinpath("guide").iterdir()}
    if name not in pages:
        names = sorted(pages.keys() - {INDEX})
        near = [known for known in names if name and name in known] or get_close_matches(name, names, n=3, cutoff=0.5)
        fix = " or ".join(f"`explainers guide {known}`" for known in near) or "`explainers guide`, which lists them"
        raise OutputError(f"the guide has no page called {name}. To mend it: write {fix}.")
    return pages[name].read_text(encoding="utf-8")


def _set_for_terminal(text: str) -> str:
    """A page as plain text: paragraphs and tables as wide as the terminal, links and pictures as their words.

    Commands and examples stay as they are, never broken, so that they can be copied.
    """
    import re
    from textwrap import indent

    from rich.console import Console
    from rich.markdown import Markdown

    console = Console(color_system=None)
    console.width = min(console.width, WIDEST)
    parts = []
    for number, part in enumerate(re.split(r"^```.*\n", text, flags=re.MULTILINE)):
        if number % 2:  # between two fences
            parts.append(indent(part.rstrip(), "    "))
            continue
        worded = re.sub(r"!\[([^\[\]]*)\]\([^()]*\)", r"(A picture: \1.)", part)
        worded = re.sub(r"\[([^\[\]]+)\]\([^()\[\]\s]+\)", r"\1", worded)
        worded = re.sub(r"`([^`\n]+)`", r"`` `\1` ``", worded)  # what is to be typed keeps its quotation marks
        with console.capture() as captured:
            console.print(Markdown(worded, hyperlinks=False))
        lines = [line.rstrip() for line in captured.get().strip("\n").splitlines()]
        parts.append(re.sub(r"\n{3,}", "\n\n", "\n".join(lines)))
    return "\n\n".join(part for part in parts if part)
