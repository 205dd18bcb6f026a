"""The option ``--pace``, which several commands have."""

from __future__ import annotations

from typing import Annotated

import typer

__all__ = ["PaceOption", "pace_given"]

PaceOption = Annotated[
    str | None, typer.Option("--pace", metavar="PACE", help="school, slow or adult, in place of the lesson's own.")
]


def pace_given(text: str | None) -> str | None:
    """The name of the pace that stands in place of each lesson's own, or None where none is given.

    Raises : OutputError where there is none of that name: told once, before anything is made
    """
    from ..document.notation import listed, nearest
    from ..errors import OutputError
    from ..style.paces import PACE_NAMES

    if text is None or text in PACE_NAMES:
        return text
    fix = nearest(text, PACE_NAMES) or listed(PACE_NAMES)
    raise OutputError(f"--pace {text}: there is no such pace. To mend it: write {fix}")
