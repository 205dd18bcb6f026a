"""Words where there is only so much room: all of them, else smaller, else fewer."""

from __future__ import annotations

from ....figure.theme import Theme
from ....figure.theme_checks import LEAST_TYPE
from ....typeface.faces import face
from ..words.actions import action_label, piece_label

__all__ = ["fitted_size", "piece_words"]


def fitted_size(text: str, *, size: float, width: float, bold: bool = True) -> float:
    """The size of type at which a text has room in a width: as wished, or as small as need be, but never too small."""
    em = face(bold).width(text, 1.0)
    return size if em * size <= width else max(LEAST_TYPE, width / em)


def piece_words(
    name: str, fabric: str, *, theme: Theme, size: float, width: float, number: str = "", bold: bool = True
) -> tuple[str, float]:
    """The text and the size of its type, such as ("cut: dart", 0.36); in a list with the number before it.

    name   : the piece's
    fabric : what becomes of it, "join" or "cut", said as the theme says it
    size   : at most, stage units
    width  : of the room; where not even the word alone has room, it is written all the same
    """
    said = action_label(fabric, theme.fabrics[fabric].word)
    start = f"{number}  " if number else ""
    letters = face(bold)
    for text in (f"{start}{piece_label(said, name)}", f"{start}{said}"):
        em = letters.width(text, 1.0)
        if em * size <= width:
            return text, size
        if em * LEAST_TYPE <= width:
            return text, max(LEAST_TYPE, width / em)
    return text, LEAST_TYPE
