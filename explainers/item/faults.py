"""Faults that several readers tell alike: a file of another kind, a file that several others name."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from ..errors import Fault

__all__ = ["A_KIND", "ReportedFaults", "mistaken_file"]

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


class ReportedFaults:
    """What has been told of in one run."""

    def __init__(self) -> None:
        self._told: set[Fault] = set()

    def rest(self, path: Path, faults: Iterable[Fault]) -> tuple[Fault, ...]:
        """What is still to be told of a file: its own faults, new ones of others, and which others were told above."""
        new: list[Fault] = []
        above: dict[str, None] = {}
        for fault in faults:
            if fault not in self._told or fault.file in ("", str(path)):
                new.append(fault)
            else:
                above[fault.file] = None
        self._told.update(new)
        for file in above:
            message = f"{Path(file).name} is refused, as told above, and this file needs it"
            new.append(Fault(file=str(path), field="", message=message, fix=f"mend {Path(file).name}"))
        return tuple(new)
