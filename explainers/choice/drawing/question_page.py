"""How much of a printed page a question has: what stands round its picture is the same for every kind.

Sizes are in stage units of the page unless a name says millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence

from ...figure.paper import Printing, paragraph_mm

__all__ = [
    "EDGE",
    "LARGER",
    "LONG_SCALE",
    "NOTE_MM",
    "OPTION_MM",
    "OUTLINE_MM",
    "STILL_MM_PER_UNIT",
    "STILL_PAD",
    "cut_out_height_mm",
    "is_smaller",
    "options_height",
    "question_room",
]

EDGE = 0.05  # round the panels, for half of their stroke
LARGER = 1.4  # on two pages, than on one, where there is room
NOTE_MM = 18.0  # two lines that say where the options are, in large print
OUTLINE_MM = {False: 66.0, True: 100.0}  # what the outline that a question starts from measures; by large print
OPTION_MM = {False: 46.0, True: 64.0}  # the same of the largest option
STILL_MM_PER_UNIT = 9.0  # so that two stills stand side by side
STILL_PAD = 0.15
LONG_SCALE = 12.34  # as long in words as any

_ABOUT_QUESTION_MM = {False: 74.0, True: 60.0}  # what stands round task and picture of a question
_ABOUT_CUT_OUTS_MM = {False: 38.0, True: 42.0}  # the same round the paragraphs and parts of a cut-out sheet
_AS_LARGE = 0.98  # of the ordinary sheet's: in large print no shape is smaller, or the options get a page of their own


def question_room(printing: Printing, sentences: Sequence[str]) -> tuple[float, float]:
    """(width, height) of the picture of a question on one page, under these sentences."""
    height_mm = printing.height_mm - _ABOUT_QUESTION_MM[printing.large] - paragraph_mm(" ".join(sentences), printing)
    unit = printing.mm_per_unit
    return printing.width_mm / unit - 2 * EDGE, height_mm / unit - 2 * EDGE


def options_height(printing: Printing) -> float:
    """The height of a picture of options that has a page of its own."""
    return (printing.height_mm - _ABOUT_QUESTION_MM[printing.large]) / printing.mm_per_unit - 2 * EDGE


def is_smaller(scales_mm: Sequence[float], usual_mm: Sequence[float]) -> bool:
    """Whether any shape is smaller in large print than on the ordinary sheet, millimetres a unit of its own."""
    return any(large < _AS_LARGE * usual for large, usual in zip(scales_mm, usual_mm, strict=True))


def cut_out_height_mm(printing: Printing, paragraphs: Sequence[str]) -> float:
    """The height that is left for the parts of a cut-out sheet under these paragraphs."""
    height_mm = printing.height_mm - _ABOUT_CUT_OUTS_MM[printing.large]
    return height_mm - sum(paragraph_mm(paragraph, printing) for paragraph in paragraphs)
