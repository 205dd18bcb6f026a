"""Markup that text cannot break: elements are made here, and everything that is not an element already is escaped."""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape

from ..drawing.svg import svg_of
from ..figure.layout import Box
from ..figure.model import Figure

__all__ = ["Markup", "drawing", "element", "joined", "number", "text"]

_EMPTY = frozenset({"link", "meta"})  # elements of HTML that have no end tag
# What XML has no room for. A file's text was read without such characters, its name was not.
_UNFIT = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


class Markup(str):
    """Finished markup: the only kind of text that is not escaped."""

    __slots__ = ()


def text(words: str) -> Markup:
    """Words of any origin, as text."""
    return words if isinstance(words, Markup) else Markup(escape(_fit(words)))


def drawing(figure: Figure, box: Box, *, width: float) -> Markup:
    """A part of a figure as an element of a page; its width in CSS pixels, at most."""
    return Markup(_fit(svg_of(figure, width_px=round(width, 1), ids=False, box=box).strip()))


def joined(parts: Iterable[str], by: str = "") -> Markup:
    """Several parts, one after the other."""
    return Markup(text(by).join(text(part) for part in parts))


def element(tag: str, *children: str, **attributes: str | float | None) -> Markup:
    """One element; ``class_`` and ``stroke_width`` stand for class and stroke-width, None leaves an attribute out."""
    written = "".join(
        f' {name.rstrip("_").replace("_", "-")}="{text(value if isinstance(value, str) else number(value))}"'
        for name, value in attributes.items()
        if value is not None
    )
    if tag in _EMPTY:
        return Markup(f"<{tag}{written}>")
    return Markup(f"<{tag}{written}>{joined(children)}</{tag}>")


def number(value: float) -> str:
    """To two decimals, without needless noughts and never -0."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def _fit(words: str) -> str:
    return _UNFIT.sub("\N{REPLACEMENT CHARACTER}", words)
