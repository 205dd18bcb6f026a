"""Characters that the typeface lacks, so that they can be told of where they were typed."""

from __future__ import annotations

from .faces import face

__all__ = ["missing_in"]


def missing_in(text: str) -> tuple[str, ...]:
    """Each character of a text that a weight of the typeface has no glyph for, once, in order."""
    if text.isascii():  # all of those are there, and no font need be opened to know it
        return ()
    return tuple(dict.fromkeys(sign for sign in text if not all(face(bold).has(sign) for bold in (False, True))))
