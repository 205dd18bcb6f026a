"""The options ``--theme`` and ``--pace``, which several commands have: how a lesson looks, how fast it is told."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from ..figure.theme import Theme

__all__ = ["PaceOption", "ThemeOption", "pace_given", "theme_given"]

ThemeOption = Annotated[
    str | None, typer.Option("--theme", metavar="THEME", help="light, dark, print, or a theme's file.")
]
PaceOption = Annotated[
    str | None, typer.Option("--pace", metavar="PACE", help="school, slow or adult, in place of the lesson's own.")
]


def theme_given(text: str | None) -> Theme | None:
    """The theme that stands in place of each lesson's own, or None where none is given.

    Raises : ThemeError where it cannot be used: told once, before anything is made
    """
    from ..figure.theme_choice import theme_called

    return None if text is None else theme_called(text)


def pace_given(text: str | None) -> str | None:
    """The name of the pace that stands in place of each lesson's own, or None where none is given.

    Raises : OutputError where there is none of that name: told once, before anything is made
    """
    from ..document.notation import listed, nearest
    from ..errors import OutputError
    from ..style import PACE_NAMES

    if text is None or text in PACE_NAMES:
        return text
    fix = nearest(text, PACE_NAMES) or listed(PACE_NAMES)
    raise OutputError(f"--pace {text}: there is no such pace. To mend it: write {fix}")
