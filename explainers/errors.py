"""Every error the package raises on purpose, drawn as a tree.

    ExplainersError
    ├── ItemError            a file that cannot be read or solved; carries every fault found
    │   ├── LessonError      the same, for a lesson file
    │   ├── RecordingError   the same, for a recorded voice
    │   └── ThemeError       the same, for a theme: unreadable, or of too little contrast
    ├── UnsoundItemError     an item that solves but has not exactly one right option
    ├── FactError            a fact that does not hold; stops a build
    ├── CatalogueError       a language whose messages are not all there; carries every fault found
    ├── FontError            a missing font file or glyph
    └── OutputError          an output that cannot be written

A fault names a *field path* such as ``pieces[0].meets``. Whoever read the file knows on which line that field
stands and fills in ``file`` and ``line`` (see ``explainers.document.source_map``).
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

__all__ = [
    "TRACEBACK_VARIABLE",
    "CatalogueError",
    "ExplainersError",
    "FactError",
    "Fault",
    "FontError",
    "ItemError",
    "LessonError",
    "OutputError",
    "RecordingError",
    "ThemeError",
    "UnsoundItemError",
    "faults_of",
]

TRACEBACK_VARIABLE = "EXPLAINERS_TRACEBACK"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing that is wrong, where it stands, and how to mend it."""

    field: str  # path from the root of the file, such as "pieces[0].meets"; "" for the file as a whole
    message: str
    fix: str
    file: str = ""
    line: int = 0  # counted from 1; 0 when no line is known

    def __str__(self) -> str:
        place = ":".join(part for part in (self.file, str(self.line) if self.line else "") if part)
        field = f"{self.field}: " if self.field else ""
        return f"{place}{': ' if place else ''}{field}{self.message}. To mend it: {self.fix}."


class ExplainersError(Exception):
    """Base of every error raised on purpose; the command line prints it without a traceback."""


class ItemError(ExplainersError):
    """A file that cannot be read or solved, with every fault found in it."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))

    def __reduce__(self) -> tuple[type[ItemError], tuple[tuple[Fault, ...]]]:
        return type(self), (self.faults,)  # the faults, not their words, when it is passed between processes


class LessonError(ItemError):
    """A lesson file that cannot be read."""


class RecordingError(ItemError):
    """A recording that cannot be used; a fault's field names the step that is spoken in it."""


class UnsoundItemError(ExplainersError):
    """An item that solves, but has not exactly one right option: nothing is drawn from it."""


class FactError(ExplainersError):
    """A statement about a picture that its own geometry does not bear out."""


class CatalogueError(ExplainersError):
    """A language whose messages are not all there, or that there is no catalogue for."""


class FontError(ExplainersError):
    """A font file that is missing, or a character that it cannot draw."""


class ThemeError(ItemError):
    """A theme that cannot be used: unreadable, or of too little contrast, with every fault found in it."""


class OutputError(ExplainersError):
    """An output that cannot be written."""


def faults_of(error: Exception, path: Path | None = None) -> tuple[Fault, ...]:
    """An exception as faults of the file that was being worked on.

    Raises the exception itself where nobody foresaw it and a developer has asked for tracebacks.
    """
    file = str(path) if path is not None else ""
    if isinstance(error, ItemError):
        return error.faults
    if isinstance(error, OSError):
        reason = error.strerror or str(error) or type(error).__name__
        other = f" ({error.filename})" if error.filename and str(error.filename) != file else ""
        return (Fault(file=file, field="", message=f"{reason}{other}", fix="check that it is there and may be used"),)
    if os.environ.get(TRACEBACK_VARIABLE):
        raise error
    said = str(error).strip().splitlines()
    what = f"{type(error).__name__}: {said[0]}" if said else type(error).__name__
    return (
        Fault(
            file=file,
            field="",
            message=f"the program itself failed here ({what})",
            fix=f"report this with the file; {TRACEBACK_VARIABLE}=1 shows where it happened",
        ),
    )
