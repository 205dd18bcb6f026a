"""Outlines of a line of text, laid out by manim's own Text in the typeface of the package.

Text costs about a seventh of a second a line, so each line is laid out once in a process, at one large size: Pango
rounds the places of letters to whole pixels, which would show at a small one. What is handed out is the outline of all
letters together for an em of 1, starting at the left end of the baseline.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from tempfile import TemporaryDirectory
from typing import Any

import manimpango
import numpy as np
from manim import BOLD, NORMAL, Text, config
from manim.mobject.text.text_mobject import TEXT_MOB_SCALE_FACTOR

from explainers.errors import FontError
from explainers.typeface.faces import FAMILY, face

__all__ = ["letters"]

Points = np.ndarray[Any, np.dtype[np.float64]]

_LAYOUT_SIZE = 480.0  # manim's font size; an em is then about 130 pixels of Pango's page
_PAGE_WIDTH = 40_000  # of that page; whatever does not fit on it would be cut off
_PEN_START = 30.0  # where Text starts a line on the page, as manim.constants.START_X


@cache
def letters(text: str, *, bold: bool = False) -> Points:
    """Cubic curves of a line of text, shape (4 n, 3), em 1, from the left end of the baseline, y up.

    Raises : FontError where Pango does not draw the package's typeface, or the typeface lacks a character
    """
    face(bold).width(text, 1.0)  # FontError for a character that it lacks: Pango would take another typeface's
    scale, baseline = _page(bold)
    outline = (_on_page(text, bold) - (_PEN_START, baseline, 0.0)) * scale
    outline.flags.writeable = False  # shared by every label with these words
    return outline


@cache
def _page(bold: bool) -> tuple[float, float]:
    """Ems in one unit of the page, and the height of the baseline on it, both measured on a capital H."""
    typeface = face(bold)
    letter = _on_page("H", bold)
    (left, bottom, _), (right, top, _) = letter.min(axis=0), letter.max(axis=0)
    scale = typeface.cap_height(1.0) / float(top - bottom)
    ink = typeface.ink("H", 1.0)
    if abs(float(right - left) * scale - (ink[2] - ink[0])) > 0.01:
        raise FontError(f"Pango draws another typeface than {typeface.path.name}; is the package's file damaged?")
    return scale, float(bottom)


def _on_page(text: str, bold: bool) -> Points:
    """The curves of all letters where Pango sets them on its page, with y turned upwards."""
    _register()
    # A folder of its own, empty at first: manim would take an older page for the same words from the usual one.
    with TemporaryDirectory(prefix="lettering-") as pages, _page_settings(pages):
        words = Text(
            text,
            font=FAMILY,
            weight=BOLD if bold else NORMAL,
            font_size=_LAYOUT_SIZE,
            should_center=False,
        )
    parts = [mobject.points for mobject in words.family_members_with_points()]
    if not parts:
        return np.zeros((0, 3))
    curves: Points = np.concatenate(parts)
    low, high = curves.min(axis=0), curves.max(axis=0)
    # Text turns the letters over and scales them, both about the middle of their own box. Undone, so that every line
    # stands on the same baseline of the page.
    middle = (low + high) / 2.0
    on_page: Points = (curves - middle) / TEXT_MOB_SCALE_FACTOR + middle * (1.0, -1.0, 1.0)
    return on_page


@contextmanager
def _page_settings(pages: str) -> Iterator[None]:
    """A wide page, kept in a folder. manim's `tempconfig` does this too, but sets everything anew and takes long."""
    width, folder = config.pixel_width, config["text_dir"]
    config.pixel_width, config["text_dir"] = _PAGE_WIDTH, pages
    try:
        yield
    finally:
        config.pixel_width, config["text_dir"] = width, folder


@cache
def _register() -> None:
    """Make Pango know the font files, both before its first line: later ones it would not look at.

    Raises : FontError where it does not know them even so; it would take another typeface without a word
    """
    for typeface in (face(False), face(True)):
        if not manimpango.register_font(str(typeface.path)):
            raise FontError(f"Pango does not accept the font file {typeface.path.name}; install the typeface again")
    Text.font_list.cache_clear()
    if FAMILY not in Text.font_list():
        raise FontError(f"Pango does not know {FAMILY} though its files were registered; install the typeface again")
