"""`explainers themes`: our own themes, and any theme as a file to start one's own from."""

from __future__ import annotations

from typing import Annotated

import typer

from .door import SOUND, at_the_door

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers themes                         their names
  explainers themes dark > our-club.yaml    a file to change
  explainers themes our-club.yaml           check it, print it in full

Then write theme: our-club.yaml in a lesson or series, or give --theme our-club.yaml."""

SAID = {
    "light": "a quilter's work table by day",
    "dark": "the same by lamplight, for dark rooms",
    "print": "black on white, sparing with toner",
}
NAME = "our-club"  # of a theme that is printed to start from

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def themes(
    theme: Annotated[str | None, typer.Argument(metavar="THEME", help="light, dark, print, or a theme's file.")] = None,
) -> int:
    """List the themes, or print one as a file to start from."""
    from ..figure.theme_choice import theme_called
    from ..figure.theme_text import theme_yaml
    from ..style import THEME_NAMES
    from .streams import say

    if theme is None:
        for name, said in SAID.items():
            say(f"{name:<6} {said}")
        return SOUND
    found = theme_called(theme)
    for line in theme_yaml(found, name=NAME if found.name in THEME_NAMES else found.name).splitlines():
        say(line)
    return SOUND
