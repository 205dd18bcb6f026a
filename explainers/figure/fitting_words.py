"""Words where there is only so much room."""

from __future__ import annotations

from ..typeface.faces import face
from .theme_checks import LEAST_TYPE

__all__ = ["fitted_size"]


def fitted_size(text: str, *, size: float, width: float, bold: bool = True) -> float:
    """The size of type at which a text has room in a width: as wished, or as small as need be, but never too small."""
    em = face(bold).width(text, 1.0)
    return size if em * size <= width else max(LEAST_TYPE, width / em)
