"""The option ``--theme``, which several commands have."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from ..figure.theme import Theme

__all__ = ["ThemeOption", "theme_given"]

ThemeOption = Annotated[
    str | None, typer.Option("--theme", metavar="THEME", help="light, dark, print, or a theme's file.")
]


def theme_given(text: str | None) -> Theme | None:
    """The theme that stands in place of each lesson's own, or None where none is given.

    Raises : ThemeError where it cannot be used: told once, before anything is made
    """
    from ..figure.theme_choice import theme_called

    return None if text is None else theme_called(text)
