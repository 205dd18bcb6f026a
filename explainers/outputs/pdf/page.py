"""The page of a printed document: its size, its margins, at the foot who made it and which page it is."""

from __future__ import annotations

from collections.abc import Iterable

from ...figure.paper import Printing
from ...typeface.faces import FAMILY
from ...wording.sheets import page_words
from .document import quoted

__all__ = ["page_css"]


def page_css(printing: Printing, *, type_pt: float, credit: Iterable[str] = ()) -> str:
    """The rule of a style sheet, in the language spoken now.

    type_pt : the size of type in the margins
    credit  : who made it, on what terms; empty lines are left out
    """
    width, height = printing.page_mm
    before, of = page_words()
    made_by = " · ".join(line for line in credit if line)
    left = f"@bottom-left {{ content: {quoted(made_by)}; width: 70%; text-align: left; vertical-align: middle }}"
    return f"""
@page {{ size: {width}mm {height}mm; margin: {printing.top_mm}mm {printing.side_mm}mm {printing.foot_mm}mm;
  font: {type_pt:g}pt/1.2 "{FAMILY}";
  {left if made_by else ""}
  @bottom-right {{ content: {quoted(before)} counter(page) {quoted(of)} counter(pages); width: 30%;
                   text-align: right; vertical-align: middle }} }}
"""
