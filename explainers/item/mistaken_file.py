"""A file that is of another kind than the one asked for: one wording for all readers."""

from __future__ import annotations

from ..errors import Fault

__all__ = ["A_KIND", "mistaken_file"]

A_KIND = {"item": "an item", "lesson": "a lesson", "series": "a series", "theme": "a theme"}


def mistaken_file(found: str, wanted: str, *, field: str = "", named: str = "this") -> Fault:
    """The fault.

    found, wanted : keys of ``A_KIND``
    field, named  : where another file names it, and as what; else the file itself is spoken of
    """
    return Fault(
        field=field,
        message=f"{named} is {A_KIND[found]}, not {A_KIND[wanted]}",
        fix=f"name the file of {A_KIND[wanted]}, which begins with {wanted}:",
    )
